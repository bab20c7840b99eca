using System.Text;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>A trim schedule as a Markdown page.</summary>
public static class ScheduleSheet
{
    /// <summary>Writes the page with LF line ends.</summary>
    /// <param name="schedule">The schedule.</param>
    public static string Write(TrimSchedule schedule)
    {
        var batch = schedule.Plan.Batch.Batch;
        var text = new StringBuilder();
        text.Append("# ").Append(batch.Title).Append("\n\n## Cards\n\n");
        AppendLines(text, schedule.Plan.Cards.Where(made => made.Count > 0).Select(made =>
            FormattableString.Invariant($"{made.Count} of {made.Card.Words}")));
        text.Append("\n## The plan\n\n");
        AppendLines(text, ScheduleText.Summary(schedule));
        if (ScheduleText.Prints(schedule) is { Count: > 0 } prints)
        {
            text.Append("\n## Print first\n\n");
            AppendLines(text, prints);
        }

        text.Append("\n## Take these sheets\n\n");
        text.Append(TextTable.Markdown(ScheduleText.SheetHeadings, ScheduleText.SheetRows(schedule)));
        text.Append("\n## Cut in this order\n\n");
        AppendLines(text, ScheduleText.Hints);
        text.Append('\n');
        text.Append(TextTable.Markdown(ScheduleText.Headings(batch.Unit), ScheduleText.Rows(schedule)));
        if (ScheduleText.Leftovers(schedule) is { Count: > 0 } left)
        {
            text.Append("\n## Keep\n\n");
            AppendLines(text, left);
        }

        if (StockText.Untouched(schedule) is { Count: > 0 } untouched)
        {
            text.Append("\n## Not touched\n\n");
            AppendLines(text, untouched);
        }

        text.Append("\n## Before you cut\n\n");
        AppendLines(text, TrimSheet.Cautions);
        return text.ToString();
    }

    private static void AppendLines(StringBuilder text, IEnumerable<string> lines)
    {
        foreach (var line in lines)
        {
            text.Append("- ").Append(line).Append('\n');
        }
    }
}
