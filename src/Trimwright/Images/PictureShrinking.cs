namespace Trimwright.Images;

/// <summary>Makes large pictures smaller by whole factors.</summary>
internal static class PictureShrinking
{
    /// <summary>
    /// The picture with no side longer than that: every block of pixels becomes its mean, weighted by alpha; blocks at the right and at
    /// the bottom that are not whole are means of what there is.
    /// </summary>
    public static Picture ToAtMost(Picture picture, int side)
    {
        var factor = (Math.Max(picture.Width, picture.Height) + side - 1) / side;
        if (factor <= 1)
        {
            return picture;
        }

        var (width, height) = ((picture.Width + factor - 1) / factor, (picture.Height + factor - 1) / factor);
        var small = new byte[4 * width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                Mean(picture, x * factor, y * factor, factor, small.AsSpan(4 * ((y * width) + x), 4));
            }
        }

        return Picture.FromOwned(width, height, small);
    }

    private static void Mean(Picture picture, int left, int top, int factor, Span<byte> mean)
    {
        var (right, bottom) = (Math.Min(left + factor, picture.Width), Math.Min(top + factor, picture.Height));
        var (red, green, blue, alpha) = (0L, 0L, 0L, 0L);
        for (var y = top; y < bottom; y++)
        {
            var row = picture.Rgba.Slice(4 * ((y * picture.Width) + left), 4 * (right - left));
            for (var at = 0; at < row.Length; at += 4)
            {
                long weight = row[at + 3];
                red += row[at] * weight;
                green += row[at + 1] * weight;
                blue += row[at + 2] * weight;
                alpha += weight;
            }
        }

        if (alpha > 0)
        {
            long pixels = (right - left) * (bottom - top);
            mean[0] = (byte)((red + (alpha / 2)) / alpha);
            mean[1] = (byte)((green + (alpha / 2)) / alpha);
            mean[2] = (byte)((blue + (alpha / 2)) / alpha);
            mean[3] = (byte)((alpha + (pixels / 2)) / pixels);
        }
    }
}
