using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;
using Relation = Trimwright.Solving.Relation;

namespace Trimwright.OracleTests;

public class OracleTests
{
    private static readonly Gen<Relation> AnyRelation = Pick(Relation.Equal, Relation.Equal, Relation.AtMost, Relation.AtLeast);

    private static readonly Gen<Strength> AnyStrength = Pick(Strength.Must, Strength.Should, Strength.Should, Strength.May);

    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<(Rational[] Factors, int[] Measures, Relation Relation, int Right, Strength Strength)[]> Lines(int measures, Gen<Rational> factor) =>
        Gen.Select(factor.Array[1, 3], Gen.Int[0, measures - 1].Array[3], AnyRelation, Gen.Int[-10, 40], AnyStrength).Array[1, 12];

    private static WishSystem Fill(WishSystem system, (Rational[] Factors, int[] Measures, Relation Relation, int Right, Strength Strength)[] lines)
    {
        foreach (var (factors, measures, relation, right, strength) in lines)
        {
            system.Add([.. factors.Select((f, i) => new Term(new(measures[i]), f))], relation, right, strength);
        }

        return system;
    }

    private static readonly Gen<WishSystem> Gridded =
        from count in Gen.Int[2, 7]
        from steps in Pick(1, 1, 2, 3).Array[count]
        from lists in Gen.Int[0, 30].Array[1, 5].Array[count]
        from useList in Pick(true, false, false).Array[count]
        from lines in Lines(count, Pick<Rational>(1, 1, 1, -1, -1, 2, -2, 3, 5, -7))
        select Fill(Measures(count, i => (useList[i] ? Grid.FromValues(lists[i].Select(v => Rational.FromWhole(v))) : Grid.FromStep(steps[i]), 0, 30)), lines);

    private static readonly Gen<WishSystem> Free =
        from count in Gen.Int[2, 9]
        from least in Pick<Rational?>(null, 0, 0, -20).Array[count]
        from most in Pick<Rational?>(null, 25, 60).Array[count]
        from lines in Lines(count, Pick(1, 1, -1, -1, 2, Rational.From(1, 2), Rational.From(-3, 10), Rational.From(2, 5)))
        select Fill(Measures(count, i => (null, least[i], most[i])), lines);

    private static WishSystem Measures(int count, Func<int, (Grid?, Rational?, Rational?)> declare)
    {
        var system = new WishSystem();
        for (var i = 0; i < count; i++)
        {
            var (grid, least, most) = declare(i);
            system.AddMeasure(grid, least, most);
        }

        return system;
    }

    private static Rational Sum(WishSystem system, Solution solution, Strength level) => solution.GaveWay
        .Where(g => system.Statements[g.Statement].Strength == level)
        .Aggregate(Rational.Zero, (sum, g) => sum + g.Miss);

    [Fact]
    public void Cp_sat_agrees_on_what_can_hold_and_on_the_least_sums_of_both_levels() => Gridded.Sample(
        system =>
        {
            var solution = WishSolver.Solve(system);
            var oracle = Oracle.Whole(system);
            if (oracle is not { } sums)
            {
                Assert.Equal(Outcome.Clash, solution.Outcome);
                return;
            }

            Assert.Equal(Outcome.Best, solution.Outcome);
            Assert.Equal(sums.Should, Sum(system, solution, Strength.Should));

            // CP-SAT lowers the mays among all points of the least sum of shoulds; here the largest should and the order come first.
            var may = Sum(system, solution, Strength.May);
            Assert.True(may >= sums.May);
            if (sums.Should == 0)
            {
                Assert.Equal(sums.May, may);
            }
        },
        iter: 300, threads: 2, print: Written);

    [Fact]
    public void Glop_agrees_on_what_can_hold_and_on_the_least_sum_of_the_shoulds() => Free.Sample(
        system =>
        {
            var solution = WishSolver.Solve(system);
            if (Oracle.Free(system) is not { } sum)
            {
                Assert.Equal(Outcome.Clash, solution.Outcome);
                return;
            }

            Assert.Equal(Outcome.Best, solution.Outcome);
            var exact = Sum(system, solution, Strength.Should);

            // GLOP computes in floating point and stops at 1e-6 by default; denominators here are small, so a wrong sum is far off.
            Assert.Equal((double)exact.Numerator / (double)exact.Denominator, sum, 1e-5);
        },
        iter: 500, threads: 2, print: Written);

    private static string Written(WishSystem system) => string.Join('\n', Enumerable.Range(0, system.MeasureCount)
        .Select(m => $"m{m} {system.BoundsOf(new(m))} {system.GridOf(new(m))?.Step} {string.Join(' ', system.GridOf(new(m))?.Values ?? [])}")
        .Concat(system.Statements.Select(s => $"{s.Strength} {string.Join(" + ", s.Terms.Select(t => $"{t.Factor} m{t.Measure.Index}"))} {s.Relation} {s.Right}")));
}
