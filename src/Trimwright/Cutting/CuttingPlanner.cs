namespace Trimwright.Cutting;

/// <summary>
/// Plans how to cut rectangles out of sheets, edge to edge. First the cheapest sheets, with proof where it can; then, without touching that,
/// the largest leftovers, the fewest different sheets and cuts, the fewest settings.
/// </summary>
public static class CuttingPlanner
{
    /// <summary>The longest side that is planned with, in millimetres: 2 m. Longer is a slip of the pen.</summary>
    public const long LongestSide = 2_000;

    /// <summary>The most pieces in one job.</summary>
    public const long MostPieces = 1_000_000;

    /// <summary>The greatest cost of a sheet.</summary>
    public const long GreatestCost = 1_000_000;

    private const int BriefRounds = 10_000;
    private const int BriefTidySteps = 20_000;

    /// <summary>Plans a job. Never throws for what is in the job; cancelling ends the search and keeps the best plan found.</summary>
    public static CuttingResult Plan(CuttingJob job, CuttingOptions? options = null, CancellationToken cancel = default)
    {
        options ??= new();
        return job.Joins.Count > 0 ? new JoinPlanner(options, cancel).Plan(job, inFull: true) : PlanWhole(job, options, cancel);
    }

    /// <summary>Plans a job in which nothing is joined.</summary>
    internal static CuttingResult PlanWhole(CuttingJob job, CuttingOptions options, CancellationToken cancel)
    {
        var refusals = JobChecks.Check(job);
        if (refusals.Count > 0)
        {
            return new() { Refusals = refusals };
        }

        var lots = LotMaker.Make(job);
        var done = new List<CuttingLot>();
        var sheets = new List<SheetPlan>();
        var missing = new SortedDictionary<int, long>();
        for (var n = 0; n < lots.Count; n++)
        {
            var number = n + 1;
            var lot = lots[n];
            var plan = new LotPlanner(
                lot,
                options,
                (rounds, used, cost, bound) => options.Progress?.Invoke(new(number, lots.Count, rounds, used, cost, bound)),
                cancel).Plan();
            var writer = new PlanWriter(job, lot);
            sheets.AddRange(writer.Sheets(plan));
            foreach (var (piece, count) in writer.Missing())
            {
                missing[piece] = count;
            }

            done.Add(LotWriter.Write(job, lot, plan));
        }

        return new()
        {
            Plan = new()
            {
                State = done.Max(lot => lot.State),
                Lots = done,
                Sheets = FenceSettings.Choose([.. sheets.OrderBy(sheet => IndexOf(job, sheet.Stock))]),
                Missing = [.. missing.Select(item => new MissingPieces(job.Pieces[item.Key].Id, item.Value))],
                Cancelled = cancel.IsCancellationRequested,
            },
        };
    }

    /// <summary>Why a job would be refused; empty when it would not be. Where pieces are joined, how many of each is known once it is planned.</summary>
    internal static IReadOnlyList<CuttingRefusal> Refusals(CuttingJob job, CuttingOptions options, CancellationToken cancel) =>
        job.Joins.Count > 0 ? PlanQuickly(job, options with { Rounds = 0 }, cancel).Refusals : JobChecks.Check(job);

    /// <summary>A plan whose sheets are not laid again for less cost, leftovers or cuts: good enough to know whether the stock will do.</summary>
    internal static CuttingResult PlanQuickly(CuttingJob job, CuttingOptions options, CancellationToken cancel) =>
        PlanInPart(job, options with { TidySteps = 0, IsAnyCostGood = true }, cancel);

    /// <summary>
    /// A plan to keep where a search was ended that had only asked whether the stock will do. Whoever ended it waits, so it takes few rounds, but
    /// all of those: it is not ended itself, and so not worse for when it was.
    /// </summary>
    internal static CuttingResult PlanBriefly(CuttingJob job, CuttingOptions options) => PlanInPart(
        job,
        options with { Rounds = Math.Min(options.Rounds, BriefRounds), TidySteps = Math.Min(options.TidySteps, BriefTidySteps), Progress = null },
        CancellationToken.None);

    private static CuttingResult PlanInPart(CuttingJob job, CuttingOptions options, CancellationToken cancel) => job.Joins.Count > 0
        ? new JoinPlanner(options, cancel).Plan(job, inFull: false)
        : PlanWhole(job, options, cancel);

    private static int IndexOf(CuttingJob job, string stock)
    {
        for (var s = 0; s < job.Stock.Count; s++)
        {
            if (job.Stock[s].Id == stock)
            {
                return s;
            }
        }

        return -1;
    }
}
