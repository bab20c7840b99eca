using Google.OrTools.LinearSolver;
using Google.OrTools.Sat;
using Trimwright.Measures;
using Trimwright.Solving;
using Relation = Trimwright.Solving.Relation;

namespace Trimwright.Benchmarks;

/// <summary>
/// The same systems given to Google OR-Tools, with shoulds weighed 1,000 and mays 1: it has no levels. Times include building its model, as
/// ours include reading the system. A weight is no level: for the answer to be comparable the sum of all mays has to stay below 1,000 units.
/// </summary>
internal static class References
{
    private const int ShouldWeight = 1_000;

    /// <summary>The sums of shoulds and mays that a search ended with, and whether they were proved.</summary>
    internal readonly record struct Found(double Should, double May, bool IsProved);

    /// <summary>GLOP: a linear program in floating point; grids are left out.</summary>
    public static Found Glop(WishSystem system)
    {
        using var solver = Solver.CreateSolver("GLOP");
        var measures = new Variable[system.MeasureCount];
        for (var m = 0; m < measures.Length; m++)
        {
            var (least, most) = system.BoundsOf(new(m));
            measures[m] = solver.MakeNumVar(Decimal(least!.Value), Decimal(most!.Value), string.Empty);
        }

        var objective = solver.Objective();
        objective.SetMinimization();
        var (shoulds, mays) = (new List<Variable>(), new List<Variable>());
        foreach (var statement in system.Statements)
        {
            var right = Decimal(statement.Right);
            var row = solver.MakeConstraint(
                statement.Relation == Relation.AtMost ? double.NegativeInfinity : right,
                statement.Relation == Relation.AtLeast ? double.PositiveInfinity : right,
                string.Empty);
            foreach (var term in statement.Terms)
            {
                row.SetCoefficient(measures[term.Measure.Index], Decimal(term.Factor));
            }

            if (statement.Strength == Strength.Must)
            {
                continue;
            }

            foreach (var sign in (int[])[-1, 1])
            {
                var miss = solver.MakeNumVar(0, double.PositiveInfinity, string.Empty);
                row.SetCoefficient(miss, sign);
                objective.SetCoefficient(miss, statement.Strength == Strength.Should ? ShouldWeight : 1);
                (statement.Strength == Strength.Should ? shoulds : mays).Add(miss);
            }
        }

        var status = solver.Solve();
        return status == Solver.ResultStatus.OPTIMAL
            ? new(shoulds.Sum(miss => miss.SolutionValue()), mays.Sum(miss => miss.SolutionValue()), true)
            : throw new InvalidOperationException($"GLOP says {status}");
    }

    /// <summary>
    /// CP-SAT, one worker: whole numbers only, so places lie on 1/32 in as well, which ours do not have to. Statements are multiplied out to
    /// whole factors; misses are counted in the smallest unit common to all of them.
    /// </summary>
    /// <param name="system">A system whose bounds are whole.</param>
    /// <param name="seconds">When to give up.</param>
    public static Found CpSat(WishSystem system, double seconds)
    {
        var model = new CpModel();
        var measures = new IntVar[system.MeasureCount];
        for (var m = 0; m < measures.Length; m++)
        {
            var (least, most) = system.BoundsOf(new(m));
            var (low, high) = ((long)least!.Value.Ceiling(), (long)most!.Value.Floor());
            var step = system.GridOf(new(m))?.Step is { } size ? (long)size.Numerator : 1;
            measures[m] = model.NewIntVarFromDomain(
                Google.OrTools.Util.Domain.FromValues([.. Range(low, high).Where(value => value % step == 0)]), string.Empty);
        }

        var common = system.Statements.Where(s => s.Strength != Strength.Must).Aggregate(1L, (all, s) => Lcm(all, Scale(s)));
        var (shoulds, mays) = (new List<IntVar>(), new List<IntVar>());
        foreach (var statement in system.Statements)
        {
            var scale = statement.Strength == Strength.Must ? Scale(statement) : common;
            var excess = Google.OrTools.Sat.LinearExpr.WeightedSum(
                statement.Terms.Select(term => measures[term.Measure.Index]), statement.Terms.Select(term => Whole(term.Factor * scale)))
                - Whole(statement.Right * scale);
            if (statement.Strength == Strength.Must)
            {
                const long Far = 1_000_000_000;
                model.AddLinearConstraint(
                    excess, statement.Relation == Relation.AtMost ? -Far : 0, statement.Relation == Relation.AtLeast ? Far : 0);
                continue;
            }

            var miss = model.NewIntVar(0, 2_000 * common, string.Empty);
            model.Add(miss >= excess);
            model.Add(miss >= -excess);
            (statement.Strength == Strength.Should ? shoulds : mays).Add(miss);
        }

        model.Minimize((Google.OrTools.Sat.LinearExpr.Sum(shoulds) * ShouldWeight) + Google.OrTools.Sat.LinearExpr.Sum(mays));
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1 random_seed:1 max_time_in_seconds:{seconds}"),
        };
        var status = solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? new(
                shoulds.Sum(miss => (double)solver.Value(miss)) / common, mays.Sum(miss => (double)solver.Value(miss)) / common,
                status == CpSolverStatus.Optimal)
            : new(double.PositiveInfinity, double.PositiveInfinity, false);
    }

    private static long Scale(Statement statement) => statement.Terms.Select(term => (long)term.Factor.Denominator)
        .Append((long)statement.Right.Denominator).Aggregate(1L, Lcm);

    private static IEnumerable<long> Range(long low, long high)
    {
        for (var value = low; value <= high; value++)
        {
            yield return value;
        }
    }

    private static long Lcm(long a, long b) => a / (long)System.Numerics.BigInteger.GreatestCommonDivisor(a, b) * b;

    private static long Whole(Rational value) => value.IsWhole ? (long)value.Numerator : throw new InvalidOperationException("not whole");

    private static double Decimal(Rational value) => (double)value.Numerator / (double)value.Denominator;
}
