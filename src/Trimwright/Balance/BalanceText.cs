using System.Globalization;
using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>The numbers of the measures as they are read.</summary>
public static class BalanceText
{
    /// <summary>
    /// A score with two decimals, such as <c>3.20</c> or <c>-0.05</c>: to the nearest hundredth, halves away from zero, so that mirrored cards
    /// have the same figures. Two are needed to see which scores tie; the second is not known for certain.
    /// </summary>
    public static string Score(Rational value) => Decimals(value, 2);

    /// <summary>A part of the whole in percent, with one decimal, such as <c>12.5 %</c>.</summary>
    public static string Share(Rational part) => $"{Decimals(100 * part, 1)} %";

    /// <summary>A place in the ranking, such as <c>3</c>, or <c>3=</c> where others share it.</summary>
    public static string Place(RankedVariant entry) => string.Create(CultureInfo.InvariantCulture, $"{entry.Place}{(entry.Tied ? "=" : "")}");

    /// <summary>The tie that a variant is in, such as <c>a tie of 2 to 5</c>, since those that tie have numbers in a row; null for none.</summary>
    public static string? Tie(ComparedVariant variant)
    {
        if (variant.TiesWith.Count == 0)
        {
            return null;
        }

        var (first, last) = (Math.Min(variant.Number, variant.TiesWith[0]), Math.Max(variant.Number, variant.TiesWith[^1]));
        return string.Create(CultureInfo.InvariantCulture, $"a tie of {first} {(last == first + 1 ? "and" : "to")} {last}");
    }

    /// <summary>A number with so many decimals, halves away from zero.</summary>
    internal static string Decimals(Rational value, int decimals)
    {
        var steps = ((value.Abs() * Rational.From(BigInteger.Pow(10, decimals), 1)) + Rational.From(1, 2)).Floor();
        var digits = steps.ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        return $"{(value.Sign < 0 && !steps.IsZero ? "-" : "")}{digits[..^decimals]}.{digits[^decimals..]}";
    }
}
