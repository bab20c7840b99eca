using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Places callouts in a column on the left and one on the right of everything else, near what they speak of, with leaders that keep
/// clear of all words and, where it can be, of one another.
/// </summary>
/// <param name="face">The area of the card with all that hangs over it.</param>
/// <param name="taken">The area of everything placed so far; the columns begin outside it.</param>
/// <param name="cost">What a leader costs.</param>
internal sealed class LeaderPlacer(Area face, Area taken, LeaderCost cost)
{
    private const double ColumnGap = 5;
    private const int Rounds = 8;

    /// <summary>Heights are tried in steps of 2 mm, this far above and below the face and what the callouts need.</summary>
    private const int Beyond = 24;

    private const int Step = 2;

    private readonly double _right = Math.Max(taken.Right + ColumnGap, face.Right + FirstLane) + Shoulder + ShoulderGap;
    private readonly double _left = Math.Min(taken.Left - ColumnGap, face.Left - FirstLane) - Shoulder - ShoulderGap;

    private sealed record Item(Callout Callout, IReadOnlyList<Spot> Dots);

    /// <summary>Places all callouts; the same callouts go to the same places.</summary>
    public IReadOnlyList<PlacedCallout> Place(IEnumerable<Callout> callouts)
    {
        var items = callouts.Select(callout => new Item(callout, cost.DotsFor(callout))).ToArray();
        var (left, right) = Share(items);

        // Step by step a search may end where only two steps at once would help: so it is begun in two orders, in two ways.
        List<PlacedCallout> best = [];
        var least = double.PositiveInfinity;
        foreach (var towardsMiddle in new[] { 0.3, 0 })
        {
            List<PlacedCallout> start =
                [.. Column(left, onRight: false, towardsMiddle), .. Column(right, onRight: true, towardsMiddle)];
            foreach (var dotsAnew in new[] { false, true })
            {
                var placed = Improve(start, items, dotsAnew);
                if (Total(placed) is var total && total < least)
                {
                    (best, least) = (placed, total);
                }
            }
        }

        return best;
    }

    private double Total(List<PlacedCallout> placed)
    {
        var total = 0.0;
        for (var i = 0; i < placed.Count; i++)
        {
            total += cost.Alone(placed[i], double.PositiveInfinity) + placed.Take(i).Sum(other => LeaderCost.Between(placed[i], other));
        }

        return total;
    }

    private static double HeightOf(Item item) => PlacedCallout.HeightOf(item.Callout) + CalloutGap;

    private static int Steps(Item item) => (int)Math.Ceiling(HeightOf(item) / Step);

    /// <summary>Gives each callout to the nearer column, then evens out a column that is too high.</summary>
    private (List<Item> Left, List<Item> Right) Share(IReadOnlyList<Item> items)
    {
        var byPull = items.OrderBy(Pull).ToList();
        var left = byPull.TakeWhile(item => Pull(item) < 0).ToList();
        var right = byPull.Skip(left.Count).ToList();
        var room = Math.Max(face.Bottom - face.Top, (byPull.Sum(HeightOf) / 2) + 20);
        while (right.Sum(HeightOf) > room && left.Sum(HeightOf) + HeightOf(right[0]) <= room)
        {
            left.Add(right[0]);
            right.RemoveAt(0);
        }

        while (left.Sum(HeightOf) > room && right.Sum(HeightOf) + HeightOf(left[^1]) <= room)
        {
            right.Insert(0, left[^1]);
            left.RemoveAt(left.Count - 1);
        }

        return (left, right);

        // How much shorter its leader is to the left than to the right, negative if so.
        double Pull(Item item) => item.Dots.Min(dot => dot.X - _left) - item.Dots.Min(dot => _right - dot.X);
    }

    /// <summary>
    /// Places a column: in the order of the dots, each callout as cheap as the others allow. With the order fixed and without what
    /// leaders cost each other, trying every height from the top down while remembering the cheapest finds the best there is.
    /// </summary>
    private List<PlacedCallout> Column(List<Item> items, bool onRight, double towardsMiddle)
    {
        if (items.Count == 0)
        {
            return [];
        }

        var column = onRight ? _right : _left;
        var ordered = items.OrderBy(item => Foremost(item, column, towardsMiddle).Y).ToArray();
        var need = ordered.Sum(item => Steps(item) * Step);
        var first = (int)Math.Floor(face.Top - Beyond - Math.Max(0, (need - (face.Bottom - face.Top)) / 2));
        var last = (int)Math.Ceiling(face.Bottom + Beyond + Math.Max(0, (need - (face.Bottom - face.Top)) / 2));
        var heights = ((last - first) / Step) + 1;
        var best = new (double Cost, int At)[ordered.Length, heights];
        var choices = new PlacedCallout[ordered.Length, heights];
        var skip = 0;
        for (var i = 0; i < ordered.Length; i++)
        {
            for (var y = 0; y < heights; y++)
            {
                best[i, y] = y == 0 ? (double.PositiveInfinity, 0) : best[i, y - 1];
                var above = i == 0 ? 0 : y - skip >= 0 ? best[i - 1, y - skip].Cost : double.PositiveInfinity;
                if (double.IsPositiveInfinity(above))
                {
                    continue;
                }

                var (choice, alone) = Cheapest(ordered[i], onRight, column, first + (Step * y));
                choices[i, y] = choice;
                if (above + alone < best[i, y].Cost)
                {
                    best[i, y] = (above + alone, y);
                }
            }

            skip = Steps(ordered[i]);
        }

        var placed = new PlacedCallout[ordered.Length];
        var limit = heights - 1;
        for (var i = ordered.Length - 1; i >= 0; i--)
        {
            var at = best[i, limit].At;
            placed[i] = choices[i, at];
            limit = i == 0 ? 0 : at - Steps(ordered[i - 1]);
        }

        return [.. placed];
    }

