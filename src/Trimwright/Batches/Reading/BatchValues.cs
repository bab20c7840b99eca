using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches.Reading;

/// <summary>Values that only batch files have.</summary>
internal static class BatchValues
{
    /// <summary>A size such as <c>6 x 6 in</c>; null if reported.</summary>
    /// <param name="text">What is written.</param>
    /// <param name="whereNothing">What to do where a side is 0.</param>
    /// <param name="context">The reading.</param>
    public static (Length Width, Length Height)? Size(SyntaxText text, string whereNothing, ReadingContext context)
    {
        var (size, problem) = SizeText.Read(text.Text, context.Unit);
        if (size is { } found)
        {
            return (found.Width, found.Height);
        }

        problem = problem == SizeText.Nothing ? problem with { Remedy = whereNothing } : problem;
        context.Add(LayoutMessages.BadLength(problem!, text.From(problem!.Start)));
        return null;
    }

    /// <summary>A whole number from 1 to a limit, in the unit of <paramref name="what"/>; null if reported or absent.</summary>
    public static int? WholeNumber(SyntaxMember? member, string what, int most, ReadingContext context)
    {
        if (member is null || LengthValues.Number(member.Value, $"`{member.Key}`", context) is not { } number)
        {
            return null;
        }

        if (number.Denominator.IsOne && number >= Rational.One && number <= most)
        {
            return (int)number.Numerator;
        }

        context.Add(BatchMessages.BadCount(member.Key, what, most, number, member.Value.Place));
        return null;
    }

    /// <summary>A word in the place of a number, such as <c>"enough"</c>.</summary>
    public static bool IsWord(SyntaxMember? member, string word) => member?.Value is SyntaxText text && text.Text == word;

    /// <summary>Notes that a paper is named; it is looked up when all are known.</summary>
    public static string? Paper(SyntaxText? text, ReadingContext context)
    {
        if (text is not null && !Names.IsName(text.Text))
        {
            context.Add(LayoutMessages.BadName(text.Text, text.Place));
        }
        else if (text is not null)
        {
            context.Used.Add(new(text.Text, text.Place, NameUse.Paper, null));
        }

        return text?.Text;
    }
}
