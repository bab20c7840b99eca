namespace Trimwright.Images;

/// <summary>A point of a traced picture, in 256ths of a pixel from its upper left corner.</summary>
internal readonly record struct GridPoint(int X, int Y);

/// <summary>
/// Follows the line where the coverage of a picture passes a half. Between the centres of an inner and an outer pixel the line crosses
/// where the coverage, taken as straight between them, is a half; so a soft edge is placed within its pixel.
/// </summary>
/// <remarks>
/// The boundary following is the usual one for squares of four pixel centres; where two inner pixels face each other across such a
/// square, its mean tells whether they are joined. No crossing falls on a pixel centre, so no line touches itself or another.
/// </remarks>
internal sealed class ContourTracer(byte[] coverage, int width, int height)
{
    /// <summary>Units in a pixel.</summary>
    public const int Unit = 256;

    private readonly bool[] _passed = new bool[coverage.Length];

    /// <summary>Every closed line, with the picture to the right of its way: outer ones clockwise, holes anticlockwise.</summary>
    public List<GridPoint[]> Trace()
    {
        var loops = new List<GridPoint[]>();
        for (var y = 0; y < height; y++)
        {
            var before = 0;
            for (var x = 0; x < width; x++)
            {
                var here = coverage[(y * width) + x];
                if (here >= 128 && before < 128 && !_passed[(y * width) + x])
                {
                    loops.Add(Follow(x, y));
                }

                before = here;
            }
        }

        return loops;
    }

    // Starts at the left side of a pixel, going up.
    private GridPoint[] Follow(int startX, int startY)
    {
        var points = new List<GridPoint>();
        var (x, y, goX, goY) = (startX, startY, 0, -1);
        do
        {
            // To the left of (goX, goY) with y downwards lies (goY, -goX).
            var (outX, outY) = (x + goY, y - goX);
            points.Add(Crossing(x, y, outX, outY));
            if (goY == -1)
            {
                _passed[(y * width) + x] = true;
            }

            var (ahead, across) = (At(x + goX, y + goY), At(outX + goX, outY + goY));
            var joins = across >= 128 && (ahead >= 128 || 2 * (At(x, y) + At(outX, outY) + ahead + across) >= 4 * 255);
            if (joins)
            {
                (x, y, goX, goY) = (outX + goX, outY + goY, goY, -goX);
            }
            else if (ahead >= 128)
            {
                (x, y) = (x + goX, y + goY);
            }
            else
            {
                (goX, goY) = (-goY, goX);
            }
        }
        while (x != startX || y != startY || goX != 0 || goY != -1);

        return [.. points];
    }

    private GridPoint Crossing(int x, int y, int outX, int outY)
    {
        var (inner, outer) = (At(x, y), At(outX, outY));
        var step = (((2 * inner) - 255) * Unit + (inner - outer)) / (2 * (inner - outer));
        step = Math.Clamp(step, 1, Unit - 1);
        return new(
            (x * Unit) + (Unit / 2) + ((outX - x) * step),
            (y * Unit) + (Unit / 2) + ((outY - y) * step));
    }

    private int At(int x, int y) => x >= 0 && x < width && y >= 0 && y < height ? coverage[(y * width) + x] : 0;
}
