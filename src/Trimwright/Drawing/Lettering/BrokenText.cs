using Trimwright.Drawing.Measured;
using Trimwright.Measures;

namespace Trimwright.Drawing.Lettering;

/// <summary>Texts broken into lines that are no wider than some width.</summary>
internal static class BrokenText
{
    /// <summary>The lines: broken between words, and within a word only where the word alone is too wide.</summary>
    /// <param name="text">The text.</param>
    /// <param name="capital">The height of its capitals.</param>
    /// <param name="width">The width in millimetres.</param>
    public static IEnumerable<string> Lines(string text, Length capital, double width)
    {
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).SelectMany(word => Parts(word, capital, width)))
        {
            if (line.Length > 0 && WidthOf($"{line} {word}", capital) > width)
            {
                yield return line;
                line = word;
            }
            else
            {
                line = line.Length == 0 ? word : $"{line} {word}";
            }
        }

        if (line.Length > 0)
        {
            yield return line;
        }
    }

    /// <summary>The width of a text in millimetres.</summary>
    public static double WidthOf(string text, Length capital) => Plane.Roughly(LetteringFont.Instance.Width(text, capital));

    private static IEnumerable<string> Parts(string word, Length capital, double width)
    {
        var part = "";
        foreach (var rune in word.EnumerateRunes())
        {
            if (part.Length > 0 && WidthOf(part + rune, capital) > width)
            {
                yield return part;
                part = "";
            }

            part += rune.ToString();
        }

        yield return part;
    }
}
