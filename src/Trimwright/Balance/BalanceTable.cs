using System.Globalization;
using Trimwright.Trimming;

namespace Trimwright.Balance;

/// <summary>A comparison as tables of texts, one row a variant or a piece, for the screen, for Markdown and for CSV.</summary>
/// <param name="Headings">The headings.</param>
/// <param name="Rows">The cells, row by row.</param>
/// <param name="NumberColumns">Which columns are set flush right.</param>
public sealed record BalanceTable(IReadOnlyList<string> Headings, IReadOnlyList<IReadOnlyList<string>> Rows, IReadOnlySet<int> NumberColumns)
{
    /// <summary>Variants with their places and scores; a face without weight has none.</summary>
    public static BalanceTable OfVariants(IEnumerable<ComparedVariant> variants) => new(
        ["no.", "place", "what was changed", "DCM", "dx", "dy", "APB"],
        [.. variants.Select(variant => (IReadOnlyList<string>)
        [
            variant.Number.ToString(CultureInfo.InvariantCulture),
            BalanceText.Place(variant.Ranked),
            variant.Name,
            .. Scores(variant.Weight),
        ])],
        new HashSet<int> { 0, 3, 4, 5, 6 });

    /// <summary>What pulls where: each piece as drawn, and beside it in the best variant where that is another.</summary>
    public static BalanceTable OfPulls(BalanceComparison comparison)
    {
        List<(string Heading, ComparedVariant Variant)> columns = [("as drawn", comparison.AsDrawn)];
        if (!comparison.IsBestAsDrawn)
        {
            columns.Add((string.Create(CultureInfo.InvariantCulture, $"in no. {comparison.Best.Number}"), comparison.Best));
        }

        var pieces = comparison.AsDrawn.Weight?.Pieces ?? [];
        return new(
            ["piece", .. columns.SelectMany(column => (string[])[$"weight {column.Heading}", $"pull {column.Heading}"])],
            [.. pieces.Select(piece => (IReadOnlyList<string>)[piece.Piece ?? "the card itself", .. columns.SelectMany(column => Told(column.Variant, piece.Piece))])],
            new HashSet<int> { 1, 3 });
    }

    /// <summary>The table in plain text with aligned columns and LF line ends.</summary>
    public string ToPlainText() => TextTable.Plain(Headings, Rows, NumberColumns.Contains);

    /// <summary>The table in Markdown with LF line ends.</summary>
    public string ToMarkdown() => TextTable.Markdown(Headings, Rows, NumberColumns.Contains);

    /// <summary>Deviation, both its parts, and the score of the other measure.</summary>
    internal static IReadOnlyList<string> Scores(FaceWeight? weight) => weight is { Whole: var whole }
        ? [BalanceText.Score(whole.Deviation), BalanceText.Score(whole.Dx), BalanceText.Score(whole.Dy), BalanceText.Score(whole.Preference)]
        : ["none", "", "", "none"];

    // A variant has the pieces of the layout, whatever their order.
    private static IEnumerable<string> Told(ComparedVariant variant, string? piece) =>
        variant.Weight?.Pieces.FirstOrDefault(other => other.Piece == piece) is { } found
            ? [BalanceText.Share(found.Share), BalanceReport.ShortDirections(found)]
            : ["", ""];
}
