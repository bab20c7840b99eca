using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Drawing;

/// <summary>
/// A length as it stands on a drawing, read back by its own small reader: <c>4 x 1 3⁄8</c>, <c>~26.4</c>, <c>1 3⁄8 [34.9]</c>. It
/// knows nothing of how the text was made.
/// </summary>
internal sealed partial record DrawnLength(int Count, bool IsRounded, decimal Millimetres, decimal HalfStep, decimal? Other)
{
    public static DrawnLength Read(string text, LengthUnit unit)
    {
        var match = Pattern().Match(text);
        if (!match.Success)
        {
            throw new FormatException($"'{text}' is not a length");
        }

        var isInch = match.Groups["unit"].Value switch { "in" => true, "mm" => false, _ => unit == LengthUnit.Inch };
        var value = Value(match.Groups["value"].Value);
        return new(
            match.Groups["count"].Success ? int.Parse(match.Groups["count"].Value, CultureInfo.InvariantCulture) : 1,
            match.Groups["about"].Success,
            isInch ? value * 25.4m : value,
            isInch ? 25.4m / 128 : 0.05m,
            match.Groups["other"].Success ? Value(match.Groups["other"].Value) * (unit == LengthUnit.Inch ? 1 : 25.4m) : null);
    }

    /// <summary>Whether it says a distance: exactly, or to the nearest that a ruler shows where it says that it is not exact.</summary>
    public bool Says(decimal millimetres) => IsRounded
        ? millimetres != Millimetres && Math.Abs(millimetres - Millimetres) <= HalfStep
        : millimetres == Millimetres;

    private static decimal Value(string text)
    {
        var sum = 0m;
        foreach (var part in text.Split(' '))
        {
            var sides = part.Split('\u2044');
            sum += decimal.Parse(sides[0], CultureInfo.InvariantCulture) / (sides.Length == 1 ? 1 : decimal.Parse(sides[1], CultureInfo.InvariantCulture));
        }

        return sum;
    }

    [GeneratedRegex(@"^((?<count>\d+) x )?(?<about>~)?(?<value>\d+ \d+⁄\d+|\d+⁄\d+|\d+(\.\d)?)( (?<unit>in|mm))?( \[(?<other>\d+ \d+⁄\d+|\d+⁄\d+|\d+(\.\d)?)\])?$")]
    private static partial Regex Pattern();
}
