using System.Globalization;
using Trimwright.Images;
using Trimwright.Layouts;

namespace Trimwright.Worksheets.Pdf;

/// <summary>A picture as an object of a PDF file (ISO 32000-1, 8.9.5).</summary>
internal static class PdfPicture
{
    // On a picture 3 in wide, 300 dots per inch.
    private const int MostSide = 900;

    // The longest run, and the longest stretch without one (ISO 32000-1, 7.4.5).
    private const int MostInRun = 128;

    /// <summary>Adds it, and how clear it is as a second object where it is clear anywhere.</summary>
    /// <returns>The number of the object.</returns>
    public static int AddTo(PdfFile file, PictureContent content)
    {
        var picture = PictureShrinking.ToAtMost(content.Picture, MostSide);
        var pixels = picture.Width * picture.Height;
        var (colours, clear) = (new byte[3 * pixels], new byte[pixels]);
        for (var i = 0; i < pixels; i++)
        {
            picture.Rgba.Slice(4 * i, 3).CopyTo(colours.AsSpan(3 * i));
            clear[i] = picture.Rgba[(4 * i) + 3];
        }

        var mask = picture.HasAlpha()
            ? string.Create(CultureInfo.InvariantCulture, $"/SMask {file.AddStream(Entries(picture, "DeviceGray"), Packed(clear))} 0 R ") : "";
        return file.AddStream(mask + Entries(picture, "DeviceRGB"), Packed(colours));
    }

    private static string Entries(Picture picture, string colours) => string.Create(
        CultureInfo.InvariantCulture,
        $"/Type /XObject /Subtype /Image /Width {picture.Width} /Height {picture.Height} /ColorSpace /{colours} /BitsPerComponent 8 /Filter /RunLengthDecode ");

    /// <summary>
    /// Bytes packed in runs: the one way to make a picture smaller that every reader knows and that comes out the same on every machine.
    /// </summary>
    internal static byte[] Packed(ReadOnlySpan<byte> bytes)
    {
        var packed = new List<byte>(bytes.Length / 2);
        var start = 0;
        for (var at = 0; at < bytes.Length;)
        {
            var run = RunAt(bytes, at);
            if (run >= 3)
            {
                AddPlain(packed, bytes[start..at]);
                packed.Add((byte)(257 - run));
                packed.Add(bytes[at]);
                start = at + run;
            }

            at += run;
        }

        AddPlain(packed, bytes[start..]);
        packed.Add(128);
        return [.. packed];
    }

    private static int RunAt(ReadOnlySpan<byte> bytes, int at)
    {
        var end = at + 1;
        while (end < bytes.Length && end - at < MostInRun && bytes[end] == bytes[at])
        {
            end++;
        }

        return end - at;
    }

    private static void AddPlain(List<byte> packed, ReadOnlySpan<byte> bytes)
    {
        for (; !bytes.IsEmpty; bytes = bytes[Math.Min(MostInRun, bytes.Length)..])
        {
            var part = bytes[..Math.Min(MostInRun, bytes.Length)];
            packed.Add((byte)(part.Length - 1));
            packed.AddRange(part);
        }
    }
}
