using System.Buffers.Binary;
using System.Text;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Makes a TrueType font with fewer outlines, to be embedded in a document.</summary>
/// <remarks>Glyphs keep their numbers; those not wanted become empty, as a space is. Formats as in ISO/IEC 14496-22.</remarks>
internal static class FontSubset
{
    // What a PDF reader needs of a font whose characters are named by glyph (ISO 32000-1, 9.9).
    private static readonly string[] Kept = ["cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep"];

    public static byte[] Make(byte[] font, IEnumerable<int> glyphs, Func<string, (int Start, int Length)> tableOf)
    {
        var isLong = BinaryPrimitives.ReadInt16BigEndian(font.AsSpan(tableOf("head").Start + 50)) == 1;
        var count = BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(tableOf("maxp").Start + 4));
        var (glyf, loca) = (tableOf("glyf").Start, tableOf("loca").Start);
        var wanted = new SortedSet<int>(glyphs) { 0 };
        var unread = new Queue<int>(wanted);
        while (unread.TryDequeue(out var glyph))
        {
            foreach (var part in Parts(OutlineOf(glyph)))
            {
                if (wanted.Add(part))
                {
                    unread.Enqueue(part);
                }
            }
        }

        using var outlines = new MemoryStream();
        var places = new byte[4 * (count + 1)];
        for (var glyph = 0; glyph < count; glyph++)
        {
            if (wanted.Contains(glyph))
            {
                outlines.Write(OutlineOf(glyph));
                outlines.Write(new byte[-outlines.Length & 3]);
            }

            BinaryPrimitives.WriteInt32BigEndian(places.AsSpan(4 * (glyph + 1)), (int)outlines.Length);
        }

        var head = Copy("head");
        BinaryPrimitives.WriteInt16BigEndian(head.AsSpan(50), 1);
        BinaryPrimitives.WriteUInt32BigEndian(head.AsSpan(8), 0);
        var tables = Kept.Where(tag => tableOf(tag).Length > 0).Select(tag => (tag, tag switch
        {
            "glyf" => outlines.ToArray(),
            "loca" => places,
            "head" => head,
            _ => Copy(tag),
        })).ToList();
        return Assemble(tables);

        byte[] Copy(string tag) => font.AsSpan(tableOf(tag).Start, tableOf(tag).Length).ToArray();

        ReadOnlySpan<byte> OutlineOf(int glyph) => font.AsSpan(glyf + Place(glyph), Place(glyph + 1) - Place(glyph));

        int Place(int glyph) => isLong
            ? BinaryPrimitives.ReadInt32BigEndian(font.AsSpan(loca + (4 * glyph)))
            : 2 * BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(loca + (2 * glyph)));
    }

    /// <summary>The glyphs that a composite glyph is made of.</summary>
    private static List<int> Parts(ReadOnlySpan<byte> outline)
    {
        const int WordArguments = 1, OneScale = 8, MoreParts = 32, TwoScales = 64, TwoByTwo = 128;
        List<int> parts = [];
        if (outline.Length < 10 || BinaryPrimitives.ReadInt16BigEndian(outline) >= 0)
        {
            return parts;
        }

        var at = 10;
        int flags;
        do
        {
            flags = BinaryPrimitives.ReadUInt16BigEndian(outline[at..]);
            parts.Add(BinaryPrimitives.ReadUInt16BigEndian(outline[(at + 2)..]));
            at += 4 + ((flags & WordArguments) != 0 ? 4 : 2)
                + ((flags & OneScale) != 0 ? 2 : (flags & TwoScales) != 0 ? 4 : (flags & TwoByTwo) != 0 ? 8 : 0);
        }
        while ((flags & MoreParts) != 0);
        return parts;
    }

    private static byte[] Assemble(List<(string Tag, byte[] Content)> tables)
    {
        var floor = 1;
        var steps = 0;
        while (floor * 2 <= tables.Count)
        {
            (floor, steps) = (floor * 2, steps + 1);
        }

        var size = 12 + (16 * tables.Count) + tables.Sum(table => (table.Content.Length + 3) & ~3);
        var font = new byte[size];
        BinaryPrimitives.WriteUInt32BigEndian(font, 0x00010000);
        Write16(4, tables.Count);
        Write16(6, floor * 16);
        Write16(8, steps);
        Write16(10, (tables.Count - floor) * 16);
        var at = 12 + (16 * tables.Count);
        var headAt = 0;
        for (var i = 0; i < tables.Count; i++)
        {
            var (tag, content) = tables[i];
            var entry = font.AsSpan(12 + (16 * i));
            content.CopyTo(font, at);
            Encoding.ASCII.GetBytes(tag, entry);
            BinaryPrimitives.WriteUInt32BigEndian(entry[4..], Sum(font.AsSpan(at, (content.Length + 3) & ~3)));
            BinaryPrimitives.WriteInt32BigEndian(entry[8..], at);
            BinaryPrimitives.WriteInt32BigEndian(entry[12..], content.Length);
            headAt = tag == "head" ? at : headAt;
            at += (content.Length + 3) & ~3;
        }

        BinaryPrimitives.WriteUInt32BigEndian(font.AsSpan(headAt + 8), unchecked(0xB1B0AFBA - Sum(font)));
        return font;

        void Write16(int place, int value) => BinaryPrimitives.WriteUInt16BigEndian(font.AsSpan(place), (ushort)value);
    }

    private static uint Sum(ReadOnlySpan<byte> words)
    {
        var sum = 0u;
        for (var i = 0; i < words.Length; i += 4)
        {
            sum = unchecked(sum + BinaryPrimitives.ReadUInt32BigEndian(words[i..]));
        }

        return sum;
    }
}
