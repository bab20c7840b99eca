namespace Trimwright.Cutting;

/// <summary>What was planned for a lot.</summary>
internal sealed record LotPlan(List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing, WorthBound Bound, WorthBound? ShortProof)
{
    public long CostOf(Lot lot) => Sheets.Sum(sheet => sheet.Repeats * lot.Stocks[sheet.Pattern.Stock].Cost);

    public bool IsComplete => Missing.All(count => count == 0);
}

/// <summary>Plans one lot for the least cost.</summary>
internal sealed class LotPlanner
{
    private const int FirstSearch = 2_000;
    private const int DiveSearch = 12;
    private const int Gatherings = 2;
    private const int RoundsPerGathering = 40;
    private const int RoundsPerShortPlan = 50;

    private readonly Lot _lot;
    private readonly CuttingOptions _options;
    private readonly Action<int, long, long, long> _report;
    private readonly CancellationToken _cancel;
    private readonly long[] _demand;
    private readonly long[] _stock;
    private readonly ColumnSearch _columns;
    private readonly PlanRandom _random;
    private WorthBound _bound;

    public LotPlanner(Lot lot, CuttingOptions options, Action<int, long, long, long> report, CancellationToken cancel)
    {
        _lot = lot;
        _options = options;
        _report = report;
        _cancel = cancel;
        _demand = [.. lot.Shapes.Select(shape => shape.Demand)];
        _stock = [.. lot.Stocks.Select(stock => stock.Count)];
        _columns = new(lot);
        _random = new(options.Seed);
        _bound = SimpleBounds.ByArea(lot);
    }

    public LotPlan Plan()
    {
        Raise(SimpleBounds.ByNoTwoTogether(_lot));
        var master = _columns.Solve(_demand, _stock, FirstSearch, proveShort: false, _cancel);
        if (_columns.Bound is { } bound)
        {
            Raise(bound);
        }

        var best = Dive(master);
        Report(0, best);
        if (best.Missing.Any(count => count > 0) && _columns.ShortProof is null)
        {
            _columns.Solve(_demand, _stock, FirstSearch, proveShort: true, _cancel);
        }

        if (!IsProved(best) && !(_options.IsAnyCostGood && best.Missing.All(count => count == 0)))
        {
            // Where the stock is known to be too little, all that a search can do is to leave out a little less.
            var rounds = _columns.ShortProof is null ? _options.Rounds : _options.Rounds / RoundsPerShortPlan;
            best = new PlanImprover(_lot, _random, _options.IsAnyCostGood ? long.MaxValue : _bound.Bound, rounds, Report, _cancel).Improve(best.Sheets, best.Missing);
        }

        return new(BestLaid(best.Sheets), best.Missing, _bound, _columns.ShortProof);
    }

    /// <summary>The sheets as they are and gathered in a few ways, each laid again for leftovers and cuts; the best of them.</summary>
    private List<(Pattern Pattern, long Repeats)> BestLaid(List<(Pattern Pattern, long Repeats)> sheets)
    {
        var tidier = new Tidier(_lot, _options.TidySteps, _options.Seed, _cancel);
        var best = new LaidPlan(_lot, tidier.Tidy(sheets));
        for (var n = 0; n < Gatherings && _options.TidySteps > 0 && !_cancel.IsCancellationRequested; n++)
        {
            var other = new LaidPlan(_lot, tidier.Tidy(Gather(sheets)));
            best = other.CompareTo(best) > 0 ? other : best;
        }

        return best.Sheets;
    }

    // Only sheets that are one of a kind: those that are cut in stacks stay as they are.
    private List<(Pattern Pattern, long Repeats)> Gather(List<(Pattern Pattern, long Repeats)> sheets)
    {
        var kinds = sheets.GroupBy(sheet => sheet.Pattern.Key(), StringComparer.Ordinal)
            .Select(same => (same.First().Pattern, Repeats: same.Sum(sheet => sheet.Repeats))).ToList();
        var single = kinds.Where(kind => kind.Repeats == 1).Select(kind => kind.Pattern).ToList();
        new Relayer(_lot, _random).Gather(single, _options.Rounds / RoundsPerGathering, _cancel);
        return [.. kinds.Where(kind => kind.Repeats > 1), .. single.Select(pattern => (pattern, 1L))];
    }

