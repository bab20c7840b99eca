using System.Globalization;
using Trimwright.Drawing;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Draws a drawing list on a page: the same lines, fills and letters as its SVG, with the same figures.</summary>
/// <param name="document">The document, which keeps what several places use.</param>
/// <param name="page">The page.</param>
/// <param name="lettering">The font of drawings.</param>
internal sealed class DrawingPainter(PdfDocument document, PageInk page, EmbeddedFont lettering)
{
    // Four cubic curves with these handles are a circle to within 0.03 % of its radius (Riskus 2006 gives the same constant; from memory).
    private static readonly Rational Handle = Rational.From(5_522_847, 10_000_000);

    private IReadOnlyDictionary<string, DrawnPattern> _patterns = new Dictionary<string, DrawnPattern>();

    // Where operators go: the page, or a tile while it is made.
    private PageInk _ink = page;

    /// <summary>Draws it where the page's axes have been put.</summary>
    public void Draw(DrawingList drawing)
    {
        _patterns = drawing.Patterns.ToDictionary(pattern => pattern.Id);
        foreach (var item in drawing.Items)
        {
            Draw(item);
        }
    }

    private void Draw(DrawnItem item)
    {
        switch (item)
        {
            case DrawnGroup group:
                DrawGroup(group);
                break;
            case DrawnOutline outline:
                DrawOutline(outline);
                break;
            case DrawnLine line:
                Stroke(line.Stroke, string.Join(' ', line.Points.Select((point, i) => $"{Pair(point)} {(i == 0 ? 'm' : 'l')}")));
                break;
            case DrawnText text:
                DrawText(text);
                break;
            case DrawnPicture picture:
                DrawPicture(picture);
                break;
        }
    }

    private void DrawGroup(DrawnGroup group)
    {
        _ink.Raw("q");
        if (group.Shift is { } shift)
        {
            _ink.Raw($"1 0 0 1 {Pair(shift)} cm");
        }

        if (group.Scale is { } scale)
        {
            _ink.Raw($"{Ratio(scale)} 0 0 {Ratio(scale)} 0 0 cm");
        }

        if (group.Turn is { } turn && (turn.Flipped || !turn.Angle.IsZero))
        {
            var (sin, cos, about) = (turn.Angle.Sin(), turn.Angle.Cos(), Pair(turn.About));
            _ink.Raw($"1 0 0 1 {about} cm {Ratio(cos)} {Ratio(sin)} {Ratio(-sin)} {Ratio(cos)} 0 0 cm"
                + $"{(turn.Flipped ? " -1 0 0 1 0 0 cm" : "")} 1 0 0 1 {Pair(new(-turn.About.X, -turn.About.Y))} cm");
        }

        foreach (var item in group.Items)
        {
            Draw(item);
        }

        _ink.Raw("Q");
    }

    private void DrawOutline(DrawnOutline drawn)
    {
        var path = string.Join(' ', drawn.Outline.Contours.Select(PathOf));
        if (drawn.Fill is { Pattern: { } id })
        {
            _ink.Raw($"q {path} W* n");
            Tile(_patterns[id], drawn.Outline.Bounds);
            _ink.Raw("Q");
        }
        else if (drawn.Fill is { } fill)
        {
            var opacity = "";
            if (fill.OpacityPercent < 100)
            {
                document.Opacities.Add(fill.OpacityPercent);
                opacity = string.Create(CultureInfo.InvariantCulture, $" /O{fill.OpacityPercent} gs");
            }

            _ink.Raw($"q{opacity} {PageInk.Rgb(fill.Colour)} rg {path} f* Q");
        }

        if (drawn.Stroke is { } stroke)
        {
            Stroke(stroke, path);
        }
    }

    private void DrawPicture(DrawnPicture drawn)
    {
        var (box, content) = (drawn.Box, drawn.Content);
        var edge = string.Join(' ', drawn.Edge.Contours.Select(PathOf));
        var left = drawn.FlippedAbout is { } about ? (about * 2) - box.Left : box.Left;
        var width = SvgWriter.Millimetres(drawn.FlippedAbout is null ? box.Width : -box.Width);

        // A picture stands on its foot and the axes of a page point down: it is turned over.
        _ink.Raw($"q {edge} W* n {width} 0 0 {SvgWriter.Millimetres(-box.Height)} {SvgWriter.Millimetres(left)} {SvgWriter.Millimetres(box.Bottom)} cm"
            + $" /{document.Picture(content)} Do Q");
    }

    private void Stroke(Stroke stroke, string path)
    {
        var dash = stroke.Dash.IsZero ? "" : $" [{Millimetres(stroke.Dash)} {Millimetres(stroke.DashGap)}] 0 d";
        _ink.Raw($"q {PageInk.Rgb(stroke.Colour)} RG {Millimetres(stroke.Width)} w{dash} {path} S Q");
    }

