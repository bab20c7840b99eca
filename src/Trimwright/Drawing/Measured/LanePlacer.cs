using Trimwright.Geometry;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Places dimensions in lanes around the face, the shortest nearest to it. A text lies where no extension line of a farther lane
/// passes; where there is no such place, the extension line is broken at the text when it is drawn.
/// </summary>
/// <param name="face">The area of the card with all that hangs over it.</param>
/// <param name="text">How lengths are written.</param>
internal sealed class LanePlacer(Area face, DimensionText text)
{
    // What an extension line costs for every millimetre that it runs across the face, in millimetres of lane: a dimension whose two lines
    // would cross 100 mm of card goes to the far side only when the near one is fuller by more than four lanes.
    private const double CrossingCost = 0.15;

    // Leaders mostly leave to the right, so that upright dimensions rather go to the left.
    private const double RightCost = 3;

    private const double BreakCost = 60;
    private const double TextOutsideCost = 2;

    // Links of a chain on one line are read as one: that is worth more than some millimetres of extension line.
    private const double ChainWorth = 3;
    private const double FarthestText = 40;
    private const double Apart = 2;

    private static readonly Side[] LevelSides = [Side.Top, Side.Bottom];
    private static readonly Side[] UprightSides = [Side.Left, Side.Right];

    private readonly List<PlacedDimension>[] _sides = [[], [], [], []];
    private IReadOnlyList<PlacedCallout> _callouts = [];

    private sealed record Choice(PlacedDimension Own, List<(int At, PlacedDimension After)> Moved, double Cost);

    /// <summary>How many texts have an extension line through them that is to be broken there.</summary>
    public int Breaks { get; private set; }

    /// <summary>The most lanes on a side.</summary>
    public int Lanes => _sides.Max(side => side.Count == 0 ? 0 : 1 + side.Max(placed => placed.Lane));

    /// <summary>Places all dimensions; the same dimensions go to the same places.</summary>
    public IReadOnlyList<PlacedDimension> Place(IReadOnlyList<LinearDimension> dimensions)
    {
        var words = dimensions.Select(dimension => new WordedDimension(dimension, text)).ToArray();
        foreach (var word in words.OrderBy(word => word.Dimension.Of == "card").ThenBy(word => word.To - word.From))
        {
            Choice? best = null;
            var bestSide = Side.Top;
            foreach (var side in word.IsAcross ? LevelSides : UprightSides)
            {
                if (Cheapest(word, side, best?.Cost ?? double.PositiveInfinity) is { } choice)
                {
                    (best, bestSide) = (choice, side);
                }
            }

            var chosen = _sides[(int)bestSide];
            foreach (var (at, after) in best!.Moved)
            {
                chosen[at] = after;
            }

            chosen.Add(best.Own);
        }

        List<PlacedDimension> all = All();
        Breaks = all.Sum(inner => _sides[(int)inner.Side].Count(
            outer => Passes(outer.Lane, inner.Lane, inner.Side) && IsHit(inner, outer.Words)));
        return all;
    }

    /// <summary>Moves texts along their lines that leaders run through, where there is room for them elsewhere; gives all anew.</summary>
    public IReadOnlyList<PlacedDimension> MakeWayFor(IReadOnlyList<PlacedCallout> callouts)
    {
        _callouts = callouts;
        foreach (var side in _sides)
        {
            for (var i = 0; i < side.Count; i++)
            {
                if (IsInTheWay(side[i]) && FindText(side[i].Words, side[i].Side, side[i].Lane, side, i) is { } aside)
                {
                    side[i] = aside;
                }
            }
        }

        return All();
    }

    private List<PlacedDimension> All() => [.. _sides.SelectMany(side => side)];

    private bool IsInTheWay(PlacedDimension placed)
    {
        var (text, line) = (placed.TextArea.Grown(LeaderFinder.ClearOfWords), placed.LineArea);
        foreach (var callout in _callouts)
        {
            if (text.Meets(callout.Dot, callout.Knee) || text.Meets(callout.Knee, callout.End) || line.Meets(callout.TextArea))
            {
                return true;
            }
        }

        return false;
    }

