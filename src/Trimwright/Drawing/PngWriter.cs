using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using SkiaSharp;
using Svg.Skia;
using Svg.Skia.TypefaceProviders;
using Trimwright.Drawing.Lettering;

namespace Trimwright.Drawing;

/// <summary>
/// Turns our SVG into a PNG with the embedded lettering, so that the picture does not depend on a machine's fonts. This is the only
/// place that loads the native graphics library; a machine without it still gets its SVG.
/// </summary>
public static class PngWriter
{
    private const double MillimetresPerInch = 25.4;

    /// <summary>The most pixels that a picture may have; 100 million is a sheet of 16 x 16 in at 600 dots per inch.</summary>
    private const double MostPixels = 100_000_000;

    /// <summary>Draws the picture on white.</summary>
    /// <param name="svg">What <see cref="SvgWriter"/> wrote.</param>
    /// <param name="dotsPerInch">The resolution; the size in pixels is that of the sheet, rounded to the nearest pixel.</param>
    /// <param name="png">The file, or null.</param>
    /// <param name="problem">Why there is none, with a remedy, or null.</param>
    /// <returns>Whether there is a picture.</returns>
    public static bool TryWrite(
        string svg, int dotsPerInch, [NotNullWhen(true)] out byte[]? png, [NotNullWhen(false)] out string? problem)
    {
        try
        {
            (png, problem) = Draw(svg, dotsPerInch);
        }
        catch (Exception missing) when (IsMissingLibrary(missing))
        {
            png = null;
            problem = "the graphics library of this machine cannot be loaded, so no PNG was made; use the SVG";
        }

        return png is not null;
    }

    private static bool IsMissingLibrary(Exception? error)
    {
        for (; error is not null; error = error.InnerException)
        {
            if (error is DllNotFoundException or EntryPointNotFoundException or BadImageFormatException)
            {
                return true;
            }
        }

        return false;
    }

    private static (byte[]? Png, string? Problem) Draw(string svg, int dotsPerInch)
    {
        using var picture = new SKSvg();
        using var lettering = new MemoryStream(LetteringFont.ReadResource());
        picture.Settings.TypefaceProviders?.Insert(0, new CustomTypefaceProvider(lettering));
        if (picture.FromSvg(svg) is not { } drawn || picture.SourceDocument is not { } document)
        {
            return (null, "the drawing could not be read back, so no PNG was made");
        }

        var scale = dotsPerInch / MillimetresPerInch;
        var box = document.ViewBox;
        var (width, height) = (Math.Round(box.Width * scale), Math.Round(box.Height * scale));
        if (width < 1 || height < 1 || width * height > MostPixels)
        {
            return (null, string.Create(
                CultureInfo.InvariantCulture, $"a picture of {width} x {height} pixels cannot be made; choose another resolution"));
        }

        using var surface = SKSurface.Create(new SKImageInfo((int)width, (int)height, SKColorType.Rgba8888, SKAlphaType.Premul));
        if (surface is null)
        {
            return (null, string.Create(
                CultureInfo.InvariantCulture, $"there is not memory enough for {width} x {height} pixels; choose a lower resolution"));
        }

        var canvas = surface.Canvas;
        canvas.Clear(SKColors.White);
        canvas.Scale((float)(width / drawn.CullRect.Width), (float)(height / drawn.CullRect.Height));
        canvas.DrawPicture(drawn);
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return (data.ToArray(), null);
    }
}
