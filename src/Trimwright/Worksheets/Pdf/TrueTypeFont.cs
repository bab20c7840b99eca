using System.Buffers.Binary;
using System.Text;

namespace Trimwright.Worksheets.Pdf;

/// <summary>
/// A TrueType font as it is needed to set text in a PDF: which glyph a character has, how wide it is, and a copy of the font with the
/// used glyphs alone.
/// </summary>
/// <remarks>
/// Tables as in the OpenType specification (ISO/IEC 14496-22): <c>cmap</c> format 4, <c>head</c>, <c>hhea</c>, <c>hmtx</c>,
/// <c>OS/2</c>, <c>loca</c> and <c>glyf</c>. Pairs are not kerned.
/// </remarks>
internal sealed class TrueTypeFont
{
    private readonly byte[] _font;
    private readonly Dictionary<int, int> _glyphs = [];
    private readonly ushort[] _advances;

    public TrueTypeFont(string name, byte[] font)
    {
        (Name, _font) = (name, font);
        var head = Table("head").Start;
        UnitsPerEm = UInt16(head + 18);
        Bounds = [.. Enumerable.Range(0, 4).Select(i => (int)Int16(head + 36 + (2 * i)))];
        var horizontal = Table("hhea").Start;
        (Ascent, Descent) = (Int16(horizontal + 4), Int16(horizontal + 6));
        CapHeight = Int16(Table("OS/2").Start + 88);
        _advances = new ushort[UInt16(horizontal + 34)];
        var metrics = Table("hmtx").Start;
        for (var i = 0; i < _advances.Length; i++)
        {
            _advances[i] = UInt16(metrics + (4 * i));
        }

        ReadGlyphs();
    }

    /// <summary>Its PostScript name.</summary>
    public string Name { get; }

    public int UnitsPerEm { get; }

    public int Ascent { get; }

    public int Descent { get; }

    public int CapHeight { get; }

    /// <summary>The box around all glyphs: left, bottom, right, top.</summary>
    public IReadOnlyList<int> Bounds { get; }

    /// <summary>The glyph of a character; 0, the empty box, where there is none.</summary>
    public int GlyphOf(Rune rune) => _glyphs.GetValueOrDefault(rune.Value);

    /// <summary>The width of a glyph in units of the font.</summary>
    public int AdvanceOf(int glyph) => _advances[Math.Min(glyph, _advances.Length - 1)];

    /// <summary>The width of a text at a size of the em square.</summary>
    public double Width(string text, double size)
    {
        var units = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            units += AdvanceOf(GlyphOf(rune));
        }

        return units * size / UnitsPerEm;
    }

    /// <summary>The font with the outlines of some glyphs alone; glyphs keep their numbers.</summary>
    public byte[] Subset(IEnumerable<int> glyphs) => FontSubset.Make(_font, glyphs, Table);

    private (int Start, int Length) Table(string tag)
    {
        var count = UInt16(4);
        for (var i = 0; i < count; i++)
        {
            var entry = 12 + (16 * i);
            if (Encoding.ASCII.GetString(_font, entry, 4) == tag)
            {
                return (Int32(entry + 8), Int32(entry + 12));
            }
        }

        return (0, 0);
    }

    private void ReadGlyphs()
    {
        var cmap = Table("cmap").Start;
        for (var i = 0; i < UInt16(cmap + 2); i++)
        {
            var start = cmap + Int32(cmap + 8 + (8 * i));
            if (UInt16(start) == 4)
            {
                ReadSegments(start);
                return;
            }
        }

        throw new InvalidOperationException($"{Name} has no character map in format 4");
    }

    private void ReadSegments(int start)
    {
        var doubled = UInt16(start + 6);
        for (var i = 0; i < doubled; i += 2)
        {
            var (last, first) = (UInt16(start + 14 + i), UInt16(start + 16 + doubled + i));
            var (delta, offsetAt) = (UInt16(start + 16 + (2 * doubled) + i), start + 16 + (3 * doubled) + i);
            var offset = UInt16(offsetAt);
            for (int code = first; code <= last && code != 0xFFFF; code++)
            {
                var glyph = offset == 0 ? code : UInt16(offsetAt + offset + (2 * (code - first)));
                if (offset == 0 || glyph != 0)
                {
                    _glyphs[code] = (glyph + delta) & 0xFFFF;
                }
            }
        }
    }

    private ushort UInt16(int at) => BinaryPrimitives.ReadUInt16BigEndian(_font.AsSpan(at));

    private short Int16(int at) => BinaryPrimitives.ReadInt16BigEndian(_font.AsSpan(at));

    private int Int32(int at) => BinaryPrimitives.ReadInt32BigEndian(_font.AsSpan(at));
}
