using System.Text;

namespace Trimwright.Trimming;

/// <summary>Tables as plain text and as Markdown.</summary>
public static class TextTable
{
    /// <summary>A table with aligned columns, a line under the headings, and LF line ends.</summary>
    /// <param name="headings">The headings.</param>
    /// <param name="rows">The cells, row by row, as many in each as there are headings.</param>
    /// <param name="isNumber">Whether a column is set flush right; none by default.</param>
    public static string Plain(IReadOnlyList<string> headings, IReadOnlyList<IReadOnlyList<string>> rows, Func<int, bool>? isNumber = null)
    {
        var widths = headings.Select((heading, i) => rows.Select(row => row[i].Length).Append(heading.Length).Max()).ToArray();
        var text = new StringBuilder();
        foreach (var row in (IEnumerable<IReadOnlyList<string>>)[headings, [.. widths.Select(width => new string('-', width))], .. rows])
        {
            var line = string.Join("  ", row.Select((cell, i) =>
                isNumber?.Invoke(i) == true ? cell.PadLeft(widths[i]) : cell.PadRight(widths[i])));
            text.Append(line.TrimEnd()).Append('\n');
        }

        return text.ToString();
    }

    /// <summary>A table in Markdown with LF line ends; bars and backslashes in cells are escaped.</summary>
    /// <param name="headings">The headings, which have neither.</param>
    /// <param name="rows">The cells, row by row, as many in each as there are headings.</param>
    /// <param name="isNumber">Whether a column is set flush right; none by default.</param>
    public static string Markdown(IReadOnlyList<string> headings, IReadOnlyList<IReadOnlyList<string>> rows, Func<int, bool>? isNumber = null)
    {
        var text = new StringBuilder();
        Append(headings);
        Append(headings.Select((_, i) => isNumber?.Invoke(i) == true ? "---:" : "---"));
        foreach (var row in rows)
        {
            Append(row.Select(cell => cell.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal)));
        }

        return text.ToString();

        void Append(IEnumerable<string> cells) => text.Append("| ").AppendJoin(" | ", cells).Append(" |\n");
    }
}
