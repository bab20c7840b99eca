namespace Trimwright.Worksheets.Pdf;

/// <summary>Breaks texts into lines.</summary>
internal static class TextSetter
{
    /// <summary>The lines of a text at a size, none wider than a width; a word that is wider by itself is broken.</summary>
    public static IReadOnlyList<string> Lines(TrueTypeFont font, double size, string text, double width)
    {
        List<string> lines = [];
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (font.Width(longer, size) <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
            {
                // The space stays at the end of the line, so that the words are apart where the text is copied or read aloud.
                lines.Add(line + " ");
            }

            line = word;
            while (font.Width(line, size) > width && line.Length > 1)
            {
                var end = line.Length - 1;
                while (end > 1 && font.Width(line[..end], size) > width)
                {
                    end--;
                }

                lines.Add(line[..end]);
                line = line[end..];
            }
        }

        lines.Add(line);
        return lines;
    }
}
