using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>
/// Worked examples of textbooks, given as a wish for more than can be had: what is missed tells the greatest value. Statements and
/// answers are from memory; each answer can be checked by hand at the corners.
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
        // Hillier and Lieberman, Introduction to Operations Research, the prototype example of linear programming.
        var (solution, greatest) = Greatest(null, [3, 5], ([1, 0], 4), ([0, 2], 12), ([3, 2], 18));

        Assert.Equal(36, greatest);
        Assert.Equal([2, 6], solution.Values);
    }

    [Fact]
    public void Desks_tables_and_chairs_earn_280()
    {
        // Winston, Operations Research, the example that introduces the simplex algorithm.
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
        // Winston, Operations Research, the example that introduces branch and bound: rounding (15/4, 9/4) down would earn 34.
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
        // Beale 1955, the classic example of cycling: minimise -3/4 a + 150 b - 1/50 c + 6 d. The least value is -1/20, at (1/25, 0, 1, 0).
        var (solution, greatest) = Greatest(
            null,
            [Rational.From(3, 4), -150, Rational.From(1, 50), -6],
            ([Rational.From(1, 4), -60, Rational.From(-1, 25), 9], 0),
            ([Rational.From(1, 2), -90, Rational.From(-1, 50), 3], 0),
            ([0, 0, 1, 0], 1));

        Assert.Equal(Rational.From(1, 20), greatest);
        Assert.Equal([Rational.From(1, 25), 0, 1, 0], solution.Values);
    }
}
