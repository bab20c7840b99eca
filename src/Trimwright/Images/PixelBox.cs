namespace Trimwright.Images;

/// <summary>A box on a traced picture, in 256ths of a pixel.</summary>
internal readonly record struct PixelBox(int Left, int Top, int Right, int Bottom)
{
    public int Width => Right - Left;

    public int Height => Bottom - Top;

    /// <summary>The least box around points.</summary>
    public static PixelBox Around(IEnumerable<GridPoint> points)
    {
        var box = new PixelBox(int.MaxValue, int.MaxValue, int.MinValue, int.MinValue);
        foreach (var point in points)
        {
            box = new(
                Math.Min(box.Left, point.X), Math.Min(box.Top, point.Y), Math.Max(box.Right, point.X), Math.Max(box.Bottom, point.Y));
        }

        return box;
    }
}
