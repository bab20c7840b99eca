using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>
/// Worked examples of textbooks and manuals, given as a wish for more (or less) than can be had: what is missed tells the best value. Where
/// an example is from memory, it says so; the others were read where they stand, and their printed decimals written as fractions.
/// </summary>
public class TextbookTests
{
    private static (Solution Solution, Rational Greatest) Greatest(Grid? grid, Rational[] gain, params (Rational[] Factors, Rational Most)[] limits)
    {
        var system = new WishSystem();
        var measures = gain.Select(_ => system.AddMeasure(grid, 0, 100)).ToArray();
        foreach (var (factors, most) in limits)
        {
            system.Add([.. factors.Select((f, i) => new Term(measures[i], f))], Relation.AtMost, most, Strength.Must);
        }

        system.Add([.. gain.Select((f, i) => new Term(measures[i], f))], Relation.AtLeast, 1_000_000, Strength.Should);
        var solution = WishSolver.Solve(system);
        SystemChecker.Check(system, solution);
        return (solution, Assert.Single(solution.GaveWay).Got);
    }

    [Fact]
    public void Two_products_in_three_plants_earn_36()
    {
        // Hillier and Lieberman, Introduction to Operations Research, the prototype example of linear programming (from memory).
        var (solution, greatest) = Greatest(null, [3, 5], ([1, 0], 4), ([0, 2], 12), ([3, 2], 18));

        Assert.Equal(36, greatest);
        Assert.Equal([2, 6], solution.Values);
    }

    [Fact]
    public void Desks_tables_and_chairs_earn_280()
    {
        // Winston, Operations Research, the example that introduces the simplex algorithm (from memory).
        var (solution, greatest) = Greatest(
            null,
            [60, 30, 20],
            ([8, 6, 1], 48),
            ([4, 2, Rational.From(3, 2)], 20),
            ([2, Rational.From(3, 2), Rational.From(1, 2)], 8),
            ([0, 1, 0], 5));

        Assert.Equal(280, greatest);
        Assert.Equal([2, 0, 8], solution.Values);
    }

    [Fact]
    public void Whole_tables_and_chairs_earn_40_and_parts_of_them_165_quarters()
    {
        // Winston, Operations Research, the example that introduces branch and bound (from memory): rounding (15/4, 9/4) down would earn 34.
        var (free, most) = Greatest(null, [8, 5], ([1, 1], 6), ([9, 5], 45));
        var (whole, best) = Greatest(Grid.FromStep(1), [8, 5], ([1, 1], 6), ([9, 5], 45));

        Assert.Equal(Rational.From(165, 4), most);
        Assert.Equal([Rational.From(15, 4), Rational.From(9, 4)], free.Values);
        Assert.Equal(40, best);
        Assert.Equal([5, 0], whole.Values);
    }

    [Fact]
    public void A_tableau_that_cycles_under_the_largest_coefficient_rule_ends()
    {
        // Beale 1955, the classic example of cycling (from memory): minimise -3/4 a + 150 b - 1/50 c + 6 d. The least value is -1/20, at (1/25, 0, 1, 0).
        var (solution, greatest) = Greatest(
            null,
            [Rational.From(3, 4), -150, Rational.From(1, 50), -6],
            ([Rational.From(1, 4), -60, Rational.From(-1, 25), 9], 0),
            ([Rational.From(1, 2), -90, Rational.From(-1, 50), 3], 0),
            ([0, 0, 1, 0], 1));

        Assert.Equal(Rational.From(1, 20), greatest);
        Assert.Equal([Rational.From(1, 25), 0, 1, 0], solution.Values);
    }

    [Fact]
    public void A_linear_problem_of_three_measures_has_the_printed_optimum()
    {
        // Manual of the R package ROI.plugin.highs, "Example 1, Linear Problem 1": 7.666667e+01 at 0, 6.666667, 16.666667.
        var (solution, greatest) = Greatest(null, [2, 4, 3], ([3, 4, 2], 60), ([2, 1, 2], 40), ([1, 3, 2], 80));

        Assert.Equal(Rational.From(230, 3), greatest);
        Assert.Equal([0, Rational.From(20, 3), Rational.From(50, 3)], solution.Values);
    }

    [Fact]
    public void A_linear_problem_with_negative_factors_has_the_printed_optimum()
    {
        // SAS/OR User's Guide, The Linear Programming Solver, "Getting Started": objective 8 at 0, 3, 5.
        var (solution, greatest) = Greatest(null, [1, 1, 1], ([3, 2, -1], 1), ([-2, -3, 2], 1));

        Assert.Equal(8, greatest);
        Assert.Equal([0, 3, 5], solution.Values);
    }

