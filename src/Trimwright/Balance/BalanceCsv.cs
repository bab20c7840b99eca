using System.Globalization;
using System.Text;
using Trimwright.Trimming;

namespace Trimwright.Balance;

/// <summary>A comparison as comma-separated values (RFC 4180: CRLF line ends, quotes doubled inside quoted fields), one line a variant.</summary>
public static class BalanceCsv
{
    private static readonly string[] Headings = ["no", "place", "ties with", "what was changed", "as drawn", "DCM", "dx", "dy", "APB", "looks off the card", "new overlaps"];

    /// <summary>Writes all variants, the best balanced first. A face without weight has empty scores.</summary>
    public static string Write(BalanceComparison comparison)
    {
        var text = new StringBuilder();
        CsvText.Append(text, Headings);
        foreach (var variant in comparison.Variants)
        {
            CsvText.Append(text,
            [
                variant.Number.ToString(CultureInfo.InvariantCulture),
                variant.Ranked.Place.ToString(CultureInfo.InvariantCulture),
                string.Join("; ", variant.TiesWith.Select(number => number.ToString(CultureInfo.InvariantCulture))),
                variant.Name,
                variant == comparison.AsDrawn ? "yes" : "no",
                .. variant.Weight is null ? ["", "", "", ""] : BalanceTable.Scores(variant.Weight),
                string.Join("; ", variant.LooksOff),
                string.Join("; ", variant.NewOverlaps),
            ]);
        }

        return text.ToString();
    }
}
