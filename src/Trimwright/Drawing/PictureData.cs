using System.Runtime.InteropServices;
using SkiaSharp;
using Trimwright.Images;
using Trimwright.Layouts;

namespace Trimwright.Drawing;

/// <summary>A picture as a file inside a drawing.</summary>
internal static class PictureData
{
    // Finer than 300 dots per inch on the largest card face.
    private const int MostSide = 2400;

    private const int MostBytes = 4 * 1024 * 1024;

    /// <summary>
    /// The picture as a <c>data:</c> address (RFC 2397): the maker's own file where every viewer shows it rightly and it is of a reasonable
    /// size, else a PNG of its pixels.
    /// </summary>
    public static string Address(PictureContent content)
    {
        var file = content.Stored is { } stored && stored.Bytes.Length <= MostBytes ? stored : new StoredPicture("image/png", Png(content.Picture));
        return $"data:{file.MediaType};base64,{Convert.ToBase64String(file.Bytes)}";
    }

    private static byte[] Png(Picture picture)
    {
        var small = PictureShrinking.ToAtMost(picture, MostSide);
        var pixels = small.Rgba.ToArray();
        var pinned = GCHandle.Alloc(pixels, GCHandleType.Pinned);
        try
        {
            using var colours = SKColorSpace.CreateSrgb();
            var info = new SKImageInfo(small.Width, small.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, colours);
            using var image = SKImage.FromPixels(info, pinned.AddrOfPinnedObject());
            using var data = image.Encode(SKEncodedImageFormat.Png, 100);
            return data.ToArray();
        }
        finally
        {
            pinned.Free();
        }
    }
}
