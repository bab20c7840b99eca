using System.Globalization;
using System.Numerics;

namespace Trimwright.Measures;

/// <summary>
/// Lengths as makers read them: mixed inch fractions (<c>1 3/8</c>) or millimetres (<c>34.9</c>). What has no finite decimal is written as a
/// fraction, exactly, as long as its denominator has no more than three figures. Nobody could read the fractions that the shape of a picture makes: they
/// are given to the nearest mark of a ruler, 1/64 in or 0.1 mm, with <see cref="About"/> before them.
/// </summary>
public static class LengthText
{
    /// <summary>The finest fraction that a maker's ruler shows: 1/64 in.</summary>
    public const int FinestInchFraction = 64;

    /// <summary>Stands before what is not exact.</summary>
    public const string About = "~";

    private const int MostDecimals = 6;
    private const int MostDenominator = 999;

    /// <summary>Writes a length in a unit, such as <c>1 3/8 in</c>.</summary>
    public static string Write(Length length, LengthUnit unit) => Write(length.Nanometres, unit, withUnit: true);

    /// <summary>Writes a place or a gap in a unit, such as <c>1/7 in</c>.</summary>
    public static string Write(Position position, LengthUnit unit) => Write(position.Nanometres, unit, withUnit: true);

    /// <summary>Writes a length without its unit, such as <c>1 3/8</c>, for tables and drawings that name the unit once.</summary>
    public static string WriteBare(Length length, LengthUnit unit) => Write(length.Nanometres, unit, withUnit: false);

    /// <summary>Writes a place or a gap without its unit, for tables and drawings that name the unit once.</summary>
    public static string WriteBare(Position position, LengthUnit unit) => Write(position.Nanometres, unit, withUnit: false);

    /// <summary>
    /// Writes a size, width first, such as <c>4 x 5 1/4 in</c>. Where the height can only be read in millimetres the width says its own unit, such as
    /// <c>4 in x 100 mm</c>: a unit at the end stands for both.
    /// </summary>
    public static string WriteSize(Length width, Length height, LengthUnit unit)
    {
        var last = Write(height, unit);
        return $"{(last.EndsWith(Symbol(unit), StringComparison.Ordinal) ? WriteBare(width, unit) : Write(width, unit))} x {last}";
    }

    /// <summary>The unit as makers write it: <c>in</c> or <c>mm</c>.</summary>
    public static string Symbol(LengthUnit unit) => unit == LengthUnit.Inch ? "in" : "mm";

    /// <summary>The unit that a thing of this length is sold in: inches where it is a whole number of 1/64 in, otherwise millimetres.</summary>
    public static LengthUnit NaturalUnit(Length length) =>
        IsOnRuler(length.Nanometres, LengthUnit.Inch) ? LengthUnit.Inch : LengthUnit.Millimetre;

    /// <summary>
    /// Whether a maker can find the length on a ruler in that unit: a multiple of 1/64 in, or of 0.1 mm.
    /// </summary>
    public static bool IsOnRuler(Rational nanometres, LengthUnit unit) => unit == LengthUnit.Inch
        ? (nanometres * FinestInchFraction / Length.NanometresPerInch).IsWhole
        : (nanometres * 10 / Length.NanometresPerMillimetre).IsWhole;

    private static string Write(Rational nanometres, LengthUnit unit, bool withUnit)
    {
        if (!CanBeRead(nanometres))
        {
            return About + WriteNearest(nanometres, unit) + (withUnit ? " " + Symbol(unit) : "");
        }

        if (unit == LengthUnit.Millimetre)
        {
            return WriteMillimetres(nanometres) + (withUnit ? " mm" : "");
        }

        var inches = nanometres / Length.NanometresPerInch;
        if (inches.Denominator > FinestInchFraction && HasDecimals(nanometres / Length.NanometresPerMillimetre, MostDecimals))
        {
            // 3 mm on an inch card is 15/127 in, and what a 1/8 in reveal is more than that 7/1016 in: millimetres can be read.
            return WriteMillimetres(nanometres) + " mm";
        }

        return WriteMixed(inches) + (withUnit ? " in" : "");
    }

    private static bool CanBeRead(Rational nanometres) => HasDecimals(nanometres / Length.NanometresPerMillimetre, MostDecimals)
        || (nanometres / Length.NanometresPerInch).Denominator <= MostDenominator || (nanometres / Length.NanometresPerMillimetre).Denominator <= MostDenominator;

    private static string WriteMillimetres(Rational nanometres)
    {
        var millimetres = nanometres / Length.NanometresPerMillimetre;
        return HasDecimals(millimetres, MostDecimals) ? WriteDecimal(millimetres, MostDecimals) : WriteMixed(millimetres);
    }

    /// <summary>
    /// Writes a size that may lie between the marks of a ruler, width first: what is not exact is given to the nearest 1/64 in or 0.1 mm, with
    /// <see cref="About"/> before it, such as <c>~2 21/32 x 3 1/2 in</c>.
    /// </summary>
    public static string WriteSizeAbout(Position width, Position height, LengthUnit unit)
    {
        return $"{OnRuler(width)} x {OnRuler(height)} {Symbol(unit)}";

        string OnRuler(Position length) =>
            (IsOnRuler(length.Nanometres, unit) ? "" : About) + WriteNearest(length.Nanometres, unit);
    }

    /// <summary>Writes the nearest length that a ruler shows, without its unit: to 1/64 in or 0.1 mm; halves go up.</summary>
    public static string WriteNearest(Rational nanometres, LengthUnit unit)
    {
        var (steps, step) = unit == LengthUnit.Inch ? (FinestInchFraction, Length.NanometresPerInch) : (10, Length.NanometresPerMillimetre);
        var count = ((nanometres * steps / step) + Rational.From(1, 2)).Floor();
        var nearest = Rational.From(count, new BigInteger(steps));
        return unit == LengthUnit.Inch ? WriteMixed(nearest) : WriteDecimal(nearest, 1);
    }

    private static bool HasDecimals(Rational value, int decimals) => (value * Rational.From(BigInteger.Pow(10, decimals), 1)).IsWhole;

    /// <summary>Writes a number as an exact decimal of at most some digits, without trailing zeros.</summary>
    /// <exception cref="ArgumentException">The number needs more digits.</exception>
    public static string WriteDecimal(Rational value, int decimals)
    {
        var scaled = value * Rational.From(BigInteger.Pow(10, decimals), 1);
        if (!scaled.IsWhole)
        {
            throw new ArgumentException($"{value} needs more than {decimals} decimals", nameof(value));
        }

        var digits = BigInteger.Abs(scaled.Numerator).ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        var fraction = digits[^decimals..].TrimEnd('0');
        return (value.Sign < 0 ? "-" : "") + digits[..^decimals] + (fraction.Length == 0 ? "" : "." + fraction);
    }

    /// <summary>Writes a number as a mixed fraction, such as <c>1 3/8</c>, <c>-1/4</c> or <c>2</c>.</summary>
    public static string WriteMixed(Rational value)
    {
        var whole = BigInteger.DivRem(BigInteger.Abs(value.Numerator), value.Denominator, out var rest);
        var sign = value.Sign < 0 ? "-" : "";
        if (rest.IsZero)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{sign}{whole}");
        }

        var fraction = string.Create(CultureInfo.InvariantCulture, $"{rest}/{value.Denominator}");
        return whole.IsZero ? sign + fraction : string.Create(CultureInfo.InvariantCulture, $"{sign}{whole} {fraction}");
    }
}
