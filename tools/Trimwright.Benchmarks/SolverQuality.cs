using System.Diagnostics;
using System.Globalization;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Benchmarks;

/// <summary>How good the answers on grids are: ours beside the best that CP-SAT finds in a given time.</summary>
internal static class SolverQuality
{
    /// <summary>Prints a table; the exit code is 1 if ours is anywhere worse.</summary>
    /// <param name="seconds">How long CP-SAT may search each system.</param>
    /// <param name="seeds">How many systems of each kind.</param>
    public static int Run(double seconds, int seeds)
    {
        var worse = 0;
        Console.WriteLine("pieces sheet   seed | ours           ms   should      may | CP-SAT         ms   should      may | times");
        foreach (var pieces in (int[])[5, 12, 40, 200])
        {
            foreach (var isCoupled in (bool[])[false, true])
            {
                for (var seed = 1u; seed <= seeds; seed++)
                {
                    var system = CardTrees.Build(pieces, isCoupled, hasGrid: true, seed);
                    WishSolver.Solve(system);
                    var watch = Stopwatch.StartNew();
                    var ours = WishSolver.Solve(system);
                    var ourTime = watch.Elapsed.TotalMilliseconds;
                    watch.Restart();
                    var theirs = References.CpSat(system, seconds);
                    var theirTime = watch.Elapsed.TotalMilliseconds;
                    var (should, may) = (Sum(system, ours, Strength.Should), Sum(system, ours, Strength.May));
                    var isWorse = ours.Values.Count == 0 || should > theirs.Should + 1e-6;
                    worse += isWorse ? 1 : 0;
                    Console.WriteLine(string.Create(
                        CultureInfo.InvariantCulture,
                        $"{pieces,6} {(isCoupled ? "wished" : "fixed"),-7} {seed,4} | {Told(ours),-10} {ourTime,8:F2} {should,8:F2} {may,8:F2} | {(theirs.IsProved ? "proved" : "found"),-10} {theirTime,8:F0} {theirs.Should,8:F2} {theirs.May,8:F2} | {theirTime / ourTime,6:F0}{(isWorse ? "  WORSE" : "")}"));
                }
            }
        }

        return worse == 0 ? 0 : 1;
    }

    /// <summary>Prints how long the first solve of a process takes: 12 pieces, on sixteenths.</summary>
    public static int First()
    {
        var watch = Stopwatch.StartNew();
        WishSolver.Solve(CardTrees.Build(12, isCoupled: false, hasGrid: true));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"first solve in this process: {watch.Elapsed.TotalMilliseconds:F1} ms"));
        return 0;
    }

    private static string Told(Solution solution) => solution.Outcome switch
    {
        Outcome.Best => "proved",
        Outcome.BestFound => "found",
        var other => other.ToString(),
    };

    private static double Sum(WishSystem system, Solution solution, Strength level)
    {
        var sum = solution.GaveWay.Where(gave => system.Statements[gave.Statement].Strength == level)
            .Aggregate(Rational.Zero, (all, gave) => all + gave.Miss);
        return (double)sum.Numerator / (double)sum.Denominator;
    }
}
