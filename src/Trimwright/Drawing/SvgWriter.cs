using System.Globalization;
using System.Numerics;
using System.Text;
using System.Xml;
using Trimwright.Drawing.Lettering;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>Writes a drawing list as SVG 1.1 at true size: the same list gives the same bytes everywhere.</summary>
/// <remarks>
/// User units are millimetres; places are rounded to whole nanometres, six decimals, which is exact for all but odd fractions. There
/// is no script, no style sheet and no reference to anything outside the file.
/// </remarks>
public static partial class SvgWriter
{
    private const string Links = "http://www.w3.org/1999/xlink";
    private const string Namespace = "http://www.w3.org/2000/svg";

    /// <summary>Writes the drawing.</summary>
    /// <returns>The text of the file, with LF line ends, to be saved as UTF-8.</returns>
    public static string Write(DrawingList drawing)
    {
        var text = new StringBuilder("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n");
        var settings = new XmlWriterSettings
        {
            OmitXmlDeclaration = true, Indent = true, IndentChars = "  ", NewLineChars = "\n", NewLineHandling = NewLineHandling.None,
        };
        using (var xml = XmlWriter.Create(text, settings))
        {
            WriteRoot(xml, drawing);
        }

        return text.Append('\n').ToString();
    }

    /// <summary>An id that XML allows, made from a name; different names give different ids.</summary>
    internal static string IdFrom(string name)
    {
        var id = new StringBuilder();
        foreach (var c in name)
        {
            if (char.IsAsciiLetterOrDigit(c) || c == '-')
            {
                id.Append(c);
            }
            else
            {
                id.Append(CultureInfo.InvariantCulture, $"_{(int)c:x4}");
            }
        }

        return id.ToString();
    }

    /// <summary>A place in millimetres, rounded to whole nanometres.</summary>
    internal static string Millimetres(Position position) =>
        LengthText.WriteDecimal(Rational.From(position.ToNearestNanometre().Nanometres, Length.NanometresPerMillimetre), 6);

    private static string Millimetres(Length length) => Millimetres(Position.FromLength(length));

    private static void WriteRoot(XmlWriter xml, DrawingList drawing)
    {
        var sheet = drawing.Sheet;
        var pictures = Pictures(drawing.Items).Distinct().ToList();
        xml.WriteStartElement("svg", Namespace);
        if (pictures.Count > 0)
        {
            xml.WriteAttributeString("xmlns", "xlink", null, Links);
        }

        xml.WriteAttributeString("version", "1.1");
        xml.WriteAttributeString("width", Outer(sheet.Width, drawing.Unit));
        xml.WriteAttributeString("height", Outer(sheet.Height, drawing.Unit));
        xml.WriteAttributeString(
            "viewBox",
            $"{Millimetres(sheet.Left)} {Millimetres(sheet.Top)} {Millimetres(sheet.Width)} {Millimetres(sheet.Height)}");
        xml.WriteAttributeString("font-family", $"'{LetteringFont.Family}', sans-serif");
        xml.WriteElementString("title", Namespace, Clean(drawing.Title));
        xml.WriteElementString("desc", Namespace, Clean(drawing.Description));
        if (drawing.Patterns.Count + pictures.Count > 0)
        {
            xml.WriteStartElement("defs", Namespace);
            foreach (var pattern in drawing.Patterns)
            {
                WritePattern(xml, pattern);
            }

            for (var i = 0; i < pictures.Count; i++)
            {
                WritePictureFile(xml, PictureId(i), pictures[i]);
            }

            xml.WriteEndElement();
        }

        foreach (var item in drawing.Items)
        {
            WriteItem(xml, item, pictures);
        }

        xml.WriteEndElement();
    }

    private static string Outer(Position size, LengthUnit unit) => unit == LengthUnit.Millimetre
        ? Millimetres(size) + "mm"
        : LengthText.WriteDecimal(NearestMillionth(size.Nanometres / Length.NanometresPerInch), 6) + "in";

    private static Rational NearestMillionth(Rational value) => Nearest(value, 1_000_000);

    private static Rational Nearest(Rational value, long parts) => Rational.From(((value * parts) + Rational.From(1, 2)).Floor(), new BigInteger(parts));

    private static void WritePattern(XmlWriter xml, DrawnPattern pattern)
    {
        xml.WriteStartElement("pattern", Namespace);
        xml.WriteAttributeString("id", pattern.Id);
        xml.WriteAttributeString("patternUnits", "userSpaceOnUse");
        WriteBox(xml, pattern.Tile);
        foreach (var item in pattern.Items)
        {
            WriteItem(xml, item, []);
        }

        xml.WriteEndElement();
    }

