using System.Globalization;
using System.Numerics;

namespace Trimwright.Measures;

/// <summary>A length as it was written: its exact value, its strength, and the unit it was meant in.</summary>
/// <param name="Value">The length.</param>
/// <param name="Strength">Must for <c>exactly</c>, may for <c>about</c>, should for a plain length.</param>
/// <param name="Unit">The unit written, or the one that was assumed. Centimetres count as millimetres.</param>
public readonly record struct WrittenLength(Length Value, Strength Strength, LengthUnit Unit);

/// <summary>Why a text is not a length, in a maker's words.</summary>
/// <param name="Problem">What is wrong, without a full stop.</param>
/// <param name="Remedy">What to write instead.</param>
/// <param name="Start">Where in the text the trouble begins, from 0.</param>
public sealed record LengthProblem(string Problem, string Remedy, int Start);

/// <summary>
/// Reads lengths as makers write them: <c>1/8</c>, <c>1 1/2</c>, <c>1-1/2 in</c>, <c>2"</c>, <c>3.5 cm</c>, <c>12mm</c>, <c>1½</c>,
/// each with <c>exactly</c> or <c>about</c> in front if wished. A value that is no whole number of nanometres is refused, never rounded.
/// </summary>
public static class LengthReader
{
    /// <summary>The longest length that makes sense here, 10 m. Longer ones are slips of the pen, and would overflow sums.</summary>
    public static readonly Length Longest = Length.FromMillimetres(10_000);

    private const int LongestText = 100;

    private static readonly Dictionary<char, Rational> VulgarFractions = new()
    {
        ['½'] = Rational.From(1, 2), ['⅓'] = Rational.From(1, 3), ['⅔'] = Rational.From(2, 3), ['¼'] = Rational.From(1, 4),
        ['¾'] = Rational.From(3, 4), ['⅕'] = Rational.From(1, 5), ['⅖'] = Rational.From(2, 5), ['⅗'] = Rational.From(3, 5),
        ['⅘'] = Rational.From(4, 5), ['⅙'] = Rational.From(1, 6), ['⅚'] = Rational.From(5, 6), ['⅐'] = Rational.From(1, 7),
        ['⅛'] = Rational.From(1, 8), ['⅜'] = Rational.From(3, 8), ['⅝'] = Rational.From(5, 8), ['⅞'] = Rational.From(7, 8),
        ['⅑'] = Rational.From(1, 9), ['⅒'] = Rational.From(1, 10),
    };

    private static readonly Dictionary<string, (LengthUnit Unit, Rational Nanometres)> Units = new(StringComparer.OrdinalIgnoreCase)
    {
        ["in"] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["inch"] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["inches"] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["\""] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["″"] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["”"] = (LengthUnit.Inch, Length.NanometresPerInch),
        ["mm"] = (LengthUnit.Millimetre, Length.NanometresPerMillimetre),
        ["cm"] = (LengthUnit.Millimetre, 10 * Length.NanometresPerMillimetre),
    };

    /// <summary>Reads a length with its strength; where no unit is written, <paramref name="unit"/> is meant.</summary>
    /// <returns>The length, or what is wrong with the text; exactly one of the two.</returns>
    public static (WrittenLength? Length, LengthProblem? Problem) Read(string text, LengthUnit unit)
    {
        if (text.Length > LongestText)
        {
            return (null, new($"a length of {text.Length} characters is too long to be one", "write it like `1 1/2 in` or `12 mm`", 0));
        }

        var cursor = new Cursor(text);
        var strength = cursor.TryWord("exactly") ? Strength.Must : cursor.TryWord("about") ? Strength.May : Strength.Should;
        var start = cursor.SkipSpace();
        var (number, problem) = ReadNumber(ref cursor);
        if (number is not { } count)
        {
            return (null, problem);
        }

        var (meant, scale) = (unit, unit == LengthUnit.Inch ? (Rational)Length.NanometresPerInch : Length.NanometresPerMillimetre);
        cursor.SkipSpace();
        var unitStart = cursor.Index;
        var written = cursor.Rest().Trim();
        if (written.Length > 0)
        {
            if (!Units.TryGetValue(written, out var known))
            {
                var comma = written.StartsWith(',');
                return (null, new(
                    comma ? "a decimal comma is not read" : $"`{written}` is not a unit",
                    comma ? $"write a point: `{text.Trim().Replace(',', '.')}`" : "use in, mm or cm",
                    unitStart));
            }

            (meant, scale) = known;
        }

        var nanometres = count * scale;
        if (nanometres.Abs() > Longest.Nanometres)
        {
            return (null, new($"`{text[start..].Trim()}` is longer than 10 m", "check the number and its unit", start));
        }

        return Length.TryFromNanometres(nanometres, out var length)
            ? (new WrittenLength(length, strength, meant), null)
            : (null, NotExact(text[start..].Trim(), nanometres, meant, start));
    }

    /// <summary>Reads a plain number as makers write it, without a unit: <c>2</c>, <c>0.25</c>, <c>3/4</c>, <c>1 1/2</c>, <c>½</c>.</summary>
    /// <returns>The exact number, or what is wrong with the text; exactly one of the two.</returns>
    public static (Rational? Number, LengthProblem? Problem) ReadNumber(string text)
    {
        var cursor = new Cursor(text);
        cursor.SkipSpace();
        var result = ReadNumber(ref cursor);
        cursor.SkipSpace();
        return result.Number is not null && cursor.Rest().Length > 0
            ? (null, new($"`{cursor.Rest()}` does not belong to a number", "write it like `2`, `0.25` or `1 1/2`", cursor.Index))
            : result;
    }

