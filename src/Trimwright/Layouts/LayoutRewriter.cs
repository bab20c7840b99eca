using Trimwright.Layouts.Reading;
using Trimwright.Layouts.Writing;

namespace Trimwright.Layouts;

/// <summary>A layout file that was written from another.</summary>
/// <param name="Text">The file; null where the language has no words for the change.</param>
/// <param name="Obstacles">Why it could not be written, as sentences; empty if it was.</param>
public sealed record RewrittenLayout(string? Text, IReadOnlyList<string> Obstacles);

/// <summary>
/// Writes the layout file of a variant: the text of the file that it was made from, in which the keys and values that differ are changed. What the
/// maker wrote, with comments and line ends, stays.
/// </summary>
/// <remarks>
/// Written back is what mirrors and moves change: where pieces and rows go, the edge that they hang from, their tilt, whether a picture is flipped, the
/// order of a row, and rules. Anything else is as in the file.
/// </remarks>
public static class LayoutRewriter
{
    /// <summary>Writes the file of a variant.</summary>
    /// <param name="content">The bytes that the layout was read from.</param>
    /// <param name="layout">The layout as it was read.</param>
    /// <param name="variant">A variant of it: the same pieces, rows and rules in the same order.</param>
    /// <param name="comment">What is said of it before all else.</param>
    /// <param name="fileName">How a file that the layout names, a picture or the schema, is named as seen from where the new file goes.</param>
    /// <exception cref="ArgumentException">The layout was not read from this content.</exception>
    public static RewrittenLayout Write(byte[] content, Layout layout, Layout variant, string comment, Func<string, string> fileName)
    {
        if (SyntaxReader.Read(layout.File, content, []) is not SyntaxObject root || root.Members.FirstOrDefault(member => member.Key == "pieces")?.Value is not SyntaxList list)
        {
            throw new ArgumentException("the layout was not read from this content", nameof(content));
        }

        var text = new SourceText(content);
        var edit = new LayoutEdit(text, layout, variant, fileName);
        edit.NameFile(root.Members.FirstOrDefault(member => member.Key == "$schema"));
        foreach (var item in list.Items.OfType<SyntaxObject>())
        {
            edit.ChangePieceOrRow(item);
        }

        edit.ChangeRules();
        return edit.Obstacles.Count > 0 ? new(null, edit.Obstacles) : new(text.Written(comment), []);
    }
}
