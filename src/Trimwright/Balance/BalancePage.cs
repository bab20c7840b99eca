using System.Text;

namespace Trimwright.Balance;

/// <summary>A comparison as a Markdown page: every variant, what pulls where, and what the numbers are worth.</summary>
public static class BalancePage
{
    /// <summary>Writes the page with LF line ends.</summary>
    public static string Write(BalanceComparison comparison)
    {
        var text = new StringBuilder();
        text.Append("# ").Append(comparison.AsDrawn.Card.Layout.Title).Append(": balance\n\n");
        text.Append(BalanceReport.Headline(comparison)).Append("\n\n");
        text.Append(BalanceTable.OfVariants(comparison.Variants).ToMarkdown()).Append('\n');
        AppendLines(text, BalanceReport.Key);
        foreach (var (heading, lines) in BalanceReport.Of(comparison))
        {
            AppendHeading(text, heading);
            AppendLines(text, lines);
        }

        if (BalanceTable.OfPulls(comparison) is { Rows.Count: > 0 } pulls)
        {
            AppendHeading(text, "what pulls where");
            text.Append(pulls.ToMarkdown());
        }

        AppendHeading(text, BalanceReport.WorthHeading);
        AppendLines(text, BalanceReport.Worth);
        return text.ToString();
    }

    private static void AppendHeading(StringBuilder text, string heading) =>
        text.Append("\n## ").Append(char.ToUpperInvariant(heading[0])).Append(heading, 1, heading.Length - 1).Append("\n\n");

    private static void AppendLines(StringBuilder text, IEnumerable<string> lines)
    {
        foreach (var line in lines)
        {
            text.Append("- ").Append(line).Append('\n');
        }
    }
}
