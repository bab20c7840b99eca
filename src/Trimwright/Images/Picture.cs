namespace Trimwright.Images;

/// <summary>
/// A decoded picture: upright as it is meant to be seen, in sRGB, with its alpha. Its first row is the top one.
/// </summary>
public sealed class Picture
{
    private readonly byte[] _rgba;

    private Picture(int width, int height, byte[] rgba)
    {
        Width = width;
        Height = height;
        _rgba = rgba;
    }

    /// <summary>The width in pixels.</summary>
    public int Width { get; }

    /// <summary>The height in pixels.</summary>
    public int Height { get; }

    /// <summary>Four bytes a pixel: red, green, blue (not multiplied by alpha), alpha (255 opaque); row by row.</summary>
    public ReadOnlySpan<byte> Rgba => _rgba;

    /// <summary>Makes a picture from its pixels, which are copied.</summary>
    /// <exception cref="ArgumentException">The number of bytes is not four a pixel, or there is no pixel.</exception>
    public static Picture FromRgba(int width, int height, ReadOnlySpan<byte> rgba) =>
        width > 0 && height > 0 && rgba.Length == 4L * width * height
            ? new(width, height, rgba.ToArray())
            : throw new ArgumentException("a picture has four bytes for each pixel", nameof(rgba));

    /// <summary>Takes the pixels over without a copy; the caller must not keep them.</summary>
    internal static Picture FromOwned(int width, int height, byte[] rgba) => new(width, height, rgba);

    /// <summary>Whether any pixel lets something through.</summary>
    public bool HasAlpha()
    {
        for (var i = 3; i < _rgba.Length; i += 4)
        {
            if (_rgba[i] != 255)
            {
                return true;
            }
        }

        return false;
    }
}
