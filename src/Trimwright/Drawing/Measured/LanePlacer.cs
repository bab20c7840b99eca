using System.Globalization;
using Trimwright.Geometry;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Places dimensions in lanes around the face, the shortest nearest to it. A text lies where no extension line of a farther lane
/// passes; where there is no such place, the extension line is broken at the text when it is drawn.
/// </summary>
/// <param name="face">The area of the card with all that hangs over it.</param>
/// <param name="unit">The unit that lengths are written in.</param>
internal sealed class LanePlacer(Area face, LengthUnit unit)
{
    // What an extension line costs for every millimetre that it runs across the face, in millimetres of lane: a dimension whose two lines
    // would cross 100 mm of card goes to the far side only when the near one is fuller by more than four lanes.
    private const double CrossingCost = 0.15;

    // Leaders mostly leave to the right, so that upright dimensions rather go to the left.
    private const double RightCost = 3;

    private const double BreakCost = 60;
    private const double FarthestText = 40;
    private const double Apart = 2;

    private readonly List<PlacedDimension> _placed = [];

    private sealed record Choice(PlacedDimension Own, IReadOnlyList<(PlacedDimension Before, PlacedDimension After)> Moved, double Cost);

    /// <summary>Places all dimensions; the same dimensions go to the same places.</summary>
    public IReadOnlyList<PlacedDimension> Place(IEnumerable<LinearDimension> dimensions)
    {
        foreach (var dimension in dimensions.OrderBy(dimension => dimension.Of == "card").ThenBy(dimension => dimension.Value))
        {
            Side[] sides = dimension.Axis == Layouts.Axis.Across ? [Side.Top, Side.Bottom] : [Side.Left, Side.Right];
            var best = sides.SelectMany(side => Choices(dimension, side)).MinBy(choice => choice.Cost)!;
            foreach (var (before, after) in best.Moved)
            {
                _placed[_placed.IndexOf(before)] = after;
            }

            _placed.Add(best.Own);
        }

        return _placed;
    }

    private IEnumerable<Choice> Choices(LinearDimension dimension, Side side)
    {
        // One lane beyond the last is free of everything, so the search ends there.
        var lanes = _placed.Where(placed => placed.Side == side).Select(placed => placed.Lane + 1).DefaultIfEmpty(0).Max();
        for (var lane = 0; lane <= lanes; lane++)
        {
            var empty = new PlacedDimension(dimension, TextOf(dimension), side, lane, LineAt(side, lane), 0, false);
            if (FindText(empty, _placed) is { } own)
            {
                yield return Complete(own);
            }
        }
    }

    private string TextOf(LinearDimension dimension)
    {
        var value = LengthText.WriteBare(dimension.Value, unit);
        return dimension.Count == 1 ? value : string.Create(CultureInfo.InvariantCulture, $"{dimension.Count} x {value}");
    }

    private double LineAt(Side side, int lane)
    {
        var outwards = FirstLane + (LanePitch * lane);
        return side switch
        {
            Side.Top => face.Top - outwards, Side.Bottom => face.Bottom + outwards, Side.Left => face.Left - outwards, _ => face.Right + outwards,
        };
    }

    /// <summary>Counts the cost of a place, and moves the texts of nearer lanes aside that its extension lines would run through.</summary>
    private Choice Complete(PlacedDimension own)
    {
        List<(PlacedDimension, PlacedDimension)> moved = [];
        var breaks = 0;
        var all = _placed.Append(own).ToList();
        foreach (var inner in _placed.Where(placed => placed.Side == own.Side && placed.Lane < own.Lane && IsHit(placed, own)))
        {
            if (FindText(inner, [.. all.Where(other => other != inner)]) is { } aside)
            {
                moved.Add((inner, aside));
                all[all.IndexOf(inner)] = aside;
            }
            else
            {
                breaks++;
            }
        }

        var crossing = own.Side switch
        {
            Side.Top or Side.Left => new[] { own.Dimension.From, own.Dimension.To }.Sum(
                line => Plane.Roughly(line.Start) - (own.IsAcross ? face.Top : face.Left)),
            _ => new[] { own.Dimension.From, own.Dimension.To }.Sum(
                line => (own.IsAcross ? face.Bottom : face.Right) - Plane.Roughly(line.End)),
        };
        var cost = (own.Lane * LanePitch) + (crossing * CrossingCost) + (breaks * BreakCost) + moved.Count
            + (own.Side == Side.Right ? RightCost : 0) + (own.TextInside ? 0 : 2);
        return new(own, moved, cost);
    }

    private static bool IsHit(PlacedDimension inner, PlacedDimension outer) =>
        Hits(inner, inner.TextAt, outer.From) || Hits(inner, inner.TextAt, outer.To);

    private static bool Hits(PlacedDimension dimension, double textAt, double line) =>
        Math.Abs(line - textAt) < (dimension.TextWidth / 2) + Air;

    /// <summary>Finds the best place for the text of a dimension in its lane, or null where its lane has no room for it.</summary>
    private static PlacedDimension? FindText(PlacedDimension dimension, IReadOnlyList<PlacedDimension> others)
    {
        var lines = others
            .Where(other => other.Side == dimension.Side && other.Lane > dimension.Lane)
            .SelectMany(other => new[] { other.From, other.To })
            .ToArray();
        var lane = others.Where(other => other.Side == dimension.Side && other.Lane == dimension.Lane).ToArray();

        // Texts beyond the end of a line may reach the corners of the sheet, where the lanes of the next side begin. A text that stands
        // on the other side of its line is clear of them, so there always is a choice.
        var corners = others.Where(other => other.IsAcross != dimension.IsAcross).Select(other => other.LineArea.Grown(Air)).ToArray();
        foreach (var option in TextPlaces(dimension))
        {
            if (!lines.Any(line => Hits(option, option.TextAt, line)) && lane.All(other => AreApart(option, other))
                && option.LineArea is var area && !corners.Any(area.Meets))
            {
                return option;
            }
        }

        return null;
    }

    /// <summary>The places for a text, best first: in the middle, aside from it, then beyond the one line or the other.</summary>
    private static IEnumerable<PlacedDimension> TextPlaces(PlacedDimension dimension)
    {
        var (from, to, half) = (dimension.From, dimension.To, (dimension.TextWidth / 2) + Air);
        var middle = (from + to) / 2;
        var arrowsOutside = to - from < RoomForArrows;
        for (var aside = 0.0; middle + aside + half <= to; aside += 1)
        {
            yield return dimension with { TextAt = middle + aside, ArrowsOutside = arrowsOutside };
            yield return dimension with { TextAt = middle - aside, ArrowsOutside = arrowsOutside };
        }

        for (var beyond = Arrow + 1; beyond < FarthestText; beyond += 1)
        {
            yield return dimension with { TextAt = to + beyond + half, ArrowsOutside = true };
            yield return dimension with { TextAt = from - beyond - half, ArrowsOutside = true };
        }
    }

    private static bool AreApart(PlacedDimension a, PlacedDimension b)
    {
        // Links of a chain share an extension line and meet there with their arrowheads.
        var link = (a.Dimension.To.At == b.Dimension.From.At && a.LineEnd <= a.To && b.LineStart >= b.From)
            || (b.Dimension.To.At == a.Dimension.From.At && b.LineEnd <= b.To && a.LineStart >= a.From);
        return link || a.LineEnd + Apart <= b.LineStart || b.LineEnd + Apart <= a.LineStart;
    }
}
