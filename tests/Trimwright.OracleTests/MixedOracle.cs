using Google.OrTools.LinearSolver;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;
using Relation = Trimwright.Solving.Relation;

namespace Trimwright.OracleTests;

/// <summary>
/// Asks SCIP, by way of Google OR-Tools, about systems in which some measures have a grid and some have none. It computes in floating point
/// and holds a row to within 1e-6: systems given to it have small whole numbers, so that what holds and what does not are further apart.
/// </summary>
internal sealed class MixedOracle : IDisposable
{
    private readonly Solver _solver = Solver.CreateSolver("SCIP");
    private readonly Variable[] _measures;
    private readonly List<Variable> _summed = [];

    /// <param name="system">The system.</param>
    /// <param name="statements">The statements that are to hold, each with by how much it may be missed.</param>
    /// <param name="grids">Whether the grid of a measure counts.</param>
    public MixedOracle(WishSystem system, IEnumerable<(int Statement, Rational Miss)> statements, Func<int, bool> grids)
    {
        _measures = [.. Enumerable.Range(0, system.MeasureCount).Select(m => Declare(system, m, grids(m)))];
        foreach (var (s, miss) in statements)
        {
            var statement = system.Statements[s];
            var row = _solver.MakeConstraint(
                statement.Relation == Relation.AtMost ? double.NegativeInfinity : Decimal(statement.Right - miss),
                statement.Relation == Relation.AtLeast ? double.PositiveInfinity : Decimal(statement.Right + miss),
                string.Empty);
            foreach (var terms in statement.Terms.GroupBy(term => term.Measure.Index))
            {
                row.SetCoefficient(_measures[terms.Key], Decimal(terms.Aggregate(Rational.Zero, (sum, term) => sum + term.Factor)));
            }
        }
    }

    // By default it is content with an answer within a ten-thousandth of the best. Its presolving now and then calls infeasible what is not
    // (one bound between two whole multiples of 80 and 127, and wishes for values that can be missed by any amount), so that is asked again without.
    private Solver.ResultStatus Solve()
    {
        using var exactly = new MPSolverParameters();
        exactly.SetDoubleParam(MPSolverParameters.DoubleParam.RELATIVE_MIP_GAP, 0);
        var status = _solver.Solve(exactly);
        if (status != Solver.ResultStatus.INFEASIBLE)
        {
            return status;
        }

        _solver.Reset();
        exactly.SetIntegerParam(MPSolverParameters.IntegerParam.PRESOLVE, (int)MPSolverParameters.PresolveValues.PRESOLVE_OFF);
        return _solver.Solve(exactly);
    }

    /// <summary>Whether all that was given can hold.</summary>
    public bool CanHold()
    {
        _solver.Objective().Clear();
        var status = Solve();
        Assert.True(status is Solver.ResultStatus.OPTIMAL or Solver.ResultStatus.INFEASIBLE, $"the oracle says {status}");
        return status == Solver.ResultStatus.OPTIMAL;
    }

    /// <summary>The least or the greatest value of a measure; its measures must have bounds.</summary>
    public double End(int measure, bool greatest)
    {
        var objective = _solver.Objective();
        objective.Clear();
        objective.SetCoefficient(_measures[measure], 1);
        objective.SetOptimizationDirection(greatest);
        var status = Solve();
        Assert.Equal(Solver.ResultStatus.OPTIMAL, status);
        return objective.Value();
    }

    /// <summary>The least sum of the misses of some wishes.</summary>
    public double LeastSum(WishSystem system, IEnumerable<int> wishes)
    {
        var objective = _solver.Objective();
        objective.Clear();
        _summed.Clear();
        foreach (var statement in wishes.Select(s => system.Statements[s]))
        {
            var right = Decimal(statement.Right);
            var row = _solver.MakeConstraint(
                statement.Relation == Relation.AtMost ? double.NegativeInfinity : right,
                statement.Relation == Relation.AtLeast ? double.PositiveInfinity : right,
                string.Empty);
            foreach (var terms in statement.Terms.GroupBy(term => term.Measure.Index))
            {
                row.SetCoefficient(_measures[terms.Key], Decimal(terms.Aggregate(Rational.Zero, (sum, term) => sum + term.Factor)));
            }

            foreach (var sign in (int[])[-1, 1])
            {
                var miss = _solver.MakeNumVar(0, double.PositiveInfinity, string.Empty);
                row.SetCoefficient(miss, sign);
                objective.SetCoefficient(miss, 1);
                _summed.Add(miss);
            }
        }

        objective.SetMinimization();
        Assert.Equal(Solver.ResultStatus.OPTIMAL, Solve());
        return objective.Value();
    }

    /// <summary>
    /// Holds the sum that was asked for last to its least; what lies within a ten-thousandth of it counts as equal. Held closer than that, SCIP
    /// now and then finds nothing at all; sums of these systems move in steps of a half or more.
    /// </summary>
    public void HoldSum(double least)
    {
        var row = _solver.MakeConstraint(double.NegativeInfinity, least + 1e-4, string.Empty);
        _summed.ForEach(miss => row.SetCoefficient(miss, 1));
    }

    /// <summary>A fraction as floating point has it.</summary>
    public static double Decimal(Rational value) => (double)value.Numerator / (double)value.Denominator;

    public void Dispose() => _solver.Dispose();

    private Variable Declare(WishSystem system, int measure, bool hasGrid)
    {
        var (least, most) = system.BoundsOf(new(measure));
        var variable = _solver.MakeNumVar(
            least is { } low ? Decimal(low) : double.NegativeInfinity, most is { } high ? Decimal(high) : double.PositiveInfinity, string.Empty);
        if (!hasGrid || system.GridOf(new(measure)) is not { } grid)
        {
            return variable;
        }

        // measure = step x whole number, or the sum of the values of which one is taken.
        var row = _solver.MakeConstraint(0, 0, string.Empty);
        row.SetCoefficient(variable, -1);
        if (grid.Step is { } step)
        {
            row.SetCoefficient(_solver.MakeIntVar(-10_000, 10_000, string.Empty), Decimal(step));
            return variable;
        }

        var one = _solver.MakeConstraint(1, 1, string.Empty);
        foreach (var value in grid.Values!)
        {
            var taken = _solver.MakeBoolVar(string.Empty);
            row.SetCoefficient(taken, Decimal(value));
            one.SetCoefficient(taken, 1);
        }

        return variable;
    }
}