    /// <summary>Repeats a tile over a box.</summary>
    private void Tile(DrawnPattern pattern, Box over)
    {
        var tile = pattern.Tile;
        if (tile.Width.Nanometres.Sign <= 0 || tile.Height.Nanometres.Sign <= 0)
        {
            return;
        }

        // A ground that covers the whole tile is drawn once for all, so that no hair lines show between tiles.
        var ground = pattern.Items is [DrawnOutline { Stroke: null, Fill: { Pattern: null, OpacityPercent: 100 } fill } first, ..]
            && first.Outline.Bounds == Box.FromCorner(default, default, default, default) with { Right = tile.Width, Bottom = tile.Height }
            ? fill : null;
        if (ground is not null)
        {
            Draw(new DrawnOutline(Outline.FromBox(over), ground, null));
        }

        var form = document.Form(() =>
        {
            var kept = _ink;
            _ink = new(0);
            foreach (var item in pattern.Items.Skip(ground is null ? 0 : 1))
            {
                Draw(item);
            }

            var operators = _ink.Operators;
            _ink = kept;
            return operators;
        });
        var (left, right) = Span(tile.Left, tile.Width, over.Left, over.Right);
        var (top, bottom) = Span(tile.Top, tile.Height, over.Top, over.Bottom);
        for (var y = top; y < bottom; y++)
        {
            for (var x = left; x < right; x++)
            {
                _ink.Raw($"q 1 0 0 1 {Pair(new(tile.Left + (tile.Width * x), tile.Top + (tile.Height * y)))} cm /{form} Do Q");
            }
        }
    }

    private static (long First, long End) Span(Position start, Position step, Position from, Position to) => (
        (long)((from - start).Nanometres / step.Nanometres).Floor(), (long)((to - start).Nanometres / step.Nanometres).Ceiling());

    private void DrawText(DrawnText text)
    {
        var size = LetteringFont.Instance.EmSize(text.CapHeight);
        var width = Plane.Roughly(LetteringFont.Instance.Width(text.Text, text.CapHeight));
        var spacing = Plane.Roughly(LetteringFont.Instance.WordSpacing(text.Text, text.CapHeight));
        var back = text.Hold switch { TextHold.Middle => width / 2, TextHold.End => width, _ => 0 };
        var (x, y) = (Plane.Roughly(text.At.X), Plane.Roughly(text.At.Y));
        if (text.Text.Contains(LetteringFont.FractionSlash, StringComparison.Ordinal))
        {
            foreach (var run in TextRun.Of(text.Text))
            {
                var along = Plane.Roughly(LetteringFont.Instance.Scaled(run.Start, text.CapHeight)) - back;
                var rise = Plane.Roughly(text.CapHeight) * run.Rise / 100;
                var place = text.Upwards
                    ? $"0 -1 -1 0 {PageInk.Number(x - rise)} {PageInk.Number(y - along)}" : $"1 0 0 -1 {PageInk.Number(x + along)} {PageInk.Number(y - rise)}";
                _ink.Raw($"BT {PageInk.Rgb(text.Colour)} rg /{lettering.Key} {Millimetres(size)} Tf {place} Tm {lettering.Hex(run.Text)} Tj ET");
            }

            return;
        }

        var matrix = text.Upwards
            ? $"0 -1 -1 0 {PageInk.Number(x)} {PageInk.Number(y + back)}"
            : $"1 0 0 -1 {PageInk.Number(x - back)} {PageInk.Number(y)}";

        // Wider spaces are written as thousandths of the em square, to the left (ISO 32000-1, 9.4.3).
        var wider = spacing == 0 ? "" : PageInk.Number(-spacing * 1000 / Plane.Roughly(size));
        var words = text.Text.Split(' ');
        var shown = string.Join(' ', words.Select((word, i) => i < words.Length - 1 ? $"{lettering.Hex(word + " ")} {wider}" : lettering.Hex(word)));
        _ink.Raw($"BT {PageInk.Rgb(text.Colour)} rg /{lettering.Key} {Millimetres(size)} Tf {matrix} Tm [{shown}] TJ ET");
    }

    private static string PathOf(Contour contour) => contour switch
    {
        PolygonContour polygon => string.Join(' ', polygon.Points.Select((point, i) => $"{Pair(point)} {(i == 0 ? 'm' : 'l')}")) + " h",
        EllipseContour ellipse => PathOf(ellipse),
        _ => throw new ArgumentException($"cannot draw a {contour.GetType().Name}", nameof(contour)),
    };

    private static string PathOf(EllipseContour e)
    {
        var (hx, hy) = (e.RadiusX * Handle, e.RadiusY * Handle);
        return $"{At(-e.RadiusX, default)} m"
            + $" {At(-e.RadiusX, -hy)} {At(-hx, -e.RadiusY)} {At(default, -e.RadiusY)} c"
            + $" {At(hx, -e.RadiusY)} {At(e.RadiusX, -hy)} {At(e.RadiusX, default)} c"
            + $" {At(e.RadiusX, hy)} {At(hx, e.RadiusY)} {At(default, e.RadiusY)} c"
            + $" {At(-hx, e.RadiusY)} {At(-e.RadiusX, hy)} {At(-e.RadiusX, default)} c h";

        string At(Position x, Position y) => Pair(e.Centre.Moved(x, y));
    }

    private static string Pair(Point point) => $"{SvgWriter.Millimetres(point.X)} {SvgWriter.Millimetres(point.Y)}";

    private static string Millimetres(Length length) => SvgWriter.Millimetres(Position.FromLength(length));

    private static string Ratio(Rational ratio) => PageInk.Ratio(Plane.Roughly(ratio));
}
