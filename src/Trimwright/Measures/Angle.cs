using System.Globalization;
using System.Numerics;

namespace Trimwright.Measures;

/// <summary>
/// An angle in degrees, exactly as written; positive turns clockwise as seen on the card (as in SVG, where y grows downwards).
/// </summary>
/// <remarks>
/// Sine and cosine are rational numbers with an error below 10^-12, computed from the Taylor series in whole numbers, so that every
/// machine gets the same digits. They serve drawing and safe bounds; no cut size is made from them.
/// </remarks>
public readonly record struct Angle(Rational Degrees)
{
    // Pi to 40 decimals (OEIS A000796), scaled by 10^40.
    private static readonly BigInteger PiScaled = BigInteger.Parse("31415926535897932384626433832795028841971", CultureInfo.InvariantCulture);
    private static readonly BigInteger Scale = BigInteger.Pow(10, 40);
    private static readonly BigInteger Kept = BigInteger.Pow(10, 12);

    /// <summary>No turn.</summary>
    public static Angle Zero => default;

    /// <summary>Whether there is no turn at all.</summary>
    public bool IsZero => Degrees.IsZero;

    /// <summary>The turn the other way.</summary>
    public static Angle operator -(Angle angle) => new(-angle.Degrees);

    /// <summary>The cosine, within 10^-12.</summary>
    public Rational Cos() => new Angle(90 - Degrees).Sin();

    /// <summary>The sine, within 10^-12; exact at multiples of 90 degrees.</summary>
    public Rational Sin()
    {
        var turned = Degrees - (360 * Rational.From((Degrees / 360).Floor(), 1));
        if (turned >= 180)
        {
            return -new Angle(turned - 180).Sin();
        }

        if (turned > 90)
        {
            turned = 180 - turned;
        }

        if (turned == 90)
        {
            return Rational.One;
        }

        var x = turned.Numerator * PiScaled / (turned.Denominator * 180);
        var (term, sum) = (x, x);
        for (var k = 1; !term.IsZero; k++)
        {
            term = -(term * x / Scale * x / Scale) / (2 * k * ((2 * k) + 1));
            sum += term;
        }

        return Rational.From(((sum * Kept) + (Scale / 2)) / Scale, Kept);
    }

    /// <summary>The angle as a maker reads it, such as <c>-7.5°</c>.</summary>
    public override string ToString() => Degrees.Denominator is var d && (1_000_000 % d).IsZero
        ? LengthText.WriteDecimal(Degrees, 6) + "°"
        : LengthText.WriteMixed(Degrees) + "°";
}
