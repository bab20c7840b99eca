using System.Runtime.InteropServices;
using SkiaSharp;
using Trimwright.Diagnostics;

namespace Trimwright.Images;

/// <summary>The result of reading a picture: a picture, or why there is none; warnings in either case.</summary>
/// <param name="Picture">The picture, or null after an error.</param>
/// <param name="Diagnostics">Errors and warnings.</param>
public sealed record PictureReading(Picture? Picture, IReadOnlyList<Diagnostic> Diagnostics)
{
    /// <summary>
    /// The file itself, where any viewer of PNG and JPEG shows just this picture for it: upright, in three colours of sRGB or grey, one
    /// frame. Null where it has to be written anew.
    /// </summary>
    public StoredPicture? Stored { get; init; }
}

/// <summary>A picture file that can be shown as it is.</summary>
/// <param name="MediaType"><c>image/png</c> or <c>image/jpeg</c> (RFC 2083, RFC 2046).</param>
/// <param name="Bytes">The file.</param>
public sealed record StoredPicture(string MediaType, byte[] Bytes);

/// <summary>
/// Decodes a maker's picture. Sizes are looked at before a pixel is decoded, so that a small file cannot ask for much memory.
/// </summary>
/// <remarks>
/// Colours are brought to sRGB, 16 bits a channel to 8, and the turn that a camera noted (Exif 2.3, tag 274) is applied. Of an animated
/// picture the first is taken. This room opens no files: it is given bytes and the name that a maker knows them by.
/// </remarks>
public static class PictureReader
{
    /// <summary>The most bytes that a picture file may have.</summary>
    public const int MostBytes = 64 * 1024 * 1024;

    /// <summary>The most pixels along a side.</summary>
    public const int MostSide = 20_000;

    /// <summary>The most pixels in all; decoded, they take four bytes each.</summary>
    public const int MostPixels = 40_000_000;

    /// <summary>Whether a file has the name of a picture that is read, by its ending.</summary>
    public static bool IsNamedLikeOne(string name) => PictureFormats.PromisedBy(name) is not null;

    /// <summary>Reads a picture.</summary>
    /// <param name="name">The file as the maker named it; its ending is compared with what the file holds.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="place">Where a layout names it; diagnostics point there.</param>
    public static PictureReading Read(string name, byte[] bytes, SourcePlace place)
    {
        if (bytes.Length > MostBytes)
        {
            return new(null, [PictureMessages.FileTooLarge(name, place)]);
        }

        if (PictureFormats.Of(bytes) is not { } format)
        {
            return new(null, [PictureMessages.NotAPicture(name, PictureFormats.OtherKind(bytes), place)]);
        }

        if (PictureFormats.StatedPngSize(bytes) is { } stated && IsTooLarge(stated.Width, stated.Height))
        {
            return new(null, [PictureMessages.TooManyPixels(name, stated.Width, stated.Height, place)]);
        }

        try
        {
            return Decode(name, bytes, format, place);
        }
        catch (Exception missing) when (IsMissingLibrary(missing))
        {
            return new(null, [PictureMessages.NoLibrary(name, place)]);
        }
    }

    private static PictureReading Decode(string name, byte[] bytes, PictureFormat format, SourcePlace place)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.Info.Width < 1 || codec.Info.Height < 1)
        {
            return new(null, [PictureMessages.Damaged(name, format, place)]);
        }

        var (width, height) = (codec.Info.Width, codec.Info.Height);
        if (IsTooLarge(width, height))
        {
            return new(null, [PictureMessages.TooManyPixels(name, width, height, place)]);
        }

        var warnings = new List<Diagnostic>();
        if (PictureFormats.PromisedBy(name) is { } promised && promised != format)
        {
            warnings.Add(PictureMessages.OtherFormat(name, format, place));
        }

        if (codec.FrameCount > 1 || (format == PictureFormat.Png && PictureFormats.IsAnimatedPng(bytes)))
        {
            warnings.Add(PictureMessages.Animated(name, place));
        }

        var pixels = new byte[4 * width * height];
        var pinned = GCHandle.Alloc(pixels, GCHandleType.Pinned);
        try
        {
            using var colours = SKColorSpace.CreateSrgb();
            var info = new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul, colours);
            if (codec.GetPixels(info, pinned.AddrOfPinnedObject()) != SKCodecResult.Success)
            {
                return new(null, [PictureMessages.Damaged(name, format, place)]);
            }
        }
        finally
        {
            pinned.Free();
        }

        var still = codec.FrameCount <= 1 && !warnings.Exists(warning => warning.Code == "W0501");
        var plain = still && codec.EncodedOrigin == SKEncodedOrigin.TopLeft
            && codec.Info.ColorSpace is null or { IsSrgb: true } && PictureFormats.HasPlainColours(format, bytes);
        return new(PictureTurn.Upright(pixels, width, height, (int)codec.EncodedOrigin), warnings)
        {
            Stored = plain ? new(format == PictureFormat.Png ? "image/png" : "image/jpeg", bytes) : null,
        };
    }

    private static bool IsTooLarge(long width, long height) =>
        width > MostSide || height > MostSide || width * height > MostPixels;

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
}
