using System.Globalization;
using System.Text;

namespace Trimwright.Diagnostics;

/// <summary>Writes diagnostics as plain text for people, with the line of the file and a mark below the place.</summary>
public static class DiagnosticText
{
    /// <summary>The most characters of a source line that are shown; of a longer line, those around the place.</summary>
    public const int MostShown = 100;

    // How many characters before the place stay in sight when a long line is cut.
    private const int ShownBefore = 30;
    private const string Cut = "...";

    /// <summary>Writes diagnostics in the order given, with an empty line after each.</summary>
    /// <param name="writer">Where to; lines end with LF on every machine.</param>
    /// <param name="diagnostics">The diagnostics.</param>
    /// <param name="sources">The texts of the files by name, as places name them. A file that is not here is named but not shown.</param>
    public static void Write(TextWriter writer, IEnumerable<Diagnostic> diagnostics, IReadOnlyDictionary<string, string> sources)
    {
        var lines = new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal);
        string? Line(SourcePlace place)
        {
            if (!sources.TryGetValue(place.File, out var text))
            {
                return null;
            }

            if (!lines.TryGetValue(place.File, out var split))
            {
                // A byte order mark takes no column.
                lines[place.File] = split = SourceLines.Split(text.TrimStart('\uFEFF'));
            }

            return place.Line >= 1 && place.Line <= split.Count ? split[place.Line - 1] : null;
        }

        foreach (var diagnostic in diagnostics)
        {
            WriteOne(writer, diagnostic, Line);
        }
    }

    /// <summary>
    /// One diagnostic in one line, as editors read it, such as
    /// <c>bean-row.json:14:9: error E0203: `width` must be more than 0</c>.
    /// </summary>
    public static string OneLine(Diagnostic diagnostic) =>
        Harmless($"{diagnostic.Place}: {Word(diagnostic.Severity)} {diagnostic.Code}: {diagnostic.Message}");

    private static string Word(Severity severity) => severity == Severity.Error ? "error" : "warning";

    private static void WriteOne(TextWriter writer, Diagnostic diagnostic, Func<SourcePlace, string?> lineAt)
    {
        // The margin is as wide as the longest line number, so that all the bars stand below one another.
        var margin = diagnostic.Related.Select(related => related.Place).Append(diagnostic.Place)
            .Max(place => place.Line.ToString(CultureInfo.InvariantCulture).Length);
        Put(writer, Harmless($"{Word(diagnostic.Severity)}[{diagnostic.Code}]: {diagnostic.Message}"));
        WritePlace(writer, diagnostic.Place, lineAt(diagnostic.Place), margin, note: null);
        foreach (var related in diagnostic.Related)
        {
            WritePlace(writer, related.Place, lineAt(related.Place), margin, related.Note);
        }

        var indent = new string(' ', margin + 1);
        foreach (var note in diagnostic.Notes)
        {
            Put(writer, $"{indent}= note: {Harmless(note)}");
        }

        if (diagnostic.Remedy is { } remedy)
        {
            Put(writer, $"{indent}= help: {Harmless(remedy)}");
        }

        Put(writer, "");
    }

    private static void WritePlace(TextWriter writer, SourcePlace place, string? line, int margin, string? note)
    {
        var indent = new string(' ', margin);
        Put(writer, $"{indent}--> {Harmless(place.ToString())}{(note is null || line is not null ? "" : ": " + Harmless(note))}");
        if (line is null)
        {
            return;
        }

        var (shown, before, marked) = Window(line, place.Column - 1, place.Length);
        var number = place.Line.ToString(CultureInfo.InvariantCulture).PadLeft(margin);
        Put(writer, $"{indent} |");
        Put(writer, $"{number} | {shown}".TrimEnd());
        Put(writer, $"{indent} | {new string(' ', before)}{new string(note is null ? '^' : '-', marked)} {Harmless(note ?? "")}".TrimEnd());
    }

    // The part of a line to show, how many characters of it come before the place, and how many the place covers.
    private static (string Shown, int Before, int Marked) Window(string line, int start, int length)
    {
        start = Math.Clamp(start, 0, line.Length);
        length = Math.Clamp(length, 1, Math.Max(1, line.Length - start));
        var from = line.Length <= MostShown ? 0 : Math.Clamp(start - ShownBefore, 0, line.Length - MostShown);
        var to = Math.Min(line.Length, from + MostShown);

        // A character beyond U+FFFF is two halves, and half of one cannot be written.
        from += from > 0 && char.IsLowSurrogate(line[from]) ? 1 : 0;
        to -= to < line.Length && char.IsHighSurrogate(line[to - 1]) ? 1 : 0;
        var end = Math.Clamp(start + length, start, Math.Max(start, to));
        var lead = from > 0 ? Cut : "";
        var shown = lead + Harmless(line[from..to]) + (to < line.Length ? Cut : "");
        return (shown, lead.Length + Columns(line[from..start]), Math.Max(1, Columns(line[start..end])));
    }

    // How many places a terminal takes for a text: a pair of halves is one character. (Wide scripts take two places; a caret a little
    // to the left of its place is still on the right line.)
    private static int Columns(string text) => text.EnumerateRunes().Count();

    // A tab, an escape sequence or a change of writing direction in a file must not move the cursor of the reader's terminal.
    private static string Harmless(string text)
    {
        var builder = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            var category = Rune.GetUnicodeCategory(rune);
            builder.Append(
                rune.Value == '\t' ? " "
                : category is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
                    or UnicodeCategory.ParagraphSeparator ? "\uFFFD"
                : rune.ToString());
        }

        return builder.ToString();
    }

    private static void Put(TextWriter writer, string line)
    {
        writer.Write(line);
        writer.Write('\n');
    }
}
