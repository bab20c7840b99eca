using System.Globalization;

namespace Trimwright.Measures;

/// <summary>
/// A length: a whole number of nanometres. The <c>default</c> value is zero. Lengths may be negative (an overlap is a negative gap).
/// </summary>
/// <remarks>
/// One inch is exactly 25.4 mm (international yard and pound agreement, 1959), so 1/64 in = 396 875 nm and every micrometre are
/// whole. What is not whole, such as 1/3 in, cannot be a length and is refused by <see cref="TryFromNanometres"/>.
/// </remarks>
public readonly record struct Length : IComparable<Length>
{
    /// <summary>Nanometres in one inch, exactly.</summary>
    public const long NanometresPerInch = 25_400_000;

    /// <summary>Nanometres in one millimetre.</summary>
    public const long NanometresPerMillimetre = 1_000_000;

    private Length(long nanometres) => Nanometres = nanometres;

    /// <summary>No length.</summary>
    public static Length Zero => default;

    /// <summary>The length in nanometres.</summary>
    public long Nanometres { get; }

    /// <summary>Whether the length is zero.</summary>
    public bool IsZero => Nanometres == 0;

    /// <summary>Makes a length from nanometres.</summary>
    public static Length FromNanometres(long nanometres) => new(nanometres);

    /// <summary>Makes a length from whole millimetres.</summary>
    /// <exception cref="OverflowException">The length leaves 64 bits.</exception>
    public static Length FromMillimetres(long millimetres) => new(millimetres * NanometresPerMillimetre);

    /// <summary>Makes a length from a fraction of an inch.</summary>
    /// <exception cref="ArgumentException">The fraction is no whole number of nanometres.</exception>
    public static Length FromInches(long numerator, long denominator = 1) =>
        TryFromNanometres(Rational.From(numerator, denominator) * NanometresPerInch, out var length)
            ? length
            : throw new ArgumentException($"{numerator}/{denominator} in is no whole number of nanometres");

    /// <summary>Makes a length from an exact number of nanometres; false when that is not whole or leaves 64 bits. Never rounds.</summary>
    public static bool TryFromNanometres(Rational nanometres, out Length length)
    {
        if (nanometres.IsWhole && nanometres.IsSmall)
        {
            length = new((long)nanometres.Numerator);
            return true;
        }

        length = default;
        return false;
    }

    /// <summary>The sum.</summary>
    public static Length operator +(Length a, Length b) => new(a.Nanometres + b.Nanometres);

    /// <summary>The difference.</summary>
    public static Length operator -(Length a, Length b) => new(a.Nanometres - b.Nanometres);

    /// <summary>The length with the other sign.</summary>
    public static Length operator -(Length a) => new(-a.Nanometres);

    /// <summary>A whole multiple.</summary>
    public static Length operator *(Length a, long times) => new(a.Nanometres * times);

    /// <summary>A whole multiple.</summary>
    public static Length operator *(long times, Length a) => new(a.Nanometres * times);

    /// <summary>The ratio of two lengths, exactly.</summary>
    public static Rational operator /(Length a, Length b) => Rational.From(a.Nanometres, b.Nanometres);

    /// <summary>Whether the first is shorter.</summary>
    public static bool operator <(Length a, Length b) => a.Nanometres < b.Nanometres;

    /// <summary>Whether the first is longer.</summary>
    public static bool operator >(Length a, Length b) => a.Nanometres > b.Nanometres;

    /// <summary>Whether the first is not longer.</summary>
    public static bool operator <=(Length a, Length b) => a.Nanometres <= b.Nanometres;

    /// <summary>Whether the first is not shorter.</summary>
    public static bool operator >=(Length a, Length b) => a.Nanometres >= b.Nanometres;

    /// <summary>The longer of the two.</summary>
    public static Length Max(Length a, Length b) => a >= b ? a : b;

    /// <summary>The shorter of the two.</summary>
    public static Length Min(Length a, Length b) => a <= b ? a : b;

    /// <summary>The length without its sign.</summary>
    public Length Abs() => new(Math.Abs(Nanometres));

    /// <summary>Whether the length is a whole multiple of <paramref name="increment"/>.</summary>
    public bool IsMultipleOf(Length increment) => Nanometres % increment.Nanometres == 0;

    /// <summary>The least multiple of <paramref name="increment"/> that is not shorter.</summary>
    public Length CeilingTo(Length increment)
    {
        var rest = Nanometres % increment.Nanometres;
        return rest == 0 ? this : new(Nanometres - rest + (Nanometres > 0 ? increment.Nanometres : 0));
    }

    /// <inheritdoc/>
    public int CompareTo(Length other) => Nanometres.CompareTo(other.Nanometres);

    /// <summary>The length in nanometres with its unit, for debugging; a maker reads <see cref="LengthText"/>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Nanometres} nm");
}
