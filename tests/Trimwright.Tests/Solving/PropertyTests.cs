using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

public class PropertyTests
{
    private static readonly Gen<RandomSystems.Plan> Any = Gen.OneOf(RandomSystems.Mixed, RandomSystems.Free, RandomSystems.Gridded);

    [Fact]
    public void Every_answer_holds_and_every_clash_is_smallest() => Any.Hold(
        plan =>
        {
            var system = plan.Build();
            var solution = WishSolver.Solve(system);
            Assert.NotEqual(Outcome.Unknown, solution.Outcome);
            if (solution.Outcome == Outcome.Clash)
            {
                SystemChecker.CheckClash(system, solution);
            }
            else
            {
                SystemChecker.Check(system, solution);
            }
        },
        iter: 2000, print: p => p.ToString());

    [Fact]
    public void A_loose_range_is_reached_at_both_ends_and_nothing_lies_beyond() => Any.Hold(
        plan =>
        {
            var solution = WishSolver.Solve(plan.Build());
            if (solution.Outcome == Outcome.Clash || solution.GaveWay.Count > 0)
            {
                return;
            }

            // With every wish made a must, what is left to a measure is asked another way: by wishing it far beyond either end.
            var musts = plan with { Lines = [.. plan.Lines.Select(l => l with { Strength = Strength.Must })] };
            for (var m = 0; m < plan.Measures.Count; m++)
            {
                var loose = solution.Loose.FirstOrDefault(l => l.Measure.Index == m);
                Assert.Equal(loose is null ? solution.Values[m] : loose.Least, Farthest(musts, m, Relation.AtMost, -1_000_000));
                Assert.Equal(loose is null ? solution.Values[m] : loose.Most, Farthest(musts, m, Relation.AtLeast, 1_000_000));
            }
        },
        iter: 1000, print: p => p.ToString());

    /// <summary>How far a measure goes towards a far value; null when it gets there.</summary>
    private static Rational? Farthest(RandomSystems.Plan musts, int measure, Relation relation, Rational far)
    {
        var system = (musts with { Lines = [.. musts.Lines, new([(measure, 1)], relation, far, Strength.Should, false)] }).Build();
        var solution = WishSolver.Solve(system);
        SystemChecker.Check(system, solution);
        return solution.GaveWay.Count == 0 ? null : solution.GaveWay[0].Got;
    }

    [Fact]
    public void The_same_system_gives_the_same_answer_on_every_thread() => Any.Hold(
        plan =>
        {
            var system = plan.Build();
            var answers = new string[4];
            Parallel.For(0, answers.Length, i => answers[i] = Written(WishSolver.Solve(i % 2 == 0 ? system : plan.Build())));
            Assert.Single(answers.Distinct());
        },
        iter: 300, print: p => p.ToString());

    [Fact]
    public void Musts_that_say_the_same_again_change_nothing() => Gen.Select(Any, Gen.Int[0, 1000], Gen.Int[0, 1000], Gen.Int[1, 4]).Hold(
        (plan, pick, place, times) =>
        {
            var musts = plan.Lines.Where(l => l.Strength == Strength.Must).ToList();
            var before = WishSolver.Solve(plan.Build());
            if (musts.Count == 0 || before.Outcome == Outcome.Clash)
            {
                return;
            }

            // The same must in other units, and the sum of two musts that point the same way.
            var one = musts[pick % musts.Count];
            var again = one with { Terms = [.. one.Terms.Select(t => (t.Measure, t.Factor * times))], Right = one.Right * times };
            var other = musts[place % musts.Count];
            var lines = plan.Lines.ToList();
            lines.Insert(place % (lines.Count + 1), again);
            if (other.Relation == one.Relation && other.Terms.Any(t => one.Terms.Any(u => u.Measure == t.Measure)))
            {
                lines.Insert(pick % (lines.Count + 1), one with { Terms = [.. one.Terms, .. other.Terms], Right = one.Right + other.Right });
            }

            var after = WishSolver.Solve((plan with { Lines = lines }).Build());

            Assert.Equal(before.Outcome, after.Outcome);
            Assert.Equal(before.Values, after.Values);
            Assert.Equal(before.Loose, after.Loose);
        },
        iter: 2000, print: p => p.Item1 + $" pick {p.Item2} place {p.Item3} times {p.Item4}");

    [Fact]
    public void Shuffled_statements_reach_the_same_sums_and_largest_misses() => Gen.Select(Any, Gen.Int[0, int.MaxValue]).Hold(
        (plan, seed) =>
        {
            var lines = plan.Lines.ToList();
            for (var (i, rest) = (lines.Count - 1, (long)seed); i > 0; rest /= i + 1, i--)
            {
                var k = (int)(rest % (i + 1));
                (lines[i], lines[k]) = (lines[k], lines[i]);
            }

            var shuffled = plan with { Lines = lines };
            var (a, b) = (WishSolver.Solve(plan.Build()), WishSolver.Solve(shuffled.Build()));
            Assert.Equal(a.Outcome, b.Outcome);
            Assert.Equal(Levels(plan, a), Levels(shuffled, b));
        },
        iter: 2000, print: p => p.Item1 + $" seed {p.Item2}");

    [Fact]
    public void Scaling_everything_scales_the_answer() => Gen.Select(Any, Gen.Int[2, 1_000_000], Gen.Int[1, 999]).Hold(
        (plan, over, under) =>
        {
            var by = Rational.From(over, under);
            var scaled = new RandomSystems.Plan(
                [.. plan.Measures.Select(m => (m.Grid is { Step: { } s } ? Grid.FromStep(s * by) : m.Grid is { } g ? Grid.FromValues(g.Values!.Select(v => v * by)) : null, m.Least * by, m.Most * by))],
                [.. plan.Lines.Select(l => l with { Right = l.Right * by })]);
            var (a, b) = (WishSolver.Solve(plan.Build()), WishSolver.Solve(scaled.Build()));

            Assert.Equal(a.Outcome, b.Outcome);
            Assert.Equal(a.Values.Select(v => v * by), b.Values);
            Assert.Equal(a.Loose.Select(l => new Loose(l.Measure, l.Least * by, l.Most * by, l.Chosen * by)), b.Loose);
        },
        iter: 1000, print: p => p.Item1 + $" by {p.Item2}/{p.Item3}");

    /// <summary>For each level the sum of misses and, while one group is not told from another, the misses from the largest down.</summary>
    private static (Rational Sum, string Largest)[] Levels(RandomSystems.Plan plan, Solution solution) =>
        [.. new[] { Strength.Should, Strength.May }.Select(level =>
        {
            var misses = solution.GaveWay.Where(g => plan.Lines[g.Statement].Strength == level).Select(g => g.Miss).ToList();
            return (misses.Aggregate(Rational.Zero, (x, y) => x + y), misses.Count == 0 ? "none" : misses.Max().ToString());
        })];

    private static string Written(Solution solution) => string.Join(
        '\n',
        solution.Outcome,
        solution.Gap,
        string.Join(' ', solution.Values),
        string.Join(' ', solution.GaveWay),
        string.Join(' ', solution.Loose),
        solution.Clash is { } c
            ? $"{string.Join(' ', c.Statements)}|{string.Join(' ', c.Structure)}|{string.Join(' ', c.Grids)}|{string.Join(' ', c.Bounds)}"
            : "none");
}
