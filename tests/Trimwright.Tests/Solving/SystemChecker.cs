using System.Numerics;
using Trimwright.Measures;
using Trimwright.Solving;
using Xunit;

namespace Trimwright.Tests.Solving;

/// <summary>
/// Checks an answer from the statements as they were written, with fractions of its own: nothing of the solver, and no arithmetic of
/// <see cref="Rational"/>, takes part.
/// </summary>
internal static class SystemChecker
{
    /// <summary>Fails unless every must, bound and grid holds, and exactly the wishes that are missed are reported, by the right amount.</summary>
    public static void Check(WishSystem system, Solution solution)
    {
        Assert.True(solution.Outcome is Outcome.Best or Outcome.BestFound, $"outcome {solution.Outcome}");
        Assert.Equal(solution.Outcome == Outcome.BestFound, solution.Gap is not null);
        Assert.Null(solution.Clash);
        Assert.Equal(system.MeasureCount, solution.Values.Count);
        for (var m = 0; m < system.MeasureCount; m++)
        {
            CheckMeasure(system, new(m), Fraction.Of(solution.Values[m]));
        }

        var missed = new List<(int, Fraction, Fraction, Fraction)>();
        for (var s = 0; s < system.Statements.Count; s++)
        {
            var statement = system.Statements[s];
            var left = Left(statement, solution.Values);
            var miss = Miss(statement, left);
            if (statement.Strength == Strength.Must)
            {
                Assert.True(miss.IsZero, $"must {s} is missed by {miss}");
            }
            else if (!miss.IsZero)
            {
                missed.Add((s, Fraction.Of(statement.Right), left, miss));
            }
        }

        Assert.Equal(
            missed,
            solution.GaveWay.Select(g => (g.Statement, Fraction.Of(g.Wanted), Fraction.Of(g.Got), Fraction.Of(g.Miss))));
        foreach (var loose in solution.Loose)
        {
            Assert.Equal(solution.Values[loose.Measure.Index], loose.Chosen);
            Assert.True(loose.Least is null || loose.Least <= loose.Chosen);
            Assert.True(loose.Most is null || loose.Most >= loose.Chosen);
        }
    }

    /// <summary>
    /// Fails unless the members of a clash cannot hold together and can as soon as any one of them is left out. What can hold is asked
    /// of the solver and then checked here, so a wrong yes is found; a wrong no is left to the oracle tests.
    /// </summary>
    public static void CheckClash(WishSystem system, Solution solution)
    {
        Assert.Equal(Outcome.Clash, solution.Outcome);
        Assert.Empty(solution.Values);
        var clash = solution.Clash!;
        Assert.All(clash.Statements, s => Assert.False(system.Statements[s].IsStructure));
        Assert.All(clash.Structure, s => Assert.True(system.Statements[s].IsStructure));
        int[] statements = [.. clash.Statements, .. clash.Structure];
        int[] grids = [.. clash.Grids.Select(m => m.Index)];
        Assert.Equal(Outcome.Clash, WishSolver.Solve(Part(system, statements, grids)).Outcome);
        foreach (var left in statements)
        {
            var part = Part(system, statements.Where(s => s != left), grids);
            Check(part, WishSolver.Solve(part));
        }

        foreach (var left in grids)
        {
            var part = Part(system, statements, grids.Where(m => m != left));
            Check(part, WishSolver.Solve(part));
        }
    }

    /// <summary>A system of the same measures with some of the statements and some of the grids.</summary>
    public static WishSystem Part(WishSystem system, IEnumerable<int> statements, IEnumerable<int> grids)
    {
        var part = new WishSystem();
        for (var m = 0; m < system.MeasureCount; m++)
        {
            var (least, most) = system.BoundsOf(new(m));
            part.AddMeasure(grids.Contains(m) ? system.GridOf(new(m)) : null, least, most);
        }

        foreach (var s in statements.Order())
        {
            var statement = system.Statements[s];
            part.Add(statement.Terms, statement.Relation, statement.Right, statement.Strength, statement.IsStructure);
        }

        return part;
    }

    /// <summary>The left-hand side of a statement.</summary>
    public static Fraction Left(Statement statement, IReadOnlyList<Rational> values) => statement.Terms
        .Select(t => Fraction.Of(t.Factor) * Fraction.Of(values[t.Measure.Index]))
        .Aggregate(Fraction.Zero, (a, b) => a + b);

    /// <summary>By how much a statement is missed.</summary>
    public static Fraction Miss(Statement statement, Fraction left)
    {
        var excess = left - Fraction.Of(statement.Right);
        return statement.Relation switch
        {
            Relation.AtMost => excess.Sign > 0 ? excess : Fraction.Zero,
            Relation.AtLeast => excess.Sign < 0 ? Fraction.Zero - excess : Fraction.Zero,
            _ => excess.Sign < 0 ? Fraction.Zero - excess : excess,
        };
    }

    private static void CheckMeasure(WishSystem system, Measure measure, Fraction value)
    {
        var (least, most) = system.BoundsOf(measure);
        Assert.True(least is not { } low || (value - Fraction.Of(low)).Sign >= 0, $"measure {measure.Index} is below its least value");
        Assert.True(most is not { } high || (value - Fraction.Of(high)).Sign <= 0, $"measure {measure.Index} is above its greatest value");
        if (system.GridOf(measure) is { Step: { } step })
        {
            var over = value.Numerator * step.Denominator;
            Assert.True((over % (value.Denominator * step.Numerator)).IsZero, $"measure {measure.Index} is off its grid at {value}");
        }
        else if (system.GridOf(measure) is { Values: { } values })
        {
            Assert.Contains(value, values.Select(Fraction.Of));
        }
    }
}

/// <summary>A fraction of whole numbers without limit, in lowest terms: the plainest one that can be written.</summary>
internal readonly record struct Fraction(BigInteger Numerator, BigInteger Denominator)
{
    public static Fraction Zero => new(0, 1);

    public int Sign => Numerator.Sign;

    public bool IsZero => Numerator.IsZero;

    public static Fraction Of(Rational value) => Reduced(value.Numerator, value.Denominator);

    public static Fraction Reduced(BigInteger numerator, BigInteger denominator)
    {
        var divisor = BigInteger.GreatestCommonDivisor(numerator, denominator) * denominator.Sign;
        return new(numerator / divisor, denominator / divisor);
    }

    public static Fraction operator +(Fraction a, Fraction b) =>
        Reduced((a.Numerator * b.Denominator) + (b.Numerator * a.Denominator), a.Denominator * b.Denominator);

    public static Fraction operator -(Fraction a, Fraction b) =>
        Reduced((a.Numerator * b.Denominator) - (b.Numerator * a.Denominator), a.Denominator * b.Denominator);

    public static Fraction operator *(Fraction a, Fraction b) => Reduced(a.Numerator * b.Numerator, a.Denominator * b.Denominator);

    public static Fraction operator /(Fraction a, Fraction b) => Reduced(a.Numerator * b.Denominator, a.Denominator * b.Numerator);

    public override string ToString() => $"{Numerator}/{Denominator}";
}
