using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Places callouts in a column on the left and one on the right of everything else, near what they speak of, with leaders that keep
/// clear of all words and, where it can be, of one another.
/// </summary>
/// <param name="face">The area of the card with all that hangs over it.</param>
/// <param name="taken">The area of everything placed so far; the columns begin outside it.</param>
/// <param name="words">The areas of the words placed so far.</param>
internal sealed class LeaderPlacer(Area face, Area taken, IReadOnlyList<Area> words)
{
    // Costs, in millimetres of leader. Running through words is worse than anything; what follows is only unlovely.
    private const double WordsCost = 2000;
    private const double CrossingCost = 120;
    private const double NearDotCost = 60;
    private const double SteepCost = 30;

    private const double ColumnGap = 5;
    private const int Rounds = 12;

    private readonly double _right = Math.Max(taken.Right + ColumnGap, face.Right + FirstLane) + Shoulder + ShoulderGap;
    private readonly double _left = Math.Min(taken.Left - ColumnGap, face.Left - FirstLane) - Shoulder - ShoulderGap;

    private sealed record Item(Callout Callout, IReadOnlyList<Spot> Dots);

    /// <summary>Places all callouts; the same callouts go to the same places.</summary>
    public IReadOnlyList<PlacedCallout> Place(IEnumerable<Callout> callouts, FaceView view)
    {
        var items = callouts.Select(callout => new Item(callout, [.. callout.Targets.SelectMany(view.PlacesOn)])).ToArray();
        var (left, right) = Share(items);
        return Improve([.. Column(left, onRight: false), .. Column(right, onRight: true)], items);
    }

    /// <summary>Gives each callout to the nearer column, then evens out a column that is too high.</summary>
    private (List<Item> Left, List<Item> Right) Share(IReadOnlyList<Item> items)
    {
        var byPull = items.OrderBy(Pull).ToList();
        var left = byPull.TakeWhile(item => Pull(item) < 0).ToList();
        var right = byPull.Skip(left.Count).ToList();
        var room = Math.Max(face.Bottom - face.Top, (byPull.Sum(Height) / 2) + 20);
        while (right.Sum(Height) > room && left.Sum(Height) + Height(right[0]) <= room)
        {
            left.Add(right[0]);
            right.RemoveAt(0);
        }

        while (left.Sum(Height) > room && right.Sum(Height) + Height(left[^1]) <= room)
        {
            right.Insert(0, left[^1]);
            left.RemoveAt(left.Count - 1);
        }

        return (left, right);

        // How much shorter its leader is to the left than to the right, negative if so.
        double Pull(Item item) => item.Dots.Min(dot => dot.X - _left) - item.Dots.Min(dot => _right - dot.X);
        static double Height(Item item) => PlacedCallout.HeightOf(item.Callout) + CalloutGap;
    }

    private List<PlacedCallout> Column(List<Item> items, bool onRight)
    {
        var column = onRight ? _right : _left;
        var middle = (face.Top + face.Bottom) / 2;
        var placed = items
            .Select(item => new PlacedCallout(
                item.Callout, onRight, column, 0,
                item.Dots.MinBy(dot => Math.Abs(column - dot.X) + (0.3 * Math.Abs(dot.Y - middle)))))
            .ToList();
        return Stack([.. placed.OrderBy(callout => callout.Dot.Y)]);
    }

    /// <summary>
    /// Stacks callouts in their order, each as near to the height of its dot as the others allow: neighbours that would overlap are
    /// joined to a block that lies in the middle of what its members wish (pool adjacent violators).
    /// </summary>
    private static List<PlacedCallout> Stack(List<PlacedCallout> column)
    {
        List<(double Top, double Height, int Count)> blocks = [];
        foreach (var callout in column)
        {
            var block = (Top: callout.Dot.Y - (TextHeight / 2), Height: callout.Height + CalloutGap, Count: 1);
            while (blocks.Count > 0 && blocks[^1].Top + blocks[^1].Height > block.Top)
            {
                var (before, count) = (blocks[^1], blocks[^1].Count + block.Count);
                var wish = ((before.Top * before.Count) + ((block.Top - before.Height) * block.Count)) / count;
                block = (wish, before.Height + block.Height, count);
                blocks.RemoveAt(blocks.Count - 1);
            }

            blocks.Add(block);
        }

        List<PlacedCallout> stacked = [];
        foreach (var block in blocks)
        {
            var top = block.Top;
            foreach (var callout in column.Skip(stacked.Count).Take(block.Count))
            {
                stacked.Add(callout with { Top = top });
                top += callout.Height + CalloutGap;
            }
        }

        return stacked;
    }

