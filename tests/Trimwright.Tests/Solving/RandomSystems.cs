using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Tests.Solving;

/// <summary>Generators of small systems, biased to equal values, borders and factors that break grids.</summary>
internal static class RandomSystems
{
    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static readonly Gen<Rational> Factor = Pick<Rational>(1, 1, 1, -1, -1, 2, -2, 3, Rational.From(1, 2), Rational.From(-2, 3));

    private static readonly Gen<Rational> Right = Gen.Select(Gen.Int[-6, 14], Pick(1, 1, 1, 2, 3), (n, d) => Rational.From(n, d));

    private static readonly Gen<Relation> AnyRelation =
        Pick(Relation.Equal, Relation.Equal, Relation.AtMost, Relation.AtLeast);

    private static readonly Gen<Strength> AnyStrength =
        Pick(Strength.Must, Strength.Should, Strength.Should, Strength.May);

    private static readonly Gen<Grid> AnyGrid = Gen.OneOf(
        Pick<Rational>(1, 1, 2, Rational.From(1, 2), Rational.From(3, 2)).Select(Grid.FromStep),
        Gen.Int[0, 8].Array[1, 4].Select(v => Grid.FromValues(v.Select(i => Rational.From(i, 1)))));

    /// <summary>A statement as plain data, so that it can be shuffled and repeated.</summary>
    public sealed record Line((int Measure, Rational Factor)[] Terms, Relation Relation, Rational Right, Strength Strength, bool IsStructure);

    /// <summary>A system as plain data.</summary>
    public sealed record Plan(IReadOnlyList<(Grid? Grid, Rational? Least, Rational? Most)> Measures, IReadOnlyList<Line> Lines)
    {
        /// <summary>The system.</summary>
        public WishSystem Build()
        {
            var system = new WishSystem();
            foreach (var (grid, least, most) in Measures)
            {
                system.AddMeasure(grid, least, most);
            }

            foreach (var line in Lines)
            {
                system.Add([.. line.Terms.Select(t => new Term(new(t.Measure), t.Factor))], line.Relation, line.Right, line.Strength, line.IsStructure);
            }

            return system;
        }

        /// <summary>The system, line by line, for reading a failure.</summary>
        public override string ToString() => string.Join('\n', Measures
            .Select((m, i) => $"m{i} in [{m.Least}, {m.Most}] on {(m.Grid?.Step is { } s ? $"{s}" : m.Grid is { } g ? string.Join(' ', g.Values!) : "any")}")
            .Concat(Lines.Select((l, i) => $"{i}: {l.Strength}{(l.IsStructure ? " (structure)" : "")} "
                + $"{string.Join(" + ", l.Terms.Select(t => $"{t.Factor} m{t.Measure}"))} {l.Relation} {l.Right}")));
    }

    /// <summary>Lines over some measures.</summary>
    public static Gen<Line> LineOver(int measureCount) => Gen.Select(
        Gen.Select(Gen.Int[0, measureCount - 1], Factor).Array[1, Math.Min(3, measureCount)], AnyRelation, Right, AnyStrength, Pick(false, false, true),
        (terms, relation, right, strength, structure) => new Line(terms, relation, right, strength, structure));

    /// <summary>Systems of measures that all have a grid and few values, and some that follow from them.</summary>
    public static Gen<Plan> Gridded { get; } =
        from gridded in Gen.Int[1, 3]
        from followers in Gen.Int[0, 2]
        from grids in AnyGrid.Array[gridded]
        from most in Gen.Int[0, 8].Array[gridded]
        from links in Gen.Select(Gen.Int[0, gridded - 1], Factor, Gen.Int[0, gridded - 1], Factor, Right).Array[followers]
        from lines in LineOver(gridded + followers).Array[0, 6]
        select new Plan(
            [.. grids.Select((g, i) => ((Grid?)g, (Rational?)0, (Rational?)most[i])), .. Enumerable.Repeat<(Grid?, Rational?, Rational?)>(default, followers)],
            [
                .. links.Select((l, i) => new Line([(gridded + i, 1), (l.Item1, l.Item2), (l.Item3, l.Item4)], Relation.Equal, l.Item5, Strength.Must, true)),
                .. lines,
            ]);

    /// <summary>Systems of measures some of which have a grid; all have bounds.</summary>
    public static Gen<Plan> Mixed { get; } =
        from count in Gen.Int[1, 6]
        from grids in Gen.OneOf(Gen.Const((Grid?)null), AnyGrid.Select(g => (Grid?)g)).Array[count]
        from most in Gen.Int[4, 12].Array[count]
        from lines in LineOver(count).Array[0, 9]
        select new Plan([.. grids.Select((g, i) => (g, (Rational?)0, (Rational?)most[i]))], lines);

    /// <summary>Systems without grids, some measures without bounds.</summary>
    public static Gen<Plan> Free { get; } =
        from count in Gen.Int[1, 6]
        from least in Pick<Rational?>(null, 0, 0, -3).Array[count]
        from most in Pick<Rational?>(null, 5, 12).Array[count]
        from lines in LineOver(count).Array[0, 9]
        select new Plan([.. least.Select((l, i) => ((Grid?)null, l, most[i]))], lines);

    /// <summary>Systems in which wishes compete for little room, so that many answers share the least sum.</summary>
    public static Gen<Plan> Trading { get; } =
        from pairs in Gen.Int[2, 3]
        from grids in Gen.OneOf(Gen.Const((Grid?)null), Gen.Const((Grid?)null), Pick<Rational>(1, 2).Select(s => (Grid?)Grid.FromStep(s))).Array[2 * pairs]
        from room in Gen.Int[4, 30].Array[pairs]
        from wanted in Gen.Int[10, 40].Array[2 * pairs]
        from lines in LineOver(2 * pairs).Array[0, 3]
        select new Plan(
            [.. grids.Select(g => (g, (Rational?)0, (Rational?)60))],
            [
                .. room.Select((r, i) => new Line([(2 * i, 1), ((2 * i) + 1, 1)], Relation.AtMost, r, Strength.Must, false)),
                .. wanted.Select((w, i) => new Line([(i, 1)], Relation.Equal, w, i % 5 == 4 ? Strength.May : Strength.Should, false)),
                .. lines,
            ]);
}
