using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Relation = Trimwright.Solving.Relation;

namespace Trimwright.OracleTests;

/// <summary>
/// Kinds of systems that are hard in one way each. All numbers are whole and all measures have bounds, so that every oracle can be asked.
/// </summary>
internal static class Families
{
    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static readonly Gen<Strength> AnyWish = Pick(Strength.Should, Strength.Should, Strength.May);

    /// <summary>Sizes in proportions of coprime numbers, such as 7 to 11 and 13 to 17, that hardly ever fall on a grid.</summary>
    public static Gen<WishSystem> Proportions { get; } =
        from count in Gen.Int[2, 5]
        from ratios in Pick((7, 11), (13, 17), (11, 7), (17, 13), (2, 3)).Array[count]
        from strengths in Pick(Strength.Must, Strength.Should, Strength.Should, Strength.May).Array[count]
        from wishes in Gen.Select(Gen.Int[5, 90], AnyWish).Array[count]
        from step in Pick(1, 2)
        select Make(count, _ => (Grid.FromStep(step), 0, 90), system =>
        {
            for (var i = 0; i < count; i++)
            {
                if (i > 0)
                {
                    system.Add([new(new(i), ratios[i].Item2), new(new(i - 1), -ratios[i].Item1)], Relation.Equal, 0, strengths[i]);
                }

                system.Add([new(new(i), 1)], Relation.Equal, wishes[i].Item1, wishes[i].Item2);
            }
        });

    /// <summary>Equalities of which the sum is off by one from what the factors can give, or just right.</summary>
    public static Gen<WishSystem> JustFailing { get; } =
        from count in Gen.Int[2, 4]
        from factor in Gen.Int[2, 6]
        from times in Gen.Int[1, 4].Array[count]
        from off in Pick(0, 0, 1, -1)
        from total in Gen.Int[3, 20]
        from wishes in Gen.Select(Gen.Int[0, 20], AnyWish).Array[count]
        select Make(count, _ => (Grid.FromStep(1), 0, 40), system =>
        {
            system.Add([.. times.Select((t, i) => new Term(new(i), t * factor))], Relation.Equal, (total * factor) + off, Strength.Must);
            for (var i = 0; i < count; i++)
            {
                system.Add([new(new(i), 1)], Relation.Equal, wishes[i].Item1, wishes[i].Item2);
            }
        });

    /// <summary>Pieces centred in one another: an odd piece in an even one leaves half steps, which positions may have and reveals may not.</summary>
    public static Gen<WishSystem> Parity { get; } =
        from depth in Gen.Int[1, 4]
        from outer in Gen.Int[20, 60]
        from sizes in Gen.Select(Gen.Int[4, 58], Pick(Strength.Must, Strength.Should, Strength.Should, Strength.May)).Array[depth]
        from gridded in Pick(true, true, false).Array[depth]
        select Make((2 * depth) + 1, m => m == 0 || m % 2 == 1 ? (Grid.FromStep(1), 0, 60) : (gridded[(m / 2) - 1] ? Grid.FromStep(1) : null, 0, 30), system =>
        {
            system.Add([new(new(0), 1)], Relation.Equal, outer, Strength.Must);
            for (var i = 0; i < depth; i++)
            {
                // size (odd numbers) + 2 reveal (even numbers) = size around it.
                var (around, size, reveal) = (i == 0 ? 0 : (2 * i) - 1, (2 * i) + 1, (2 * i) + 2);
                system.Add([new(new(size), 1), new(new(reveal), 2), new(new(around), -1)], Relation.Equal, 0, Strength.Must, isStructure: true);
                system.Add([new(new(reveal), 1)], Relation.AtLeast, 1, Strength.Must);
                system.Add([new(new(size), 1)], Relation.Equal, sizes[i].Item1, sizes[i].Item2);
            }
        });

