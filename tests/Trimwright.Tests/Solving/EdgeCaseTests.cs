using System.Numerics;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

public class EdgeCaseTests
{
    private readonly WishSystem _system = new();

    [Fact]
    public void An_empty_system_is_solved()
    {
        var solution = WishSolver.Solve(_system);

        Assert.Equal(Outcome.Best, solution.Outcome);
        Assert.Empty(solution.Values);
        Assert.Null(solution.Gap);
    }

    [Fact]
    public void A_statement_without_measures_holds_or_clashes_by_itself()
    {
        _system.Add([], Relation.AtMost, 3, Strength.Must);
        Assert.Equal(Outcome.Best, WishSolver.Solve(_system).Outcome);

        var wrong = _system.Add([], Relation.Equal, 3, Strength.Must);
        Assert.Equal([wrong], WishSolver.Solve(_system).Clash!.Statements);
    }

    [Fact]
    public void A_wish_without_measures_misses_by_its_right_side()
    {
        _system.Add([], Relation.Equal, -3, Strength.Should);

        Assert.Equal([new GaveWay(0, -3, 0, 3)], WishSolver.Solve(_system).GaveWay);
    }

    [Fact]
    public void Terms_of_one_measure_add_up()
    {
        var a = _system.AddMeasure();
        _system.Add([new(a, 2), new(a, 1), new(a, -2)], Relation.Equal, 7, Strength.Must);

        Assert.Equal([7], WishSolver.Solve(_system).Values);
    }

    [Fact]
    public void Terms_that_cancel_leave_a_statement_without_measures()
    {
        var a = _system.AddMeasure();
        var wrong = _system.Add([new(a, 2), new(a, -2)], Relation.AtLeast, 1, Strength.Must);

        Assert.Equal([wrong], WishSolver.Solve(_system).Clash!.Statements);
    }

    [Fact]
    public void Bounds_of_a_measure_that_exclude_each_other_are_a_clash_without_statements()
    {
        var a = _system.AddMeasure(null, 2, 1);

        var clash = WishSolver.Solve(_system).Clash!;

        Assert.Empty(clash.Statements);
        Assert.Equal([a], clash.Bounds);
    }

    [Fact]
    public void Bounds_that_leave_no_grid_value_are_a_clash_of_the_grid()
    {
        var a = _system.AddMeasure(Grid.FromStep(4), 5, 7);

        var clash = WishSolver.Solve(_system).Clash!;

        Assert.Empty(clash.Statements);
        Assert.Equal([a], clash.Grids);
    }

    [Fact]
    public void A_bound_that_takes_part_in_a_clash_is_named()
    {
        var a = _system.AddMeasure(null, 0, 5);
        var b = _system.AddMeasure(null, 0, 5);
        _system.Add([new(a, 1), new(b, -1)], Relation.AtLeast, 6, Strength.Must, isStructure: true);

        var clash = WishSolver.Solve(_system).Clash!;

        Assert.Empty(clash.Statements);
        Assert.Equal([0], clash.Structure);
        Assert.Equal([a, b], clash.Bounds);
    }

