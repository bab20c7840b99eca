using Trimwright.Cutting;

namespace Trimwright.Batches;

/// <summary>One run of the planner over a batch, with the plans tried so far.</summary>
internal sealed class PlanningRun(FittedBatch fitted, IReadOnlyList<PiecedPanel> ways, CuttingOptions? options, CancellationToken cancel)
{
    private readonly JobMaker _jobs = new(fitted, ways);

    // The last plan that makes everything, for so many of each card: what is kept when the search is ended.
    private (int[] Counts, Solved Solved)? _kept;

    private sealed record Solved(CuttingResult Result, CuttingJob Job, IReadOnlyList<SalvageWindow> Windows, bool LeftOut = false);

    /// <summary>Plans so many of each card, with all windows that may be cut, and tells whether everything can be made.</summary>
    /// <returns>The plan or refusals, and whether what is missing is missing without any doubt of ours.</returns>
    public (CuttingResult Result, bool IsSure) Try(int[] counts)
    {
        var solved = Solve(counts, Windows(counts), null, job => CuttingPlanner.PlanQuickly(job, options ?? new(), cancel));
        if (solved.Result.Plan is { Missing.Count: 0 })
        {
            _kept = ((int[])counts.Clone(), solved);
        }

        return (solved.Result, !solved.LeftOut);
    }

    /// <summary>Why so many of each card cannot be planned whatever the stock: everything at once, before time is spent on a part of it.</summary>
    public IReadOnlyList<CuttingRefusal> Refusals(int[] counts) =>
        CuttingPlanner.Refusals(_jobs.Make(counts, Windows(counts)), options ?? new(), cancel);

    /// <summary>
    /// Plans. A seam over a hole does not hold: where windows would come to lie below pieced panels, it is planned again without those windows, and
    /// again with those panels whole, and the cheaper plan is kept. So many panels of a kind as are whole may have windows below them.
    /// </summary>
    private Solved Solve(
        int[] counts, IReadOnlyList<SalvageWindow> windows, IReadOnlyDictionary<string, long>? given, Func<CuttingJob, CuttingResult> plan, params IReadOnlyList<PiecedPanel> barred)
    {
        var job = _jobs.Make(counts, windows, given, barred);
        var result = plan(job);
        var bad = windows.Where(window => result.Plan is { } found && UsedOf(window, found) is > 0 and var used && used > window.Available - PiecedOn(window, found)).ToList();
        if (bad.Count == 0)
        {
            return new(result, job, windows);
        }

        var closed = Solve(counts, [.. windows.Except(bad)], null, plan, barred);
        var whole = Solve(counts, windows, given, plan, [.. barred, .. ways.Where(way => bad.Exists(window => LiesOn(way, window)))]);
        return (Rank(whole).CompareTo(Rank(closed)) <= 0 ? whole : closed) with { LeftOut = true };
    }

    private (int Refused, int Missing, long Cost) Rank(Solved solved) => solved.Result.Plan is { } found ? (0, found.Missing.Count, NewCost(found)) : (1, 0, 0);

    /// <summary>
    /// Plans in full. Where the search was ended, what was found until then, a brief look for less cost, and the last plan tried stand beside each
    /// other, and the cheapest is kept: the plans tried are only asked whether the stock will do.
    /// </summary>
    private Solved SolveInFull(int[] counts, IReadOnlyList<SalvageWindow> windows, IReadOnlyDictionary<string, long>? given)
    {
        var kept = _kept is { } last && last.Counts.SequenceEqual(counts) ? last.Solved : null;
        var found = kept is not null && cancel.IsCancellationRequested ? null : Solve(counts, windows, given, job => CuttingPlanner.Plan(job, options, cancel));
        if (found is not null && (kept is null || !cancel.IsCancellationRequested || found.Result.Plan is { State: PlanState.ProvedCheapest }))
        {
            return found;
        }

        var brief = Solve(counts, Windows(counts), null, job => CuttingPlanner.PlanBriefly(job, options ?? new()));
        var best = new[] { found, brief, kept }.OfType<Solved>().MinBy(Rank)!;
        return best with { Result = best.Result with { Plan = best.Result.Plan! with { Cancelled = true } } };
    }

    private static long UsedOf(SalvageWindow window, CuttingPlan plan) => plan.Sheets.Where(sheet => sheet.Stock == window.Id).Sum(sheet => sheet.Repeats);

    private long PiecedOn(SalvageWindow window, CuttingPlan plan) => ways.Where(way => LiesOn(way, window)).Sum(way => plan.Joined.Where(joined => KeyOf(joined.Join) == KeyOf(_jobs.JoinOf(way))).Sum(joined => joined.Count));

