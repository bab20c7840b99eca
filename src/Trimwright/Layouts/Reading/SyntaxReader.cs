using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>
/// Reads a file as JSON (RFC 8259), with comments and commas before a closing bracket allowed, into a tree in which every value and key
/// has its place. Bad input gives diagnostics, never an exception.
/// </summary>
internal static class SyntaxReader
{
    /// <summary>How deep braces and brackets may be nested. A layout needs six.</summary>
    public const int DeepestNesting = 32;

    /// <summary>Reads the file; null if it is no JSON that can be used.</summary>
    public static SyntaxValue? Read(string file, byte[] content, List<Diagnostic> diagnostics)
    {
        if (content.Length > LayoutReader.MaxBytes)
        {
            diagnostics.Add(LayoutMessages.TooLarge(file));
            return null;
        }

        var start = content.AsSpan().StartsWith("\uFEFF"u8) ? 3 : 0;
        var bytes = content.AsSpan(start);
        if (bytes.Contains((byte)0) || !Utf8.IsValid(bytes))
        {
            diagnostics.Add(LayoutMessages.NotText(file));
            return null;
        }

        if (bytes.IndexOfAnyExcept(" \t\r\n"u8) < 0)
        {
            diagnostics.Add(LayoutMessages.Empty(file));
            return null;
        }

        var walk = new Walk(file, content, start, diagnostics);
        return walk.Read();
    }

    private sealed class Walk(string file, byte[] content, int start, List<Diagnostic> diagnostics)
    {
        private readonly PlaceFinder _places = new(file, content, start);

        // The brackets that are open, for the remedy when the file ends too soon.
        private readonly Stack<char> _open = new();
        private bool _tooDeep;

        public SyntaxValue? Read()
        {
            // The reader's own limit lies above ours, so that ours is always met first.
            var reader = new Utf8JsonReader(content.AsSpan(start), new JsonReaderOptions
            {
                CommentHandling = JsonCommentHandling.Skip,
                AllowTrailingCommas = true,
                MaxDepth = 2 * DeepestNesting,
            });
            try
            {
                var value = reader.Read() ? ReadValue(ref reader) : null;
                if (!_tooDeep)
                {
                    reader.Read(); // throws if anything but space and comments follows
                }

                return _tooDeep ? null : value;
            }
            catch (JsonException problem)
            {
                // What was found before in a file that cannot be read to its end still stands; the rest is unknown.
                var offset = Offset(problem);
                var onlyComments = reader.TokenType == JsonTokenType.None && offset == content.Length
                    && content.AsSpan(start).TrimStart(" \t\r\n"u8).StartsWith("/"u8);
                diagnostics.Add(onlyComments
                    ? LayoutMessages.Empty(file)
                    : SyntaxProblems.Describe(content, start, offset, reader.TokenType, _open, PlaceAfresh(offset)));
                return null;
            }
        }

        private SyntaxValue? ReadValue(ref Utf8JsonReader reader)
        {
            var place = Place(ref reader);
            switch (reader.TokenType)
            {
                case JsonTokenType.StartObject:
                    return Nested(ref reader, place, '}');
                case JsonTokenType.StartArray:
                    return Nested(ref reader, place, ']');
                case JsonTokenType.String:
                    return new SyntaxText(place, Text(ref reader, place), reader.ValueIsEscaped);
                case JsonTokenType.Number:
                    return new SyntaxNumber(place, Encoding.UTF8.GetString(reader.ValueSpan));
                case JsonTokenType.True or JsonTokenType.False:
                    return new SyntaxFlag(place, reader.TokenType == JsonTokenType.True);
                default:
                    return new SyntaxNull(place);
            }
        }

        private SyntaxValue? Nested(ref Utf8JsonReader reader, SourcePlace place, char close)
        {
            if (_open.Count == DeepestNesting)
            {
                diagnostics.Add(LayoutMessages.TooDeep(place));
                _tooDeep = true;
                return null;
            }

            _open.Push(close);
            SyntaxValue? value = close == '}' ? ReadObject(ref reader, place) : ReadList(ref reader, place);
            _open.Pop();
            return value;
        }

        private SyntaxObject? ReadObject(ref Utf8JsonReader reader, SourcePlace place)
        {
            var members = new List<SyntaxMember>();
            var first = new Dictionary<string, SourcePlace>(StringComparer.Ordinal);
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var keyPlace = Place(ref reader);
                var key = Text(ref reader, keyPlace);
                reader.Read();
                if (ReadValue(ref reader) is not { } value)
                {
                    return null;
                }

                if (first.TryGetValue(key, out var earlier))
                {
                    diagnostics.Add(LayoutMessages.DuplicateKey(key, keyPlace, earlier));
                }
                else
                {
                    first.Add(key, keyPlace);
                    members.Add(new(key, keyPlace, value));
                }
            }

            return new(place, members);
        }

        private SyntaxList? ReadList(ref Utf8JsonReader reader, SourcePlace place)
        {
            var items = new List<SyntaxValue>();
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            {
                if (ReadValue(ref reader) is not { } item)
                {
                    return null;
                }

                items.Add(item);
            }

            return new(place, items);
        }

        private string Text(ref Utf8JsonReader reader, SourcePlace place)
        {
            try
            {
                return reader.GetString() ?? "";
            }
            catch (InvalidOperationException)
            {
                // Half of a surrogate pair written as an escape is the one thing that the reader takes but cannot decode.
                diagnostics.Add(LayoutMessages.HalfCharacter(place));
                return Encoding.UTF8.GetString(reader.ValueSpan);
            }
        }

        private SourcePlace Place(ref Utf8JsonReader reader)
        {
            var quotes = reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName ? 2 : 0;
            var length = PlaceFinder.Units(reader.ValueSpan) + quotes;
            return _places.At(start + (int)reader.TokenStartIndex, Math.Max(1, length));
        }

        // The reader counts lines by LF alone, and columns in bytes.
        private int Offset(JsonException problem)
        {
            var offset = start;
            for (var line = problem.LineNumber ?? 0; line > 0 && offset < content.Length; line--)
            {
                var end = content.AsSpan(offset).IndexOf((byte)'\n');
                offset = end < 0 ? content.Length : offset + end + 1;
            }

            offset = (int)Math.Min(content.Length, offset + (problem.BytePositionInLine ?? 0));
            while (offset < content.Length && (content[offset] & 0xC0) == 0x80)
            {
                offset--; // not into the middle of a character
            }

            return offset;
        }

        // A place of its own: the trouble may lie before the token that was read last.
        private SourcePlace PlaceAfresh(int offset) => new PlaceFinder(file, content, start).At(offset, 1);
    }
}