    private static void WriteItem(XmlWriter xml, DrawnItem item, List<PictureContent> pictures)
    {
        switch (item)
        {
            case DrawnGroup group:
                WriteGroup(xml, group, pictures);
                break;
            case DrawnOutline outline:
                WriteOutline(xml, outline);
                break;
            case DrawnLine line:
                WriteLine(xml, line);
                break;
            case DrawnText text:
                WriteText(xml, text);
                break;
            case DrawnPicture picture:
                WritePicture(xml, picture, PictureId(pictures.IndexOf(picture.Content)));
                break;
            default:
                throw new ArgumentException($"cannot write a {item.GetType().Name}", nameof(item));
        }
    }

    private static void WriteGroup(XmlWriter xml, DrawnGroup group, List<PictureContent> pictures)
    {
        xml.WriteStartElement("g", Namespace);
        WriteIfAny(xml, "id", group.Id);
        WriteIfAny(xml, "class", group.Class);
        foreach (var (name, value) in group.Data)
        {
            xml.WriteAttributeString("data-" + name, Clean(value));
        }

        WriteIfAny(xml, "transform", Transform(group));

        foreach (var item in group.Items)
        {
            WriteItem(xml, item, pictures);
        }

        xml.WriteEndElement();
    }

    private static string? Transform(DrawnGroup group)
    {
        List<string> parts = [];
        if (group.Shift is { } shift)
        {
            parts.Add($"translate({Pair(shift)})");
        }

        if (group.Scale is { } scale && scale != Rational.One)
        {
            // Nine decimals: a third of a card is then less than a nanometre off.
            parts.Add($"scale({LengthText.WriteDecimal(Nearest(scale, 1_000_000_000), 9)})");
        }

        if (group.Turn is { Angle.IsZero: false } turn)
        {
            var degrees = NearestMillionth(turn.Angle.Degrees);
            parts.Add($"rotate({LengthText.WriteDecimal(degrees, 6)} {Millimetres(turn.About.X)} {Millimetres(turn.About.Y)})");
        }

        if (group.Turn is { Flipped: true } flip)
        {
            // x becomes 2 * About.X - x.
            parts.Add($"matrix(-1 0 0 1 {Millimetres(flip.About.X * 2)} 0)");
        }

        return parts.Count == 0 ? null : string.Join(' ', parts);
    }

    private static void WriteOutline(XmlWriter xml, DrawnOutline drawn)
    {
        var contours = drawn.Outline.Contours;
        if (!drawn.AsPath && contours is [EllipseContour ellipse])
        {
            var circle = ellipse.RadiusX == ellipse.RadiusY;
            xml.WriteStartElement(circle ? "circle" : "ellipse", Namespace);
            WriteIfAny(xml, "id", drawn.Id);
            xml.WriteAttributeString("cx", Millimetres(ellipse.Centre.X));
            xml.WriteAttributeString("cy", Millimetres(ellipse.Centre.Y));
            xml.WriteAttributeString(circle ? "r" : "rx", Millimetres(ellipse.RadiusX));
            WriteIfAny(xml, "ry", circle ? null : Millimetres(ellipse.RadiusY));
        }
        else if (!drawn.AsPath && contours is [PolygonContour polygon] && IsRectangle(polygon))
        {
            xml.WriteStartElement("rect", Namespace);
            WriteIfAny(xml, "id", drawn.Id);
            WriteBox(xml, drawn.Outline.Bounds);
        }
        else
        {
            xml.WriteStartElement("path", Namespace);
            WriteIfAny(xml, "id", drawn.Id);
            xml.WriteAttributeString("d", string.Join(' ', contours.Select(PathOf)));
            WriteIfAny(xml, "fill-rule", contours.Count > 1 ? "evenodd" : null);
        }

        WriteFill(xml, drawn.Fill);
        if (drawn.Stroke is { } stroke)
        {
            WriteStroke(xml, stroke);
            xml.WriteAttributeString("stroke-linejoin", "miter");
        }

        if (drawn.Title is { } title)
        {
            xml.WriteElementString("title", Namespace, Clean(title));
        }

        xml.WriteEndElement();
    }

    private static bool IsRectangle(PolygonContour polygon) => Outline.Rectangle(new Outline([polygon]).Bounds) is PolygonContour box
        && polygon.Points.SequenceEqual(box.Points);

    private static void WriteBox(XmlWriter xml, Box box)
    {
        xml.WriteAttributeString("x", Millimetres(box.Left));
        xml.WriteAttributeString("y", Millimetres(box.Top));
        xml.WriteAttributeString("width", Millimetres(box.Width));
        xml.WriteAttributeString("height", Millimetres(box.Height));
    }

    private static string PathOf(Contour contour) => contour switch
    {
        PolygonContour polygon => "M " + string.Join(" L ", polygon.Points.Select(Pair)) + " Z",
        EllipseContour e => $"M {Pair(new(e.Centre.X - e.RadiusX, e.Centre.Y))}"
            + $" A {Millimetres(e.RadiusX)} {Millimetres(e.RadiusY)} 0 1 1 {Pair(new(e.Centre.X + e.RadiusX, e.Centre.Y))}"
            + $" A {Millimetres(e.RadiusX)} {Millimetres(e.RadiusY)} 0 1 1 {Pair(new(e.Centre.X - e.RadiusX, e.Centre.Y))} Z",
        _ => throw new ArgumentException($"cannot write a {contour.GetType().Name}", nameof(contour)),
    };

