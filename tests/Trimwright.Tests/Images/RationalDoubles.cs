using Trimwright.Measures;

namespace Trimwright.Tests.Images;

internal static class RationalDoubles
{
    /// <summary>For comparing with formulas in floating point.</summary>
    public static double ToDouble(this Rational value) => (double)value.Numerator / (double)value.Denominator;
}
