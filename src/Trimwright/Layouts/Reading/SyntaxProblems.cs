using System.Text;
using System.Text.Json;
using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>
/// Says in a maker's words why a file is no JSON. It looks at what stands at the place, not at the reader's own message, whose wording
/// changes from one version of the framework to the next.
/// </summary>
internal static class SyntaxProblems
{
    /// <summary>Describes the trouble.</summary>
    /// <param name="content">The file.</param>
    /// <param name="start">Where its text begins, after a byte order mark.</param>
    /// <param name="offset">Where the reader stopped.</param>
    /// <param name="last">What it had read last.</param>
    /// <param name="open">The closing brackets that are still to come, the next one first.</param>
    /// <param name="place">The place of <paramref name="offset"/>.</param>
    public static Diagnostic Describe(
        byte[] content, int start, int offset, JsonTokenType last, IEnumerable<char> open, SourcePlace place)
    {
        if (offset >= content.Length)
        {
            var closing = string.Join(" ", open.Select(bracket => $"`{bracket}`"));
            return closing.Length == 0
                ? LayoutMessages.Syntax(place, "the file ends in the middle of a value", "finish the value")
                : LayoutMessages.Syntax(place, "the file ends too soon", $"close what is open with {closing}");
        }

        var rest = Encoding.UTF8.GetString(content.AsSpan(offset, Math.Min(16, content.Length - offset)));
        var rune = rest.EnumerateRunes().FirstOrDefault();
        var shown = $"`{rune}`";
        var before = offset > start ? (char)content[offset - 1] : '\0';
        var afterValue = last is JsonTokenType.String or JsonTokenType.Number or JsonTokenType.True or JsonTokenType.False
            or JsonTokenType.Null or JsonTokenType.EndObject or JsonTokenType.EndArray;
        return rune.Value switch
        {
            < ' ' => LayoutMessages.Syntax(
                place, "a text is not closed before the end of its line, or holds a control character", "close the text with `\"`"),
            '\'' or '‘' or '’' or '“' or '”' => LayoutMessages.Syntax(
                place, $"{shown} does not quote anything", "put texts and keys in double quotes: `\"`"),
            _ when before == '\\' => LayoutMessages.Syntax(
                place, $"`\\{rune}` means nothing in a text", "write `\\\\` for a backslash and `\\\"` for a double quote"),
            '/' when rest.StartsWith("/*", StringComparison.Ordinal) => LayoutMessages.Syntax(
                place, "a comment is not closed", "close it with `*/`"),
            '/' => LayoutMessages.Syntax(place, "a fraction stands without quotes", "put it in double quotes, like `\"1/8\"`"),
            '.' or '+' or (>= '0' and <= '9') when !afterValue => LayoutMessages.Syntax(
                place, $"a number cannot go on with {shown}", "write it like `0.5`, or in double quotes like `\"1/2\"`"),
            '"' or '{' or '[' when afterValue => LayoutMessages.Syntax(
                place, $"a comma is missing before {shown}", "put a comma after the value before it"),
            ',' => LayoutMessages.Syntax(place, "there is nothing before this comma", "take the comma out, or put a value before it"),
            '}' or ']' => LayoutMessages.Syntax(place, $"{shown} closes nothing that is open here", Closing(open)),
            _ when last == JsonTokenType.Number => LayoutMessages.Syntax(
                place, $"{shown} cannot follow a number", "put a length with its unit in double quotes, like `\"2 in\"`"),
            _ when char.IsAsciiLetter(before) || (rune.Value < 128 && char.IsAsciiLetter((char)rune.Value)) => LayoutMessages.Syntax(
                place, "a word stands without quotes, or a comma is missing before it",
                "put texts and keys in double quotes; only `true`, `false` and numbers stand bare"),
            _ => LayoutMessages.Syntax(place, $"{shown} is not expected here", "check the quotes, commas and brackets before it"),
        };
    }

    private static string Closing(IEnumerable<char> open)
    {
        var next = open.FirstOrDefault();
        return next == '\0' ? "take it out" : $"finish the value before it, or close with `{next}` first";
    }
}