    private void Raise(WorthBound bound) => _bound = bound.Bound > _bound.Bound ? bound : _bound;

    private bool IsProved((List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing) plan) =>
        plan.Missing.All(count => count == 0) && Cost(plan.Sheets) <= _bound.Bound;

    private long Cost(List<(Pattern Pattern, long Repeats)> sheets) => sheets.Sum(sheet => sheet.Repeats * _lot.Stocks[sheet.Pattern.Stock].Cost);

    private void Report(int rounds, (List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing) plan) =>
        _report(rounds, plan.Sheets.Sum(sheet => sheet.Repeats), Cost(plan.Sheets), _bound.Bound);

    /// <summary>
    /// Takes the patterns of the linear programme that are used whole, then the one that is used most, and solves again for what is left.
    /// </summary>
    private (List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing) Dive(Master master)
    {
        var left = (long[])_demand.Clone();
        var stock = (long[])_stock.Clone();
        var sheets = new List<(Pattern Pattern, long Repeats)>();
        while (left.Any(count => count > 0))
        {
            var uses = master.Uses();
            if (!TakeWhole(uses, left, stock, sheets) && !TakeMost(uses, left, stock, sheets))
            {
                break;
            }

            if (left.Any(count => count > 0))
            {
                master = _columns.Solve(left, stock, _cancel.IsCancellationRequested ? 0 : DiveSearch, proveShort: false, _cancel);
            }
        }

        return (sheets, left);
    }

    private static bool TakeWhole(
        List<(Pattern Pattern, long Millionths)> uses, long[] left, long[] stock, List<(Pattern Pattern, long Repeats)> sheets)
    {
        var taken = false;
        foreach (var (pattern, millionths) in uses)
        {
            var times = Math.Min((millionths + 100) / 1_000_000, stock[pattern.Stock]);
            for (var k = 0; k < left.Length; k++)
            {
                times = pattern.Counts[k] > 0 ? Math.Min(times, left[k] / pattern.Counts[k]) : times;
            }

            if (times > 0)
            {
                Take(pattern, times, left, stock, sheets);
                taken = true;
            }
        }

        return taken;
    }

    private bool TakeMost(
        List<(Pattern Pattern, long Millionths)> uses, long[] left, long[] stock, List<(Pattern Pattern, long Repeats)> sheets)
    {
        Pattern? best = null;
        var bestScore = 0L;
        foreach (var (pattern, millionths) in uses)
        {
            if (stock[pattern.Stock] > 0 && millionths > bestScore)
            {
                (best, bestScore) = (pattern, millionths);
            }
        }

        if (best is null)
        {
            return false;
        }

        var root = Thin(best.Root, left);
        var packer = new Packer(_lot);
        packer.Open(best.Stock, root);
        var counts = new Pattern(best.Stock, root, left.Length).Counts;
        var more = left.Select((count, k) => (int)Math.Min(count - counts[k], 1_000_000)).ToArray();
        packer.LayAll(more);
        var pattern2 = new Pattern(best.Stock, root, left.Length);
        if (pattern2.Counts.All(count => count == 0))
        {
            return false;
        }

        Take(pattern2, 1, left, stock, sheets);
        return true;
    }

    // Leaves out what is no longer wanted. With holding rules what is left is laid afresh, since its waste may not hold.
    private Part Thin(Part root, long[] left)
    {
        var copy = root.Copy();
        var leaves = new List<Part>();
        copy.Leaves(leaves);
        var counts = new long[left.Length];
        var thinned = false;
        foreach (var leaf in leaves)
        {
            if (leaf.Shape >= 0 && ++counts[leaf.Shape] > left[leaf.Shape])
            {
                leaf.Become(-1, turned: false);
                thinned = true;
            }
        }

        if (!thinned)
        {
            return copy;
        }

        copy.Merge();
        return !_lot.HasRules || copy.KeepsRules(_lot)
            ? copy
            : new Part(copy.Width, copy.Height);
    }

    private static void Take(Pattern pattern, long times, long[] left, long[] stock, List<(Pattern Pattern, long Repeats)> sheets)
    {
        for (var k = 0; k < left.Length; k++)
        {
            left[k] -= times * pattern.Counts[k];
        }

        stock[pattern.Stock] -= times;
        sheets.Add((pattern, times));
    }
}
