using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Trimwright.Diagnostics;
using Trimwright.Layouts.Reading;

namespace Trimwright.Layouts.Writing;

/// <summary>The text of a file, of which single keys and values are changed: all the rest stays as its maker wrote it.</summary>
internal sealed class SourceText
{
    private readonly string _text;
    private readonly List<int> _lines = [0];
    private readonly List<(int Start, int End, string New)> _changes = [];

    /// <param name="content">The bytes of the file: UTF-8, with or without a byte order mark.</param>
    public SourceText(byte[] content)
    {
        var text = Encoding.UTF8.GetString(content).TrimStart('\uFEFF');
        _text = text;

        // Lines end as those that the reader counts: with CR, LF or both.
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                _lines.Add(i + 1);
            }
        }
    }

    /// <summary>A text as it stands in a file, in quotes.</summary>
    public static string Quoted(string text) => $"\"{JsonEncodedText.Encode(text, JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"";

    /// <summary>What stands at a place.</summary>
    public string At(SourcePlace place) => _text.Substring(Start(place), place.Length);

    /// <summary>Puts something else at a place.</summary>
    public void Replace(SourcePlace place, string with) => _changes.Add((Start(place), End(place), with));

    /// <summary>Puts a key and its value behind a member, whose value is neither a list nor a group.</summary>
    public void AddAfter(SyntaxMember member, string key, string value) =>
        _changes.Add((End(member.Value.Place), End(member.Value.Place), $", {Quoted(key)}: {value}"));

    /// <summary>Puts something else in place of a member, whose value is neither a list nor a group.</summary>
    public void Replace(SyntaxMember member, string with) => _changes.Add((Start(member.KeyPlace), End(member.Value.Place), with));

    /// <summary>Takes out members that follow one another, whose values are neither lists nor groups, with the comma that is not needed then.</summary>
    public void Remove(SyntaxMember first, SyntaxMember last)
    {
        var (start, end) = (Start(first.KeyPlace), End(last.Value.Place));
        var next = end;
        while (char.IsWhiteSpace(_text[next]))
        {
            next++;
        }

        if (_text[next] == ',')
        {
            end = next + 1;
            while (_text[end] is ' ' or '\t')
            {
                end++;
            }
        }
        else
        {
            // A comma that a comment keeps from its member may stay: the reader allows it.
            var before = start - 1;
            while (char.IsWhiteSpace(_text[before]))
            {
                before--;
            }

            start = _text[before] == ',' ? before : start;
        }

        _changes.Add((start, end, ""));
    }

    /// <summary>The text with all changes, and a comment before it; lines keep their numbers.</summary>
    public string Written(string comment)
    {
        // What ends a comment would end this one too early.
        var text = new StringBuilder("/* ").Append(comment.Replace("*/", "* /", StringComparison.Ordinal)).Append(" */ ");
        var at = 0;
        foreach (var (start, end, put) in _changes.OrderBy(change => change.Start))
        {
            text.Append(_text, at, start - at).Append(put);
            at = end;
        }

        return text.Append(_text, at, _text.Length - at).ToString();
    }

    private int Start(SourcePlace place) => _lines[place.Line - 1] + place.Column - 1;

    private int End(SourcePlace place) => Start(place) + place.Length;
}
