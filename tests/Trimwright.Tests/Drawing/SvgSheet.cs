using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using SkiaSharp;
using Trimwright.Drawing;
using Xunit;

namespace Trimwright.Tests.Drawing;

/// <summary>
/// An SVG read back: texts as the boxes that their glyphs really fill (measured by SkiaSharp on the embedded font), everything else
/// as strokes. It knows nothing of how the drawing was placed.
/// </summary>
internal sealed partial class SvgSheet
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";
    private static readonly SKTypeface Typeface = LoadTypeface();

    private readonly List<Words> _words = [];
    private readonly List<Stroke> _strokes = [];

    public SvgSheet(string svg)
    {
        Root = XDocument.Parse(svg).Root!;
        var box = Numbers(Root.Attribute("viewBox")!.Value);
        Sheet = new((float)box[0], (float)box[1], (float)(box[0] + box[2]), (float)(box[1] + box[3]));
        foreach (var element in Root.Elements().Where(element => element.Name != Svg + "defs"))
        {
            Read(element, SKMatrix.Identity);
        }
    }

    /// <param name="Text">The text.</param>
    /// <param name="Box">The least upright box around its glyphs.</param>
    /// <param name="Element">The element.</param>
    /// <param name="Set">The box of its glyphs as they are set, before they are turned.</param>
    /// <param name="ToSet">Turns the sheet so that the text is as it is set.</param>
    public sealed record Words(string Text, SKRect Box, XElement Element, SKRect Set, SKMatrix ToSet);

    public sealed record Stroke(SKPoint[] Points, float Half, XElement Element)
    {
        /// <summary>What it fills without letting anything through, or null.</summary>
        public SKPath? Cover { get; init; }

        public SKRect Bounds { get; } = new(
            Points.Min(point => point.X) - Half, Points.Min(point => point.Y) - Half,
            Points.Max(point => point.X) + Half, Points.Max(point => point.Y) + Half);
    }

    public XElement Root { get; }

    public SKRect Sheet { get; }

    public IReadOnlyList<Words> Texts => _words;

    public IReadOnlyList<Stroke> Strokes => _strokes;

    public IEnumerable<XElement> Dimensions => Root.Descendants(Svg + "g").Where(group => (string?)group.Attribute("class") == "dim");

    public XElement ById(string id) => Root.Descendants().Single(element => (string?)element.Attribute("id") == id);

    /// <summary>The width of a text by SkiaSharp, without kerning, in the units of the size.</summary>
    public static float WidthBySkia(string text, float size) => Measure(text, size, out _);

    // Measured large and made small: at a size of three pixels the library rounds to whole ones.
    private static float Measure(string text, float size, out SKRect box)
    {
        const float Large = 2048;
        using var font = new SKFont(Typeface, Large) { LinearMetrics = true, Subpixel = true, Hinting = SKFontHinting.None };
        var width = font.MeasureText(text, out var large) * size / Large;
        var scale = size / Large;
        box = new(large.Left * scale, large.Top * scale, large.Right * scale, large.Bottom * scale);
        return width;
    }

    /// <summary>All that is wrong with where the words are (of a class, or all of them), in words.</summary>
    public IEnumerable<string> Collisions(string? ofClass = null)
    {
        for (var i = 0; i < _words.Count; i++)
        {
            var words = _words[i];
            if (ofClass is not null && (string?)words.Element.Attribute("class") != ofClass)
            {
                continue;
            }

            if (!Sheet.Contains(words.Box))
            {
                yield return $"'{words.Text}' leaves the sheet";
            }

            foreach (var other in _words.Skip(i + 1).Where(other => other.Box.IntersectsWith(words.Box)))
            {
                yield return $"'{words.Text}' meets '{other.Text}'";
            }

            for (var k = 0; k < _strokes.Count; k++)
            {
                if (Meets(words, _strokes[k]) && !IsCovered(words.Box, k))
                {
                    yield return $"'{words.Text}' meets {_strokes[k].Element}";
                }
            }
        }
    }

    public static decimal[] Numbers(string text) =>
        [.. NumberPattern().Matches(text).Select(match => decimal.Parse(match.Value, CultureInfo.InvariantCulture))];

    /// <summary>Whether something that is painted after a stroke hides all of it in a box.</summary>
    private bool IsCovered(SKRect box, int stroke) => _strokes.Skip(stroke + 1).Any(later => later.Cover is { } cover
        && later.Bounds.Contains(box) && !Meets(box, later.Points, later.Half)
        && cover.Contains(box.Left, box.Top) && cover.Contains(box.Right, box.Top)
        && cover.Contains(box.Right, box.Bottom) && cover.Contains(box.Left, box.Bottom));

    private static bool Meets(Words words, Stroke stroke) =>
        stroke.Bounds.IntersectsWith(words.Box) && Meets(words.Set, [.. stroke.Points.Select(words.ToSet.MapPoint)], stroke.Half);

    private static bool Meets(SKRect box, SKPoint[] points, float half)
    {
        box.Inflate(half, half);
        return points.Zip(points.Skip(1)).Any(pair => Crosses(box, pair.First, pair.Second));
    }

    /// <summary>Whether a segment meets a box: an end lies inside, or it crosses one of the two diagonals.</summary>
    private static bool Crosses(SKRect box, SKPoint a, SKPoint b) =>
        box.Contains(a) || box.Contains(b)
        || SegmentsCross(a, b, new(box.Left, box.Top), new(box.Right, box.Bottom))
        || SegmentsCross(a, b, new(box.Right, box.Top), new(box.Left, box.Bottom));

    private static bool SegmentsCross(SKPoint a, SKPoint b, SKPoint c, SKPoint d)
    {
        return Turn(a, b, c) * Turn(a, b, d) <= 0 && Turn(c, d, a) * Turn(c, d, b) <= 0;

        static float Turn(SKPoint p, SKPoint q, SKPoint r) => ((q.X - p.X) * (r.Y - p.Y)) - ((q.Y - p.Y) * (r.X - p.X));
    }

    private static SKTypeface LoadTypeface()
    {
        using var stream = typeof(SvgWriter).Assembly.GetManifestResourceStream("routed-gothic.ttf");
        return SKTypeface.FromStream(stream);
    }

    private void Read(XElement element, SKMatrix outer)
    {
        var matrix = SKMatrix.Concat(outer, Transform((string?)element.Attribute("transform")));
        switch (element.Name.LocalName)
        {
            case "g":
                foreach (var child in element.Elements())
                {
                    Read(child, matrix);
                }

                break;
            case "text":
                _words.Add(ReadText(element, matrix));
                break;
            case "path" or "rect" or "circle" or "ellipse":
                ReadShape(element, matrix);
                break;
        }
    }

    private static Words ReadText(XElement element, SKMatrix matrix)
    {
        if (element.HasElements)
        {
            return ReadRuns(element, matrix);
        }

        var (x, y, size) = (Get(element, "x"), Get(element, "y"), Get(element, "font-size"));
        Measure(element.Value, size, out var box);
        var length = Get(element, "textLength");
        var start = (string?)element.Attribute("text-anchor") switch { "middle" => x - (length / 2), "end" => x - length, _ => x };
        var set = new SKRect(start, y + box.Top, start + length, y + box.Bottom);
        return new(element.Value, matrix.MapRect(set), element, set, matrix.Invert());
    }

    /// <summary>A text with fractions: every run has a place of its own, and its glyphs fill what they fill.</summary>
    private static Words ReadRuns(XElement element, SKMatrix matrix)
    {
        Assert.Equal(element.Value, string.Concat(element.Elements().Select(run => run.Value)));
        var box = SKRect.Empty;
        foreach (var run in element.Elements())
        {
            Measure(run.Value.TrimEnd(), Get(element, "font-size"), out var ink);
            ink.Offset(Get(run, "x"), Get(run, "y"));
            box = box.IsEmpty ? ink : SKRect.Union(box, ink);
        }

        return new(element.Value, matrix.MapRect(box), element, box, matrix.Invert());
    }

    private void ReadShape(XElement element, SKMatrix matrix)
    {
        using var path = new SKPathBuilder();
        switch (element.Name.LocalName)
        {
            case "rect":
                path.AddRect(SKRect.Create(Get(element, "x"), Get(element, "y"), Get(element, "width"), Get(element, "height")));
                break;
            case "circle":
                path.AddCircle(Get(element, "cx"), Get(element, "cy"), Get(element, "r"));
                break;
            case "ellipse":
                var (rx, ry) = (Get(element, "rx"), Get(element, "ry"));
                path.AddOval(SKRect.Create(Get(element, "cx") - rx, Get(element, "cy") - ry, 2 * rx, 2 * ry));
                break;
        }

        using var shape = element.Name.LocalName == "path" ? SKPath.ParseSvgPathData(element.Attribute("d")!.Value) : path.Detach();
        var moved = new SKPath();
        shape.Transform(matrix, moved);
        var half = element.Attribute("stroke-width") is null ? 0 : Get(element, "stroke-width") / 2;
        var cover = (string?)element.Attribute("fill") is null or "none" || element.Attribute("fill-opacity") is not null ? null : moved;
        using var measure = new SKPathMeasure(moved, false, 10);
        do
        {
            // A straight line has no more to it than its ends.
            var isLine = element.Name.LocalName == "path" && !element.Attribute("d")!.Value.Contains('A', StringComparison.Ordinal)
                && Numbers(element.Attribute("d")!.Value).Length == 4;
            var steps = isLine ? 1 : Math.Max(2, (int)(measure.Length / 0.5f));
            _strokes.Add(new([.. Enumerable.Range(0, steps + 1).Select(i => measure.GetPosition(measure.Length * i / steps))], half, element)
            {
                Cover = cover,
            });
        }
        while (measure.NextContour());
    }

    private static SKMatrix Transform(string? text)
    {
        var matrix = SKMatrix.Identity;
        foreach (Match match in TransformPattern().Matches(text ?? ""))
        {
            var n = Numbers(match.Groups[2].Value).Select(number => (float)number).ToArray();
            matrix = SKMatrix.Concat(matrix, match.Groups[1].Value switch
            {
                "rotate" => SKMatrix.CreateRotationDegrees(n[0], n[1], n[2]),
                "translate" => SKMatrix.CreateTranslation(n[0], n[1]),
                "scale" => SKMatrix.CreateScale(n[0], n[0]),
                "matrix" => new SKMatrix(n[0], n[2], n[4], n[1], n[3], n[5], 0, 0, 1),
                var other => throw new InvalidOperationException($"unknown transform {other}"),
            });
        }

        return matrix;
    }

    private static float Get(XElement element, string name) =>
        float.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex NumberPattern();

    [GeneratedRegex(@"(\w+)\(([^)]*)\)")]
    private static partial Regex TransformPattern();
}