    [Fact]
    public void A_step_grid_without_bounds_is_refused_by_name()
    {
        _system.AddMeasure();
        _system.AddMeasure(Grid.FromStep(1), 0);

        var refusal = Assert.Throws<ArgumentException>(() => WishSolver.Solve(_system));

        Assert.Contains("measure 1 is on a step grid and needs a least and a greatest value", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_measure_of_another_system_is_refused()
    {
        _system.Add([new(new(0), 1)], Relation.Equal, 0, Strength.May);

        Assert.Throws<ArgumentException>(() => WishSolver.Solve(_system));
    }

    [Fact]
    public void A_refusal_names_the_statement_and_the_measure_and_says_what_to_do()
    {
        _system.AddMeasure();
        _system.Add([new(new(0), 1)], Relation.Equal, 0, Strength.Must);
        _system.Add([new(new(7), 1)], Relation.Equal, 0, Strength.Must);

        var refusal = Assert.Throws<ArgumentException>(() => WishSolver.Solve(_system));

        Assert.Contains("statement 1 names measure 7, which was not declared: add it to this system first", refusal.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => _system.Add(null!, Relation.Equal, 0, Strength.Must));
    }

    [Fact]
    public void A_clash_that_the_budget_leaves_open_says_that_it_may_not_be_smallest()
    {
        // 3a + 5b + 7c + 9d over these values is none of 449 to 454, as all 625 of them show; no divisor tells.
        int[] values = [0, 7, 11, 23, 40];
        IEnumerable<int> sums = [0];
        for (var factor = 3; factor <= 9; factor += 2)
        {
            var by = factor;
            sums = [.. sums.SelectMany(s => values.Select(v => s + (by * v))).Distinct()];
        }

        Assert.DoesNotContain(sums, s => s is >= 449 and <= 454);
        Measure[] m = [.. Enumerable.Range(0, 4).Select(_ => _system.AddMeasure(Grid.FromValues([0, 7, 11, 23, 40]), 0, 40))];
        Term[] sum = [.. m.Select((x, i) => new Term(x, (2 * i) + 3))];
        _system.Add(sum, Relation.AtLeast, 449, Strength.Must);
        _system.Add(sum, Relation.AtMost, 454, Strength.Must);
        _system.Add([new(m[0], 1), new(m[3], -1)], Relation.AtMost, 3, Strength.Must);

        var full = WishSolver.Solve(_system);
        SystemChecker.CheckClash(_system, full);
        Assert.True(full.Clash!.IsSmallest);
        Assert.Equal([0, 1], full.Clash.Statements);

        var open = 0;
        for (var budget = 0; budget < 2_000; budget += 10)
        {
            var some = WishSolver.Solve(_system, new() { NodeBudget = budget });
            Assert.True(some.Outcome is Outcome.Unknown or Outcome.Clash, $"outcome {some.Outcome}");
            open += some.Clash is { IsSmallest: false } ? 1 : 0;
            if (some.Clash is { IsSmallest: true } clash)
            {
                Assert.Equal(full.Clash.Statements, clash.Statements);
                Assert.Equal(full.Clash.Grids, clash.Grids);
            }
        }

        Assert.InRange(open, 1, 199);
    }

    [Fact]
    public void A_stopped_solve_says_so()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();

        Assert.Throws<OperationCanceledException>(() => WishSolver.Solve(_system, null, stop.Token));
    }

    [Fact]
    public void Numbers_beyond_64_bits_are_solved_exactly()
    {
        // A chain a(i+1) = 11/7 a(i), 60 links long: the last is (11/7)^60, whose parts take 208 and 169 bits.
        var chain = Enumerable.Range(0, 61).Select(_ => _system.AddMeasure()).ToArray();
        _system.Add([new(chain[0], 1)], Relation.Equal, 1, Strength.Must);
        for (var i = 1; i < chain.Length; i++)
        {
            _system.Add([new(chain[i], 7), new(chain[i - 1], -11)], Relation.Equal, 0, Strength.Must);
        }

        var solution = WishSolver.Solve(_system);

        SystemChecker.Check(_system, solution);
        Assert.Equal(BigInteger.Pow(11, 60), solution.Values[60].Numerator);
        Assert.Equal(BigInteger.Pow(7, 60), solution.Values[60].Denominator);
    }

    [Fact]
    public void Wishes_beyond_64_bits_are_weighed_exactly()
    {
        // Two wishes of which the second asks 1/3^80 more than the first allows: the difference is all that is missed.
        var a = _system.AddMeasure();
        var b = _system.AddMeasure();
        var tiny = Rational.From(BigInteger.One, BigInteger.Pow(3, 80));
        _system.Add([new(a, 1), new(b, 1)], Relation.AtMost, 1, Strength.Must);
        _system.Add([new(a, 1)], Relation.AtLeast, Rational.From(1, 2), Strength.Should);
        _system.Add([new(b, 1)], Relation.Equal, Rational.From(1, 2) + tiny, Strength.Should);

        var solution = WishSolver.Solve(_system);

        SystemChecker.Check(_system, solution);
        Assert.Equal([tiny / 2, tiny / 2], solution.GaveWay.Select(g => g.Miss));
    }

    [Fact]
    public void A_budget_of_nothing_says_how_far_from_the_best_it_may_be()
    {
        // Two odd sizes between which the linear program would split evenly: one branch is needed to know.
        var a = _system.AddMeasure(Grid.FromStep(2), 0, 20);
        var b = _system.AddMeasure(Grid.FromStep(2), 0, 20);
        var c = _system.AddMeasure(Grid.FromStep(2), 0, 20);
        _system.Add([new(a, 1), new(b, 1), new(c, 1)], Relation.AtMost, 15, Strength.Must);
        foreach (var measure in new[] { a, b, c })
        {
            _system.Add([new(measure, 1)], Relation.AtLeast, 7, Strength.Should);
        }

        var best = WishSolver.Solve(_system);
        var found = WishSolver.Solve(_system, new() { NodeBudget = 0 });

        Assert.Equal(Outcome.Best, best.Outcome);
        Assert.True(found.Outcome is Outcome.Unknown or Outcome.BestFound);
        for (var budget = 1; budget < 60; budget++)
        {
            var some = WishSolver.Solve(_system, new() { NodeBudget = budget });
            if (some.Outcome == Outcome.BestFound)
            {
                SystemChecker.Check(_system, some);
                var distance = some.GaveWay.Aggregate(Rational.Zero, (s, g) => s + g.Miss)
                    - best.GaveWay.Aggregate(Rational.Zero, (s, g) => s + g.Miss);
                Assert.InRange(distance, Rational.Zero, some.Gap!.Value);
            }
            else if (some.Outcome == Outcome.Best)
            {
                Assert.Equal(best.Values, some.Values);
            }
        }
    }
}
