using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>The solver on its own, as docs/solver-elsewhere.md describes it: the worked example, threads, stopping, and what it refuses.</summary>
public class ElsewhereTests
{
    [Fact]
    public void The_worked_example_gives_what_its_page_says()
    {
        // example begins
        var bed = new WishSystem();
        var beans = bed.AddMeasure(Grid.FromStep(1), 0, 40);
        var onions = bed.AddMeasure(Grid.FromStep(1), 0, 40);
        var lettuces = bed.AddMeasure(Grid.FromStep(1), 0, 40);
        Term[] inches = [new(beans, 18), new(onions, 9), new(lettuces, 12)];

        bed.Add(inches, Relation.AtMost, 240, Strength.Must, isStructure: true);
        var enoughOnions = bed.Add([new(onions, 1)], Relation.AtLeast, 6, Strength.Must);
        var full = bed.Add(inches, Relation.Equal, 240, Strength.Should);
        var evenRows = bed.Add([new(beans, 1), new(lettuces, -1)], Relation.Equal, 0, Strength.Should);
        var manyBeans = bed.Add([new(beans, 1)], Relation.Equal, 10, Strength.May);
        var manyLettuces = bed.Add([new(lettuces, 1)], Relation.Equal, 10, Strength.May);

        var solution = WishSolver.Solve(bed);
        var reason = WishExplainer.WhyMissed(bed, solution, manyBeans);
        // example ends

        SystemChecker.Check(bed, solution);
        Assert.Equal(Outcome.Best, solution.Outcome);
        Assert.Equal([5, 10, 5], solution.Values);
        Assert.Equal([(manyBeans, (Rational)5), (manyLettuces, 5)], solution.GaveWay.Select(gave => (gave.Statement, gave.Miss)));
        Assert.Equal([full, evenRows], reason!.Statements);
        Assert.DoesNotContain(enoughOnions, reason.Statements);

        // By trying every planting: the shoulds can be met, and no other planting meets them with smaller misses of the mays.
        var best = (
            from b in Enumerable.Range(0, 41)
            from o in Enumerable.Range(6, 35)
            from l in Enumerable.Range(0, 41)
            let used = (18 * b) + (9 * o) + (12 * l)
            where used <= 240
            orderby 240 - used + Math.Abs(b - l), Math.Abs(b - 10) + Math.Abs(l - 10)
            select (b, o, l)).First();
        Assert.Equal((5, 10, 5), best);
    }

    [Fact]
    public void The_example_on_the_page_is_the_one_that_is_tested()
    {
        static string Plain(string code) => string.Join('\n', code.Split('\n').Select(line => line.Trim())).Trim();

        var page = File.ReadAllText(Repository.Path("docs", "solver-elsewhere.md")).ReplaceLineEndings("\n");
        var shown = page.Split("```csharp\n")[1].Split("```")[0];
        var source = File.ReadAllText(Repository.Path("tests", "Trimwright.Tests", "Solving", "ElsewhereTests.cs")).ReplaceLineEndings("\n");
        var tested = source.Split("// example begins\n")[1].Split("// example ends")[0];
        Assert.Equal(Plain(tested), Plain(shown));
    }

    [Fact]
    public void Many_threads_at_once_get_what_one_gets()
    {
        // Generated once, so that every thread shares the very same systems.
        var systems = new List<WishSystem>();
        systems.AddRange(RandomSystems.Mixed.Take(200).Select(plan => plan.Build()));
        var alone = systems.ConvertAll(system => Told(WishSolver.Solve(system)));
        var together = new string[8][];
        Parallel.For(0, together.Length, new() { MaxDegreeOfParallelism = 8 }, i => together[i] = [.. systems.Select(system => Told(WishSolver.Solve(system)))]);
        Assert.All(together, answers => Assert.Equal(alone, answers));
    }

