using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Lengths and numbers as values of a file.</summary>
internal static class LengthValues
{
    /// <summary>Reads a text such as <c>"1 1/2 in"</c>, or a number in the unit of the file; null if reported.</summary>
    public static Wish? Read(SyntaxValue value, string what, ReadingContext context)
    {
        var written = value switch
        {
            SyntaxText text => text.Text,
            SyntaxNumber number => number.Raw,
            _ => null,
        };
        if (written is null)
        {
            context.Add(LayoutMessages.WrongKind(what, "a length, like `\"1 1/2\"`", value));
            return null;
        }

        var (length, problem) = LengthReader.Read(written, context.Unit);
        if (length is not { } found)
        {
            context.Add(LayoutMessages.BadLength(problem!, value is SyntaxText inText ? inText.From(problem!.Start) : value.Place));
            return null;
        }

        return new(found.Value, found.Strength, found.Unit, value.Place);
    }

    /// <summary>The length of a wish that must not say how strongly it is wished; null if reported.</summary>
    public static Length? WithoutStrength(Wish wish, string key, ReadingContext context)
    {
        if (wish.Strength != Strength.Should)
        {
            context.Add(LayoutMessages.StrengthWithoutMeaning(key, wish));
            return null;
        }

        return wish.Value;
    }

    /// <summary>Reads a number exactly as it is written; null if reported.</summary>
    public static Rational? Number(SyntaxValue value, string what, ReadingContext context)
    {
        if (value is not SyntaxNumber number)
        {
            context.Add(LayoutMessages.WrongKind(what, "a number without quotes", value));
            return null;
        }

        var (read, problem) = number.Raw.Length > LongestNumber
            ? (null, new LengthProblem("the number has too many digits", $"write at most {LongestNumber} characters", 0))
            : LengthReader.ReadNumber(number.Raw);
        if (read is null)
        {
            context.Add(LayoutMessages.BadLength(problem!, value.Place));
        }

        return read;
    }

    /// <summary>The most characters of a number: enough for any angle or weight, and short enough to keep sums of fractions small.</summary>
    public const int LongestNumber = 20;
}
