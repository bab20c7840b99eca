namespace Trimwright.Geometry;

/// <summary>Whether paper of two shapes comes to lie on one another.</summary>
public static class OutlineMeeting
{
    /// <summary>
    /// Whether an outline of straight edges and the inside of a box share more than their rims. Corners are taken at the nearest nanometre; from
    /// there on it is exact.
    /// </summary>
    /// <exception cref="ArgumentException">The outline has an edge that is not straight.</exception>
    public static bool Meets(Outline outline, Box box)
    {
        var (left, top, right, bottom) = (Whole(box.Left), Whole(box.Top), Whole(box.Right), Whole(box.Bottom));

        // The middle of the box, at half nanometres: with doubled coordinates it is whole.
        var (middleX, middleY) = (left + right, top + bottom);
        var inside = false;
        foreach (var contour in outline.Contours)
        {
            var points = contour is PolygonContour polygon
                ? polygon.Points : throw new ArgumentException("the outline has a round edge", nameof(outline));
            var (bx, by) = (Whole(points[^1].X), Whole(points[^1].Y));
            foreach (var point in points)
            {
                var (ax, ay) = (bx, by);
                (bx, by) = (Whole(point.X), Whole(point.Y));
                if (Crosses(ax, ay, bx, by))
                {
                    return true;
                }

                if ((2 * ay > middleY) != (2 * by > middleY))
                {
                    // Left of the edge, by the sign of the cross product and the way the edge goes.
                    var side = ((Int128)(bx - ax) * (middleY - (2 * ay))) - ((Int128)(by - ay) * (middleX - (2 * ax)));
                    inside ^= by > ay ? side > 0 : side < 0;
                }
            }
        }

        // No edge enters the box: it lies wholly on paper or wholly beside it.
        return inside;

        // The edge and the inside of the box share a point when neither an upright, nor a level line, nor the line of the edge parts them.
        bool Crosses(long ax, long ay, long bx, long by)
        {
            if (Math.Max(ax, bx) <= left || Math.Min(ax, bx) >= right || Math.Max(ay, by) <= top || Math.Min(ay, by) >= bottom)
            {
                return false;
            }

            var (least, most) = (Int128.MaxValue, Int128.MinValue);
            foreach (var (x, y) in ((long, long)[])[(left, top), (right, top), (right, bottom), (left, bottom)])
            {
                var side = ((Int128)(bx - ax) * (y - ay)) - ((Int128)(by - ay) * (x - ax));
                (least, most) = (Int128.Min(least, side), Int128.Max(most, side));
            }

            return least < 0 && most > 0;
        }
    }

    private static long Whole(Measures.Position position) => position.ToNearestNanometre().Nanometres;
}
