using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Places callouts in a column on the left and one on the right of everything else, beside what they speak of, with level leaders
/// where there is room for them.
/// </summary>
/// <param name="finder">Where leaders may end, and what they cost.</param>
/// <param name="face">The area of the card with all that hangs over it.</param>
/// <param name="taken">The area of everything placed so far; the columns begin outside it.</param>
internal sealed class CalloutPlacer(LeaderFinder finder, Area face, Area taken)
{
    private const double ColumnGap = 4;
    private const double Step = 2.5;
    private const int FewestSteps = 6;
    private const int MostSwaps = 12;
    private const int MostDots = 5;
    private const int MostMoves = 3;
    private const double LeastGain = 4;

    private readonly double _right = Math.Max(taken.Right + ColumnGap, face.Right + FirstLane) + Shoulder + ShoulderGap;
    private readonly double _left = Math.Min(taken.Left - ColumnGap, face.Left - FirstLane) - Shoulder - ShoulderGap;

    /// <summary>A callout with its dots for either column, each with the cost of a level leader, the cheapest first.</summary>
    private sealed record Item(SizedCallout Sized, (Spot Dot, double Cost)[] Left, (Spot Dot, double Cost)[] Right)
    {
        public (Spot Dot, double Cost)[] Dots(bool onRight) => onRight ? Right : Left;
    }

    private readonly record struct Choice(Spot Dot, double Top, double Cost);

    /// <summary>Places all callouts; the same callouts go to the same places.</summary>
    public IReadOnlyList<PlacedCallout> Place(IEnumerable<Callout> callouts)
    {
        var items = callouts.Select(callout =>
        {
            var (left, right) = finder.DotsOf(callout.Targets);
            Spot[] hidden = left.Count > 0 ? [] : [finder.MiddleOf(callout.Targets[0])];
            var sized = new SizedCallout(callout);
            return new Item(sized, Cheapest(sized, [.. left, .. hidden], onRight: false), Cheapest(sized, [.. right, .. hidden], onRight: true));
        }).ToArray();
        var (left, right) = Share(items);
        var (placed, least) = Columns(left, right);
        for (var tries = 0; tries < MostMoves && WorstPlaced(placed, left, right) is { } worst; tries++)
        {
            // What is far from where it would like to be may do better in the other column.
            var (otherLeft, otherRight) = left.Contains(worst)
                ? (left.Where(item => item != worst).ToList(), right.Append(worst).ToList())
                : (left.Append(worst).ToList(), right.Where(item => item != worst).ToList());
            var (other, total) = Columns(otherLeft, otherRight);
            if (total >= least)
            {
                break;
            }

            (placed, least, left, right) = (other, total, otherLeft, otherRight);
        }

        return placed;
    }

    private (List<PlacedCallout> Placed, double Cost) Columns(List<Item> left, List<Item> right)
    {
        var (onLeft, leftCost) = Column(left, onRight: false);
        var (onRight, rightCost) = Column(right, onRight: true);
        return ([.. onLeft, .. onRight], leftCost + rightCost);
    }

    /// <summary>The callout that has most to gain in the other column, if any has.</summary>
    private Item? WorstPlaced(List<PlacedCallout> placed, List<Item> left, List<Item> right)
    {
        var (worst, most) = ((Item?)null, LeastGain);
        foreach (var item in left.Concat(right))
        {
            var now = placed.Find(one => one.Sized == item.Sized)!;
            var cost = CostOf(item.Sized, now.OnRight, now.Dot, now.Top + (TextHeight / 2) - now.Dot.Y);
            var gain = cost - item.Dots(!now.OnRight)[0].Cost;
            (worst, most) = gain > most ? (item, gain) : (worst, most);
        }

        return worst;
    }

    /// <summary>The cheapest dot at each of some heights, so that callouts that are in each other's way have others to choose.</summary>
    private (Spot Dot, double Cost)[] Cheapest(SizedCallout sized, Spot[] dots, bool onRight)
    {
        var byHeight = dots.Select(dot => (Dot: dot, Cost: CostOf(sized, onRight, dot, 0))).OrderBy(pair => pair.Dot.Y).ToArray();
        var bands = Math.Min(MostDots, byHeight.Length);
        return
        [
            .. Enumerable.Range(0, bands)
                .Select(band => byHeight[(byHeight.Length * band / bands)..(byHeight.Length * (band + 1) / bands)].MinBy(pair => pair.Cost))
                .OrderBy(pair => pair.Cost),
        ];
    }

    private double ColumnOn(bool onRight) => onRight ? _right : _left;

    private static double HeightOf(Item item) => item.Sized.Height + CalloutGap;

    /// <summary>Gives each callout to the column where its leader is cheaper, then evens out a column that is too high.</summary>
    private (List<Item> Left, List<Item> Right) Share(Item[] items)
    {
        var pulls = items.Select(item => (Item: item, Pull: Level(item, false) - Level(item, true))).OrderBy(pair => pair.Pull).ToArray();
        var left = pulls.TakeWhile(pair => pair.Pull < 0).Select(pair => pair.Item).ToList();
        var right = pulls.Skip(left.Count).Select(pair => pair.Item).ToList();
        var room = Math.Max(face.Bottom - face.Top, (items.Sum(HeightOf) / 2) + 20);
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

        static double Level(Item item, bool onRight) => item.Dots(onRight)[0].Cost;
    }

