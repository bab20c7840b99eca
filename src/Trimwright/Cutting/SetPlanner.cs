namespace Trimwright.Cutting;

/// <summary>Finds the most sets, or the best mix of sets by weight, that a stock gives.</summary>
public static class SetPlanner
{
    private const int MostTries = 40;

    /// <summary>
    /// Finds as many as it can. The counts of the pieces in the job mean nothing here: the sets say what is wanted. What weighs most together is
    /// best; the plan for it is then the cheapest that is found.
    /// </summary>
    /// <param name="job">Pieces, stock and rules.</param>
    /// <param name="sets">The sets; their order breaks ties.</param>
    /// <param name="options">Limits of each planning run.</param>
    /// <param name="cancel">Ends the search; the best so far is kept.</param>
    public static MostSets Find(
        CuttingJob job, IReadOnlyList<WantedSet> sets, CuttingOptions? options = null, CancellationToken cancel = default)
    {
        options ??= new();
        var used = sets.SelectMany(set => set.Parts).Select(part => part.Piece).ToHashSet(StringComparer.Ordinal);
        var joins = job.Joins.Where(join => used.Contains(join.Piece)).ToList();
        var parts = joins.SelectMany(join => join.Parts).ToHashSet(StringComparer.Ordinal);
        var (whole, _, refusals) = JoinChecks.Check(job with
        {
            Pieces = [.. job.Pieces.Where(piece => used.Contains(piece.Id) || parts.Contains(piece.Id)).Select(piece => piece with { Count = used.Contains(piece.Id) ? 1 : 0 })],
            Joins = joins,
        });
        Check(job, whole, sets, refusals);
        if (refusals.Count > 0)
        {
            return new() { Refusals = refusals };
        }

        var limits = Limits(sets);
        var bound = new SetBound(WithCounts(whole, sets, limits), sets);
        var counts = bound.Solve(limits, cancel);
        var most = sets.Select((set, n) => set.Weight * limits[n]).Sum();
        var isLimit = bound.Proof is null || bound.Proof.Bound >= most;
        var (best, plan) = Search(whole, sets, counts, limits, isLimit ? most : bound.Proof!.Bound, options, cancel);
        return new()
        {
            Sets = [.. sets.Select((set, n) => new SetCount(set.Id, best[n]))],
            Weight = Weight(sets, best),
            Bound = isLimit ? most : bound.Proof!.Bound,
            Proof = isLimit ? null : bound.Proof,
            RunsOut = isLimit ? [] : RunsOut(job, bound.Proof!),
            RunsOutFor = isLimit ? [] : RunsOutFor(bound.Proof!, sets, best),
            Plan = plan,
        };
    }

