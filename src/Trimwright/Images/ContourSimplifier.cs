namespace Trimwright.Images;

/// <summary>Leaves points of a closed line out, as long as none of those left out lies further than a tolerance from the new line.</summary>
/// <remarks>
/// Douglas and Peucker (1973), between the points that are furthest left, right, up and down, which stay, so that the box of the line
/// stays as it was. Both the old line and the new one keep within the tolerance of the other: an edge of the old one ends within it at
/// both ends, and a run of the old one goes from end to end of the edge that replaces it.
/// </remarks>
internal static class ContourSimplifier
{
    /// <summary>The line with fewer points.</summary>
    /// <param name="points">The points of the closed line.</param>
    /// <param name="tolerance">In 256ths of a pixel; not negative.</param>
    public static GridPoint[] Simplify(GridPoint[] points, int tolerance)
    {
        var kept = new bool[points.Length];
        var anchors = Anchors(points);
        var open = new Stack<(int From, int To)>();
        for (var i = 0; i < anchors.Count; i++)
        {
            kept[anchors[i]] = true;
            var next = anchors[(i + 1) % anchors.Count];
            open.Push((anchors[i], next > anchors[i] ? next : next + points.Length));
        }

        // Squares, so that no root is taken: (2 area)^2 > tolerance^2 * length^2.
        while (open.TryPop(out var run))
        {
            var furthest = Furthest(points, run.From, run.To, (long)tolerance * tolerance);
            if (furthest >= 0)
            {
                kept[furthest % points.Length] = true;
                open.Push((run.From, furthest));
                open.Push((furthest, run.To));
            }
        }

        return [.. points.Where((_, i) => kept[i])];
    }

    private static List<int> Anchors(GridPoint[] points)
    {
        var (left, right, top, bottom) = (0, 0, 0, 0);
        for (var i = 1; i < points.Length; i++)
        {
            left = points[i].X < points[left].X ? i : left;
            right = points[i].X > points[right].X ? i : right;
            top = points[i].Y < points[top].Y ? i : top;
            bottom = points[i].Y > points[bottom].Y ? i : bottom;
        }

        return [.. new SortedSet<int> { left, right, top, bottom }];
    }

    // The point furthest from the segment, if it is further than the tolerance; otherwise -1.
    private static int Furthest(GridPoint[] points, int from, int to, long toleranceSquared)
    {
        var (a, b) = (points[from % points.Length], points[to % points.Length]);
        var (dx, dy) = ((long)b.X - a.X, (long)b.Y - a.Y);
        var lengthSquared = (dx * dx) + (dy * dy);
        var (furthest, most) = (-1, (Int128)toleranceSquared * Math.Max(1, lengthSquared));
        for (var i = from + 1; i < to; i++)
        {
            var point = points[i < points.Length ? i : i - points.Length];
            var (px, py) = ((long)point.X - a.X, (long)point.Y - a.Y);
            var along = (px * dx) + (py * dy);
            Int128 distance;
            if (along <= 0)
            {
                distance = (Int128)((px * px) + (py * py)) * Math.Max(1, lengthSquared);
            }
            else if (along >= lengthSquared)
            {
                var (qx, qy) = ((long)point.X - b.X, (long)point.Y - b.Y);
                distance = (Int128)((qx * qx) + (qy * qy)) * lengthSquared;
            }
            else
            {
                var twiceArea = (px * dy) - (py * dx);
                distance = (Int128)twiceArea * twiceArea;
            }

            if (distance > most)
            {
                (furthest, most) = (i, distance);
            }
        }

        return furthest;
    }
}