    private static string Pair(Point point) => $"{Millimetres(point.X)} {Millimetres(point.Y)}";

    private static void WriteLine(XmlWriter xml, DrawnLine line)
    {
        xml.WriteStartElement("path", Namespace);
        WriteIfAny(xml, "class", line.Class);
        xml.WriteAttributeString("d", "M " + string.Join(" L ", line.Points.Select(Pair)));
        xml.WriteAttributeString("fill", "none");
        WriteStroke(xml, line.Stroke);
        xml.WriteEndElement();
    }

    private static void WriteText(XmlWriter xml, DrawnText text)
    {
        xml.WriteStartElement("text", Namespace);
        WriteIfAny(xml, "class", text.Class);
        var set = text.Text.Contains(LetteringFont.FractionSlash, StringComparison.Ordinal);
        var width = LetteringFont.Instance.Width(text.Text, text.CapHeight);
        var start = set ? StartOf(text, width) : text.At.X;
        xml.WriteAttributeString("x", Millimetres(start));
        xml.WriteAttributeString("y", Millimetres(text.At.Y));
        if (text.Upwards)
        {
            xml.WriteAttributeString("transform", $"rotate(-90 {Pair(text.At)})");
        }

        xml.WriteAttributeString("font-size", Millimetres(LetteringFont.Instance.EmSize(text.CapHeight)));
        if (set)
        {
            xml.WriteAttributeString("fill", text.Colour.ToString());
            WriteRuns(xml, text, start);
            xml.WriteEndElement();
            return;
        }

        var spacing = LetteringFont.Instance.WordSpacing(text.Text, text.CapHeight);
        WriteIfAny(xml, "word-spacing", spacing.IsZero ? null : Millimetres(spacing));
        WriteIfAny(xml, "text-anchor", text.Hold switch { TextHold.Middle => "middle", TextHold.End => "end", _ => null });
        xml.WriteAttributeString("textLength", Millimetres(width));
        xml.WriteAttributeString("fill", text.Colour.ToString());
        xml.WriteString(Clean(text.Text));
        xml.WriteEndElement();
    }

    private static Position StartOf(DrawnText text, Length width) => text.Hold switch
    {
        TextHold.Middle => text.At.X - (Position.FromLength(width) * Rational.From(1, 2)),
        TextHold.End => text.At.X - width,
        _ => text.At.X,
    };

    /// <summary>
    /// Writes a text with fractions: every run has a place of its own, so that no viewer can set it otherwise, and the whole is still
    /// one text that can be searched and copied.
    /// </summary>
    private static void WriteRuns(XmlWriter xml, DrawnText text, Position start)
    {
        // Text, even if empty, keeps the writer from putting the runs on lines of their own, which viewers would show as spaces.
        xml.WriteString("");
        foreach (var run in TextRun.Of(text.Text))
        {
            var rise = Position.FromLength(text.CapHeight) * Rational.From(run.Rise, 100);
            xml.WriteStartElement("tspan", Namespace);
            xml.WriteAttributeString("x", Millimetres(start + LetteringFont.Instance.Scaled(run.Start, text.CapHeight)));
            xml.WriteAttributeString("y", Millimetres(text.At.Y - rise));
            xml.WriteString(Clean(run.Text));
            xml.WriteEndElement();
        }
    }

    private static void WriteFill(XmlWriter xml, Fill? fill)
    {
        xml.WriteAttributeString("fill", fill is null ? "none" : fill.Pattern is null ? fill.Colour.ToString() : $"url(#{fill.Pattern})");
        if (fill is { OpacityPercent: < 100 })
        {
            xml.WriteAttributeString("fill-opacity", LengthText.WriteDecimal(Rational.From(fill.OpacityPercent, 100), 2));
        }
    }

    private static void WriteStroke(XmlWriter xml, Stroke stroke)
    {
        xml.WriteAttributeString("stroke", stroke.Colour.ToString());
        xml.WriteAttributeString("stroke-width", Millimetres(stroke.Width));
        if (!stroke.Dash.IsZero)
        {
            xml.WriteAttributeString("stroke-dasharray", $"{Millimetres(stroke.Dash)} {Millimetres(stroke.DashGap)}");
        }
    }

    private static void WriteIfAny(XmlWriter xml, string name, string? value)
    {
        if (value is not null)
        {
            xml.WriteAttributeString(name, value);
        }
    }

    /// <summary>XML 1.0 has no place for most control characters, nor for half a surrogate pair: each becomes U+FFFD.</summary>
    private static string Clean(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            clean.Append(rune.Value > 0xFFFF || XmlConvert.IsXmlChar((char)rune.Value) ? rune.ToString() : "\uFFFD");
        }

        return clean.ToString();
    }
}
