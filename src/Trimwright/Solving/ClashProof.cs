using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>One line of the arithmetic of a clash: a statement taken so many times.</summary>
/// <param name="Statement">The number of the statement.</param>
/// <param name="Times">How many times, with its sign.</param>
public readonly record struct ProofLine(int Statement, Rational Times);

/// <summary>
/// The arithmetic that shows a clash without grids: the statements and bounds of the clash, each taken so many times, add up to
/// nothing on the left (<c>0</c>) and to something that nothing cannot be on the right.
/// </summary>
/// <remarks>
/// Farkas' lemma: a linear system has no solution exactly when its rows can be combined so. A smallest clash has only one such
/// combination, up to a factor, which elimination finds (J. Gleeson and J. Ryan, "Identifying Minimally Infeasible Subsystems of
/// Inequalities", 1990). The factor is chosen so that the statement named first counts once.
/// </remarks>
/// <param name="Lines">The statements, ascending.</param>
/// <param name="Bounds">The measures whose bounds take part, taken so many times, in order of declaration.</param>
/// <param name="Sum">What the right sides add up to, bounds included; the left sides add up to zero.</param>
public sealed record ClashProof(IReadOnlyList<ProofLine> Lines, IReadOnlyList<Term> Bounds, Rational Sum)
{
    /// <summary>The arithmetic of a clash; null for a clash that a grid takes part in, which no sum shows.</summary>
    public static ClashProof? Of(WishSystem system, Clash clash)
    {
        ArgumentNullException.ThrowIfNull(system);
        ArgumentNullException.ThrowIfNull(clash);
        if (clash.Grids.Count > 0)
        {
            return null;
        }

        int[] statements = [.. clash.Statements.Concat(clash.Structure).Order()];
        var rows = statements.Select(s => system.Statements[s].Terms)
            .Concat(clash.Bounds.Select(measure => (IReadOnlyList<Term>)[new(measure, Rational.One)]))
            .ToArray();
        if (Dependence(rows) is not { } times)
        {
            return null;
        }

        // The factor: the first statement counts once.
        var scale = Rational.One / times[Array.FindIndex(times, factor => !factor.IsZero)];
        times = Array.ConvertAll(times, factor => factor * scale);
        var sum = Rational.Zero;
        for (var i = 0; i < statements.Length; i++)
        {
            sum += times[i] * system.Statements[statements[i]].Right;
        }

        // What the bounds add: the least they can where the left side is at least the sum, the most where it is at most that.
        var direction = Direction(system, statements, times);
        var least = direction is -1 ? null : WithBounds(system, clash.Bounds, times.AsSpan(statements.Length), sum, 1);
        var most = direction is 1 ? null : WithBounds(system, clash.Bounds, times.AsSpan(statements.Length), sum, -1);
        if ((least is { Sign: > 0 } ? least : most is { Sign: < 0 } ? most : null) is not { } shown)
        {
            return null;
        }

        return new(
            [.. statements.Select((s, i) => new ProofLine(s, times[i])).Where(line => !line.Times.IsZero)],
            [.. clash.Bounds.Select((measure, b) => new Term(measure, times[statements.Length + b])).Where(term => !term.Factor.IsZero)],
            shown);
    }

    /// <summary>The sum with each bound added at the end that makes it least (1) or most (-1); null where such an end is open.</summary>
    private static Rational? WithBounds(
        WishSystem system, IReadOnlyList<Measure> bounds, ReadOnlySpan<Rational> times, Rational sum, int direction)
    {
        for (var b = 0; b < bounds.Count; b++)
        {
            var (least, most) = system.BoundsOf(bounds[b]);
            if (times[b].IsZero)
            {
                continue;
            }

            if ((direction * times[b].Sign > 0 ? least : most) is not { } end)
            {
                return null;
            }

            sum += times[b] * end;
        }

        return sum;
    }

    /// <summary>1 when the rows taken give a left side of at least the sum, -1 for at most, null when all are equalities.</summary>
    private static int? Direction(WishSystem system, int[] statements, Rational[] times)
    {
        for (var i = 0; i < statements.Length; i++)
        {
            var relation = system.Statements[statements[i]].Relation;
            if (relation != Relation.Equal && !times[i].IsZero)
            {
                return relation == Relation.AtLeast ? times[i].Sign : -times[i].Sign;
            }
        }

        return null;
    }

    /// <summary>Factors, not all zero, by which the rows add up to nothing; null when there are none or several.</summary>
    private static Rational[]? Dependence(IReadOnlyList<Term>[] rows)
    {
        // Each row carries along how it was made; the one that vanishes tells the factors.
        var kept = new List<(int Pivot, SortedDictionary<int, Rational> Row, Rational[] Made)>();
        Rational[]? found = null;
        for (var r = 0; r < rows.Length; r++)
        {
            var row = new SortedDictionary<int, Rational>();
            foreach (var term in rows[r])
            {
                AddTo(row, term.Measure.Index, term.Factor);
            }

            var made = new Rational[rows.Length];
            made[r] = Rational.One;
            foreach (var (pivot, other, otherMade) in kept)
            {
                if (!row.TryGetValue(pivot, out var factor))
                {
                    continue;
                }

                var times = -factor / other[pivot];
                foreach (var (measure, value) in other)
                {
                    AddTo(row, measure, times * value);
                }

                for (var i = 0; i < made.Length; i++)
                {
                    made[i] += times * otherMade[i];
                }
            }

            if (row.Count > 0)
            {
                kept.Add((row.First().Key, row, made));
            }
            else if (found is not null)
            {
                return null;
            }
            else
            {
                found = made;
            }
        }

        return found;
    }

    private static void AddTo(SortedDictionary<int, Rational> row, int measure, Rational value)
    {
        var sum = row.GetValueOrDefault(measure) + value;
        if (sum.IsZero)
        {
            row.Remove(measure);
        }
        else
        {
            row[measure] = sum;
        }
    }
}