    private static bool LiesOn(PiecedPanel way, SalvageWindow window) => ReferenceEquals(way.Card, window.Card) && way.Panel.Line.Piece == window.Mat.Line.Piece;

    private static string KeyOf(PieceJoin join) => $"{join.Piece} = {string.Join(" + ", join.Parts)}";

    private IReadOnlyList<SalvageWindow> Windows(int[] counts) => fitted.Batch.Salvage == SalvageUse.Never ? [] : _jobs.Windows(counts);

    /// <summary>The part that a piece of a plan is of: the panel, where it is a strip of one.</summary>
    private BatchPart PartOf(string id)
    {
        var part = BatchIds.PartOf(fitted, id).Part;
        return ways.FirstOrDefault(way => way.Strips.Any(strip => ReferenceEquals(strip, part)))?.Panel ?? part;
    }

    /// <summary>
    /// Raises the count of one card as far as the stock goes: doubling, then halving the step. Returns refusals when not even one can be
    /// planned at all.
    /// </summary>
    /// <param name="counts">How many of each card; that of this one is raised.</param>
    /// <param name="card">The card.</param>
    /// <param name="stops">Where the reason is added why there are no more.</param>
    /// <param name="limit">The most that are asked for.</param>
    public IReadOnlyList<CuttingRefusal> MostOf(int[] counts, int card, List<StopReason> stops, int limit = BatchReader.MostCards)
    {
        var (most, step) = (counts[card], 1);
        (CuttingResult Result, bool IsSure)? failed = null;
        var tooMany = limit + 1;
        while (most < limit && !cancel.IsCancellationRequested)
        {
            step = Math.Min(step, limit - most);
            counts[card] = most + step;
            var tried = Try(counts);
            if (tried.Result.Refusals.Count > 0)
            {
                counts[card] = most;
                return tried.Result.Refusals;
            }

            if (tried.Result.Plan!.Missing.Count == 0)
            {
                (most, step) = (most + step, step * 2);
                continue;
            }

            // A search that was ended has not failed.
            if (cancel.IsCancellationRequested)
            {
                break;
            }

            (failed, tooMany) = (tried, most + step);
            break;
        }

        // Between the last that went and the first that did not.
        while (failed is not null && tooMany - most > 1 && !cancel.IsCancellationRequested)
        {
            var middle = most + ((tooMany - most) / 2);
            counts[card] = middle;
            var tried = Try(counts);
            if (tried.Result.Plan!.Missing.Count == 0)
            {
                most = middle;
            }
            else if (!cancel.IsCancellationRequested)
            {
                (failed, tooMany) = (tried, middle);
            }
        }

        counts[card] = most;
        if (failed?.Result.Plan is { } plan && tooMany - most == 1)
        {
            // Of what is missing, what is proved to be short comes before what may only have been left out.
            var proved = plan.Lots.Where(lot => lot.State == PlanState.ProvedIncomplete).SelectMany(lot => lot.Pieces).ToHashSet(StringComparer.Ordinal);
            var parts = plan.Missing.Where(missing => proved.Count == 0 || proved.Contains(missing.Piece))
                .Select(missing => PartOf(missing.Piece)).Distinct<BatchPart>(ReferenceEqualityComparer.Instance).ToList();
            stops.Add(new(fitted.Cards[card], parts, proved.Count > 0 && failed.Value.IsSure));
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

        var one = fitted.Cards.Select(_ => 1).ToArray();
        var windows = Windows(one);
        for (var c = 0; c < fitted.Cards.Count; c++)
        {
            var (card, number) = (fitted.Cards[c], c);
            var parts = card.Parts.Select((part, p) => new SetPart(BatchIds.Of(number, p), part.Line.Count)).Where((_, p) => !IsStrip(card.Parts[p])).ToList();
            var brings = windows.Where(window => ReferenceEquals(window.Card, card)).Select(window => new BroughtStock(window.Id, window.Available)).ToList();
            if (card.Wanted.Count > 0)
            {
                sets.Add(new(Name(c, "needed"), parts) { Brings = brings, Weight = rest + 1, AtMost = card.Wanted.Count });
            }

            if (card.Wanted.AsManyAsPossible)
            {
                sets.Add(new(Name(c, "more"), parts) { Brings = brings, Weight = card.Wanted.Worth, AtMost = BatchReader.MostCards - card.Wanted.Count });
            }
        }

        var found = SetPlanner.Find(_jobs.Make(one, windows), sets, options, cancel);
        if (found.Refusals.Count > 0 || cancel.IsCancellationRequested)
        {
            return null;
        }

        long Made(int c, string kind) => found.Sets.FirstOrDefault(set => set.Set == Name(c, kind))?.Count ?? 0;
        var counts = fitted.Cards.Select((_, c) => (int)(Made(c, "needed") + Made(c, "more"))).ToArray();
        return fitted.Cards.Select((card, c) => Made(c, "needed") == card.Wanted.Count).All(isMade => isMade) ? (counts, found.IsProved) : null;

        static string Name(int card, string kind) => FormattableString.Invariant($"{card} {kind}");
        bool IsStrip(BatchPart part) => ways.Any(way => way.Strips.Any(strip => ReferenceEquals(strip, part)));
    }

    /// <summary>What a mix is worth.</summary>
    public long Worth(IReadOnlyList<int> counts) =>
        fitted.Cards.Select((card, c) => card.Wanted.AsManyAsPossible ? (long)card.Wanted.Worth * counts[c] : 0).Sum();

    /// <summary>The plan for so many of each card, with windows where they save something or are asked for.</summary>
    public BatchPlan Best(int[] counts)
    {
        var plain = Planned(counts, []);
        var use = fitted.Batch.Salvage;
        if (use == SalvageUse.Never || cancel.IsCancellationRequested || _jobs.Windows(counts) is not { Count: > 0 } windows)
        {
            return plain ?? throw new InvalidOperationException("a job that could be planned no longer can");
        }

        if (Planned(counts, windows) is not { } salvaged)
        {
            return plain ?? throw new InvalidOperationException("a job that could be planned no longer can");
        }

        var used = plain is null || (salvaged.Salvage.Count > 0 && Saves(salvaged, plain)) ? salvaged : plain;
        return use == SalvageUse.Always && Always(counts, windows) is { Cutting.Missing.Count: 0 } always && (used.Cutting.Missing.Count > 0 || NewCost(always.Cutting) <= NewCost(used.Cutting))
            ? always
            : used;
    }

    /// <summary>The plan in which the windows give as much as they can before anything else is touched.</summary>
    private BatchPlan? Always(int[] counts, IReadOnlyList<SalvageWindow> windows)
    {
        var inside = _jobs.OutOfWindows(counts, windows);
        if (inside.Pieces.Count == 0 || CuttingPlanner.Plan(inside, options, cancel).Plan is not { } plan)
        {
            return null;
        }

        var given = inside.Pieces.ToDictionary(
            piece => piece.Id, piece => piece.Count - plan.Missing.Where(missing => missing.Piece == piece.Id).Sum(missing => missing.Count), StringComparer.Ordinal);
        return Planned(counts, windows, given);
    }

    private bool Saves(BatchPlan salvaged, BatchPlan plain) =>
        (salvaged.Cutting.Missing.Count == 0 && plain.Cutting.Missing.Count > 0) || NewCost(salvaged.Cutting) < NewCost(plain.Cutting);

    // The costs of two jobs are not on one scale: new sheets are made dearer where there is more to use up.
    private long NewCost(CuttingPlan plan) => plan.Sheets
        .Sum(sheet => fitted.Batch.Stock.FirstOrDefault(stock => stock.Name == sheet.Stock) is { IsOffcut: false } stock ? JobMaker.CostOf(stock) * sheet.Repeats : 0);

    private BatchPlan? Planned(int[] counts, IReadOnlyList<SalvageWindow> windows, IReadOnlyDictionary<string, long>? given = null)
    {
        (var result, var job, windows, _) = SolveInFull(counts, windows, given);
        if (result.Plan is not { } plan)
        {
            return null;
        }

        var joined = plan.Joined.ToDictionary(entry => KeyOf(entry.Join), entry => entry.Count, StringComparer.Ordinal);
        var (named, pieced) = Piecing.Named(fitted, [.. ways.Select(way => way with { Count = joined.GetValueOrDefault(KeyOf(_jobs.JoinOf(way))) }).Where(way => way.Count > 0)]);
        return new()
        {
            Batch = named,
            Cards = [.. named.Cards.Select((card, c) => new MadeCards(card, counts[c]))],
            Job = job,
            Cutting = plan,
            Salvage =
            [
                .. windows.Select(window => window with
                {
                    Card = named.Cards[fitted.Cards.ToList().FindIndex(card => ReferenceEquals(card, window.Card))],
                    Used = (int)UsedOf(window, plan),
                }).Where(window => window.Used > 0),
            ],
            Pieced = pieced,
            Stops = [],
            CountsSheets = _jobs.CountsSheets,
        };
    }
}
