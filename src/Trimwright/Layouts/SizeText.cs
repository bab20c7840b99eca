using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>Two lengths written as a size, width first.</summary>
/// <param name="Width">The width.</param>
/// <param name="Height">The height.</param>
/// <param name="Unit">The unit written last, or the one assumed.</param>
public readonly record struct WrittenSize(Length Width, Length Height, LengthUnit Unit);

/// <summary>
/// Reads sizes as makers write them, width first: <c>4 x 6 in</c>, <c>105 x 148 mm</c>, <c>4 1/4 × 5 1/2</c>. A unit after the second number
/// stands for both.
/// </summary>
public static class SizeText
{
    /// <summary>What is wrong with a size of nothing: whoever knows what the size is of can tell more of what to do.</summary>
    public static LengthProblem Nothing { get; } = new("both sides of a size must be more than 0", "write it like `4 x 6 in`", 0);

    private static readonly char[] NumberEnds = [.. "0123456789½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"];

    /// <summary>Whether a text has a cross after a number, so that a size was meant.</summary>
    public static bool LooksLikeSize(string text)
    {
        var cross = FindCross(text);
        return cross > 0 && text[..cross].Any(char.IsNumber);
    }

    /// <summary>Reads a size; both lengths are more than zero.</summary>
    /// <returns>The size, or what is wrong with the text; exactly one of the two.</returns>
    public static (WrittenSize? Size, LengthProblem? Problem) Read(string text, LengthUnit unit)
    {
        var cross = FindCross(text);
        if (cross < 0)
        {
            return (null, new("a size has two numbers with `x` between them", "write it like `4 x 6 in` or `105 x 148 mm`", 0));
        }

        var (height, heightProblem) = LengthReader.Read(text[(cross + 1)..], unit);
        var (width, widthProblem) = LengthReader.Read(
            heightProblem is null ? WithUnitOf(text[..cross], text[(cross + 1)..]) : text[..cross], unit);
        if (widthProblem is not null)
        {
            return (null, widthProblem);
        }

        if (heightProblem is not null)
        {
            return (null, heightProblem with { Start = heightProblem.Start + cross + 1 });
        }

        if (width!.Value.Strength != Strength.Should || height!.Value.Strength != Strength.Should)
        {
            return (null, new("a size is what it is: `exactly` and `about` mean nothing in it", "leave the word out", 0));
        }

        return width.Value.Value <= Length.Zero || height.Value.Value <= Length.Zero
            ? (null, Nothing)
            : (new WrittenSize(width.Value.Value, height.Value.Value, height.Value.Unit), null);
    }

    // The x of `exactly` is none: a letter x counts only where no other letter touches it.
    private static int FindCross(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '×' || (text[i] is 'x' or 'X' && !IsLetter(text, i - 1) && !IsLetter(text, i + 1)))
            {
                return i;
            }
        }

        return -1;
    }

    // `10 x 14.8 cm`: a first number without a unit takes the unit written after the second.
    private static string WithUnitOf(string first, string second) =>
        LengthReader.ReadNumber(first).Number is null ? first : first + second[(second.LastIndexOfAny(NumberEnds) + 1)..];

    private static bool IsLetter(string text, int index) => index >= 0 && index < text.Length && char.IsLetter(text[index]);
}
