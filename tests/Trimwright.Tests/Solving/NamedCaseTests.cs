using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>Cases that floating point, weights or rounding afterwards get wrong. One unit is 1/16 in where nothing else is said.</summary>
public class NamedCaseTests
{
    private static readonly Grid Sixteenths = Grid.FromStep(1);

    private readonly WishSystem _system = new();

    private static Rational Inches(long numerator, long denominator = 1) => Rational.From(16 * numerator, denominator);

    private int Say(Strength strength, Relation relation, Rational right, params (Measure Measure, Rational Factor)[] terms) =>
        _system.Add([.. terms.Select(t => new Term(t.Measure, t.Factor))], relation, right, strength);

    private int Must(Relation relation, Rational right, params (Measure Measure, Rational Factor)[] terms) =>
        Say(Strength.Must, relation, right, terms);

    private int Should(Rational right, params (Measure Measure, Rational Factor)[] terms) =>
        Say(Strength.Should, Relation.Equal, right, terms);

    private Solution Solved()
    {
        var solution = WishSolver.Solve(_system);
        SystemChecker.Check(_system, solution);
        return solution;
    }

    private Clash Clashing()
    {
        var solution = WishSolver.Solve(_system);
        SystemChecker.CheckClash(_system, solution);
        return solution.Clash!;
    }

    [Theory]
    [InlineData(11, 2)]
    [InlineData(17, 4)]
    public void Three_equal_panels_cannot_fill_a_width_that_is_no_multiple_of_three_sixteenths(long numerator, long denominator)
    {
        // 5 1/2 in and 4 1/4 in are 88 and 68 sixteenths; neither divides by 3.
        var panel = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var fill = Must(Relation.Equal, Inches(numerator, denominator), (panel, 3));

        var clash = Clashing();

        Assert.Equal([fill], clash.Statements);
        Assert.Equal([panel], clash.Grids);
    }

    [Theory]
    [InlineData(11, 2, 29)]
    [InlineData(17, 4, 23)]
    public void Three_equal_panels_that_should_fill_such_a_width_come_as_near_as_the_grid_allows(long numerator, long denominator, int panels)
    {
        // 3 x 29 = 87 of 88 and 3 x 23 = 69 of 68: one sixteenth off, the least there is.
        var panel = _system.AddMeasure(Sixteenths, 1, Inches(11));
        Should(Inches(numerator, denominator), (panel, 3));

        var solution = Solved();

        Assert.Equal(Outcome.Best, solution.Outcome);
        Assert.Equal(panels, solution.Values[panel.Index]);
        Assert.Equal(Rational.One, Assert.Single(solution.GaveWay).Miss);
    }

    private (Measure Base, Measure Photo, Measure Reveal) ThreeEqualReveals()
    {
        var ground = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var outer = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var inner = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var photo = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var reveal = _system.AddMeasure(null, 0, Inches(2));
        Must(Relation.Equal, Inches(11, 2), (ground, 1));
        Must(Relation.Equal, 0, (ground, 1), (outer, -1), (reveal, -2));
        Must(Relation.Equal, 0, (outer, 1), (inner, -1), (reveal, -2));
        Must(Relation.Equal, 0, (inner, 1), (photo, -1), (reveal, -2));
        return (ground, photo, reveal);
    }

    [Fact]
    public void Three_equal_reveals_stay_equal_and_the_photo_gives_way_by_a_sixteenth()
    {
        // 5 1/2 in to 4 1/2 in leaves 1/6 in each; with 4 9/16 in each shows 5/32 in. 4 3/8 in would be a miss of two sixteenths.
        var (_, photo, reveal) = ThreeEqualReveals();
        var wish = Should(Inches(9, 2), (photo, 1));

        var solution = Solved();

        Assert.Equal(Inches(73, 16), solution.Values[photo.Index]);
        Assert.Equal(Inches(5, 32), solution.Values[reveal.Index]);
        Assert.Equal([new GaveWay(wish, Inches(9, 2), Inches(73, 16), 1)], solution.GaveWay);
    }

    [Fact]
    public void Three_equal_reveals_around_a_photo_that_must_keep_its_size_clash_with_the_grid()
    {
        var (ground, photo, _) = ThreeEqualReveals();
        var must = Must(Relation.Equal, Inches(9, 2), (photo, 1));

        var clash = Clashing();

        Assert.Equal([0, 1, 2, 3, must], clash.Statements);

        // The two mats between are on grids too; ground and photo follow from musts. One mat is blamed: its reveals would be 1/6 in.
        Assert.DoesNotContain(ground, clash.Grids);
        Assert.DoesNotContain(photo, clash.Grids);
        Assert.Single(clash.Grids);
    }

