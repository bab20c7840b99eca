namespace Trimwright.Diagnostics;

/// <summary>Words in a row as a person writes them, for every room that says which pieces, papers or keys it means.</summary>
internal static class WordList
{
    /// <summary>Words with commas between them and another word before the last, such as <c>a, b and c</c>; nothing where there are none.</summary>
    public static string Of(IReadOnlyList<string> words, string last = "and") =>
        words.Count < 2 ? string.Concat(words) : $"{string.Join(", ", words.SkipLast(1))} {last} {words[^1]}";

    /// <summary>Names in backticks, such as <c>`a`, `b` and `c`</c>.</summary>
    public static string Quoted(IEnumerable<string> names, string last = "and") => Of([.. names.Select(name => $"`{name}`")], last);
}