    [Fact]
    public void A_linear_problem_printed_in_fractions_has_just_these()
    {
        // Beasley, OR-Notes, "More linear programming examples", as solved in the documentation of the Haskell package sbv
        // (Examples.Optimization.LinearOpt): 355/9 at 47/9, 20/9.
        var (solution, greatest) = Greatest(null, [5, 6], ([1, 1], 10), ([-1, 1], -3), ([5, 4], 35));

        Assert.Equal(Rational.From(355, 9), greatest);
        Assert.Equal([Rational.From(47, 9), Rational.From(20, 9)], solution.Values);
    }

    [Fact]
    public void A_problem_in_whole_numbers_has_the_printed_optimum()
    {
        // Google OR-Tools, guide "Solving a MIP Problem": x + 7y at most 17.5, x at most 3.5; 23 at 3, 2.
        var (solution, greatest) = Greatest(Grid.FromStep(1), [1, 10], ([1, 7], Rational.From(35, 2)), ([1, 0], Rational.From(7, 2)));

        Assert.Equal(23, greatest);
        Assert.Equal([3, 2], solution.Values);
    }

    [Fact]
    public void A_problem_in_whole_numbers_with_fractions_to_gain_has_the_printed_optimum()
    {
        // Huang, Notes on R, section "Integer programming": 29.2 at 26, 40.
        var (solution, greatest) = Greatest(
            Grid.FromStep(1), [Rational.From(1, 5), Rational.From(3, 5)], ([5, 3], 250), ([-3, 2], 4));

        Assert.Equal(Rational.From(146, 5), greatest);
        Assert.Equal([26, 40], solution.Values);
    }

    // Notebaert, lp_solve, demonstration of the Euler driver: one small problem, changed step by step. Each line of data is a step:
    // the first right side, whether d is a whole number, the least b, the most d, the optimum and the values that are printed.
    [Theory]
    [InlineData("4", false, "0", "100", "12", "0 0 0 4")]
    [InlineData("149/20", false, "0", "100", "447/20", "0 0 0 149/20")]
    [InlineData("149/20", true, "0", "100", "867/40", "0 9/40 0 7")]
    [InlineData("149/20", true, "2", "53/10", "627/40", "0 89/40 0 3")]
    public void A_problem_changed_step_by_step_has_the_printed_optimum_at_each(
        string right, bool isWhole, string leastB, string mostD, string optimum, string values)
    {
        var system = new WishSystem();
        var a = system.AddMeasure(null, 0, 100);
        var b = system.AddMeasure(null, Fraction(leastB), 100);
        var c = system.AddMeasure(null, 0, 100);
        var d = system.AddMeasure(isWhole ? Grid.FromStep(1) : null, 0, Fraction(mostD));
        system.Add([new(a, 3), new(b, 2), new(c, 2), new(d, 1)], Relation.Equal, Fraction(right), Strength.Must);
        system.Add([new(a, Rational.From(1, 2)), new(b, 4), new(c, 3), new(d, 1)], Relation.AtLeast, 3, Strength.Must);
        system.Add([new(a, 2), new(b, 3), new(c, -2), new(d, 3)], Relation.AtLeast, 1_000_000, Strength.Should);

        var solution = WishSolver.Solve(system);

        SystemChecker.Check(system, solution);
        Assert.Equal(Fraction(optimum), Assert.Single(solution.GaveWay).Got);
        Assert.Equal(values.Split(' ').Select(Fraction), solution.Values);
    }

    private static Rational Fraction(string text)
    {
        var parts = text.Split('/');
        return Rational.From(
            long.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture),
            parts.Length == 1 ? 1 : long.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Goals_of_two_priorities_are_met_as_far_as_the_first_lets_the_second()
    {
        // Winston, Operations Research, preemptive goal programming (from memory): audiences reached per minute of two kinds of advertising,
        // 7, 10 and 5 and 3, 5 and 4 million; goals 40, 60 and 35; minutes cost 100 and 60 thousand of 600. High incomes come first, then the
        // other two: the first two goals are met at (6, 0), and the third misses by 5.
        var system = new WishSystem();
        var first = system.AddMeasure(null, 0, 100);
        var second = system.AddMeasure(null, 0, 100);
        system.Add([new(first, 100), new(second, 60)], Relation.AtMost, 600, Strength.Must);
        system.Add([new(first, 7), new(second, 3)], Relation.AtLeast, 40, Strength.Should);
        system.Add([new(first, 10), new(second, 5)], Relation.AtLeast, 60, Strength.Should);
        var third = system.Add([new(first, 5), new(second, 4)], Relation.AtLeast, 35, Strength.May);

        var solution = WishSolver.Solve(system);

        SystemChecker.Check(system, solution);
        Assert.Equal([6, 0], solution.Values);
        Assert.Equal(new GaveWay(third, 35, 30, 5), Assert.Single(solution.GaveWay));
    }
}