    [Fact]
    public void A_second_solve_gives_what_the_first_gave_whatever_was_solved_between()
    {
        var systems = new List<WishSystem>();
        systems.AddRange(RandomSystems.Gridded.Take(100).Select(plan => plan.Build()));
        var forwards = systems.ConvertAll(system => Told(WishSolver.Solve(system)));
        var backwards = Enumerable.Reverse(systems).Select(system => Told(WishSolver.Solve(system))).Reverse();
        Assert.Equal(forwards, backwards);
    }

    [Fact]
    public void A_long_search_stops_when_it_is_told_to()
    {
        // Market split (G. Cornuejols and M. Dawande, "A Class of Hard Small 0-1 Programs", 1998): no bound of a linear program helps, so the
        // search would go on until its budget ends.
        var system = new WishSystem();
        var measures = Enumerable.Range(0, 40).Select(_ => system.AddMeasure(Grid.FromStep(1), 0, 1)).ToArray();
        for (var row = 0; row < 5; row++)
        {
            var factors = measures.Select((_, i) => (Rational)(((((i + 1) * 7919) + ((row + 3) * 104_729)) * (i + row + 11)) % 100)).ToArray();
            var half = factors.Aggregate(Rational.Zero, (sum, factor) => sum + factor) / 2;
            system.Add([.. measures.Select((measure, i) => new Term(measure, factors[i]))], Relation.Equal, Rational.From(half.Floor(), 1), Strength.Must);
        }

        using var stop = new CancellationTokenSource(TimeSpan.FromMilliseconds(200));
        Assert.Throws<OperationCanceledException>(() => WishSolver.Solve(system, new() { NodeBudget = int.MaxValue }, stop.Token));
    }

    [Fact]
    public void A_hundred_thousand_statements_over_few_measures_are_solved()
    {
        var system = new WishSystem();
        var a = system.AddMeasure(null, 0, 1000);
        var b = system.AddMeasure(Grid.FromStep(1), 0, 1000);
        for (var i = 0; i < 100_000; i++)
        {
            system.Add([new(a, 1), new(b, -1)], Relation.AtLeast, -i, Strength.Must);
        }

        for (var i = 0; i < 100; i++)
        {
            system.Add([new(b, 1)], Relation.Equal, 5 * i, Strength.May);
        }

        var solution = WishSolver.Solve(system);

        Assert.Equal(Outcome.Best, solution.Outcome);
        SystemChecker.Check(system, solution);
    }

    [Fact]
    public void Factors_far_beyond_64_bits_are_kept_exactly()
    {
        var huge = Rational.From(System.Numerics.BigInteger.Pow(10, 40) + 1, 1);
        var system = new WishSystem();
        var a = system.AddMeasure(null, 0, null);
        system.Add([new(a, huge)], Relation.Equal, 1, Strength.Must);
        var solution = WishSolver.Solve(system);
        SystemChecker.Check(system, solution);
        Assert.Equal(Rational.One / huge, solution.Values[0]);
    }

    [Fact]
    public void Measures_that_depend_on_one_another_in_a_circle_are_solved_or_clash()
    {
        // a = b + 1, b = c + 1, c = a - 2 holds for any a; with c = a - 3 nothing does.
        var (loose, clash) = (Circle(-2), Circle(-3));
        Assert.Equal(Outcome.Best, loose.Outcome);
        Assert.NotEmpty(loose.Loose);
        Assert.Equal([0, 1, 2], clash.Clash!.Statements);

        static Solution Circle(int last)
        {
            var system = new WishSystem();
            var (a, b, c) = (system.AddMeasure(null, 0, 10), system.AddMeasure(null, 0, 10), system.AddMeasure(null, 0, 10));
            system.Add([new(a, 1), new(b, -1)], Relation.Equal, 1, Strength.Must);
            system.Add([new(b, 1), new(c, -1)], Relation.Equal, 1, Strength.Must);
            system.Add([new(c, 1), new(a, -1)], Relation.Equal, last, Strength.Must);
            return WishSolver.Solve(system);
        }
    }

    private static string Told(Solution solution) => string.Join(
        ' ', [solution.Outcome, .. solution.Values, .. solution.GaveWay, .. solution.Loose, solution.Gap, .. solution.Clash?.Statements ?? []]);
}
