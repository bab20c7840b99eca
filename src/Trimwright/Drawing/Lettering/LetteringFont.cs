using System.Buffers.Binary;
using System.Text;
using Trimwright.Measures;

namespace Trimwright.Drawing.Lettering;

/// <summary>
/// The widths of the lettering, read from the embedded font itself, so that no width depends on a machine's fonts. Kerning is left
/// out: every text is written with its length, to which viewers fit the letters.
/// </summary>
/// <remarks>
/// Tables and formats as in the OpenType specification (ISO/IEC 14496-22): <c>cmap</c> format 4, <c>hmtx</c>, <c>head</c>,
/// <c>OS/2</c>.
/// </remarks>
internal sealed class LetteringFont
{
    /// <summary>The name of the family, as viewers know it.</summary>
    public const string Family = "Routed Gothic";

    /// <summary>
    /// Added to every space of a text with a mixed fraction, as a share of the em square: the figure 1 of this font is a bare stroke,
    /// and <c>1 1/16</c> must not be taken for <c>11/16</c>.
    /// </summary>
    private static readonly Rational WiderSpace = Rational.From(16, 100);

    /// <summary>The fraction slash of Unicode (U+2044): figures on both sides of it are set as a fraction.</summary>
    public const char FractionSlash = '\u2044';

    private const string Resource = "routed-gothic.ttf";

    private static readonly Lazy<LetteringFont> Loaded = new(() => new(ReadResource()));

    private readonly Dictionary<int, int> _glyphs = [];
    private readonly ushort[] _advances;
    private readonly int _unitsPerEm;
    private readonly int _capHeight;

    private LetteringFont(byte[] font)
    {
        _unitsPerEm = ReadUInt16(font, TableStart(font, "head") + 18);
        _capHeight = ReadUInt16(font, TableStart(font, "OS/2") + 88);
        var fullMetrics = ReadUInt16(font, TableStart(font, "hhea") + 34);
        var horizontal = TableStart(font, "hmtx");
        _advances = new ushort[fullMetrics];
        for (var i = 0; i < fullMetrics; i++)
        {
            _advances[i] = (ushort)ReadUInt16(font, horizontal + (4 * i));
        }

        ReadGlyphs(font);
    }

    /// <summary>The font.</summary>
    public static LetteringFont Instance => Loaded.Value;

    /// <summary>The bytes of the font file.</summary>
    public static byte[] ReadResource()
    {
        using var stream = typeof(LetteringFont).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException($"the resource {Resource} is missing from the build");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    /// <summary>Whether the font has a glyph for every character.</summary>
    public bool Has(string text) => text.EnumerateRunes().All(rune => _glyphs.ContainsKey(rune.Value));

    /// <summary>The size of the em square at a height of capitals, to the nearest nanometre: what SVG calls the font size.</summary>
    public Length EmSize(Length capHeight) =>
        new Position(Rational.From(capHeight.Nanometres, 1) * Rational.From(_unitsPerEm, _capHeight)).ToNearestNanometre();

    /// <summary>
    /// What is added to every space of a text at a height of capitals, to the nearest nanometre: what SVG calls word spacing.
    /// </summary>
    public Length WordSpacing(string text, Length capHeight) =>
        HasMixedFraction(text) ? new Position(EmSize(capHeight).Nanometres * WiderSpace).ToNearestNanometre() : default;

    /// <summary>
    /// The width of a text, wider spaces included and fractions set as fractions, at a height of capitals, to the nearest nanometre.
    /// </summary>
    public Length Width(string text, Length capHeight)
    {
        if (text.Contains(FractionSlash, StringComparison.Ordinal))
        {
            var last = TextRun.Of(text)[^1];
            return Scaled(Rational.FromWhole(last.Start + last.Advance), capHeight);
        }

        Rational units = Advance(text);
        if (HasMixedFraction(text))
        {
            units += WiderSpace * _unitsPerEm * text.Count(c => c == ' ');
        }

        return Scaled(units, capHeight);
    }

    /// <summary>A distance in units of the font at a height of capitals, to the nearest nanometre.</summary>
    public Length Scaled(Rational units, Length capHeight) =>
        new Position(units * capHeight.Nanometres / _capHeight).ToNearestNanometre();

    /// <summary>The width of a text in units of the font, letter by letter.</summary>
    public int Advance(ReadOnlySpan<char> text)
    {
        // A character that the font lacks is shown as its first glyph, the empty box.
        var units = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            units += _advances[Math.Min(_glyphs.GetValueOrDefault(rune.Value), _advances.Length - 1)];
        }

        return units;
    }

    /// <summary>Whether a figure, a space and a fraction follow one another.</summary>
    private static bool HasMixedFraction(string text)
    {
        for (var i = 1; i < text.Length - 1; i++)
        {
            if (text[i] == ' ' && char.IsAsciiDigit(text[i - 1])
                && text[(i + 1)..].TrimStart(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9']) is var rest
                && rest.StartsWith('/') && rest.Length < text.Length - i - 1)
            {
                return true;
            }
        }

        return false;
    }

    private static int TableStart(byte[] font, string tag)
    {
        var count = ReadUInt16(font, 4);
        for (var i = 0; i < count; i++)
        {
            var entry = 12 + (16 * i);
            if (Encoding.ASCII.GetString(font, entry, 4) == tag)
            {
                return BinaryPrimitives.ReadInt32BigEndian(font.AsSpan(entry + 8));
            }
        }

        throw new InvalidOperationException($"the font has no table {tag}");
    }

    private void ReadGlyphs(byte[] font)
    {
        var cmap = TableStart(font, "cmap");
        var tables = ReadUInt16(font, cmap + 2);
        for (var i = 0; i < tables; i++)
        {
            var start = cmap + BinaryPrimitives.ReadInt32BigEndian(font.AsSpan(cmap + 8 + (8 * i)));
            if (ReadUInt16(font, start) == 4)
            {
                ReadSegments(font, start);
                return;
            }
        }

        throw new InvalidOperationException("the font has no character map in format 4");
    }

    private void ReadSegments(byte[] font, int start)
    {
        var doubled = ReadUInt16(font, start + 6);
        for (var i = 0; i < doubled; i += 2)
        {
            var last = ReadUInt16(font, start + 14 + i);
            var first = ReadUInt16(font, start + 16 + doubled + i);
            var delta = ReadUInt16(font, start + 16 + (2 * doubled) + i);
            var offsetAt = start + 16 + (3 * doubled) + i;
            var offset = ReadUInt16(font, offsetAt);
            for (var code = first; code <= last && code != 0xFFFF; code++)
            {
                var glyph = offset == 0 ? code : ReadUInt16(font, offsetAt + offset + (2 * (code - first)));
                if (offset == 0 || glyph != 0)
                {
                    _glyphs[code] = (glyph + delta) & 0xFFFF;
                }
            }
        }
    }

    private static int ReadUInt16(byte[] font, int at) => BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(at));
}
