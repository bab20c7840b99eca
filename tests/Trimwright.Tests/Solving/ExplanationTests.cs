using CsCheck;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>Why a wish was not met, and the arithmetic of a clash: by hand, and on random systems against trying every point.</summary>
public class ExplanationTests
{
    private static readonly Grid Sixteenths = Grid.FromStep(1);

    [Fact]
    public void A_wish_is_missed_because_of_the_musts_that_leave_no_room()
    {
        // Counted in sixteenths: a photo of 70 on a panel of exactly 68 that it must not pass; a third rule has nothing to do with it.
        var system = new WishSystem();
        var photo = system.AddMeasure(Sixteenths, 0, 200);
        var panel = system.AddMeasure(Sixteenths, 0, 200);
        var other = system.AddMeasure(Sixteenths, 0, 200);
        var size = system.Add([new(panel, 1)], Relation.Equal, 68, Strength.Must);
        system.Add([new(other, 1), new(panel, -1)], Relation.AtMost, 5, Strength.Must);
        var within = system.Add([new(photo, 1), new(panel, -1)], Relation.AtMost, 0, Strength.Must, isStructure: true);
        var wish = system.Add([new(photo, 1)], Relation.Equal, 70, Strength.Should);
        var because = WishExplainer.WhyMissed(system, WishSolver.Solve(system), wish)!;
        Assert.Equal([size], because.Statements);
        Assert.Equal([within], because.Structure);
        Assert.Empty(because.Traded);
        Assert.Empty(because.Grids);
    }

    [Fact]
    public void A_wish_off_the_grid_is_missed_because_of_the_grid()
    {
        var system = new WishSystem();
        var size = system.AddMeasure(Sixteenths, 0, 200);
        var wish = system.Add([new(size, 1)], Relation.Equal, Rational.From(240, 127), Strength.Should);
        var because = WishExplainer.WhyMissed(system, WishSolver.Solve(system), wish)!;
        Assert.Empty(because.Statements);
        Assert.Equal([size], because.Grids);
    }

    [Fact]
    public void A_weaker_wish_is_never_the_reason()
    {
        var system = new WishSystem();
        var size = system.AddMeasure(null, 0, 10);
        system.Add([new(size, 1)], Relation.Equal, 3, Strength.May);
        var wish = system.Add([new(size, 1)], Relation.Equal, 12, Strength.Should);
        var because = WishExplainer.WhyMissed(system, WishSolver.Solve(system), wish)!;
        Assert.Empty(because.Statements);
        Assert.Empty(because.Grids);
    }

    [Fact]
    public void A_wish_that_was_traded_names_what_it_was_traded_against()
    {
        // Two wishes pull one measure; the first stays, and the second gave way for it alone.
        var system = new WishSystem();
        var size = system.AddMeasure(null, 0, 10);
        var kept = system.Add([new(size, 1)], Relation.Equal, 4, Strength.Should);
        var gave = system.Add([new(size, 1)], Relation.Equal, 6, Strength.Should);
        var even = WishSolver.Solve(system);

        // Equal sums: the largest miss is made small, so both miss by 1, and each is in the other's way.
        Assert.Equal([kept, gave], even.GaveWay.Select(wish => wish.Statement));
        var because = WishExplainer.WhyMissed(system, even, gave)!;
        Assert.Equal([kept], because.Statements);
        Assert.Equal([kept], because.Traded);
    }

    [Fact]
    public void Only_a_wish_that_gave_way_has_a_reason()
    {
        var system = new WishSystem();
        var size = system.AddMeasure(null, 0, 10);
        var met = system.Add([new(size, 1)], Relation.Equal, 4, Strength.Should);
        Assert.Throws<ArgumentException>(() => WishExplainer.WhyMissed(system, WishSolver.Solve(system), met));
    }

    [Fact]
    public void The_reasons_and_the_wish_cannot_hold_and_can_without_any_one_of_them() => RandomSystems.Gridded.Hold(
        plan =>
        {
            var system = plan.Build();
            var solution = WishSolver.Solve(system);
            if (solution.Outcome != Outcome.Best)
            {
                return;
            }

            foreach (var gave in solution.GaveWay)
            {
                var because = WishExplainer.WhyMissed(system, solution, gave.Statement);
                Assert.NotNull(because);
                CheckReasons(plan, system, solution, because);
            }
        },
        iter: 600, print: p => p.ToString());

    [Fact]
    public void A_clash_without_grids_adds_up_to_what_cannot_be() => RandomSystems.Free.Hold(
        plan =>
        {
            // All are made musts, so that clashes are common.
            var system = new RandomSystems.Plan(plan.Measures, [.. plan.Lines.Select(line => line with { Strength = Strength.Must })]).Build();
            if (WishSolver.Solve(system).Clash is { } clash)
            {
                CheckProof(system, clash, ClashProof.Of(system, clash)!);
            }
        },
        iter: 1500, print: p => p.ToString());

