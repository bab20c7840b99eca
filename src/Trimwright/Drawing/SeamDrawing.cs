using System.Globalization;
using Trimwright.Batches;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>A pieced panel at half size: its strips, numbered, what covers the seams, and the seams dashed, with their sizes below.</summary>
public static class SeamDrawing
{
    private const double Border = 8;
    private const double TitleHeight = 4;
    private const double TextHeight = 2.2;
    private const double LinePitch = 3.8;

    private static readonly Rational Half = Rational.From(1, 2);
    private static readonly Stroke Edge = new(Palette.Wide, Palette.Ink);
    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);
    private static readonly Stroke Seam = new(Palette.Wide, Palette.Ink, Palette.Micrometres(2000), Palette.Micrometres(1000));

    /// <summary>Draws panels of one kind that are pieced in one way.</summary>
    public static DrawingList Draw(TrimSchedule schedule, PiecedPanel pieced)
    {
        var batch = schedule.Plan.Batch.Batch;
        var panel = Scaled(pieced.Piece.Box);
        var covers = pieced.Card.Card.Pieces.Where(piece => pieced.Seams.Any(seam => seam.Covers.Contains(piece))).ToList();
        var area = covers.Aggregate(Plane.Roughly(panel), (all, cover) => all.Around(Plane.Roughly(Bounds(cover))));
        var title = $"{pieced.Panel.Line.Name}, pieced";
        var words = Words(batch, pieced).ToList();
        var upright = pieced.Direction == Axis.UpDown;
        var heading = Line(title, area.Left, area.Top - (upright ? 8 : 4), TitleHeight, Palette.Ink);
        var below = words.Select((line, n) => Line(line, area.Left, area.Bottom + 4 + TextHeight + (LinePitch * n), TextHeight, n == 0 ? Palette.Quiet : Palette.Ink)).ToList();
        var right = below.Append(heading).Max(line => area.Left + Plane.Roughly(LetteringFont.Instance.Width(line.Text, line.CapHeight)));
        var left = upright ? area.Left : area.Left - 5;
        return new()
        {
            Title = title,
            Description = $"How the {pieced.Panel.Line.Name} of {batch.Title} is pieced from {pieced.Strips.Count.ToString(CultureInfo.InvariantCulture)} strips; the seams dashed, their covers pale",
            Unit = batch.Unit,
            Sheet = Plane.Exactly(new Area(
                left - Border, area.Top - (upright ? 8 : 4) - TitleHeight - Border, Math.Max(area.Right, right) + Border, area.Bottom + 4 + (LinePitch * words.Count) + Border)).OutToStep(batch.Unit),
            Patterns = [],
            Items =
            [
                new DrawnOutline(Outline.FromBox(panel), new(Palette.Lighter(batch.PaperNamed(pieced.Paper).Colour, 55)), Edge) { Id = "panel" },
                new DrawnGroup([.. covers.Select(Drawn)]) { Id = "covers", Class = "covers" },
                .. pieced.Seams.Select(seam => Dashed(seam, panel)),
                .. Numbers(pieced, panel, area),
                heading, .. below,
            ],
        };
    }

    private static IEnumerable<string> Words(Batch batch, PiecedPanel pieced)
    {
        yield return $"{pieced.Count.ToString(CultureInfo.InvariantCulture)} of {LengthText.WriteSize(pieced.Piece.Width, pieced.Piece.Height, batch.Unit)}, {pieced.Paper}; shown at half size";
        for (var n = 0; n < pieced.Strips.Count; n++)
        {
            var (strip, size) = (pieced.Strips[n], LengthText.WriteSize(pieced.Strips[n].Width, pieced.Strips[n].Height, batch.Unit));
            var name = strip.Line.Name.Contains(',', StringComparison.Ordinal) ? "strip" : strip.Line.Name;
            yield return string.Create(CultureInfo.InvariantCulture, $"{n + 1}: {name}, {size}");
        }

        foreach (var seam in pieced.Seams)
        {
            yield return $"seam (dashed): {LengthText.Write(seam.At, batch.Unit)} from the {(seam.Direction == Axis.UpDown ? "left" : "top")} edge, under {ScheduleText.Covers(seam)}";
        }
    }

    private static DrawnLine Dashed(PanelSeam seam, Box panel)
    {
        var along = seam.Direction == Axis.UpDown ? panel.Left : panel.Top;
        var at = along + (Position.FromLength(seam.At) * Half);
        return new(seam.Direction == Axis.UpDown ? [new(at, panel.Top), new(at, panel.Bottom)] : [new(panel.Left, at), new(panel.Right, at)], Seam) { Class = "seam" };
    }

    /// <summary>The numbers of the strips: above the drawing, or left of it, in the middle of each strip.</summary>
    private static IEnumerable<DrawnText> Numbers(PiecedPanel pieced, Box panel, Area area)
    {
        var upright = pieced.Direction == Axis.UpDown;
        var start = Plane.Roughly(upright ? panel.Left : panel.Top);
        for (var n = 0; n < pieced.Strips.Count; n++)
        {
            var size = Plane.Roughly(Position.FromLength(upright ? pieced.Strips[n].Width : pieced.Strips[n].Height) * Half);
            var middle = start + (size / 2);
            var spot = upright ? new Spot(middle, area.Top - 2) : new(area.Left - 3, middle + (TextHeight / 2));
            yield return new((n + 1).ToString(CultureInfo.InvariantCulture), spot.ToPoint(), TextHold.Middle, Palette.Micrometres((long)(TextHeight * 1000)), Palette.Ink) { Class = "strip" };
            start += size;
        }
    }

    private static DrawnGroup Drawn(FittedPiece cover)
    {
        var outline = cover.Mats.Count == 0 ? cover.Outline : cover.Mats[^1].Outline;
        return new([new DrawnOutline(Scaled(outline), new(Palette.Lighter(Palette.Quiet, 85)), Thin)])
        {
            Turn = cover.Source.Tilt.IsZero ? null : new(cover.Source.Tilt, Scaled(cover.Box.Centre)),
        };
    }

    // A tilted piece stays inside the circle through its corners, and so inside the square of its width and height together.
    private static Box Bounds(FittedPiece cover)
    {
        var box = (cover.Mats.Count == 0 ? cover.Outline : cover.Mats[^1].Outline).Bounds;
        var reach = (box.Width + box.Height) * Half;
        return Scaled(cover.Source.Tilt.IsZero ? box : new(box.Centre.X - reach, box.Centre.Y - reach, box.Centre.X + reach, box.Centre.Y + reach));
    }

    private static Outline Scaled(Outline outline) => new([.. outline.Contours.Select(contour => contour switch
    {
        PolygonContour polygon => (Contour)new PolygonContour([.. polygon.Points.Select(Scaled)]),
        EllipseContour ellipse => new EllipseContour(Scaled(ellipse.Centre), ellipse.RadiusX * Half, ellipse.RadiusY * Half),
        _ => contour,
    })]);

    private static Point Scaled(Point point) => new(point.X * Half, point.Y * Half);

    private static Box Scaled(Box box) => new(box.Left * Half, box.Top * Half, box.Right * Half, box.Bottom * Half);

    private static DrawnText Line(string text, double x, double y, double height, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Palette.Micrometres((long)(height * 1000)), colour);
}
