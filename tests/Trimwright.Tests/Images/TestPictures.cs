using SkiaSharp;
using Trimwright.Diagnostics;
using Trimwright.Images;

namespace Trimwright.Tests.Images;

/// <summary>Pictures made by code, as pixels and as files.</summary>
internal static class TestPictures
{
    public static readonly SourcePlace Place = new("card.json", 3, 14, 10);

    /// <summary>A picture whose pixels are given by a function of column and row.</summary>
    public static Picture Make(int width, int height, Func<int, int, (byte R, byte G, byte B, byte A)> pixel)
    {
        var rgba = new byte[4 * width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = 4 * ((y * width) + x);
                (rgba[at], rgba[at + 1], rgba[at + 2], rgba[at + 3]) = pixel(x, y);
            }
        }

        return Picture.FromRgba(width, height, rgba);
    }

    /// <summary>A shape on a clear ground: each pixel holds as much of it as 16 x 16 points within it say.</summary>
    public static Picture Shape(int width, int height, Func<double, double, bool> inside, byte tone = 40) =>
        Make(width, height, (x, y) => (tone, tone, tone, (byte)Math.Round(255 * Share(x, y, inside))));

    /// <summary>The same shape on a plain ground.</summary>
    public static Picture ShapeOn(int width, int height, byte ground, byte tone, Func<double, double, bool> inside) => Make(width, height, (x, y) =>
    {
        var mixed = (byte)Math.Round(ground + ((tone - ground) * Share(x, y, inside)));
        return (mixed, mixed, mixed, 255);
    });

    public static byte[] Encode(Picture picture, SKEncodedImageFormat format, int quality = 100)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(picture.Width, picture.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        picture.Rgba.CopyTo(bitmap.GetPixelSpan());
        using var data = bitmap.Encode(format, quality);
        return data.ToArray();
    }

    public static PictureOutline Traced(Picture picture, TraceOptions? options = null)
    {
        var tracing = PictureTracer.Trace("bean.png", picture, options ?? TraceOptions.Default, Place);
        Assert.True(tracing.Outline is not null, string.Join('\n', tracing.Diagnostics.Select(DiagnosticText.OneLine)));
        return tracing.Outline!;
    }

    private static double Share(int x, int y, Func<double, double, bool> inside)
    {
        // Where the corners and the middle agree, so does all between: no shape here is thinner than half a pixel.
        var first = inside(x, y);
        if (inside(x + 1, y) == first && inside(x, y + 1) == first && inside(x + 1, y + 1) == first && inside(x + 0.5, y + 0.5) == first)
        {
            return first ? 1 : 0;
        }

        var count = 0;
        for (var i = 0; i < 256; i++)
        {
            count += inside(x + (((i % 16) + 0.5) / 16), y + (((i / 16) + 0.5) / 16)) ? 1 : 0;
        }

        return count / 256.0;
    }
}
