using System.Globalization;
using System.Text;

namespace Trimwright.Worksheets.Pdf;

/// <summary>A font of a PDF, with a record of what was written in it, so that only that is embedded.</summary>
/// <param name="key">Its name on the pages.</param>
/// <param name="font">The font.</param>
internal sealed class EmbeddedFont(string key, TrueTypeFont font)
{
    private readonly SortedDictionary<int, Rune> _used = [];

    public string Key => key;

    public TrueTypeFont Font => font;

    public bool IsUsed => _used.Count > 0;

    /// <summary>The glyphs of a text as a PDF string of two bytes each; remembers them.</summary>
    public string Hex(string text)
    {
        var hex = new StringBuilder("<");
        foreach (var rune in text.EnumerateRunes())
        {
            var glyph = font.GlyphOf(rune);
            _used.TryAdd(glyph, rune);
            hex.Append(CultureInfo.InvariantCulture, $"{glyph:X4}");
        }

        return hex.Append('>').ToString();
    }

    /// <summary>Adds the font to a file, as ISO 32000-1, 9.7 describes fonts whose characters are named by glyph.</summary>
    /// <returns>The number of its object.</returns>
    public int AddTo(PdfFile file)
    {
        // Six capitals before the name say that it is not the whole font (ISO 32000-1, 9.6.4).
        var name = "TRIMWR+" + font.Name;
        var program = file.AddStream("", font.Subset(_used.Keys), withLength1: true);
        var descriptor = file.Add(string.Create(CultureInfo.InvariantCulture, $"""
            << /Type /FontDescriptor /FontName /{name} /Flags 4 /FontBBox [{string.Join(' ', font.Bounds.Select(PerMille))}]
            /ItalicAngle 0 /Ascent {PerMille(font.Ascent)} /Descent {PerMille(font.Descent)} /CapHeight {PerMille(font.CapHeight)} /StemV 80 /FontFile2 {program} 0 R >>
            """));
        var widths = string.Join(' ', _used.Keys.Select(glyph =>
            string.Create(CultureInfo.InvariantCulture, $"{glyph} [{font.AdvanceOf(glyph) * 1000.0 / font.UnitsPerEm:0.###}]")));
        var descendant = file.Add(string.Create(CultureInfo.InvariantCulture, $"""
            << /Type /Font /Subtype /CIDFontType2 /BaseFont /{name} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>
            /FontDescriptor {descriptor} 0 R /DW 1000 /W [{widths}] /CIDToGIDMap /Identity >>
            """));
        var map = file.AddStream("", Encoding.ASCII.GetBytes(UnicodeMap()));
        return file.Add(string.Create(CultureInfo.InvariantCulture, $"""
            << /Type /Font /Subtype /Type0 /BaseFont /{name} /Encoding /Identity-H /DescendantFonts [{descendant} 0 R] /ToUnicode {map} 0 R >>
            """));
    }

    private int PerMille(int units) => (int)Math.Round(units * 1000.0 / font.UnitsPerEm);

    /// <summary>Which characters the glyphs stand for, so that the text can be found and copied (ISO 32000-1, 9.10.3).</summary>
    private string UnicodeMap()
    {
        const int MostInBlock = 100;
        var text = new StringBuilder("""
            /CIDInit /ProcSet findresource begin
            12 dict begin
            begincmap
            /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
            /CMapName /Adobe-Identity-UCS def
            /CMapType 2 def
            1 begincodespacerange
            <0000> <FFFF>
            endcodespacerange

            """);
        foreach (var block in _used.Where(pair => pair.Key != 0).Chunk(MostInBlock))
        {
            text.Append(CultureInfo.InvariantCulture, $"{block.Length} beginbfchar\n");
            foreach (var (glyph, rune) in block)
            {
                text.Append(CultureInfo.InvariantCulture, $"<{glyph:X4}> <{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(rune.ToString()))}>\n");
            }

            text.Append("endbfchar\n");
        }

        return text.Append("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n").ToString();
    }
}
