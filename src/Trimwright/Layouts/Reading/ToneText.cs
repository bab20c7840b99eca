using System.Globalization;
using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>
/// Reads the tone of a paper: <c>35%</c> (a grey, 0 % white and 100 % black), a colour name of CSS, or <c>#rgb</c> or <c>#rrggbb</c>.
/// </summary>
internal static class ToneText
{
    /// <summary>Reads a tone.</summary>
    /// <returns>The colour, or what to write instead; exactly one of the two.</returns>
    public static (Colour? Colour, string? Remedy) Read(string text)
    {
        var trimmed = text.Trim();
        if (trimmed.EndsWith('%'))
        {
            return Grey(trimmed[..^1]) is { } grey ? (grey, null) : (null, "write a number from 0 (white) to 100 (black), like `35%`");
        }

        if (trimmed.StartsWith('#'))
        {
            return Hexadecimal(trimmed[1..]) is { } colour ? (colour, null) : (null, "write three or six hexadecimal digits, like `#7a9`");
        }

        if (CssColours.Find(trimmed) is { } named)
        {
            return (named, null);
        }

        var near = NearNames.Nearest(trimmed, CssColours.Names);
        return (null, near is null ? "use a grey like `35%`, a CSS colour name, or `#rrggbb`" : $"did you mean `{near}`?");
    }

    private static Colour? Grey(string percent)
    {
        if (percent.Length > 20 || LengthReader.ReadNumber(percent).Number is not { } dark || dark < Rational.Zero || dark > 100)
        {
            return null;
        }

        // The nearest of the 256 greys, halves up.
        var level = (byte)(((100 - dark) * 255 / 100) + Rational.From(1, 2)).Floor();
        return new Colour(level, level, level);
    }

    private static Colour? Hexadecimal(string digits)
    {
        var full = digits.Length == 3 ? string.Concat(digits.Select(digit => new string(digit, 2))) : digits;
        return full.Length == 6 && full.All(char.IsAsciiHexDigit)
            ? CssColours.FromRgb(int.Parse(full, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture))
            : null;
    }
}