    /// <summary>What a leader costs whose level part lies lower than its dot by some way.</summary>
    private double CostOf(SizedCallout sized, bool onRight, Spot dot, double lower)
    {
        var (column, outwards) = (ColumnOn(onRight), onRight ? 1 : -1);
        var y = dot.Y + lower;
        return finder.Cost(new(
            dot, column - (outwards * (Shoulder + ShoulderGap)), column - (outwards * ShoulderGap), y, y - (TextHeight / 2) + sized.Height,
            sized.Callout.Targets[^1]));
    }

    /// <summary>Orders a column by its dots, then exchanges neighbours where that makes it cheaper.</summary>
    private (List<PlacedCallout> Placed, double Cost) Column(List<Item> items, bool onRight)
    {
        if (items.Count == 0)
        {
            return ([], 0);
        }

        var order = items.OrderBy(item => item.Dots(onRight)[0].Dot.Y).ToArray();
        var options = order.ToDictionary(item => item.Sized, _ => (List<Choice>)[]);
        var (best, least) = Fill(order, onRight, options);
        for (var (at, since) = (0, 0); since < order.Length - 1 && at < MostSwaps; at++)
        {
            // Round and round, until no exchange of two neighbours helps any more.
            var upper = at % (order.Length - 1);
            Item[] other = [.. order];
            (other[upper], other[upper + 1]) = (other[upper + 1], other[upper]);
            var (placed, total) = Fill(other, onRight, options);
            (order, best, least, since) = total < least ? (other, placed, total, 0) : (order, best, least, since + 1);
        }

        return (best, least);
    }

    /// <summary>
    /// Places a column in a given order, each callout as cheap as the others allow: of all choices of dots and heights the cheapest
    /// that follow one another, found from the top down with the cheapest so far at every height.
    /// </summary>
    private (List<PlacedCallout> Placed, double Cost) Fill(Item[] order, bool onRight, Dictionary<SizedCallout, List<Choice>> options)
    {
        for (var steps = FewestSteps; ; steps *= 2)
        {
            if (TryFill(order, onRight, options, steps) is { } filled)
            {
                return filled;
            }

            foreach (var list in options.Values)
            {
                list.Clear();
            }
        }
    }

    private (List<PlacedCallout> Placed, double Cost)? TryFill(Item[] order, bool onRight, Dictionary<SizedCallout, List<Choice>> options, int steps)
    {
        var best = new (double Cost, int Before)[order.Length][];
        for (var i = 0; i < order.Length; i++)
        {
            var choices = options[order[i].Sized];
            if (choices.Count == 0)
            {
                AddChoices(order[i], onRight, steps, choices);
            }

            best[i] = new (double, int)[choices.Count];
            var above = i == 0 ? null : options[order[i - 1].Sized];
            var (next, cheapest, at) = (0, i == 0 ? 0 : double.PositiveInfinity, -1);
            for (var c = 0; c < choices.Count; c++)
            {
                for (; above is not null && next < above.Count
                    && above[next].Top + HeightOf(order[i - 1]) <= choices[c].Top; next++)
                {
                    if (best[i - 1][next].Cost < cheapest)
                    {
                        (cheapest, at) = (best[i - 1][next].Cost, next);
                    }
                }

                best[i][c] = (cheapest + choices[c].Cost, at);
            }
        }

        var last = best[^1].Index().MinBy(entry => entry.Item.Cost).Index;
        if (double.IsPositiveInfinity(best[^1][last].Cost))
        {
            return null;
        }

        var total = best[^1][last].Cost;
        var placed = new PlacedCallout[order.Length];
        for (var i = order.Length - 1; i >= 0; i--)
        {
            var choice = options[order[i].Sized][last];
            placed[i] = new(order[i].Sized, onRight, ColumnOn(onRight), choice.Top, choice.Dot);
            last = best[i][last].Before;
        }

        for (var i = 0; i < placed.Length; i++)
        {
            for (var k = 0; k < i; k++)
            {
                total += LeaderFinder.Between(placed[i], placed[k]);
            }
        }

        return ([.. placed], total);
    }

    private void AddChoices(Item item, bool onRight, int steps, List<Choice> choices)
    {
        foreach (var (dot, level) in item.Dots(onRight))
        {
            for (var step = -steps; step <= steps; step++)
            {
                var cost = step == 0 ? level : CostOf(item.Sized, onRight, dot, step * Step);
                choices.Add(new(dot, dot.Y - (TextHeight / 2) + (step * Step), cost));
            }
        }

        choices.Sort((a, b) => a.Top.CompareTo(b.Top) is var byTop and not 0 ? byTop : a.Cost.CompareTo(b.Cost));
    }
}
