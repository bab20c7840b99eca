namespace Trimwright.Images;

/// <summary>How much of each pixel belongs to the picture, 0 to 255: its alpha, or what differs from a plain ground.</summary>
internal static class Coverage
{
    // Of the pixels along the border, how many of 100 must be of one tone for the ground to be plain: a picture may touch an edge.
    private const int PlainPercent = 60;

    /// <summary>The coverage of every pixel, or null where the ground is neither clear nor plain.</summary>
    public static byte[]? Of(Picture picture, TraceOptions options)
    {
        if (picture.HasAlpha())
        {
            var alpha = new byte[picture.Width * picture.Height];
            var rgba = picture.Rgba;
            for (var i = 0; i < alpha.Length; i++)
            {
                alpha[i] = rgba[(4 * i) + 3];
            }

            return alpha;
        }

        return PlainGround(picture) is { } ground && DifferencesFrom(ground, picture, options, out var differences)
            ? FromDifferences(picture.Width, picture.Height, differences, options)
            : null;
    }

    // The median of each channel along the border.
    private static (int Red, int Green, int Blue)? PlainGround(Picture picture)
    {
        var counts = new int[3, 256];
        var total = 0;
        foreach (var i in Border(picture.Width, picture.Height))
        {
            for (var channel = 0; channel < 3; channel++)
            {
                counts[channel, picture.Rgba[(4 * i) + channel]]++;
            }

            total++;
        }

        return (Median(0), Median(1), Median(2));

        int Median(int channel)
        {
            var (value, seen) = (0, counts[channel, 0]);
            while (2 * seen < total)
            {
                seen += counts[channel, ++value];
            }

            return value;
        }
    }

    private static IEnumerable<int> Border(int width, int height)
    {
        for (var x = 0; x < width; x++)
        {
            yield return x;
            if (height > 1)
            {
                yield return ((height - 1) * width) + x;
            }
        }

        for (var y = 1; y < height - 1; y++)
        {
            yield return y * width;
            if (width > 1)
            {
                yield return (y * width) + width - 1;
            }
        }
    }

    // The largest difference among the channels; false where too few pixels of the border are near the ground.
    private static bool DifferencesFrom((int Red, int Green, int Blue) ground, Picture picture, TraceOptions options, out byte[] differences)
    {
        var rgba = picture.Rgba;
        differences = new byte[picture.Width * picture.Height];
        for (var (i, at) = (0, 0); i < differences.Length; i++, at += 4)
        {
            var red = Math.Abs(rgba[at] - ground.Red);
            var green = Math.Abs(rgba[at + 1] - ground.Green);
            var blue = Math.Abs(rgba[at + 2] - ground.Blue);
            differences[i] = (byte)Math.Max(red, Math.Max(green, blue));
        }

        var (near, total) = (0, 0);
        foreach (var i in Border(picture.Width, picture.Height))
        {
            near += differences[i] <= options.GroundTolerance ? 1 : 0;
            total++;
        }

        return near * 100L >= total * (long)PlainPercent;
    }

    private static byte[] FromDifferences(int width, int height, byte[] differences, TraceOptions options)
    {
        var isGround = options.EnclosedGroundIsHole
            ? Array.ConvertAll(differences, difference => difference <= options.GroundTolerance)
            : ReachedFromBorder(width, height, differences, options.GroundTolerance);
        var coverage = new byte[differences.Length];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var i = (y * width) + x;

                // A pixel on the edge is part ground, part picture: it differs by as much of its most different neighbour as it holds.
                coverage[i] = !TouchesOther(isGround, x, y, width, height)
                    ? (isGround[i] ? (byte)0 : (byte)255)
                    : (byte)(255 * differences[i] / Math.Max(1, LargestAround(differences, x, y, width, height)));
            }
        }

        return coverage;
    }

    private static bool[] ReachedFromBorder(int width, int height, byte[] differences, int tolerance)
    {
        var reached = new bool[differences.Length];
        var open = new Stack<int>();
        foreach (var i in Border(width, height))
        {
            Reach(i);
        }

        while (open.TryPop(out var i))
        {
            var x = i % width;
            if (x > 0)
            {
                Reach(i - 1);
            }

            if (x < width - 1)
            {
                Reach(i + 1);
            }

            if (i >= width)
            {
                Reach(i - width);
            }

            if (i < differences.Length - width)
            {
                Reach(i + width);
            }
        }

        return reached;

        void Reach(int i)
        {
            if (!reached[i] && differences[i] <= tolerance)
            {
                reached[i] = true;
                open.Push(i);
            }
        }
    }

    private static bool TouchesOther(bool[] isGround, int x, int y, int width, int height)
    {
        var own = isGround[(y * width) + x];
        var (left, right) = (Math.Max(0, x - 1), Math.Min(width - 1, x + 1));
        for (var row = Math.Max(0, y - 1); row <= Math.Min(height - 1, y + 1); row++)
        {
            var at = row * width;
            if (isGround[at + left] != own || isGround[at + x] != own || isGround[at + right] != own)
            {
                return true;
            }
        }

        return false;
    }

    private static int LargestAround(byte[] differences, int x, int y, int width, int height)
    {
        var largest = 0;
        for (var row = Math.Max(0, y - 1); row <= Math.Min(height - 1, y + 1); row++)
        {
            for (var column = Math.Max(0, x - 1); column <= Math.Min(width - 1, x + 1); column++)
            {
                largest = Math.Max(largest, differences[(row * width) + column]);
            }
        }

        return largest;
    }
}
