using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

public class SmallSystemTests
{
    [Fact]
    public void Trying_every_point_finds_the_same_answer() => RandomSystems.Gridded.Hold(
        plan =>
        {
            var system = plan.Build();
            var solution = WishSolver.Solve(system);
            var points = BruteForce.Feasible(system);
            if (points.Count == 0)
            {
                SystemChecker.CheckClash(system, solution);
                return;
            }

            SystemChecker.Check(system, solution);
            Assert.Equal(Outcome.Best, solution.Outcome);

            // Which wishes hang together is the solver's reading of the system, and redundant terms may tie them closer than need be.
            // Wishes part where what one part can miss by does not depend on the other: that is read off all the points, and the answer
            // must be the best under the finest way to part them, or under one that keeps some parts together. Most often all agree.
            int[][] shoulds = [.. Blockings(system, points, [Strength.Should])];
            int[][] mays = [.. Blockings(system, points, [Strength.Should, Strength.May])];
            var answers = shoulds
                .SelectMany(_ => mays, (should, may) => (Func<int, int>)(w => (system.Statements[w].Strength == Strength.Should ? should : may)[w]))
                .Select(blockOf => BruteForce.Best(system, points, blockOf)!);
            var match = answers.FirstOrDefault(a => a.Values.SequenceEqual(solution.Values));
            Assert.True(
                match is not null,
                $"got {string.Join(' ', solution.Values)}, want {string.Join(" or ", answers.Select(a => string.Join(' ', a.Values)).Distinct())}");
            Assert.Equal(
                Enumerable.Range(0, system.MeasureCount).Where(m => match.Ranges[m].Least != match.Ranges[m].Most)
                    .Select(m => new Loose(new(m), match.Ranges[m].Least, match.Ranges[m].Most, match.Values[m])),
                solution.Loose);
        },
        iter: 3000, print: p => p.ToString());

    /// <summary>
    /// A case that the random test came upon. By hand: the first measure can only be 2, so the wishes on the second (misses x + 5 and
    /// 13/2 - x, 23/2 in all whatever x is) have nothing to do with the others, and the largest of the two is least, 6, at x = 1.
    /// </summary>
    [Fact]
    public void A_measure_with_one_value_left_ties_no_wishes_together()
    {
        var system = new WishSystem();
        var two = system.AddMeasure(Grid.FromValues([2]), 0, 2);
        var x = system.AddMeasure(Grid.FromStep(1), 0, 6);
        var third = system.AddMeasure(Grid.FromValues([3, 5, 8]), 0, 8);
        system.Add([new(x, 1), new(two, 1)], Relation.AtMost, -3, Strength.Should);
        system.Add([new(two, 4), new(third, 4)], Relation.Equal, 2, Strength.Should);
        system.Add([new(x, 1)], Relation.AtLeast, Rational.From(13, 2), Strength.Should);
        Assert.Equal([2, 1, 3], WishSolver.Solve(system).Values);
    }

    /// <summary>
    /// The ways to part the wishes of some strengths into blocks that do not depend on one another, each once: the block of each wish,
    /// by its number.
    /// </summary>
    private static IEnumerable<int[]> Blockings(WishSystem system, List<Rational[]> points, Strength[] strengths)
    {
        int[] wishes = [.. Enumerable.Range(0, system.Statements.Count).Where(s => strengths.Contains(system.Statements[s].Strength))];
        var misses = wishes.ToDictionary(w => w, w => Numbered(points.Select(p => BruteForce.Miss(system, w, p))));
        var parts = Parts(wishes, misses, points.Count);
        foreach (var labels in Labels(parts.Count))
        {
            var blockOf = Enumerable.Repeat(-1, system.Statements.Count).ToArray();
            for (var part = 0; part < parts.Count; part++)
            {
                Array.ForEach(parts[part], w => blockOf[w] = labels[part]);
            }

            yield return blockOf;
        }
    }

    /// <summary>The finest parts whose misses come in every combination: as many together as the one's times the other's.</summary>
    private static List<int[]> Parts(int[] wishes, Dictionary<int, int[]> misses, int points)
    {
        for (var mask = 1; mask < 1 << Math.Max(0, wishes.Length - 1); mask++)
        {
            int[] one = [.. wishes.Where((_, i) => (mask >> i & 1) == 1)];
            int[] other = [.. wishes.Where((_, i) => (mask >> i & 1) == 0)];
            if (Combinations(one) * Combinations(other) == Combinations(wishes))
            {
                return [.. Parts(one, misses, points), .. Parts(other, misses, points)];
            }
        }

        return wishes.Length == 0 ? [] : [wishes];

        // Numbered anew after each wish, so that the keys stay below the square of the number of points.
        int Combinations(int[] some) => some
            .Aggregate(new int[points], (keys, w) => Numbered(keys.Zip(misses[w], (key, miss) => ((long)key * points) + miss)))
            .Max() + 1;
    }

    /// <summary>Equal values get equal numbers, from 0.</summary>
    private static int[] Numbered<T>(IEnumerable<T> values)
        where T : notnull
    {
        var numbers = new Dictionary<T, int>();
        return [.. values.Select(value => numbers.TryGetValue(value, out var number) ? number : numbers[value] = numbers.Count)];
    }

    private static IEnumerable<int[]> Labels(int count)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        foreach (var rest in Labels(count - 1))
        {
            for (var label = 0; label <= (rest.Length == 0 ? 0 : rest.Max() + 1); label++)
            {
                yield return [.. rest, label];
            }
        }
    }
}