    private Choice? Cheapest(WordedDimension word, Side side, double limit)
    {
        var placed = _sides[(int)side];
        var (start, end) = side is Side.Top or Side.Left
            ? (word.Begins.AtFrom + word.Begins.AtTo, 2 * (word.IsAcross ? face.Top : face.Left))
            : (2 * (word.IsAcross ? face.Bottom : face.Right), word.Ends.AtFrom + word.Ends.AtTo);
        var fixedCost = (Math.Max(0, start - end) * CrossingCost) + (side == Side.Right ? RightCost : 0);

        // One lane beyond the last is free of all but the corners, and some lanes farther of everything: there the search ends. Each lane
        // costs more than the one before.
        var lanes = 0;
        foreach (var other in placed)
        {
            lanes = Math.Max(lanes, other.Lane + 1);
        }

        Choice? best = null;
        for (var lane = 0; lane <= lanes || (best is null && lane < lanes + FarthestText); lane++)
        {
            var least = fixedCost + (lane * LanePitch) - ChainWorth;
            if (least >= limit)
            {
                break;
            }

            if (FindText(word, side, lane, placed, -1) is { } own && Complete(own, placed, fixedCost) is { } choice && choice.Cost < limit)
            {
                (best, limit) = (choice, choice.Cost);
            }
        }

        return best;
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
    private Choice Complete(PlacedDimension own, List<PlacedDimension> placed, double fixedCost)
    {
        List<(int, PlacedDimension)> moved = [];
        List<PlacedDimension>? all = null;
        var breaks = 0;
        var isLink = false;
        for (var i = 0; i < placed.Count; i++)
        {
            isLink |= placed[i].Lane == own.Lane && IsLink(own.Words, own.LineStart, own.LineEnd, placed[i]);
            if (!Passes(own.Lane, placed[i].Lane, own.Side) || !IsHit(placed[i], own.Words))
            {
                continue;
            }

            all ??= [.. placed, own];
            if (FindText(placed[i].Words, placed[i].Side, placed[i].Lane, all, i) is { } aside)
            {
                moved.Add((i, aside));
                all[i] = aside;
            }
            else
            {
                breaks++;
            }
        }

        var cost = fixedCost + (own.Lane * LanePitch) + (breaks * BreakCost) + moved.Count + (own.TextInside ? 0 : TextOutsideCost)
            - (isLink ? ChainWorth : 0);
        return new(own, moved, cost);
    }

    /// <summary>
    /// Whether extension lines of one lane reach the texts of another: those of farther lanes pass all nearer ones, and where texts
    /// stand at the inner side of their line, on the right and below, those of the next nearer lane end among them.
    /// </summary>
    private static bool Passes(int lane, int textLane, Side side) =>
        lane > textLane || (lane == textLane - 1 && side is Side.Right or Side.Bottom);

    private static bool IsHit(PlacedDimension inner, WordedDimension outer) =>
        Hits(inner.Words.Width, inner.TextAt, outer.From) || Hits(inner.Words.Width, inner.TextAt, outer.To);

    private static bool Hits(double width, double textAt, double line) => Math.Abs(line - textAt) < (width / 2) + Air;

    /// <summary>
    /// Finds the best place for the text of a dimension in its lane, or null where its lane has no room for it. Best is the middle, then
    /// aside from it, then beyond the one line or the other.
    /// </summary>
    private PlacedDimension? FindText(WordedDimension word, Side side, int lane, List<PlacedDimension> placed, int self)
    {
        var lineAt = LineAt(side, lane);
        var (from, to, half) = (word.From, word.To, (word.Width / 2) + Air);
        var middle = (from + to) / 2;
        for (var aside = 0.0; middle + aside + half <= to; aside += 1)
        {
            if ((Try(middle + aside, to - from < RoomForArrows) ?? (aside == 0 ? null : Try(middle - aside, to - from < RoomForArrows))) is { } found)
            {
                return found;
            }
        }

        for (var beyond = Arrow + 1; beyond < FarthestText; beyond += 1)
        {
            if ((Try(to + beyond + half, true) ?? Try(from - beyond - half, true)) is { } found)
            {
                return found;
            }
        }

        return null;

        PlacedDimension? Try(double textAt, bool arrowsOutside)
        {
            foreach (var other in placed)
            {
                if (Passes(other.Lane, lane, side)
                    && (Hits(word.Width, textAt, other.Words.From) || Hits(word.Width, textAt, other.Words.To)))
                {
                    return null;
                }
            }

            var (start, end) = PlacedDimension.Reach(word, textAt, arrowsOutside);
            for (var i = 0; i < placed.Count; i++)
            {
                if (i != self && placed[i].Lane == lane && !AreApart(word, start, end, placed[i]))
                {
                    return null;
                }
            }

            // Texts beyond the end of a line may reach the corners of the sheet, where the lanes of the next side begin. A text that
            // stands on the other side of its line is clear of them, so there always is a choice.
            var option = new PlacedDimension(word, side, lane, lineAt, textAt, arrowsOutside);
            var area = option.LineArea.Grown(Air);
            foreach (var corner in word.IsAcross ? UprightSides : LevelSides)
            {
                foreach (var other in _sides[(int)corner])
                {
                    if (area.Meets(other.LineArea))
                    {
                        return null;
                    }
                }
            }

            return IsInTheWay(option) ? null : option;
        }
    }

    private static bool AreApart(WordedDimension word, double start, double end, PlacedDimension other) =>
        end + Apart <= other.LineStart || other.LineEnd + Apart <= start || IsLink(word, start, end, other);

    /// <summary>Links of a chain share an extension line and meet there with their arrowheads.</summary>
    private static bool IsLink(WordedDimension word, double start, double end, PlacedDimension other) =>
        (end <= word.To && other.LineStart >= other.Words.From && word.Dimension.To.At == other.Dimension.From.At)
        || (other.LineEnd <= other.Words.To && start >= word.From && other.Dimension.To.At == word.Dimension.From.At);
}
