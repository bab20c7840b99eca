using Google.OrTools.LinearSolver;
using Google.OrTools.Sat;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;
using Relation = Trimwright.Solving.Relation;

namespace Trimwright.OracleTests;

/// <summary>
/// Solves the levels of a system with Google OR-Tools: CP-SAT where every measure is on a grid of whole numbers, GLOP where none is.
/// Sums of misses are compared, never positions: those are a matter of ties.
/// </summary>
internal static class Oracle
{
    /// <summary>
    /// The least sum of the shoulds and then of the mays by CP-SAT; null when the musts cannot hold. Factors, right sides, bounds and
    /// grids have to be whole numbers. An answer that is neither proved nor disproved fails the test.
    /// </summary>
    public static (long Should, long May)? Whole(WishSystem system)
    {
        var model = new CpModel();
        var measures = Enumerable.Range(0, system.MeasureCount).Select(m =>
        {
            var (least, most) = system.BoundsOf(new(m));
            var (low, high) = ((long)least!.Value.Numerator, (long)most!.Value.Numerator);
            var grid = system.GridOf(new(m))!;
            var values = grid.Values?.Select(v => (long)v.Numerator).Where(v => v >= low && v <= high).ToArray()
                ?? [.. Enumerable.Range((int)low, (int)(high - low) + 1).Select(v => (long)v).Where(v => v % (long)grid.Step!.Value.Numerator == 0)];
            return model.NewIntVarFromDomain(Google.OrTools.Util.Domain.FromValues(values), $"m{m}");
        }).ToArray();
        var misses = new Dictionary<Strength, List<IntVar>> { [Strength.Should] = [], [Strength.May] = [] };
        for (var s = 0; s < system.Statements.Count; s++)
        {
            var statement = system.Statements[s];
            var excess = Google.OrTools.Sat.LinearExpr.WeightedSum(
                statement.Terms.Select(t => measures[t.Measure.Index]), statement.Terms.Select(t => (long)t.Factor.Numerator))
                - (long)statement.Right.Numerator;
            if (statement.Strength == Strength.Must)
            {
                model.AddLinearConstraint(
                    excess,
                    statement.Relation == Relation.AtMost ? -100_000 : 0,
                    statement.Relation == Relation.AtLeast ? 100_000 : 0);
                continue;
            }

            var miss = model.NewIntVar(0, 100_000, $"miss{s}");
            misses[statement.Strength].Add(miss);
            if (statement.Relation != Relation.AtLeast)
            {
                model.Add(miss >= excess);
            }

            if (statement.Relation != Relation.AtMost)
            {
                model.Add(miss >= -excess);
            }
        }

        if (Least(model, misses[Strength.Should]) is not { } should)
        {
            return null;
        }

        model.Add(Google.OrTools.Sat.LinearExpr.Sum(misses[Strength.Should]) <= should);
        return (should, Least(model, misses[Strength.May])!.Value);
    }

    private static long? Least(CpModel model, List<IntVar> misses)
    {
        model.Minimize(Google.OrTools.Sat.LinearExpr.Sum(misses));
        var solver = new CpSolver { StringParameters = "num_workers:1 random_seed:1" };
        var status = solver.Solve(model);
        Assert.True(status is CpSolverStatus.Optimal or CpSolverStatus.Infeasible, $"the oracle says {status}");
        return status == CpSolverStatus.Optimal ? (long)Math.Round(solver.ObjectiveValue) : null;
    }

    /// <summary>The least sum of the shoulds by GLOP, in floating point; null when the musts cannot hold.</summary>
    public static double? Free(WishSystem system)
    {
        using var solver = Solver.CreateSolver("GLOP");
        var measures = Enumerable.Range(0, system.MeasureCount).Select(m =>
        {
            var (least, most) = system.BoundsOf(new(m));
            return solver.MakeNumVar(
                least is { } low ? Decimal(low) : double.NegativeInfinity, most is { } high ? Decimal(high) : double.PositiveInfinity, $"m{m}");
        }).ToArray();
        var objective = solver.Objective();
        objective.SetMinimization();
        foreach (var statement in system.Statements)
        {
            var right = Decimal(statement.Right);
            var row = solver.MakeConstraint(
                statement.Relation == Relation.AtMost ? double.NegativeInfinity : right,
                statement.Relation == Relation.AtLeast ? double.PositiveInfinity : right,
                string.Empty);
            foreach (var terms in statement.Terms.GroupBy(t => t.Measure.Index))
            {
                row.SetCoefficient(measures[terms.Key], Decimal(terms.Aggregate(Rational.Zero, (sum, t) => sum + t.Factor)));
            }

            if (statement.Strength != Strength.Must)
            {
                foreach (var sign in new[] { -1, 1 })
                {
                    var miss = solver.MakeNumVar(0, double.PositiveInfinity, string.Empty);
                    row.SetCoefficient(miss, sign);
                    objective.SetCoefficient(miss, statement.Strength == Strength.Should ? 1 : 0);
                }
            }
        }

        var status = solver.Solve();
        Assert.True(status is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.INFEASIBLE, $"the oracle says {status}");
        return status == Solver.ResultStatus.OPTIMAL ? objective.Value() : null;
    }

    private static double Decimal(Rational value) => (double)value.Numerator / (double)value.Denominator;
}
