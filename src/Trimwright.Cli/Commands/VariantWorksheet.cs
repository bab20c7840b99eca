using Trimwright.Balance;
using Trimwright.Worksheets;

namespace Trimwright.Cli.Commands;

/// <summary>The worksheet of a variant: that of its card, with its number on each page, so that the pages of two variants are not mixed up.</summary>
internal static class VariantWorksheet
{
    public static Worksheet Make(ComparedVariant variant, PaperSize paper, CancellationToken cancel)
    {
        var sheet = WorksheetMaker.Make(variant.Card, paper, cancel);
        return sheet with
        {
            Title = FormattableString.Invariant($"{sheet.Title}, variant {variant.Number}"),
            Summary = $"{Sentence(variant.Name)}. {sheet.Summary}",
        };
    }

    // On paper names stand without the backticks of the terminal.
    private static string Sentence(string name)
    {
        var words = name.Replace("`", "", StringComparison.Ordinal);
        return char.ToUpperInvariant(words[0]) + words[1..];
    }
}