    [Theory]
    [InlineData(7, 81, 10, 1, 10)]
    [InlineData(3, 17, 4, 1, 5)]
    public void Equal_squares_in_a_row_are_cut_equal_and_the_gaps_take_the_rest(int count, int width, int widthUnder, int gapOver, int gapUnder)
    {
        // The exact sizes, 73/70 in and 23/20 in, are off the grid. Rounding each edge would cut neighbours a sixteenth apart.
        var squares = Enumerable.Range(0, count).Select(_ => _system.AddMeasure(Sixteenths, 1, Inches(11))).ToArray();
        var gap = _system.AddMeasure(null, 0, Inches(2));
        for (var i = 1; i < count; i++)
        {
            Must(Relation.Equal, 0, (squares[0], 1), (squares[i], -1));
        }

        Must(Relation.Equal, Inches(width, widthUnder), [(gap, count + 1), .. squares.Select(s => (s, Rational.One))]);
        Should(Inches(gapOver, gapUnder), (gap, 1));

        var solution = Solved();

        // Nearest whole sixteenth to 16 x 73/70 = 16.69 and to 16 x 23/20 = 18.4; the gap then misses by count/(count + 1) of the rest.
        var size = count == 7 ? 17 : 18;
        Assert.All(squares, s => Assert.Equal(size, solution.Values[s.Index]));
        Assert.Equal((Inches(width, widthUnder) - (count * size)) / (count + 1), solution.Values[gap.Index]);
    }

    [Fact]
    public void One_should_outweighs_a_thousand_and_one_mays()
    {
        var x = _system.AddMeasure();
        Should(2, (x, 1));
        for (var i = 0; i < 1001; i++)
        {
            Say(Strength.May, Relation.Equal, 3, (x, 1));
        }

        Assert.Equal(2, Solved().Values[x.Index]);
    }

    [Fact]
    public void A_may_in_large_units_does_not_outweigh_a_should()
    {
        var x = _system.AddMeasure();
        Say(Strength.Should, Relation.AtMost, 2, (x, 1));
        Say(Strength.May, Relation.Equal, 4500, (x, 1500));

        Assert.Equal(2, Solved().Values[x.Index]);
    }

    [Fact]
    public void A_free_sum_is_halved_and_reported_loose()
    {
        var a = _system.AddMeasure(null, 0, 10);
        var b = _system.AddMeasure(null, 0, 10);
        Must(Relation.Equal, 10, (a, 1), (b, 1));

        Assert.Equal([new Loose(a, 0, 10, 5), new Loose(b, 0, 10, 5)], Solved().Loose);
    }

    [Fact]
    public void A_measure_without_bounds_is_loose_without_ends()
    {
        var a = _system.AddMeasure();
        var b = _system.AddMeasure(null, 3);
        var c = _system.AddMeasure(null, null, -3);

        Assert.Equal([new Loose(a, null, null, 0), new Loose(b, 3, null, 3), new Loose(c, null, -3, -3)], Solved().Loose);
    }

    [Fact]
    public void The_middle_of_a_range_falls_to_the_lower_of_two_grid_values()
    {
        var a = _system.AddMeasure(Sixteenths, 0, 5);

        Assert.Equal([new Loose(a, 0, 5, 2)], Solved().Loose);
    }

    [Fact]
    public void A_solve_that_clashed_leaves_nothing_behind()
    {
        var x = _system.AddMeasure();
        Must(Relation.AtLeast, 2, (x, 1));
        var before = WishSolver.Solve(_system);
        var other = new WishSystem();
        var y = other.AddMeasure();
        other.Add([new(y, 1)], Relation.AtLeast, 2, Strength.Must);
        other.Add([new(y, 1)], Relation.AtMost, 1, Strength.Must);

        Assert.Equal([0, 1], WishSolver.Solve(other).Clash!.Statements);
        Assert.Equal(before.Values, WishSolver.Solve(_system).Values);
    }

    [Fact]
    public void Two_mats_with_one_reveal_clash_with_the_grid_when_width_and_height_do_not_differ_by_whole_steps()
    {
        // w = W - 2r and h = H - 2r, so w - h = W - H: 4 1/4 in less 5 1/2 in and a 32nd is no multiple of 1/16 in.
        var w = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var h = _system.AddMeasure(Sixteenths, 1, Inches(11));
        var r = _system.AddMeasure();
        var wide = Must(Relation.Equal, Inches(17, 4), (w, 1), (r, 2));
        var high = Must(Relation.Equal, Inches(177, 32), (h, 1), (r, 2));

        var clash = Clashing();

        Assert.Equal([wide, high], clash.Statements);
        Assert.Equal([w, h], clash.Grids);
    }

