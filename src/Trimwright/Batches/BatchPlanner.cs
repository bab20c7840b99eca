using Trimwright.Cutting;
using Trimwright.Diagnostics;

namespace Trimwright.Batches;

/// <summary>The result of planning a batch.</summary>
/// <param name="Plan">The plan, or null after an error.</param>
/// <param name="Diagnostics">Errors, in file order.</param>
public sealed record BatchPlanning(BatchPlan? Plan, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>
/// Plans a batch: first the cheapest new sheets, with proof where it can; then large leftovers, few different sheets, few settings. Where as many
/// cards as possible are wanted, finds how many the stock gives.
/// </summary>
public static class BatchPlanner
{
    /// <summary>Plans. Pure: the same batch gives the same plan.</summary>
    /// <param name="fitted">The batch.</param>
    /// <param name="options">Limits of the search, or null for the usual ones.</param>
    /// <param name="cancel">Ends the search; the best plan so far is kept.</param>
    /// <exception cref="OperationCanceledException">The search was ended before there was a plan of all that is wanted in any case.</exception>
    public static BatchPlanning Plan(FittedBatch fitted, CuttingOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        (fitted, var ways) = Piecing.Prepare(fitted);
        var run = new PlanningRun(fitted, ways, options, cancel);
        var counts = fitted.Cards.Select(card => card.Wanted.Count).ToArray();
        var stops = new List<StopReason>();
        if (run.Refusals([.. counts.Select(count => Math.Max(count, 1))]) is { Count: > 0 } refusals)
        {
            return new(null, BatchRefusals.Told(fitted, refusals));
        }

        if (counts.Any(count => count > 0))
        {
            run.Try(counts);
        }

        var many = Enumerable.Range(0, counts.Length)
            .Where(c => fitted.Cards[c].Wanted.AsManyAsPossible).OrderByDescending(c => fitted.Cards[c].Wanted.Worth).ToList();
        var least = (int[])counts.Clone();
        if (Raise(run, many, counts, stops) is { Count: > 0 } refused)
        {
            // Only their number can stand in the way by now.
            return new(null, BatchRefusals.Told(fitted, refused));
        }

        // One after the other is not always the best mix: two of the second may come out of what one of the first takes.
        var isBestMix = false;
        if (many.Count > 1 && run.BestMix() is var (mix, isProved) && mix.Zip(least).All(pair => pair.First >= pair.Second)
            && run.Try(mix).Result.Plan is { Missing.Count: 0 })
        {
            if (run.Worth(mix) > run.Worth(counts))
            {
                stops.Clear();
                Raise(run, many, mix, stops);
                counts = mix;
            }

            isBestMix = isProved && run.Worth(counts) == run.Worth(mix);
        }

        if (counts.All(count => count == 0))
        {
            cancel.ThrowIfCancellationRequested();
            return new(null, [.. stops.Select(stop => BatchMessages.NotOne(stop, fitted.Batch))]);
        }

        var plan = run.Best(counts);
        if (plan.Cutting.Missing.Count > 0 && plan.Cutting.State != PlanState.ProvedIncomplete)
        {
            // More could have been found: that the stock is too little must not be said of a search that was ended.
            cancel.ThrowIfCancellationRequested();
        }

        if (plan.Cutting.Missing.Count > 0)
        {
            var (made, reasons) = Fewer(run, fitted, cancel);
            return new(null, BatchRefusals.Missing(fitted, ways, plan.Cutting, made, reasons));
        }

        return new(plan with { Stops = [.. stops.Select(stop => stop with { Card = Renamed(stop.Card) })], IsBestMix = isBestMix }, []);

        // The strips of its cards have names by now.
        BatchCard Renamed(BatchCard card) => plan.Batch.Cards[Enumerable.Range(0, counts.Length).First(c => ReferenceEquals(fitted.Cards[c], card))];
    }

    /// <summary>How many of what is wanted can be made, one entry after the other, and why no more; nothing if the search is ended before that is known.</summary>
    private static (int[] Counts, List<StopReason> Stops) Fewer(PlanningRun run, FittedBatch fitted, CancellationToken cancel)
    {
        var (counts, stops) = (new int[fitted.Cards.Count], new List<StopReason>());
        for (var c = 0; c < counts.Length; c++)
        {
            if (fitted.Cards[c].Wanted.Count is > 0 and var wanted)
            {
                counts[c] = wanted;
                if (run.Try(counts).Result.Plan is not { Missing.Count: 0 })
                {
                    counts[c] = 0;
                    run.MostOf(counts, c, stops, wanted);
                }
            }
        }

        return cancel.IsCancellationRequested ? (counts, []) : (counts, stops);
    }

    private static IReadOnlyList<CuttingRefusal> Raise(PlanningRun run, IReadOnlyList<int> many, int[] counts, List<StopReason> stops)
    {
        foreach (var c in many)
        {
            if (run.MostOf(counts, c, stops) is { Count: > 0 } refused)
            {
                return refused;
            }
        }

        return [];
    }
}
