using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Tests.Solving;

/// <summary>
/// Solves a system whose measures all take few values by trying every combination, comparing the level vectors as the documentation
/// of <see cref="WishSolver"/> words them.
/// </summary>
internal static class BruteForce
{
    /// <summary>An answer: the values, and for each measure the range before any choice.</summary>
    public sealed record Answer(Rational[] Values, (Rational Least, Rational Most)[] Ranges);

    /// <summary>
    /// All points that satisfy the musts. The measures with a grid are tried; the others must follow from those by must equalities that
    /// name them first and with factor one.
    /// </summary>
    public static List<Rational[]> Feasible(WishSystem system)
    {
        var points = new List<Rational[]>();
        Extend(system, new Rational[system.MeasureCount], 0, points);
        return points;
    }

    /// <summary>The best point; the largest miss is taken over each block of wishes that <paramref name="blockOf"/> tells apart.</summary>
    public static Answer? Best(WishSystem system, List<Rational[]> points, Func<int, int> blockOf)
    {
        if (points.Count == 0)
        {
            return null;
        }

        var best = points;
        foreach (var level in new[] { Strength.Should, Strength.May })
        {
            var wishes = Enumerable.Range(0, system.Statements.Count).Where(s => system.Statements[s].Strength == level).ToArray();
            best = Least(best, p => Sum(wishes.Select(w => Miss(system, w, p))));
            foreach (var block in wishes.GroupBy(blockOf))
            {
                best = Least(best, p => block.Select(w => Miss(system, w, p)).Max());
            }
        }

        // The order of statements decides last, between answers that are equal in every sum and largest miss.
        foreach (var level in new[] { Strength.Should, Strength.May })
        {
            foreach (var wish in Enumerable.Range(0, system.Statements.Count).Where(s => system.Statements[s].Strength == level))
            {
                best = Least(best, p => Miss(system, wish, p));
            }
        }

        var ranges = Enumerable.Range(0, system.MeasureCount).Select(m => (best.Min(p => p[m]), best.Max(p => p[m]))).ToArray();
        for (var m = 0; m < system.MeasureCount; m++)
        {
            var middle = (best.Min(p => p[m]) + best.Max(p => p[m])) / 2;
            best = Least(best, p => (p[m] - middle).Abs());
            best = Least(best, p => p[m]);
        }

        return new(best[0], ranges);
    }

    /// <summary>The miss of a statement at a point.</summary>
    public static Rational Miss(WishSystem system, int statement, Rational[] point)
    {
        var wish = system.Statements[statement];
        var excess = Sum(wish.Terms.Select(t => t.Factor * point[t.Measure.Index])) - wish.Right;
        return wish.Relation switch
        {
            Relation.AtMost => Rational.Max(excess, 0),
            Relation.AtLeast => Rational.Max(-excess, 0),
            _ => excess.Abs(),
        };
    }

    private static List<Rational[]> Least(List<Rational[]> points, Func<Rational[], Rational> cost)
    {
        var least = points.Min(cost);
        return points.FindAll(p => cost(p) == least);
    }

    private static Rational Sum(IEnumerable<Rational> terms) => terms.Aggregate(Rational.Zero, (a, b) => a + b);

    private static void Extend(WishSystem system, Rational[] point, int measure, List<Rational[]> points)
    {
        if (measure == system.MeasureCount)
        {
            var musts = Enumerable.Range(0, system.Statements.Count).Where(s => system.Statements[s].Strength == Strength.Must);
            if (musts.All(s => Miss(system, s, point).IsZero))
            {
                points.Add([.. point]);
            }

            return;
        }

        var (least, most) = system.BoundsOf(new(measure));
        foreach (var value in Values(system, point, measure))
        {
            if ((least is null || value >= least) && (most is null || value <= most))
            {
                point[measure] = value;
                Extend(system, point, measure + 1, points);
            }
        }
    }

    private static IEnumerable<Rational> Values(WishSystem system, Rational[] point, int measure)
    {
        var grid = system.GridOf(new(measure));
        if (grid?.Values is { } values)
        {
            return values;
        }

        var (least, most) = system.BoundsOf(new(measure));
        if (grid?.Step is { } step)
        {
            var first = step * Rational.From((least!.Value / step).Ceiling(), 1);
            return Enumerable.Range(0, 1000).Select(k => first + (step * k)).TakeWhile(v => v <= most!.Value);
        }

        var definition = system.Statements.First(s => s.Relation == Relation.Equal && s.Terms[0].Measure.Index == measure);
        return [definition.Right - Sum(definition.Terms.Skip(1).Select(t => t.Factor * point[t.Measure.Index]))];
    }
}
