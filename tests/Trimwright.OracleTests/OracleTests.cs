using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Trimwright.Tests;
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
    public void Cp_sat_agrees_on_what_can_hold_and_on_the_least_sums_of_both_levels() => Gridded.Hold(
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
        iter: 300, print: Written);

    [Fact]
    public void Glop_agrees_on_what_can_hold_and_on_the_least_sum_of_the_shoulds() => Free.Hold(
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
        iter: 500, print: Written);

    private static string Written(WishSystem system) => string.Join('\n', Enumerable.Range(0, system.MeasureCount)
        .Select(m => $"m{m} {system.BoundsOf(new(m))} {system.GridOf(new(m))?.Step} {string.Join(' ', system.GridOf(new(m))?.Values ?? [])}")
        .Concat(system.Statements.Select(s => $"{s.Strength} {string.Join(" + ", s.Terms.Select(t => $"{t.Factor} m{t.Measure.Index}"))} {s.Relation} {s.Right}")));

    /// <summary>Pieces on mats on a sheet: enough sizes that the solver takes parents out and solves the pieces apart.</summary>
    private static readonly Gen<WishSystem> Nested =
        from sheetIsWished in Gen.Bool
        from mats in Gen.Select(Gen.Int[8, 60], Gen.Int[8, 60], Gen.Int[1, 9], Gen.Int[0, 3]).Array[3, 4]
        from pieces in Gen.Select(Gen.Int[3, 40], Gen.Int[3, 40], Gen.Int[0, 25], Gen.Int[0, 4]).Array[6]
        select Nest(sheetIsWished, mats, pieces);

    private static WishSystem Nest(bool sheetIsWished, (int W, int H, int Margin, int Kind)[] mats, (int W, int H, int X, int Kind)[] pieces)
    {
        var system = new WishSystem();
        (Measure X, Measure Y, Measure W, Measure H) Piece() => (
            system.AddMeasure(Grid.FromStep(1), 0, 100),
            system.AddMeasure(Grid.FromStep(1), 0, 100),
            system.AddMeasure(Grid.FromStep(2), 2, 100),
            system.AddMeasure(Grid.FromStep(2), 2, 100));
        void Say(Strength strength, Relation relation, Rational right, params (Measure Measure, Rational Factor)[] terms) =>
            system.Add([.. terms.Select(t => new Term(t.Measure, t.Factor))], relation, right, strength);
        void Wish(Measure measure, int value) => Say(Strength.Should, Relation.Equal, value, (measure, 1));

        var sheet = Piece();
        Say(Strength.Must, Relation.Equal, 0, (sheet.X, 1));
        Say(Strength.Must, Relation.Equal, 0, (sheet.Y, 1));
        foreach (var (size, value) in new[] { (sheet.W, 50), (sheet.H, 40) })
        {
            Say(sheetIsWished ? Strength.Should : Strength.Must, Relation.Equal, value, (size, 1));
            Say(Strength.Must, Relation.AtLeast, value - 4, (size, 1));
            Say(Strength.Must, Relation.AtMost, value + 4, (size, 1));
        }

        void Put((Measure X, Measure Y, Measure W, Measure H) child, (Measure X, Measure Y, Measure W, Measure H) parent, int margin)
        {
            Say(Strength.Must, Relation.AtLeast, margin, (child.X, 1), (parent.X, -1));
            Say(Strength.Must, Relation.AtLeast, margin, (child.Y, 1), (parent.Y, -1));
            Say(Strength.Must, Relation.AtMost, -margin, (child.X, 1), (child.W, 1), (parent.X, -1), (parent.W, -1));
            Say(Strength.Must, Relation.AtMost, -margin, (child.Y, 1), (child.H, 1), (parent.Y, -1), (parent.H, -1));
        }

        for (var i = 0; i < mats.Length; i++)
        {
            var (mat, (w, h, margin, kind)) = (Piece(), mats[i]);
            Put(mat, sheet, margin);
            Say(Strength.Must, Relation.Equal, 0, (mat.X, 2), (mat.W, 1), (sheet.X, -2), (sheet.W, -1));
            Wish(mat.W, w);
            Wish(mat.H, h);
            if (kind == 0)
            {
                Say(Strength.Should, Relation.Equal, 0, (mat.W, 2), (mat.H, -3));
            }

            for (var k = 0; k < 2; k++)
            {
                var (child, wanted) = (Piece(), pieces[((2 * i) + k) % pieces.Length]);
                Put(child, mat, 1);
                Wish(child.W, wanted.W);
                Wish(child.H, wanted.H);
                Say(Strength.May, Relation.Equal, wanted.X, (child.X, 1), (mat.X, -1));
                if (wanted.Kind == 0)
                {
                    Say(Strength.Must, Relation.Equal, 0, (child.W, 1), (child.H, -1));
                }
                else if (wanted.Kind == 1)
                {
                    Say(Strength.Should, Relation.Equal, 0, (child.H, 5), (mat.H, -2));
                }
            }
        }

        return system;
    }

    [Fact]
    public void Cp_sat_agrees_on_the_least_sums_of_pieces_on_mats_on_a_sheet() => Nested.Hold(
        system =>
        {
            var oracle = Oracle.Whole(system);
            var solution = WishSolver.Solve(system);
            if (oracle is not { } best)
            {
                Assert.Equal(Outcome.Clash, solution.Outcome);
                return;
            }

            Assert.True(solution.Outcome is Outcome.Best or Outcome.BestFound, $"outcome {solution.Outcome}");
            if (solution.Outcome == Outcome.Best)
            {
                Assert.Equal(best.Should, Sum(system, solution, Strength.Should));

                // The largest miss of the shoulds comes before the mays, and the oracle does not know of it.
                Assert.True(Sum(system, solution, Strength.May) >= best.May);
            }
            else if (solution.Gap is { } gap && Sum(system, solution, Strength.Should) is var sum && sum != best.Should)
            {
                Assert.InRange(sum - best.Should, Rational.Zero, gap);
            }
        },
        iter: 40, print: Described);

    private static string Described(WishSystem system) => string.Join('\n', system.Statements.Select(
        s => $"{s.Strength} {string.Join(" + ", s.Terms.Select(t => $"{t.Factor} m{t.Measure.Index}"))} {s.Relation} {s.Right}"));
}
