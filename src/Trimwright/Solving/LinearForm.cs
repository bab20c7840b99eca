using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A linear form over numbered unknowns, plus a constant: ascending numbers, no repeats, no zero factors. Not to be changed once made.
/// </summary>
internal sealed class LinearForm(int[] unknowns, Rational[] factors, Rational constant)
{
    /// <summary>The numbers of the unknowns, ascending.</summary>
    public int[] Unknowns { get; } = unknowns;

    /// <summary>The factor of each.</summary>
    public Rational[] Factors { get; } = factors;

    /// <summary>The constant.</summary>
    public Rational Constant { get; } = constant;

    /// <summary>Whether no unknown is left.</summary>
    public bool IsConstant => Unknowns.Length == 0;

    /// <summary>The factor of an unknown; zero when it does not occur.</summary>
    public Rational FactorOf(int unknown)
    {
        var at = Array.BinarySearch(Unknowns, unknown);
        return at < 0 ? default : Factors[at];
    }

    /// <summary>The value of the form at a point.</summary>
    public Rational At(ReadOnlySpan<Rational> point)
    {
        var sum = Constant;
        for (var i = 0; i < Unknowns.Length; i++)
        {
            sum += Factors[i] * point[Unknowns[i]];
        }

        return sum;
    }
}
