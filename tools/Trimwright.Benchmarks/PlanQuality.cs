using System.Diagnostics;
using System.Globalization;
using Trimwright.Cutting;

namespace Trimwright.Benchmarks;

/// <summary>
/// How good plans are and how long they take, warm, beside a plain program in the same run. Times are the least of some runs; ratios are to the plain
/// table for one sheet of 6 x 6 in, so that they mean the same on any machine.
/// </summary>
internal static class PlanQuality
{
    private const int Runs = 7;
    private const string ThirtyFive = "tools/Trimwright.Benchmarks/thirty-five.json";

    // The new sheets of those cards when this was written.
    private const int MostSheets = 39;

    /// <summary>Prints the tables; the exit code is 1 if a plan is not as good as it was when this was written, or an optimum is missed.</summary>
    public static int Run()
    {
        var isMissed = false;
        var (unit, _) = Least(() => PlainCutting.MostWorth(CuttingOrders.OnSix, [64 * 84, 60 * 80, 60 * 24, 64 * 28, 22 * 22, 16 * 20], 1_587_500));
        Console.WriteLine(Invariant($"the plain table for one sheet of 6 x 6 in: {unit:F2} ms"));
        Console.WriteLine("order                        ms   tables |    cost  bound  shelves");
        foreach (var (name, job, gap) in new[]
        {
            ("119 on 6 x 6", CuttingOrders.OnSix, 0L), ("119 on 6 x 6, held", CuttingOrders.OnSix with { Rules = CuttingOrders.Held }, 0),
            ("600 on four stocks", CuttingOrders.OnFour, 100), ("600 on four, held", CuttingOrders.OnFour with { Rules = CuttingOrders.Held }, 100),
        })
        {
            var (time, plan) = Least(() => CuttingPlanner.Plan(job).Plan!);
            var isWorse = plan.Missing.Count > 0 || plan.Cost - plan.Bound > gap;
            isMissed |= isWorse;
            Console.WriteLine(Invariant($"{name,-20} {time,10:F1} {time / unit,8:F1} | {plan.Cost,7} {plan.Bound,6} {PlainCutting.CostOnShelves(job),8}{(isWorse ? "  WORSE" : "")}"));
        }

        Console.WriteLine();
        Console.WriteLine("whole batch                  ms   tables |  cards new sheets  cuts  read, fit, plan, schedule in parts of a hundred");
        foreach (var (file, cards, sheets) in new[] { ("layouts/batches/seed-swap.json", 12, 21), ("layouts/batches/from-strips.json", 5, 4), (ThirtyFive, 35, MostSheets) })
        {
            var (time, whole) = Least(() => WholeBatch.Run(file), file == ThirtyFive ? 2 : Runs);
            var (made, taken) = (whole.Schedule.Plan.Cards.Sum(card => card.Count), whole.Schedule.Plan.NewSheets);
            var isWorse = made < cards || (made == cards && taken > sheets);
            isMissed |= isWorse;
            var shares = string.Join(", ", whole.Ticks.Select(ticks => 100 * ticks / whole.Ticks.Sum()));
            Console.WriteLine(Invariant($"{Path.GetFileName(file),-20} {time,10:F1} {time / unit,8:F1} | {made,6} {taken,10} {whole.Schedule.Cuts,5}  {shares}{(isWorse ? "  WORSE" : "")}"));
        }

        Console.WriteLine();
        Console.WriteLine("one sheet             ours ms  plain ms    times |   worth");
        var cases = CuttingOrders.OneSheet();
        foreach (var (name, job, worths, optimum) in cases)
        {
            var (ours, best) = Least(() => BestSheet.Find(job, worths));
            var watch = Stopwatch.StartNew();
            var plainWorth = PlainCutting.MostWorth(job, worths, 1_000_000);
            var plain = watch.Elapsed.TotalMilliseconds;
            var isWrong = best.Worth != optimum || plainWorth != optimum;
            isMissed |= isWrong;
            Console.WriteLine(Invariant($"{name,-20} {ours,8:F2} {plain,9:F0} {plain / ours,8:F0} | {best.Worth,7}{(isWrong ? "  NOT THE OPTIMUM" : "")}"));
        }

        Console.WriteLine(cases.Count == 0 ? "no folder of published instances: set TRIMWRIGHT_PUBLISHED" : "all optima are the published ones unless it says otherwise");
        return isMissed ? 1 : 0;
    }

    private static (double Milliseconds, T Result) Least<T>(Func<T> work, int runs = Runs)
    {
        var result = work();
        var least = double.MaxValue;
        for (var n = 0; n < runs; n++)
        {
            var watch = Stopwatch.StartNew();
            result = work();
            least = Math.Min(least, watch.Elapsed.TotalMilliseconds);
        }

        return (least, result);
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
