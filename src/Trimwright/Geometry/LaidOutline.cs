using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>
/// An outline as it lies on the card, tilt included, to find whether paper comes to lie on paper. Corners are taken at the nearest nanometre, a round edge as
/// 64 straight ones within it: less than 0.13 % of its radius is left out.
/// </summary>
public sealed class LaidOutline
{
    /// <summary>What meets by less than a micrometre, 1,000 nm, counts as touching: the corners of tilted pieces are rounded.</summary>
    private const long Touching = 1_000;

    private const int Sides = 64;

    private static readonly Lazy<(Rational Cos, Rational Sin)[]> Round = new(() =>
    [
        .. Enumerable.Range(0, Sides).Select(side => new Angle(Rational.From(360 * side, Sides))).Select(angle => (angle.Cos(), angle.Sin())),
    ]);

    private readonly (long X, long Y)[][] _contours;
    private readonly (long Left, long Top, long Right, long Bottom) _bounds;
    private readonly bool _isConvex;

    /// <summary>Lays an outline down.</summary>
    /// <param name="outline">The outline before any tilt.</param>
    /// <param name="tilt">The tilt; positive is clockwise.</param>
    /// <param name="about">The point that it turns about.</param>
    public LaidOutline(Outline outline, Angle tilt, Point about)
    {
        var (cos, sin) = tilt.IsZero ? (Rational.One, Rational.Zero) : (tilt.Cos(), tilt.Sin());
        _contours = [.. outline.Contours.Select(contour => Corners(contour).Select(Laid).ToArray())];
        var all = _contours.SelectMany(corners => corners).ToList();
        _bounds = (all.Min(corner => corner.X), all.Min(corner => corner.Y), all.Max(corner => corner.X), all.Max(corner => corner.Y));
        _isConvex = _contours is [var only] && IsConvex(only);

        (long X, long Y) Laid(Point corner)
        {
            if (tilt.IsZero)
            {
                return (Whole(corner.X), Whole(corner.Y));
            }

            var (x, y) = ((corner.X - about.X).Nanometres, (corner.Y - about.Y).Nanometres);
            return (Whole(about.X + new Position((x * cos) - (y * sin))), Whole(about.Y + new Position((x * sin) + (y * cos))));
        }
    }

    /// <summary>
    /// Whether paper of one lies on paper of the other, and the two do not merely touch. Of two outlines that both have notches or windows, those of the one
    /// with fewer corners count as paper.
    /// </summary>
    public bool Meets(LaidOutline other)
    {
        if (_bounds.Left >= other._bounds.Right || other._bounds.Left >= _bounds.Right || _bounds.Top >= other._bounds.Bottom || other._bounds.Top >= _bounds.Bottom)
        {
            return false;
        }

        return other._isConvex || (!_isConvex && other.Count <= Count) ? Meets(_contours, other) : Meets(other._contours, this);
    }

    private int Count => _contours.Sum(corners => corners.Length);

    private static bool Meets((long X, long Y)[][] contours, LaidOutline convex)
    {
        var hull = convex._isConvex ? convex._contours[0] : Hull(convex._contours.SelectMany(corners => corners));

        // The middle of the corners lies inside; it is whole where coordinates count as often as there are corners.
        var scale = hull.Length;
        var (middleX, middleY) = (hull.Sum(corner => corner.X), hull.Sum(corner => corner.Y));
        var inside = false;
        foreach (var corners in contours)
        {
            var (bx, by) = corners[^1];
            foreach (var corner in corners)
            {
                var (ax, ay) = (bx, by);
                (bx, by) = corner;
                if (Enters((ax, ay), (bx, by), hull, convex._bounds))
                {
                    return true;
                }

                if ((scale * ay > middleY) != (scale * by > middleY))
                {
                    // Left of the edge, by the sign of the cross product and the way the edge goes.
                    var side = ((Int128)(bx - ax) * (middleY - (scale * ay))) - ((Int128)(by - ay) * (middleX - (scale * ax)));
                    inside ^= by > ay ? side > 0 : side < 0;
                }
            }
        }

        // No edge enters it: it lies wholly on paper or wholly beside it.
        return inside;
    }