    private static void Check(CuttingJob job, CuttingJob whole, IReadOnlyList<WantedSet> sets, List<CuttingRefusal> refusals)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var set in sets)
        {
            var pieces = set.Parts.Select(part => whole.Pieces.FirstOrDefault(piece => piece.Id == part.Piece)).ToList();
            if (!ids.Add(set.Id))
            {
                refusals.Add(new(RefusalReason.SameId, Stock: set.Id));
            }

            if (pieces.Count == 0 || pieces.Contains(null) || set.Weight < 1 || set.Weight > CuttingPlanner.GreatestCost || set.AtMost is < 1
                || set.Parts.Any(part => part.Each < 1 || part.Each > CuttingPlanner.MostPieces)
                || set.Brings.Any(brought => brought.Each < 1 || brought.Each > CuttingPlanner.MostPieces || job.Stock.All(sheet => sheet.Id != brought.Stock)))
            {
                refusals.Add(new(RefusalReason.SetOutOfRange, Stock: set.Id));
            }
            else if (set.AtMost is null && pieces.All(piece => job.Stock.Any(sheet => sheet.Count is null && piece!.MayComeFrom(sheet.Id))))
            {
                refusals.Add(new(RefusalReason.SetWithoutEnd, Stock: set.Id));
            }
        }
    }

    // A limit for each set: its own, or as many pieces as can be planned. Nothing tighter: a limit of ours would stand in the way of a proof.
    private static long[] Limits(IReadOnlyList<WantedSet> sets) =>
        [.. sets.Select(set => Math.Min(
            set.AtMost ?? long.MaxValue, Math.Max(1, CuttingPlanner.MostPieces / sets.Count / set.Parts.Sum(part => part.Each))))];

    private static CuttingJob WithCounts(CuttingJob job, IReadOnlyList<WantedSet> sets, IReadOnlyList<long> counts)
    {
        var pieces = job.Pieces.Select(piece => piece with
        {
            Count = sets.Select((set, n) => counts[n] * set.Parts.Where(part => part.Piece == piece.Id).Sum(part => part.Each)).Sum(),
        }).ToList();
        var joins = job.Joins.Where(join => pieces.Exists(piece => piece.Id == join.Piece && piece.Count > 0)).ToList();
        var parts = joins.SelectMany(join => join.Parts).ToHashSet(StringComparer.Ordinal);
        var brought = sets.SelectMany(set => set.Brings).Select(brought => brought.Stock).ToHashSet(StringComparer.Ordinal);
        long Brought(string id) => sets.Select((set, n) => counts[n] * set.Brings.Where(brought => brought.Stock == id).Sum(brought => brought.Each)).Sum();
        var stock = job.Stock.Select(sheet => brought.Contains(sheet.Id) ? sheet with { Count = Brought(sheet.Id) } : sheet).Where(sheet => sheet.Count is not 0).ToList();
        return StockUse.OutOf(job with { Pieces = [.. pieces.Where(piece => piece.Count > 0 || parts.Contains(piece.Id))], Joins = joins }, stock);
    }

    private static (long[] Counts, CuttingPlan? Plan) Search(
        CuttingJob job, IReadOnlyList<WantedSet> sets, long[] counts, long[] limits, long bound, CuttingOptions options, CancellationToken cancel)
    {
        var tries = 0;
        CuttingPlan? plan = null;
        counts = (long[])counts.Clone();

        // Down, in longer and longer steps, until everything comes out.
        for (var step = 1L; counts.Any(count => count > 0) && (plan = Try(counts)) is null; step *= 2)
        {
            var lightest = Enumerable.Range(0, counts.Length).Where(n => counts[n] > 0).MinBy(n => sets[n].Weight);
            counts[lightest] -= Math.Min(counts[lightest], step);
        }

        // Up again, in shorter and shorter steps, the weightiest first.
        foreach (var n in Enumerable.Range(0, counts.Length).OrderByDescending(n => sets[n].Weight).ThenBy(n => n))
        {
            var step = Math.Max(1, Math.Min(limits[n] - counts[n], (bound - Weight(sets, counts)) / sets[n].Weight));
            while (step > 0 && tries < MostTries && !cancel.IsCancellationRequested)
            {
                var more = (long[])counts.Clone();
                more[n] += step;
                if (more[n] <= limits[n] && Weight(sets, more) <= bound && Try(more) is { } better)
                {
                    (counts, plan) = (more, better);
                }
                else
                {
                    step /= 2;
                }
            }
        }

        return (counts, plan is null ? null : InFull(WithCounts(job, sets, counts), plan, options, cancel));

        CuttingPlan? Try(long[] wanted)
        {
            tries++;
            var result = CuttingPlanner.PlanQuickly(WithCounts(job, sets, wanted), options, cancel).Plan;
            return result is { Missing.Count: 0 } ? result : null;
        }
    }

    // A search that was ended may have less than the plan that is known, which was not looked at for less cost.
    private static CuttingPlan InFull(CuttingJob job, CuttingPlan known, CuttingOptions options, CancellationToken cancel)
    {
        var full = cancel.IsCancellationRequested ? null : CuttingPlanner.Plan(job, options, cancel).Plan;
        if (!cancel.IsCancellationRequested || full is { State: PlanState.ProvedCheapest })
        {
            return full is { Missing.Count: 0 } ? full : known;
        }

        var brief = CuttingPlanner.PlanBriefly(job, options).Plan;
        return new[] { full, brief, known }.OfType<CuttingPlan>().Where(plan => plan.Missing.Count == 0).MinBy(plan => plan.Cost)! with { Cancelled = true };
    }

    private static long Weight(IReadOnlyList<WantedSet> sets, IReadOnlyList<long> counts) => sets.Select((set, n) => set.Weight * counts[n]).Sum();

    private static IReadOnlyList<string> RunsOut(CuttingJob job, MostProof proof) =>
        [.. proof.Sheets.Where(sheet => sheet.Most > 0)
            .OrderByDescending(sheet => sheet.Most * (Int128)(job.Stock.First(stock => stock.Id == sheet.Stock).Count ?? 0)).Select(sheet => sheet.Stock)];

    private static IReadOnlyList<string> RunsOutFor(MostProof proof, IReadOnlyList<WantedSet> sets, long[] counts) =>
        [.. proof.Pieces.Where(piece => piece.Worth > 0)
            .OrderByDescending(piece => sets.Select((set, n) => (Int128)Math.Max(counts[n], 1) * set.Parts.Where(part => part.Piece == piece.Piece)
                .Sum(part => part.Each)).Aggregate((a, b) => a + b) * piece.Worth)
            .Select(piece => piece.Piece)];
}
