using System.Globalization;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>Turns placed dimensions and callouts into lines, arrowheads, dots and texts.</summary>
/// <param name="dimensions">All dimensions, so that a line is broken where it would run through words.</param>
/// <param name="words">The areas of all words on the face and around it, for the same reason.</param>
internal sealed class DimensionInk(IReadOnlyList<PlacedDimension> dimensions, IReadOnlyList<Area> words)
{
    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);

    private readonly HashSet<(Side, Position, double, double)> _drawn = [];

    /// <summary>Draws all dimensions; along their lines the places are exact.</summary>
    public IEnumerable<DrawnGroup> Dimensions() => dimensions.Select(Draw);

    /// <summary>Draws a dimension on a tilted piece.</summary>
    public static DrawnGroup Draw(TiltedDimension placed)
    {
        var isAcross = placed.Dimension.Axis == Axis.Across;
        var (from, to, line) = (placed.Dimension.From.At, placed.Dimension.To.At, placed.LineAt);
        List<DrawnItem> items =
        [
            new DrawnLine([At(isAcross, from, line), At(isAcross, to, line)], Thin) { Class = "measure" },
            Arrowhead(isAcross, line, from, forwards: false),
            Arrowhead(isAcross, line, to, forwards: true),
            Text(isAcross, placed.Text, placed.TextAt, placed.FootAt),
        ];
        return new(items) { Class = "dim", Data = DataOf(placed.Dimension), Turn = new(placed.Piece.Source.Tilt, placed.Piece.Box.Centre) };
    }

    /// <summary>Draws a callout with its leader.</summary>
    public DrawnGroup Draw(PlacedCallout placed)
    {
        var radius = Plane.Exactly(Dot / 2);
        List<DrawnItem> items =
        [
            .. Leader(placed),
            new DrawnOutline(new([new EllipseContour(placed.Dot.ToPoint(), radius, radius)]), new(Palette.Ink), null),
        ];
        for (var i = 0; i < placed.Callout.Lines.Count; i++)
        {
            var line = placed.Callout.Lines[i];
            var at = new Spot(placed.Column, placed.BaselineOf(i)).ToPoint();
            var text = new DrawnText(line.Text, at, placed.OnRight ? TextHold.Start : TextHold.End, Capital, Palette.Ink);
            items.Add(line.Measure is { } measure
                ? new DrawnGroup([text]) { Class = "dim", Data = [.. Data(placed.Callout.Of, measure, line.Values)] }
                : text with { Class = i == 0 ? "name" : "note" });
        }

        return new(items) { Class = "callout" };
    }

    /// <summary>Marks a centre with a small cross.</summary>
    public static IEnumerable<DrawnItem> Mark(Point centre)
    {
        var arm = Plane.Exactly(CentreArm);
        yield return new DrawnLine([centre.Moved(-arm, default), centre.Moved(arm, default)], Thin);
        yield return new DrawnLine([centre.Moved(default, -arm), centre.Moved(default, arm)], Thin);
    }

    /// <summary>The strokes of a centre mark, for keeping clear of it.</summary>
    public static IEnumerable<(Spot Start, Spot End)> MarkLines(Point centre)
    {
        var at = Plane.Roughly(centre);
        yield return (new(at.X - CentreArm, at.Y), new(at.X + CentreArm, at.Y));
        yield return (new(at.X, at.Y - CentreArm), new(at.X, at.Y + CentreArm));
    }

    private DrawnGroup Draw(PlacedDimension placed)
    {
        var (from, to, isAcross, line) = (placed.Dimension.From, placed.Dimension.To, placed.Words.IsAcross, placed.LineAt);
        List<DrawnItem> items = [.. Extension(placed, ofTo: false), .. Extension(placed, ofTo: true)];
        items.Add(new DrawnLine([At(isAcross, from.At, line), At(isAcross, to.At, line)], Thin) { Class = "measure" });
        if (placed.LineStart < placed.Words.From)
        {
            items.Add(new DrawnLine([At(isAcross, Plane.Exactly(placed.LineStart), line), At(isAcross, from.At, line)], Thin));
        }

        if (placed.LineEnd > placed.Words.To)
        {
            items.Add(new DrawnLine([At(isAcross, to.At, line), At(isAcross, Plane.Exactly(placed.LineEnd), line)], Thin));
        }

        items.Add(Arrowhead(isAcross, line, from.At, forwards: placed.ArrowsOutside));
        items.Add(Arrowhead(isAcross, line, to.At, forwards: !placed.ArrowsOutside));
        items.Add(Text(isAcross, placed.Words.Text, placed.TextAt, placed.FootAt));
        return new(items) { Class = "dim", Data = DataOf(placed.Dimension) };
    }

    private static DrawnText Text(bool isAcross, string text, double along, double foot) =>
        new(text, (isAcross ? new Spot(along, foot) : new Spot(foot, along)).ToPoint(), TextHold.Middle, Capital, Palette.Ink) { Upwards = !isAcross };

    /// <summary>
    /// The leader. On a crowded card there may be no place for it that is clear of all figures: then it is broken there.
    /// </summary>
    private IEnumerable<DrawnLine> Leader(PlacedCallout placed)
    {
        var (dot, knee) = (placed.Dot, placed.Knee);
        var gaps = words.Select(area => area.Grown(Air / 2).Within(dot, knee)).OfType<(double Enter, double Leave)>().Order();
        var from = 0.0;
        foreach (var (enter, leave) in gaps)
        {
            if (enter > from)
            {
                yield return new([At(from), At(enter)], Thin) { Class = "leader" };
            }

            from = Math.Max(from, leave);
        }

        // A level leader is one stroke: a knee in it would only be seen in the file.
        yield return dot.Y == knee.Y
            ? new([At(from), placed.End.ToPoint()], Thin) { Class = "leader" }
            : new([At(from), knee.ToPoint(), placed.End.ToPoint()], Thin) { Class = "leader" };

        Point At(double share) => new Spot(dot.X + (share * (knee.X - dot.X)), dot.Y + (share * (knee.Y - dot.Y))).ToPoint();
    }

    private static List<(string, string)> DataOf(LinearDimension dimension)
    {
        var data = Data(dimension.Of, dimension.Measure, [dimension.Value]);
        if (dimension.Count > 1)
        {
            data.Add(("count", dimension.Count.ToString(CultureInfo.InvariantCulture)));
        }

        return data;
    }

    private static List<(string, string)> Data(string of, string measure, IReadOnlyList<Position> values) =>
    [
        ("of", of), ("measure", measure), ("nm", string.Join(' ', values.Select(value => value.Nanometres.ToString()))),
    ];

    private static Point At(bool isAcross, Position along, double across) => At(isAcross, along, Plane.Exactly(across));

    private static Point At(bool isAcross, Position along, Position across) => isAcross ? new(along, across) : new(across, along);

    private IEnumerable<DrawnLine> Extension(PlacedDimension placed, bool ofTo)
    {
        var (begin, end) = placed.Extension(ofTo);
        var (at, line) = ofTo ? (placed.Dimension.To.At, placed.Words.To) : (placed.Dimension.From.At, placed.Words.From);
        var (low, high) = (Math.Min(begin, end), Math.Max(begin, end));
        if (!_drawn.Add((placed.Side, at, low, high)) || IsPartOfAnother(placed, at, low, high))
        {
            yield break;
        }

        List<(double Start, double Stop)> gaps = [];
        foreach (var other in dimensions)
        {
            if (other.Side == placed.Side && Math.Abs(line - other.TextAt) < (other.Words.Width / 2) + (Air / 2))
            {
                var area = other.TextArea;
                var (start, stop) = other.Words.IsAcross ? (area.Top, area.Bottom) : (area.Left, area.Right);
                if (start < high && stop > low)
                {
                    gaps.Add((start, stop));
                }
            }
        }

        gaps.Sort();
        foreach (var (start, stop) in gaps)
        {
            if (start - Air > low)
            {
                yield return Piece(low, start - Air);
            }

            low = stop + Air;
        }

        if (low < high)
        {
            yield return Piece(low, high);
        }

        DrawnLine Piece(double a, double b) => new(
            [At(placed.Words.IsAcross, at, a), At(placed.Words.IsAcross, at, b)], Thin) { Class = "extension" };
    }

    /// <summary>Whether the line of another dimension of the same side goes farther both ways, and so draws this one too.</summary>
    private bool IsPartOfAnother(PlacedDimension placed, Position at, double low, double high)
    {
        foreach (var other in dimensions)
        {
            if (other.Side != placed.Side || other == placed)
            {
                continue;
            }

            foreach (var ofTo in (ReadOnlySpan<bool>)[false, true])
            {
                var (begin, end) = other.Extension(ofTo);
                var (from, to) = (Math.Min(begin, end), Math.Max(begin, end));
                if ((ofTo ? other.Dimension.To.At : other.Dimension.From.At) == at && from <= low && to >= high && (from < low || to > high))
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>A filled arrowhead with its tip on a line; pointing forwards is to the right or down.</summary>
    private static DrawnOutline Arrowhead(bool isAcross, double line, Position tip, bool forwards)
    {
        var foot = tip + (forwards ? -Plane.Exactly(Arrow) : Plane.Exactly(Arrow));
        var (middle, half) = (Plane.Exactly(line), Plane.Exactly(HalfArrow));
        return new(
            new([new PolygonContour([At(isAcross, tip, middle), At(isAcross, foot, middle - half), At(isAcross, foot, middle + half)])]),
            new(Palette.Ink), null);
    }
}
