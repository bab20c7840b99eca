using System.Text;

namespace Trimwright.Trimming;

/// <summary>Lines of comma-separated values (RFC 4180): CRLF line ends, fields quoted where they have to be, quotes doubled inside.</summary>
internal static class CsvText
{
    /// <summary>Adds a line.</summary>
    public static void Append(StringBuilder text, IEnumerable<string> fields) => text.AppendJoin(',', fields.Select(Quoted)).Append("\r\n");

    private static string Quoted(string field) => field.AsSpan().IndexOfAny(",\"\r\n") < 0
        ? field
        : $"\"{field.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
