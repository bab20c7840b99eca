using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

public class SmallSystemTests
{
    [Fact]
    public void Trying_every_point_finds_the_same_answer() => RandomSystems.Gridded.Sample(
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

            // Which wishes hang together is the solver's reading of the system. Every way to part the measures that cuts no wish is
            // tried, with and without the wishes that the musts decide, so the answer must be the best under one of them; most often
            // all of them agree.
            var decided = Enumerable.Range(0, system.Statements.Count)
                .Where(s => points.Select(p => BruteForce.Miss(system, s, p)).Distinct().Count() == 1).ToHashSet();
            var answers = Partitions(system)
                .SelectMany(blockOf => new[] { blockOf, w => decided.Contains(w) ? -1 : blockOf(w) })
                .Select(blockOf => BruteForce.Best(system, points, blockOf)!).ToList();
            var match = answers.Find(a => a.Values.SequenceEqual(solution.Values));
            Assert.True(match is not null, $"got {string.Join(' ', solution.Values)}, want {string.Join(" or ", answers.Select(a => string.Join(' ', a.Values)))}");
            Assert.Equal(
                Enumerable.Range(0, system.MeasureCount).Where(m => match.Ranges[m].Least != match.Ranges[m].Most)
                    .Select(m => new Loose(new(m), match.Ranges[m].Least, match.Ranges[m].Most, match.Values[m])),
                solution.Loose);
        },
        iter: 3000, print: p => p.ToString());

    /// <summary>For each partition of the measures in which no wish has measures of two blocks: the block of a wish.</summary>
    private static IEnumerable<Func<int, int>> Partitions(WishSystem system)
    {
        foreach (var blocks in Labels(system.MeasureCount))
        {
            var wishes = Enumerable.Range(0, system.Statements.Count).Where(s => system.Statements[s].Strength != Strength.Must);
            if (wishes.All(w => system.Statements[w].Terms.Select(t => blocks[t.Measure.Index]).Distinct().Count() == 1))
            {
                yield return w => blocks[system.Statements[w].Terms[0].Measure.Index];
            }
        }
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