    /// <summary>The dot that is nearest to a column, with some pull towards the middle of the face.</summary>
    private Spot Foremost(Item item, double column, double towardsMiddle)
    {
        var middle = (face.Top + face.Bottom) / 2;
        return item.Dots.MinBy(dot => Math.Abs(column - dot.X) + (towardsMiddle * Math.Abs(dot.Y - middle)));
    }

    private (PlacedCallout Choice, double Cost) Cheapest(Item item, bool onRight, double column, double top)
    {
        // Cheap ones first, so that counting the cost of the others ends early.
        PlacedCallout? best = null;
        var least = double.PositiveInfinity;
        foreach (var dot in item.Dots.OrderBy(dot => Math.Abs(dot.X - column) + Math.Abs(dot.Y - top)))
        {
            var choice = new PlacedCallout(item.Callout, onRight, column, top, dot);
            var alone = cost.Alone(choice, least);
            if (best is null || alone < least)
            {
                (best, least) = (choice, alone);
            }
        }

        return (best!, least);
    }

    /// <summary>Tries other dots, other heights and other orders, as long as the drawing gets better.</summary>
    private List<PlacedCallout> Improve(List<PlacedCallout> placed, IReadOnlyList<Item> items, bool dotsAnew)
    {
        var dots = items.ToDictionary(item => item.Callout, item => item.Dots);
        for (var round = 0; round < Rounds; round++)
        {
            var before = placed;
            for (var i = 0; i < placed.Count; i++)
            {
                placed = MoveDot(placed, i, dots[placed[i].Callout]);
                placed = MoveHeight(placed, i);
                placed = SwapWithNext(placed, i, dotsAnew ? dots : null);
            }

            if (placed == before)
            {
                break;
            }
        }

        return placed;
    }

    // What two leaders cost each other is the same for both, so what makes one callout cheaper makes the whole cheaper.
    private List<PlacedCallout> MoveDot(List<PlacedCallout> placed, int index, IReadOnlyList<Spot> dots)
    {
        var (best, least) = (placed, CostOf(placed[index], placed, index, double.PositiveInfinity));
        foreach (var dot in dots)
        {
            var moved = placed[index] with { Dot = dot };
            if (CostOf(moved, placed, index, least) is var now && now < least)
            {
                (best, least) = (Replaced(placed, index, moved), now);
            }
        }

        return best;
    }

    private List<PlacedCallout> MoveHeight(List<PlacedCallout> placed, int index)
    {
        var (best, least) = (placed, CostOf(placed[index], placed, index, double.PositiveInfinity));
        for (var by = -14; by <= 14; by++)
        {
            var moved = placed[index] with { Top = placed[index].Top + by };
            var fits = (index == 0 || IsBelow(placed[index - 1], moved))
                && (index + 1 == placed.Count || IsBelow(moved, placed[index + 1]));
            if (fits && CostOf(moved, placed, index, least) is var now && now < least)
            {
                (best, least) = (Replaced(placed, index, moved), now);
            }
        }

        return best;
    }

    private List<PlacedCallout> SwapWithNext(
        List<PlacedCallout> placed, int index, Dictionary<Callout, IReadOnlyList<Spot>>? dots)
    {
        if (index + 1 >= placed.Count || placed[index].OnRight != placed[index + 1].OnRight)
        {
            return placed;
        }

        var (upper, lower) = (placed[index], placed[index + 1]);
        var swapped = Replaced(placed, index, lower with { Top = upper.Top });
        swapped[index + 1] = upper with { Top = lower.Top + lower.Height - upper.Height };
        if (!Fits(swapped, index) || !Fits(swapped, index + 1))
        {
            return placed;
        }

        // Where dots are given both choose anew, since the old ones were best for the old order.
        for (var i = index; dots is not null && i <= index + 1; i++)
        {
            swapped = MoveHeight(MoveDot(swapped, i, dots[swapped[i].Callout]), i);
        }

        return CostOfPair(swapped) < CostOfPair(placed) ? swapped : placed;

        // What the two cost each other is in the cost of both, and counts once.
        double CostOfPair(List<PlacedCallout> all) =>
            CostOf(all[index], all, index, double.PositiveInfinity) + CostOf(all[index + 1], all, index + 1, double.PositiveInfinity)
            - LeaderCost.Between(all[index], all[index + 1]);
    }

    private static bool Fits(List<PlacedCallout> placed, int index) =>
        (index == 0 || IsBelow(placed[index - 1], placed[index]))
        && (index + 1 == placed.Count || IsBelow(placed[index], placed[index + 1]));

    private static bool IsBelow(PlacedCallout upper, PlacedCallout lower) =>
        upper.OnRight != lower.OnRight || upper.Top + upper.Height + CalloutGap <= lower.Top + 1e-9;

    private static List<PlacedCallout> Replaced(List<PlacedCallout> placed, int index, PlacedCallout by)
    {
        List<PlacedCallout> copy = [.. placed];
        copy[index] = by;
        return copy;
    }

    private double CostOf(PlacedCallout own, List<PlacedCallout> placed, int index, double limit)
    {
        var total = 0.0;
        for (var i = 0; i < placed.Count; i++)
        {
            total += i == index ? 0 : LeaderCost.Between(own, placed[i]);
        }

        return total >= limit ? total : total + cost.Alone(own, limit - total);
    }
}
