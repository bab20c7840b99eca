using System.Buffers.Binary;

namespace Trimwright.Images;

/// <summary>The kinds of picture file that are read.</summary>
public enum PictureFormat
{
    /// <summary>PNG (ISO/IEC 15948).</summary>
    Png,

    /// <summary>JPEG (ISO/IEC 10918-1).</summary>
    Jpeg,

    /// <summary>WebP (RFC 9649).</summary>
    WebP,
}

/// <summary>Tells the kinds apart by their first bytes, whatever the file is called.</summary>
internal static class PictureFormats
{
    /// <summary>What a file without a byte is.</summary>
    public const string Empty = "empty";

    private static ReadOnlySpan<byte> PngSignature => [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

    /// <summary>The kind, or null for anything else.</summary>
    public static PictureFormat? Of(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith(PngSignature) ? PictureFormat.Png
        : bytes.StartsWith((ReadOnlySpan<byte>)[0xff, 0xd8, 0xff]) ? PictureFormat.Jpeg
        : bytes.Length >= 12 && bytes.StartsWith("RIFF"u8) && bytes[8..].StartsWith("WEBP"u8) ? PictureFormat.WebP
        : null;

    /// <summary>
    /// What another file is, with its article, as far as its first bytes tell: what phones, scanners and drawing programs save. Null where they do not.
    /// </summary>
    public static string? OtherKind(ReadOnlySpan<byte> bytes) =>
        bytes.Length == 0 ? Empty
        : bytes.StartsWith("GIF8"u8) ? "a GIF"
        : bytes.StartsWith("BM"u8) ? "a BMP"
        : bytes.StartsWith((ReadOnlySpan<byte>)[0x49, 0x49, 0x2a, 0]) || bytes.StartsWith((ReadOnlySpan<byte>)[0x4d, 0x4d, 0, 0x2a]) ? "a TIFF"
        : bytes.Length >= 12 && bytes[4..].StartsWith("ftyp"u8) ? bytes[8..].StartsWith("avif"u8) ? "an AVIF" : bytes[8..].StartsWith("hei"u8) || bytes[8..].StartsWith("mif1"u8) ? "a HEIF" : "a film"
        : bytes.StartsWith("%PDF"u8) ? "a PDF"
        : bytes[..Math.Min(bytes.Length, 1_000)].IndexOf("<svg"u8) >= 0 ? "an SVG"
        : null;

    /// <summary>The kind that a file name promises, or null where its ending promises nothing that is read here.</summary>
    public static PictureFormat? PromisedBy(string name) => Path.GetExtension(name).ToUpperInvariant() switch
    {
        ".PNG" => PictureFormat.Png,
        ".JPG" or ".JPEG" => PictureFormat.Jpeg,
        ".WEBP" => PictureFormat.WebP,
        _ => null,
    };

    /// <summary>
    /// The size that a PNG states in its first chunk, or null where there is none. Its decoder gives up on a large size without saying
    /// that it was the size.
    /// </summary>
    public static (uint Width, uint Height)? StatedPngSize(ReadOnlySpan<byte> bytes) =>
        bytes.Length >= 24 && bytes.StartsWith(PngSignature) && bytes[12..].StartsWith("IHDR"u8)
            ? (BinaryPrimitives.ReadUInt32BigEndian(bytes[16..]), BinaryPrimitives.ReadUInt32BigEndian(bytes[20..]))
            : null;

    /// <summary>Whether a PNG says that it is animated: an <c>acTL</c> chunk before its pixels (PNG, third edition, 11.3.6.1).</summary>
    public static bool IsAnimatedPng(ReadOnlySpan<byte> bytes)
    {
        var at = PngSignature.Length;
        while (bytes.Length - at >= 12)
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);
            var kind = bytes.Slice(at + 4, 4);
            if (kind.SequenceEqual("acTL"u8))
            {
                return length >= 8 && bytes.Length - at >= 16 && BinaryPrimitives.ReadUInt32BigEndian(bytes[(at + 8)..]) > 1;
            }

            if (kind.SequenceEqual("IDAT"u8) || length > bytes.Length - at - 12)
            {
                return false;
            }

            at += (int)length + 12;
        }

        return false;
    }

    /// <summary>
    /// Whether every viewer can be trusted with the colours: any PNG, and a JPEG of one or three components (those of four are inks, which
    /// viewers disagree about).
    /// </summary>
    public static bool HasPlainColours(PictureFormat format, ReadOnlySpan<byte> bytes) =>
        format == PictureFormat.Png || (format == PictureFormat.Jpeg && JpegComponents(bytes) is 1 or 3);

    // A frame begins with a marker of C0 to CF but C4, C8 and CC; its tenth byte counts the components (ISO/IEC 10918-1, B.2.2).
    private static int JpegComponents(ReadOnlySpan<byte> bytes)
    {
        var at = 2;
        while (bytes.Length - at >= 10 && bytes[at] == 0xff)
        {
            var marker = bytes[at + 1];
            if (marker is >= 0xc0 and <= 0xcf and not (0xc4 or 0xc8 or 0xcc))
            {
                return bytes[at + 9];
            }

            at += marker == 0xff ? 1 : 2 + BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
        }

        return 0;
    }

    public static string NameOf(PictureFormat format) => format switch
    {
        PictureFormat.Png => "PNG",
        PictureFormat.Jpeg => "JPEG",
        _ => "WebP",
    };
}