    [Fact]
    public void A_clash_of_a_grid_has_no_sum_to_show()
    {
        var system = new WishSystem();
        var size = system.AddMeasure(Sixteenths, 0, 200);
        system.Add([new(size, 3)], Relation.Equal, 88, Strength.Must);
        var clash = WishSolver.Solve(system).Clash!;
        Assert.Equal([size], clash.Grids);
        Assert.Null(ClashProof.Of(system, clash));
    }

    // That they cannot hold is asked of every point of the grids. That the rest can, with one of them left out, is asked of the solver,
    // and its answer is checked statement by statement.
    private static void CheckReasons(RandomSystems.Plan plan, WishSystem system, Solution solution, Because because)
    {
        int[] members = [.. because.Statements, .. because.Structure];
        Assert.All(members, s => Assert.True(system.Statements[s].Strength <= system.Statements[because.Statement].Strength));
        Assert.Equal(because.Statements.Where(s => solution.GaveWay.Any(gave => gave.Statement == s)), because.Traded);
        var definitions = plan.Lines.TakeWhile(line => line.IsStructure && line.Relation == Relation.Equal && line.Terms.Length == 3).ToList();
        var points = BruteForce.Feasible(new RandomSystems.Plan(plan.Measures, definitions).Build());
        var missOf = solution.GaveWay.ToDictionary(gave => gave.Statement, gave => gave.Miss);
        Assert.DoesNotContain(points, point => BruteForce.Miss(system, because.Statement, point).IsZero
            && members.All(s => BruteForce.Miss(system, s, point) <= missOf.GetValueOrDefault(s)));
        int[] grids = [.. because.Grids.Select(grid => grid.Index)];
        foreach (var left in members)
        {
            CheckHolds(plan, because.Statement, members.Where(s => s != left), grids, missOf);
        }

        foreach (var left in grids)
        {
            CheckHolds(plan, because.Statement, members, grids.Where(grid => grid != left), missOf);
        }
    }

    private static void CheckHolds(
        RandomSystems.Plan plan, int wish, IEnumerable<int> members, IEnumerable<int> grids, Dictionary<int, Rational> missOf)
    {
        var held = new List<RandomSystems.Line> { plan.Lines[wish] with { Strength = Strength.Must } };
        foreach (var s in members)
        {
            var line = plan.Lines[s] with { Strength = Strength.Must };
            var miss = missOf.GetValueOrDefault(s);
            if (line.Relation != Relation.AtLeast)
            {
                held.Add(line with { Relation = Relation.AtMost, Right = line.Right + miss });
            }

            if (line.Relation != Relation.AtMost)
            {
                held.Add(line with { Relation = Relation.AtLeast, Right = line.Right - miss });
            }
        }

        var system = new RandomSystems.Plan(
            [.. plan.Measures.Select((measure, m) => grids.Contains(m) ? measure : measure with { Grid = null })], held).Build();
        SystemChecker.Check(system, WishSolver.Solve(system));
    }

    private static void CheckProof(WishSystem system, Clash clash, ClashProof proof)
    {
        var left = new SortedDictionary<int, Fraction>();
        var right = Fraction.Zero;
        var (mayBeMore, mayBeLess) = (false, false);
        foreach (var (s, times) in proof.Lines)
        {
            var statement = system.Statements[s];
            Assert.Contains(s, clash.Statements.Concat(clash.Structure));
            foreach (var term in statement.Terms)
            {
                Add(left, term.Measure.Index, Fraction.Of(times) * Fraction.Of(term.Factor));
            }

            right += Fraction.Of(times) * Fraction.Of(statement.Right);
            var upward = statement.Relation switch { Relation.Equal => 0, Relation.AtLeast => times.Sign, _ => -times.Sign };
            mayBeMore |= upward > 0;
            mayBeLess |= upward < 0;
        }

        // The left sides and bounds cancel; the sum is above zero where they are at least it, below where they are at most it.
        var sum = Fraction.Of(proof.Sum);
        foreach (var (measure, times) in proof.Bounds)
        {
            Add(left, measure.Index, Fraction.Of(times));
            var (least, most) = system.BoundsOf(measure);
            var end = sum.Sign * times.Sign > 0 ? least : most;
            Assert.NotNull(end);
            right += Fraction.Of(times) * Fraction.Of(end.Value);
        }

        Assert.All(left.Values, factor => Assert.True(factor.IsZero));
        Assert.Equal(sum, right);
        Assert.False(sum.IsZero);
        Assert.False(mayBeMore && sum.Sign < 0);
        Assert.False(mayBeLess && sum.Sign > 0);
    }

    private static void Add(SortedDictionary<int, Fraction> sums, int measure, Fraction value) =>
        sums[measure] = sums.GetValueOrDefault(measure, Fraction.Zero) + value;
}