    [Fact]
    public void An_equation_of_even_factors_and_an_odd_sum_ends_at_once()
    {
        // Searched step by step, a million values a side would never end.
        var a = _system.AddMeasure(Sixteenths, 0, 1_000_000);
        var b = _system.AddMeasure(Sixteenths, 0, 1_000_000);
        var odd = Must(Relation.Equal, 1, (a, 2), (b, -2));

        var clash = Clashing();

        Assert.Equal([odd], clash.Statements);
        Assert.Equal([a, b], clash.Grids);
    }

    [Fact]
    public void Two_equations_that_whole_numbers_solve_one_by_one_but_not_together_end_at_once()
    {
        // a + b + 2c = 0 and a - b + 2d = 1: the sum says 2(a + c + d) = 1, so the grid of b has no part in it.
        var m = Enumerable.Range(0, 4).Select(_ => _system.AddMeasure(Sixteenths, -1_000_000, 1_000_000)).ToArray();
        Must(Relation.Equal, 0, (m[0], 1), (m[1], 1), (m[2], 2));
        Must(Relation.Equal, 1, (m[0], 1), (m[1], -1), (m[3], 2));

        var clash = Clashing();

        Assert.Equal([0, 1], clash.Statements);
        Assert.Equal([m[0], m[2], m[3]], clash.Grids);
    }

    [Fact]
    public void A_width_on_sixteenths_of_an_inch_and_on_millimetres_is_a_multiple_of_127_millimetres()
    {
        // In nanometres: 1/16 in = 1 587 500, 1 mm = 1 000 000, their least common multiple is 127 000 000, which is 5 in.
        var a = _system.AddMeasure(Grid.FromStep(1_587_500), 1_587_500, 300_000_000);
        var b = _system.AddMeasure(Grid.FromStep(1_000_000), 1_000_000, 300_000_000);
        Must(Relation.Equal, 0, (a, 1), (b, -1));
        Should(130_000_000, (b, 1));

        var solution = Solved();

        Assert.Equal(127_000_000, solution.Values[a.Index]);
        Assert.Equal(Outcome.Best, solution.Outcome);
    }

    [Fact]
    public void The_sum_of_misses_comes_before_the_largest_and_the_largest_before_the_order()
    {
        // Any split of 6 over two wishes has the same sum; the largest is least at 3 and 3.
        var a = _system.AddMeasure(null, 0, 10);
        var b = _system.AddMeasure(null, 0, 10);
        Must(Relation.AtMost, 10, (a, 1), (b, 1));
        Should(8, (a, 1));
        Should(8, (b, 1));

        var solution = Solved();

        Assert.Equal([5, 5], solution.Values);
        Assert.Empty(solution.Loose);
    }

    [Fact]
    public void On_a_grid_the_earlier_of_two_wishes_misses_less()
    {
        var a = _system.AddMeasure(Sixteenths, 0, 10);
        var b = _system.AddMeasure(Sixteenths, 0, 10);
        Must(Relation.AtMost, 11, (a, 1), (b, 1));
        Should(8, (a, 1));
        Should(8, (b, 1));

        Assert.Equal([6, 5], Solved().Values);
    }

    [Fact]
    public void A_may_that_ties_two_parts_together_does_not_change_which_shoulds_give_way()
    {
        Measure[] m = [.. Enumerable.Range(0, 4).Select(_ => _system.AddMeasure(null, 0, 100))];
        Must(Relation.AtMost, 10, (m[0], 1), (m[1], 1));
        Must(Relation.AtMost, 50, (m[2], 1), (m[3], 1));
        foreach (var measure in m)
        {
            Should(measure.Index < 2 ? 8 : 75, (measure, 1));
        }

        Say(Strength.May, Relation.Equal, 0, (m[0], 1), (m[2], -1));

        Assert.Equal([5, 5, 25, 25], Solved().Values);
    }

    [Fact]
    public void A_circle_takes_the_die_nearest_to_its_wish()
    {
        var die = _system.AddMeasure(Grid.FromValues([32, 40, 24, 52]));
        Should(45, (die, 1));

        Assert.Equal(40, Solved().Values[die.Index]);
    }
}