    /// <summary>Sizes on sixteenths of an inch beside sizes on millimetres, in units of 1/80 mm: 127 and 80.</summary>
    public static Gen<WishSystem> MixedScales { get; } =
        from count in Gen.Int[2, 4]
        from inches in Pick(true, false).Array[count]
        from wishes in Gen.Select(Gen.Int[0, 12_000], AnyWish).Array[count]
        from ties in Gen.Select(Gen.Int[0, count - 1], Gen.Int[0, count - 1], Pick(Relation.AtMost, Relation.AtLeast, Relation.Equal), Gen.Int[-400, 400], Pick(Strength.Must, Strength.Should)).Array[1, 3]
        select Make(count, i => (Grid.FromStep(inches[i] ? 127 : 80), 0, 12_700), system =>
        {
            foreach (var (a, b, relation, right, strength) in ties)
            {
                system.Add([new(new(a), 1), new(new(b), -1)], relation, right, relation == Relation.Equal ? Strength.Should : strength);
            }

            for (var i = 0; i < count; i++)
            {
                system.Add([new(new(i), 1)], Relation.Equal, wishes[i].Item1, wishes[i].Item2);
            }
        });

    /// <summary>The same said twice, thrice, in other words, and against itself.</summary>
    public static Gen<WishSystem> Repeated { get; } =
        from count in Gen.Int[2, 4]
        from lines in Gen.Select(
            Gen.Int[0, count - 1], Gen.Int[0, count - 1], Pick(1, 1, -1, 2), Gen.Int[0, 25],
            Pick(Relation.Equal, Relation.AtMost, Relation.AtLeast), Pick(Strength.Must, Strength.Should, Strength.May)).Array[1, 5]
        from repeats in Gen.Select(Gen.Int[0, 4], Gen.Int[1, 3], Pick(0, 0, 0, 1, -3), Pick(Strength.Must, Strength.Should, Strength.May)).Array[1, 5]
        from steps in Pick(1, 2, 3).Array[count]
        select Make(count, i => (Grid.FromStep(steps[i]), 0, 30), system =>
        {
            foreach (var (a, b, factor, right, relation, strength) in lines)
            {
                system.Add([new(new(a), 1), new(new(b), factor)], relation, right, strength);
            }

            foreach (var (of, times, off, strength) in repeats)
            {
                var (a, b, factor, right, relation, first) = lines[of % lines.Length];
                system.Add([new(new(a), times), new(new(b), factor * times)], relation, (right * times) + off, first == Strength.Must ? first : strength);
            }
        });

    /// <summary>Sizes out of lists, as dies have them, tied to sizes on a step.</summary>
    public static Gen<WishSystem> Dies { get; } =
        from count in Gen.Int[2, 5]
        from lists in Gen.Int[1, 40].Array[1, 6].Array[count]
        from isDie in Pick(true, true, false).Array[count]
        from ties in Gen.Select(Gen.Int[0, count - 1], Gen.Int[0, count - 1], Gen.Int[0, 8], Pick(Strength.Must, Strength.Should)).Array[1, 4]
        from wishes in Gen.Select(Gen.Int[0, 40], AnyWish).Array[count]
        select Make(count, i => (isDie[i] ? Grid.FromValues(lists[i].Select(v => Rational.FromWhole(v))) : Grid.FromStep(1), 0, 40), system =>
        {
            foreach (var (a, b, reveal, strength) in ties)
            {
                system.Add([new(new(a), 1), new(new(b), -1)], Relation.Equal, 2 * reveal, strength);
            }

            for (var i = 0; i < count; i++)
            {
                system.Add([new(new(i), 1)], Relation.Equal, wishes[i].Item1, wishes[i].Item2);
            }
        });

    /// <summary>All of them.</summary>
    public static Gen<WishSystem> Any { get; } = Gen.OneOf(Proportions, JustFailing, Parity, MixedScales, Repeated, Dies);

    /// <summary>A system, line by line, for reading a failure.</summary>
    public static string Written(WishSystem system) => string.Join('\n', Enumerable.Range(0, system.MeasureCount)
        .Select(m => $"m{m} {system.BoundsOf(new(m))} {system.GridOf(new(m))?.Step} {string.Join(' ', system.GridOf(new(m))?.Values ?? [])}")
        .Concat(system.Statements.Select(s => $"{s.Strength} {string.Join(" + ", s.Terms.Select(t => $"{t.Factor} m{t.Measure.Index}"))} {s.Relation} {s.Right}")));

    private static WishSystem Make(int count, Func<int, (Grid? Grid, Rational Least, Rational Most)> declare, Action<WishSystem> fill)
    {
        var system = new WishSystem();
        for (var i = 0; i < count; i++)
        {
            var (grid, least, most) = declare(i);
            system.AddMeasure(grid, least, most);
        }

        fill(system);
        return system;
    }
}
