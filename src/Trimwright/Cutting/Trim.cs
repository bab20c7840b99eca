namespace Trimwright.Cutting;

/// <summary>Cuts one piece out of a rectangle of paper, so that what is left is as useful as it can be.</summary>
internal static class Trim
{
    /// <summary>Lays a piece into the top left corner; the part is cut at most twice. Rules are kept where either order keeps them.</summary>
    /// <returns>The part that is the piece.</returns>
    public static Part Lay(Lot lot, Part part, int width, int height, int shape, bool turned)
    {
        var right = part.Width - width;
        var below = part.Height - height;
        var target = part;
        if (right > 0 && below > 0)
        {
            var upright = UprightFirst(lot, part.Width, part.Height, width, height);
            target.Cut(upright, upright ? width : height);
            target = target.First!;
            target.Cut(!upright, upright ? height : width);
            target = target.First!;
        }
        else if (right > 0 || below > 0)
        {
            target.Cut(right > 0, right > 0 ? width : height);
            target = target.First!;
        }

        target.Become(shape, turned);
        return target;
    }

    /// <summary>Whether the piece may be cut out at all, with waste to its right and below that holds.</summary>
    public static bool Holds(Lot lot, int partWidth, int partHeight, int width, int height) =>
        lot.MayTrim(partWidth - width) && lot.MayTrim(partHeight - height)
        && (UprightFirstHolds(lot, partWidth, partHeight, width, height) || LevelFirstHolds(lot, partWidth, partHeight, width, height));

    public static bool UprightFirstHolds(Lot lot, int partWidth, int partHeight, int width, int height) =>
        (partWidth == width || lot.MayCut(partHeight)) && (partHeight == height || lot.MayCut(width));

    public static bool LevelFirstHolds(Lot lot, int partWidth, int partHeight, int width, int height) =>
        (partHeight == height || lot.MayCut(partWidth)) && (partWidth == width || lot.MayCut(height));

    // The corner beyond the piece goes to the strip that is cut off first. It belongs where it makes the largest leftover worth keeping.
    private static bool UprightFirst(Lot lot, int partWidth, int partHeight, int width, int height)
    {
        if (!UprightFirstHolds(lot, partWidth, partHeight, width, height))
        {
            return false;
        }

        if (!LevelFirstHolds(lot, partWidth, partHeight, width, height))
        {
            return true;
        }

        var right = partWidth - width;
        var below = partHeight - height;
        var upright = Leftovers(lot, (right, partHeight), (width, below));
        var level = Leftovers(lot, (partWidth, below), (right, height));
        return upright.CompareTo(level) is var order && order != 0
            ? order > 0
            : Math.Max((long)right * partHeight, (long)width * below) >= Math.Max((long)partWidth * below, (long)right * height);
    }

    private static (long Larger, long Smaller) Leftovers(Lot lot, (int Width, int Height) a, (int Width, int Height) b)
    {
        var first = lot.IsOffcut(a.Width, a.Height) ? (long)a.Width * a.Height : 0;
        var second = lot.IsOffcut(b.Width, b.Height) ? (long)b.Width * b.Height : 0;
        return (Math.Max(first, second), Math.Min(first, second));
    }
}