    /// <summary>Tries other dots, other heights and other orders, as long as the drawing gets better.</summary>
    private List<PlacedCallout> Improve(List<PlacedCallout> placed, IReadOnlyList<Item> items)
    {
        var dots = items.ToDictionary(item => item.Callout, item => Thinned(item.Dots));
        for (var round = 0; round < Rounds; round++)
        {
            var before = TotalCost(placed);
            for (var i = 0; i < placed.Count; i++)
            {
                placed = MoveDot(placed, i, dots[placed[i].Callout]);
                placed = MoveHeight(placed, i);
                placed = SwapWithNext(placed, i);
            }

            if (TotalCost(placed) >= before)
            {
                break;
            }
        }

        return placed;
    }

    private List<PlacedCallout> MoveDot(List<PlacedCallout> placed, int index, IReadOnlyList<Spot> dots)
    {
        var best = dots.MinBy(dot => CostOf(placed[index] with { Dot = dot }, placed, index));
        return CostOf(placed[index] with { Dot = best }, placed, index) < CostOf(placed[index], placed, index)
            ? Replaced(placed, index, placed[index] with { Dot = best })
            : placed;
    }

    private List<PlacedCallout> MoveHeight(List<PlacedCallout> placed, int index)
    {
        var best = placed;
        var least = TotalCost(placed);
        for (var by = -14; by <= 14; by++)
        {
            var moved = Replaced(placed, index, placed[index] with { Top = placed[index].Top + by });
            if (Fits(moved, index) && TotalCost(moved) is var cost && cost < least)
            {
                (best, least) = (moved, cost);
            }
        }

        return best;
    }

    private List<PlacedCallout> SwapWithNext(List<PlacedCallout> placed, int index)
    {
        if (index + 1 >= placed.Count || placed[index].OnRight != placed[index + 1].OnRight)
        {
            return placed;
        }

        var (upper, lower) = (placed[index], placed[index + 1]);
        var swapped = Replaced(placed, index, lower with { Top = upper.Top });
        swapped[index + 1] = upper with { Top = lower.Top + lower.Height - upper.Height };
        return Fits(swapped, index) && Fits(swapped, index + 1) && TotalCost(swapped) < TotalCost(placed) ? swapped : placed;
    }

    private static bool Fits(List<PlacedCallout> placed, int index) =>
        IsBelow(placed, index - 1, index) && IsBelow(placed, index, index + 1);

    private static bool IsBelow(List<PlacedCallout> placed, int upper, int lower) =>
        upper < 0 || lower >= placed.Count || placed[upper].OnRight != placed[lower].OnRight
        || placed[upper].Top + placed[upper].Height + CalloutGap <= placed[lower].Top + 1e-9;

    private static List<PlacedCallout> Replaced(List<PlacedCallout> placed, int index, PlacedCallout by)
    {
        List<PlacedCallout> copy = [.. placed];
        copy[index] = by;
        return copy;
    }

    /// <summary>At most some sixty of the dots, evenly taken: enough to choose from.</summary>
    private static Spot[] Thinned(IReadOnlyList<Spot> dots)
    {
        var every = (dots.Count / 60) + 1;
        return [.. dots.Where((_, i) => i % every == 0)];
    }

    private double TotalCost(List<PlacedCallout> placed)
    {
        var total = 0.0;
        for (var i = 0; i < placed.Count; i++)
        {
            total += CostOf(placed[i], placed, i);
        }

        return total;
    }

    private double CostOf(PlacedCallout own, List<PlacedCallout> placed, int index)
    {
        var (dot, knee) = (own.Dot, own.Knee);
        var cost = dot.To(knee);
        cost += WordsCost * words.Count(area => area.Grown(Air).Meets(dot, knee) || area.Grown(Air).Meets(knee, own.End));
        if (Math.Abs(dot.Y - knee.Y) > 1.7 * Math.Abs(dot.X - knee.X))
        {
            cost += SteepCost;
        }

        for (var i = 0; i < placed.Count; i++)
        {
            if (i == index)
            {
                continue;
            }

            var other = placed[i];
            cost += Plane.Cross(dot, knee, other.Dot, other.Knee) ? CrossingCost : 0;
            cost += Plane.Distance(other.Dot, dot, knee) < 1.5 || Plane.Distance(dot, other.Dot, other.Knee) < 1.5 ? NearDotCost : 0;
        }

        return cost;
    }
}
