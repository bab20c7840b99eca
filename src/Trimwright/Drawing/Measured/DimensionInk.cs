using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Geometry;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>Turns placed dimensions and callouts into lines, arrowheads, dots and texts.</summary>
/// <param name="dimensions">All dimensions, so that a line is broken where it would run through words.</param>
internal sealed class DimensionInk(IReadOnlyList<PlacedDimension> dimensions)
{
    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);

    /// <summary>Draws a dimension; along its line the places are exact.</summary>
    public DrawnGroup Draw(PlacedDimension placed)
    {
        var (from, to) = (placed.Dimension.From, placed.Dimension.To);
        List<DrawnItem> items = [.. Extension(placed, from), .. Extension(placed, to)];
        items.Add(new DrawnLine([At(placed, from.At), At(placed, to.At)], Thin) { Class = "measure" });
        if (placed.LineStart < placed.From)
        {
            items.Add(new DrawnLine([At(placed, Plane.Exactly(placed.LineStart)), At(placed, from.At)], Thin));
        }

        if (placed.LineEnd > placed.To)
        {
            items.Add(new DrawnLine([At(placed, to.At), At(placed, Plane.Exactly(placed.LineEnd))], Thin));
        }

        items.Add(Arrowhead(placed, from.At, forwards: placed.ArrowsOutside));
        items.Add(Arrowhead(placed, to.At, forwards: !placed.ArrowsOutside));
        var foot = placed.LineAt - TextGap;
        var at = placed.IsAcross ? new Spot(placed.TextAt, foot) : new Spot(foot, placed.TextAt);
        items.Add(new DrawnText(placed.Text, at.ToPoint(), TextHold.Middle, Capital, Palette.Ink) { Upwards = !placed.IsAcross });
        List<(string, string)> data = [.. Data(placed.Dimension.Of, placed.Dimension.Measure, [placed.Dimension.Value])];
        if (placed.Dimension.Count > 1)
        {
            data.Add(("count", placed.Dimension.Count.ToString(CultureInfo.InvariantCulture)));
        }

        return new(items) { Class = "dim", Data = data };
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
        var arm = Plane.Exactly(1.5);
        yield return new DrawnLine([centre.Moved(-arm, default), centre.Moved(arm, default)], Thin);
        yield return new DrawnLine([centre.Moved(default, -arm), centre.Moved(default, arm)], Thin);
    }

    /// <summary>
    /// The leader. On a crowded card there may be no place for it that is clear of all figures: then it is broken there.
    /// </summary>
    private IEnumerable<DrawnLine> Leader(PlacedCallout placed)
    {
        var (dot, knee) = (placed.Dot, placed.Knee);
        var gaps = dimensions.Select(dimension => dimension.TextArea.Grown(Air / 2).Within(dot, knee)).OfType<(double Enter, double Leave)>().Order();
        var from = 0.0;
        foreach (var (enter, leave) in gaps)
        {
            if (enter > from)
            {
                yield return new([At(from), At(enter)], Thin) { Class = "leader" };
            }

            from = Math.Max(from, leave);
        }

        yield return new([At(from), knee.ToPoint(), placed.End.ToPoint()], Thin) { Class = "leader" };

        Point At(double share) => new Spot(dot.X + (share * (knee.X - dot.X)), dot.Y + (share * (knee.Y - dot.Y))).ToPoint();
    }

    private static IEnumerable<(string, string)> Data(string of, string measure, IReadOnlyList<Position> values) =>
    [
        ("of", of), ("measure", measure), ("nm", string.Join(' ', values.Select(value => value.Nanometres.ToString()))),
    ];

    /// <summary>A point on the dimension line.</summary>
    private static Point At(PlacedDimension placed, Position along) => At(placed, along, Plane.Exactly(placed.LineAt));

    private static Point At(PlacedDimension placed, Position along, Position across) =>
        placed.IsAcross ? new(along, across) : new(across, along);

    private IEnumerable<DrawnLine> Extension(PlacedDimension placed, Witness witness)
    {
        var (begin, end) = placed.Extension(witness);
        var line = Plane.Roughly(witness.At);

        // Another dimension of this side that goes at least as far, from no farther in, draws the same line already.
        var drawn = dimensions.TakeWhile(other => other != placed).Any(other => other.Side == placed.Side
            && new[] { other.Dimension.From, other.Dimension.To }.Any(known => known.At == witness.At
                && other.Extension(known) is var (knownBegin, knownEnd)
                && Math.Min(knownBegin, knownEnd) <= Math.Min(begin, end) && Math.Max(knownBegin, knownEnd) >= Math.Max(begin, end)));
        if (drawn)
        {
            yield break;
        }

        var (low, high) = (Math.Min(begin, end), Math.Max(begin, end));
        var gaps = dimensions
            .Where(other => other.Side == placed.Side && Math.Abs(line - other.TextAt) < (other.TextWidth / 2) + (Air / 2))
            .Select(other => other.IsAcross ? (other.TextArea.Top, other.TextArea.Bottom) : (other.TextArea.Left, other.TextArea.Right))
            .Where(gap => gap.Item1 < high && gap.Item2 > low)
            .Order();
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
            [At(placed, witness.At, Plane.Exactly(a)), At(placed, witness.At, Plane.Exactly(b))], Thin);
    }

    /// <summary>A filled arrowhead with its tip on a line; pointing forwards is to the right or down.</summary>
    private static DrawnOutline Arrowhead(PlacedDimension placed, Position tip, bool forwards)
    {
        var foot = tip + (forwards ? -Plane.Exactly(Arrow) : Plane.Exactly(Arrow));
        var (line, half) = (Plane.Exactly(placed.LineAt), Plane.Exactly(Arrow / 6));
        return new(
            new([new PolygonContour([At(placed, tip), At(placed, foot, line - half), At(placed, foot, line + half)])]),
            new(Palette.Ink), null);
    }
}
