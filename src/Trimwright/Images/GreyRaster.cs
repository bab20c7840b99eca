namespace Trimwright.Images;

/// <summary>
/// A grey picture made of equal rectangles that together fill a card face or a square; each holds a level of light from 0 (black) to
/// <see cref="White"/>. Its first row is the top one.
/// </summary>
public sealed class GreyRaster
{
    /// <summary>The most cells along a side; sums over a raster of that size cannot overflow.</summary>
    public const int MostSide = 4096;

    /// <summary>The most levels there may be between black and white.</summary>
    public const int MostWhite = 1 << 28;

    private readonly int[] _levels;

    private GreyRaster(int width, int height, int white, int[] levels)
    {
        Width = width;
        Height = height;
        White = white;
        _levels = levels;
    }

    /// <summary>How many cells across.</summary>
    public int Width { get; }

    /// <summary>How many cells up and down.</summary>
    public int Height { get; }

    /// <summary>The level of white.</summary>
    public int White { get; }

    /// <summary>The levels, row by row.</summary>
    public ReadOnlySpan<int> Levels => _levels;

    /// <summary>Makes a raster from its levels, which are copied.</summary>
    /// <exception cref="ArgumentException">There are not as many levels as cells, too many cells, or a level outside 0 to white.</exception>
    public static GreyRaster FromLevels(int width, int height, int white, ReadOnlySpan<int> levels)
    {
        if (width is < 1 or > MostSide || height is < 1 or > MostSide || white is < 1 or > MostWhite || levels.Length != width * height)
        {
            throw new ArgumentException("a raster has a level for each of its cells and at most 4096 along a side", nameof(levels));
        }

        foreach (var level in levels)
        {
            if (level < 0 || level > white)
            {
                throw new ArgumentException("a level lies between black and white", nameof(levels));
            }
        }

        return new(width, height, white, levels.ToArray());
    }

    /// <summary>Takes levels over that are known to be right, without a copy; the caller must not keep them.</summary>
    internal static GreyRaster FromOwned(int width, int height, int white, int[] levels) => new(width, height, white, levels);
}
