using System.Text;
using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>
/// Turns byte offsets, asked for in growing order, into lines and columns. It walks over the bytes once: a file of one long line takes no
/// longer than one of many.
/// </summary>
internal sealed class PlaceFinder(string file, byte[] content, int start)
{
    private int _offset = start;
    private int _line = 1;
    private int _column = 1;

    /// <summary>The place of the text that begins at an offset, not before the one asked for last.</summary>
    public SourcePlace At(int offset, int length)
    {
        while (_offset < offset)
        {
            var current = content[_offset++];
            if (current == '\n' || (current == '\r' && (_offset >= content.Length || content[_offset] != '\n')))
            {
                _line++;
                _column = 1;
            }
            else if (current != '\r')
            {
                // In UTF-16 a sequence of four bytes takes two units, any other one; following bytes (10xxxxxx) add nothing.
                _column += current >= 0xF0 ? 2 : (current & 0xC0) == 0x80 ? 0 : 1;
            }
        }

        return new(file, _line, _column, length);
    }

    /// <summary>How many UTF-16 units some bytes take.</summary>
    public static int Units(ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetCharCount(bytes);
}
