using Trimwright.Cutting;

namespace Trimwright.Batches;

/// <summary>One run of the planner over a batch, with the plans tried so far.</summary>
internal sealed class PlanningRun(FittedBatch fitted, IReadOnlyList<PiecedPanel> panels, CuttingOptions? options, CancellationToken cancel)
{
    private readonly JobMaker _jobs = new(fitted);

    // The last plan that makes everything, for so many of each card: what is kept when the search is ended.
    private (int[] Counts, CuttingResult Result, CuttingJob Job, IReadOnlyList<PiecedPanel> Pieced)? _kept;

    /// <summary>Plans so many of each card without windows, to know whether the stock will do.</summary>
    public CuttingResult Try(int[] counts)
    {
        var (result, job, pieced) = Try(counts, [], CuttingPlanner.PlanQuickly);
        if (result.Plan is { Missing.Count: 0 })
        {
            _kept = ((int[])counts.Clone(), result, job, pieced);
        }

        return result;
    }

    /// <summary>Why so many of each card cannot be planned whatever the stock: everything at once, before time is spent on a part of it.</summary>
    public IReadOnlyList<CuttingRefusal> Refusals(int[] counts) =>
        Try(counts, [], (job, options, cancel) => CuttingPlanner.PlanQuickly(job, options with { Rounds = 0 }, cancel)).Result.Refusals;

    /// <summary>Plans, and pieces panels from strips as far as the stock does not give them whole.</summary>
    private (CuttingResult Result, CuttingJob Job, IReadOnlyList<PiecedPanel> Pieced) Try(
        int[] counts, IReadOnlyList<SalvageWindow> windows, Func<CuttingJob, CuttingOptions, CancellationToken, CuttingResult> planner)
    {
        var pieced = panels;
        while (true)
        {
            var job = _jobs.Make(counts, windows, pieced);
            var result = planner(job, options ?? new(), cancel);
            var more = pieced.Select(panel => panel with { Count = panel.Count + Lacking(panel, result, job) }).ToList();
            if (cancel.IsCancellationRequested || more.Zip(pieced).All(pair => pair.First.Count == pair.Second.Count))
            {
                return (result, job, pieced);
            }

            pieced = more;
        }
    }

    /// <summary>How many of the whole panels the stock does not give.</summary>
    private long Lacking(PiecedPanel panel, CuttingResult result, CuttingJob job)
    {
        bool Is(string? id) => id is not null && ReferenceEquals(BatchIds.PartOf(fitted, id).Part, panel.Panel);
        return result.Plan is { } plan
            ? plan.Missing.Where(missing => Is(missing.Piece)).Sum(missing => missing.Count)
            : result.Refusals.Any(refusal => refusal.Reason is RefusalReason.PieceTooLarge or RefusalReason.PieceCannotBeHeld && Is(refusal.Piece))
                ? job.Pieces.Where(piece => Is(piece.Id)).Sum(piece => piece.Count)
                : 0;
    }

    /// <summary>
    /// Raises the count of one card as far as the stock goes: doubling, then halving the step. Returns refusals when not even one can be
    /// planned at all.
    /// </summary>
    public IReadOnlyList<CuttingRefusal> MostOf(int[] counts, int card, List<StopReason> stops)
    {
        var (most, step) = (counts[card], 1);
        CuttingResult? failed = null;
        var tooMany = BatchReader.MostCards + 1;
        while (most < BatchReader.MostCards && !cancel.IsCancellationRequested)
        {
            step = Math.Min(step, BatchReader.MostCards - most);
            counts[card] = most + step;
            var result = Try(counts);
            if (result.Refusals.Count > 0)
            {
                counts[card] = most;
                return result.Refusals;
            }

            if (result.Plan!.Missing.Count == 0)
            {
                (most, step) = (most + step, step * 2);
                continue;
            }

            // A search that was ended has not failed.
            if (cancel.IsCancellationRequested)
            {
                break;
            }

            (failed, tooMany) = (result, most + step);
            break;
        }

        // Between the last that went and the first that did not.
        while (failed is not null && tooMany - most > 1 && !cancel.IsCancellationRequested)
        {
            var middle = most + ((tooMany - most) / 2);
            counts[card] = middle;
            var result = Try(counts);
            if (result.Plan!.Missing.Count == 0)
            {
                most = middle;
            }
            else if (!cancel.IsCancellationRequested)
            {
                (failed, tooMany) = (result, middle);
            }
        }

        counts[card] = most;
        if (failed?.Plan is { } plan && tooMany - most == 1)
        {
            // Of what is missing, what is proved to be short comes before what may only have been left out.
            var proved = plan.Lots.Where(lot => lot.State == PlanState.ProvedIncomplete).SelectMany(lot => lot.Pieces).ToHashSet(StringComparer.Ordinal);
            var parts = plan.Missing.Where(missing => proved.Count == 0 || proved.Contains(missing.Piece))
                .Select(missing => BatchIds.PartOf(fitted, missing.Piece).Part).ToList();
            stops.Add(new(fitted.Cards[card], parts, proved.Count > 0));
        }

        return [];
    }