    // An edge and the inside of a convex shape share a point when the lines along neither the edge nor any side of the shape part them.
    private static bool Enters(
        (long X, long Y) a, (long X, long Y) b, (long X, long Y)[] hull, (long Left, long Top, long Right, long Bottom) bounds)
    {
        if (Math.Max(a.X, b.X) <= bounds.Left || Math.Min(a.X, b.X) >= bounds.Right || Math.Max(a.Y, b.Y) <= bounds.Top || Math.Min(a.Y, b.Y) >= bounds.Bottom)
        {
            return false;
        }

        var (least, most) = (Int128.MaxValue, Int128.MinValue);
        foreach (var corner in hull)
        {
            var side = Side(a, b, corner);
            (least, most) = (Int128.Min(least, side), Int128.Max(most, side));
        }

        var touching = JustTouching(a, b);
        if (least >= -touching || most <= touching)
        {
            return false;
        }

        var turn = Turn(hull);
        var from = hull[^1];
        foreach (var to in hull)
        {
            if (Int128.Max(turn * Side(from, to, a), turn * Side(from, to, b)) <= JustTouching(from, to))
            {
                return false;
            }

            from = to;
        }

        return true;
    }

    // Twice the area of the triangle: how far the corner lies beside the line, times the length of the line.
    private static Int128 Side((long X, long Y) a, (long X, long Y) b, (long X, long Y) corner) =>
        ((Int128)(b.X - a.X) * (corner.Y - a.Y)) - ((Int128)(b.Y - a.Y) * (corner.X - a.X));

    private static Int128 JustTouching((long X, long Y) a, (long X, long Y) b) => (Int128)Touching * (Math.Abs(b.X - a.X) + Math.Abs(b.Y - a.Y));

    // 1 where the inside of a convex shape lies at the positive side of its edges, -1 where it lies at the other.
    private static int Turn((long X, long Y)[] corners)
    {
        var area = Int128.Zero;
        for (var i = 2; i < corners.Length; i++)
        {
            area += Side(corners[0], corners[i - 1], corners[i]);
        }

        return Int128.Sign(area);
    }

    private static bool IsConvex((long X, long Y)[] corners)
    {
        var (isLeft, isRight) = (false, false);
        for (var i = 0; i < corners.Length; i++)
        {
            var side = Side(corners[i], corners[(i + 1) % corners.Length], corners[(i + 2) % corners.Length]);
            (isLeft, isRight) = (isLeft || side < 0, isRight || side > 0);
        }

        return isLeft != isRight;
    }

    // Andrew's monotone chain: A. M. Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information Processing Letters 9(5), 1979.
    private static (long X, long Y)[] Hull(IEnumerable<(long X, long Y)> corners)
    {
        var sorted = corners.Distinct().Order().ToList();
        return [.. Half(sorted), .. Half(Enumerable.Reverse(sorted))];

        static List<(long X, long Y)> Half(IEnumerable<(long X, long Y)> along)
        {
            var chain = new List<(long X, long Y)>();
            foreach (var corner in along)
            {
                while (chain.Count >= 2 && Side(chain[^2], chain[^1], corner) <= 0)
                {
                    chain.RemoveAt(chain.Count - 1);
                }

                chain.Add(corner);
            }

            return chain[..^1];
        }
    }

    private static IEnumerable<Point> Corners(Contour contour) => contour switch
    {
        PolygonContour polygon => polygon.Points,
        EllipseContour e => Round.Value.Select(turn => new Point(e.Centre.X + (e.RadiusX * turn.Cos), e.Centre.Y + (e.RadiusY * turn.Sin))),
        var other => throw new InvalidOperationException($"no corners are known for a {other.GetType().Name}"),
    };

    private static long Whole(Position position) => position.ToNearestNanometre().Nanometres;
}