    private static LengthProblem NotExact(string written, Rational nanometres, LengthUnit unit, int start)
    {
        // The remedy names the two settings of a common trimmer that enclose the value: sixteenths, or half millimetres.
        var step = unit == LengthUnit.Inch ? (Rational)(Length.NanometresPerInch / 16) : Length.NanometresPerMillimetre / 2;
        var below = Rational.From((nanometres / step).Floor(), 1) * step;
        var above = below + step;
        return new(
            $"`{written}` cannot be held exactly: it is no whole number of nanometres",
            $"use {LengthText.Write(new Position(below), unit)} or {LengthText.Write(new Position(above), unit)}",
            start);
    }

    private static (Rational? Number, LengthProblem? Problem) ReadNumber(ref Cursor cursor)
    {
        var start = cursor.Index;
        var negative = cursor.TryChar('-') || cursor.TryChar('−');
        var whole = cursor.ReadDigits();
        if (cursor.Peek() == '.')
        {
            cursor.TryChar('.');
            var decimals = cursor.ReadDigits();
            if (decimals.Length == 0)
            {
                return (null, new("a digit is missing after the point", "write it like `0.5`", cursor.Index));
            }

            return (Signed(Decimal(whole, decimals), negative), null);
        }

        if (whole.Length == 0)
        {
            return cursor.TryVulgar(VulgarFractions, out var vulgar)
                ? (Signed(vulgar, negative), null)
                : (null, new(
                    cursor.AtEnd ? "a length is missing" : $"`{cursor.Rest().Trim()}` does not begin with a number",
                    "write it like `1 1/2 in`, `1/8` or `12 mm`", start));
        }

        if (cursor.TrySlash())
        {
            return Fraction(ref cursor, whole, 0, negative);
        }

        return ReadSecondPart(ref cursor, whole, negative);
    }

    // After a whole number: ` 1/2`, `-1/2`, `½`, ` ½`, or nothing that belongs to the number.
    private static (Rational? Number, LengthProblem? Problem) ReadSecondPart(ref Cursor cursor, string whole, bool negative)
    {
        var units = Whole(whole);
        var mark = cursor.Index;
        cursor.SkipSpace();
        if (cursor.TryVulgar(VulgarFractions, out var vulgar))
        {
            return (Signed(units + vulgar, negative), null);
        }

        cursor.TryChar('-');
        cursor.SkipSpace();
        var numerator = cursor.ReadDigits();
        if (numerator.Length > 0 && cursor.TrySlash())
        {
            return Fraction(ref cursor, numerator, units, negative);
        }

        cursor.Index = mark;
        return (Signed(units, negative), null);
    }

    private static (Rational? Number, LengthProblem? Problem) Fraction(ref Cursor cursor, string numerator, Rational units, bool negative)
    {
        var start = cursor.Index;
        var denominator = Whole(cursor.ReadDigits());
        return denominator.IsZero
            ? (null, new("a fraction needs a number other than 0 below the stroke", "write it like `1/8`", start))
            : (Signed(units + (Whole(numerator) / denominator), negative), null);
    }

    private static Rational Signed(Rational value, bool negative) => negative ? -value : value;

    private static Rational Whole(string digits) => digits.Length == 0
        ? Rational.Zero
        : Rational.From(BigInteger.Parse(digits, CultureInfo.InvariantCulture), 1);

    private static Rational Decimal(string whole, string decimals) =>
        Rational.From(
            BigInteger.Parse("0" + whole + decimals, CultureInfo.InvariantCulture),
            BigInteger.Pow(10, decimals.Length));

    private ref struct Cursor(string text)
    {
        private readonly string _text = text;

        public int Index { get; set; }

        public readonly bool AtEnd => Index >= _text.Length;

        public readonly char Peek() => AtEnd ? '\0' : _text[Index];

        public readonly string Rest() => _text[Math.Min(Index, _text.Length)..];

        public int SkipSpace()
        {
            while (!AtEnd && char.IsWhiteSpace(_text[Index]))
            {
                Index++;
            }

            return Index;
        }

        public bool TryChar(char wanted)
        {
            if (Peek() != wanted)
            {
                return false;
            }

            Index++;
            return true;
        }

        public bool TrySlash() => TryChar('/') || TryChar('⁄');

        public bool TryWord(string word)
        {
            SkipSpace();
            var end = Index + word.Length;
            if (!_text.AsSpan(Index).StartsWith(word, StringComparison.OrdinalIgnoreCase)
                || (end < _text.Length && char.IsLetter(_text[end])))
            {
                return false;
            }

            Index = end;
            return true;
        }

        public bool TryVulgar(Dictionary<char, Rational> fractions, out Rational value)
        {
            if (!fractions.TryGetValue(Peek(), out value))
            {
                return false;
            }

            Index++;
            return true;
        }

        public string ReadDigits()
        {
            var start = Index;
            while (!AtEnd && char.IsAsciiDigit(_text[Index]))
            {
                Index++;
            }

            return _text[start..Index];
        }
    }
}