    /// <summary>
    /// The best mix by worth of the cards of which as many as possible are wanted, next to those that are wanted in any case; null where it is not
    /// found in one go. What is wanted in any case weighs more than all the rest together.
    /// </summary>
    public (int[] Counts, bool IsProved)? BestMix()
    {
        var sets = new List<WantedSet>();
        var rest = fitted.Cards.Where(card => card.Wanted.AsManyAsPossible).Sum(card => (long)card.Wanted.Worth * BatchReader.MostCards);
        if (rest >= CuttingPlanner.GreatestCost && fitted.Cards.Any(card => card.Wanted.Count > 0))
        {
            return null;
        }

        for (var c = 0; c < fitted.Cards.Count; c++)
        {
            var (card, number) = (fitted.Cards[c], c);
            var parts = card.Parts.Select((part, p) => new SetPart(BatchIds.Of(number, p), part.Line.Count)).Where((_, p) => !IsStrip(card.Parts[p])).ToList();
            if (card.Wanted.Count > 0)
            {
                sets.Add(new(Name(c, "needed"), parts) { Weight = rest + 1, AtMost = card.Wanted.Count });
            }

            if (card.Wanted.AsManyAsPossible)
            {
                sets.Add(new(Name(c, "more"), parts) { Weight = card.Wanted.Worth, AtMost = BatchReader.MostCards - card.Wanted.Count });
            }
        }

        var one = fitted.Cards.Select(_ => 1).ToArray();
        var found = SetPlanner.Find(_jobs.Make(one, [], panels), sets, options, cancel);
        if (found.Refusals.Count > 0 || cancel.IsCancellationRequested)
        {
            return null;
        }

        long Made(int c, string kind) => found.Sets.FirstOrDefault(set => set.Set == Name(c, kind))?.Count ?? 0;
        var counts = fitted.Cards.Select((_, c) => (int)(Made(c, "needed") + Made(c, "more"))).ToArray();
        return fitted.Cards.Select((card, c) => Made(c, "needed") == card.Wanted.Count).All(isMade => isMade) ? (counts, found.IsProved) : null;

        static string Name(int card, string kind) => FormattableString.Invariant($"{card} {kind}");
        bool IsStrip(BatchPart part) => panels.Any(panel => ReferenceEquals(panel.First, part) || ReferenceEquals(panel.Second, part));
    }

    /// <summary>What a mix is worth.</summary>
    public long Worth(IReadOnlyList<int> counts) =>
        fitted.Cards.Select((card, c) => card.Wanted.AsManyAsPossible ? (long)card.Wanted.Worth * counts[c] : 0).Sum();

    /// <summary>The plan for so many of each card, with windows where they save something or are asked for.</summary>
    public BatchPlan Best(int[] counts)
    {
        var plain = Planned(counts, [], CuttingPlanner.Plan);
        var use = fitted.Batch.Salvage;
        if (use == SalvageUse.Never || cancel.IsCancellationRequested || _jobs.Windows(counts) is not { Count: > 0 } windows)
        {
            return plain;
        }

        return IsBetter(Planned(counts, windows, CuttingPlanner.PlanQuickly)) && Planned(counts, windows, CuttingPlanner.Plan) is var salvaged && IsBetter(salvaged)
            ? salvaged
            : plain;

        bool IsBetter(BatchPlan salvaged) => salvaged.Salvage.Count > 0
            && (Saves(salvaged, plain) || (use == SalvageUse.Always && salvaged.Cutting.Missing.Count <= plain.Cutting.Missing.Count));
    }

    private static bool Saves(BatchPlan salvaged, BatchPlan plain) =>
        (salvaged.Cutting.Missing.Count == 0 && plain.Cutting.Missing.Count > 0) || NewCost(salvaged) < NewCost(plain);

    // The costs of two jobs are not on one scale: new sheets are made dearer where there is more to use up.
    private static long NewCost(BatchPlan plan) => plan.Cutting.Sheets
        .Sum(sheet => plan.SheetOf(sheet.Stock) is { IsOffcut: false } stock ? JobMaker.CostOf(stock) * sheet.Repeats : 0);

    private BatchPlan Planned(
        int[] counts, IReadOnlyList<SalvageWindow> windows, Func<CuttingJob, CuttingOptions, CancellationToken, CuttingResult> planner)
    {
        var (result, job, pieced) = Try(counts, windows, planner);
        if (cancel.IsCancellationRequested && result.Plan is not { Missing.Count: 0 } && windows.Count == 0 && _kept is { } kept && kept.Counts.SequenceEqual(counts))
        {
            (result, job, pieced) = (kept.Result with { Plan = kept.Result.Plan! with { Cancelled = true } }, kept.Job, kept.Pieced);
        }

        var plan = result.Plan ?? throw new InvalidOperationException("a job that could be planned no longer can");
        return new()
        {
            Batch = fitted,
            Cards = [.. fitted.Cards.Select((card, c) => new MadeCards(card, counts[c]))],
            Job = job,
            Cutting = plan,
            Salvage =
            [
                .. windows.Select(window => window with { Used = (int)plan.Sheets.Where(sheet => sheet.Stock == window.Id).Sum(sheet => sheet.Repeats) })
                    .Where(window => window.Used > 0),
            ],
            Pieced = [.. pieced.Where(panel => panel.Count > 0)],
            Stops = [],
            CountsSheets = _jobs.CountsSheets,
        };
    }
}
