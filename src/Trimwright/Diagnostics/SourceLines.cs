namespace Trimwright.Diagnostics;

/// <summary>Splits a text into lines in the way that places count them: a line ends at LF, at CR LF, or at a CR alone.</summary>
public static class SourceLines
{
    /// <summary>The lines of a text, without their ends. A text that ends with a line end has an empty last line.</summary>
    public static IReadOnlyList<string> Split(string text)
    {
        var lines = new List<string>();
        var start = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is '\n' or '\r')
            {
                lines.Add(text[start..i]);
                i += text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n' ? 1 : 0;
                start = i + 1;
            }
        }

        lines.Add(text[start..]);
        return lines;
    }
}
