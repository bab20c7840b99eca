using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>Outlines moved out by a margin: the shape of a mat behind a piece.</summary>
/// <remarks>
/// Every edge moves out by the margin along its normal and the moved edges meet in sharp (mitred) corners: with the unit normals
/// n1 and n2 of the edges at a corner, it moves by margin * (n1 + n2) / (1 + n1.n2), which is the one point at that distance from
/// both edges. An ellipse becomes the ellipse with both radii longer, which is how nested ovals are sold: the margin is exact on both
/// axes and, between them, the true parallel curve differs from it. The edges of a polygon that turn inwards are kept, so the outline
/// must not have a notch with upright walls that the margin would close; no piece has one.
/// </remarks>
public static class OutlineOffset
{
    // Unit normals are good to 40 decimals, so the nearest whole nanometre is the true one for any card.
    private static readonly BigInteger RootScale = BigInteger.Pow(10, 40);

    /// <summary>Moves the outer contour out and drops the holes, since a mat is solid.</summary>
    /// <param name="outline">The outline.</param>
    /// <param name="margin">The margin on every side; not negative.</param>
    /// <returns>
    /// The outline. Corners between slanted edges lie on the nearest whole nanometre from where they were; whatever borders an upright
    /// or level edge is exact in that direction.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The margin is negative.</exception>
    public static Outline Grow(Outline outline, Position margin)
    {
        if (margin < default(Position))
        {
            throw new ArgumentOutOfRangeException(nameof(margin), margin, "a mat is not smaller than what it carries");
        }

        return new([outline.Contours[0] switch
        {
            EllipseContour ellipse => ellipse with { RadiusX = ellipse.RadiusX + margin, RadiusY = ellipse.RadiusY + margin },
            PolygonContour polygon => new PolygonContour(Grow(polygon.Points, margin)),
            var other => throw new ArgumentException($"cannot move a {other.GetType().Name} out", nameof(outline)),
        }]);
    }

    private static Point[] Grow(IReadOnlyList<Point> points, Position margin)
    {
        var clockwise = IsClockwise(points);
        var normals = new Normal[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            normals[i] = OutwardNormal(points[i], points[(i + 1) % points.Count], clockwise);
        }

        var grown = new Point[points.Count];
        for (var i = 0; i < points.Count; i++)
        {
            var (before, after) = (normals[(i + points.Count - 1) % points.Count], normals[i]);
            var stretch = margin.Nanometres / (1 + (before.X * after.X) + (before.Y * after.Y));
            var x = stretch * (before.X + after.X);
            var y = stretch * (before.Y + after.Y);
            grown[i] = points[i].Moved(
                new(before.Y.IsZero || after.Y.IsZero ? x : NearestWhole(x)),
                new(before.X.IsZero || after.X.IsZero ? y : NearestWhole(y)));
        }

        return grown;
    }

    private readonly record struct Normal(Rational X, Rational Y);

    private static Normal OutwardNormal(Point from, Point to, bool clockwise)
    {
        var (dx, dy) = ((to.X - from.X).Nanometres, (to.Y - from.Y).Nanometres);
        if (dx.IsZero || dy.IsZero)
        {
            // Walking clockwise on the card (y down), the outside lies to the left: (dy, -dx).
            var level = new Normal(dy.Sign, -dx.Sign);
            return clockwise ? level : new(-level.X, -level.Y);
        }

        var common = dx.Denominator * dy.Denominator;
        var x = dx.Numerator * dy.Denominator;
        var y = dy.Numerator * dx.Denominator;
        var divisor = BigInteger.GreatestCommonDivisor(common, BigInteger.GreatestCommonDivisor(x, y));
        (x, y) = (x / divisor, y / divisor);
        var length = SquareRoot(((x * x) + (y * y)) * RootScale * RootScale);
        var (nx, ny) = (Rational.From(y * RootScale, length), Rational.From(-x * RootScale, length));
        return clockwise ? new(nx, ny) : new(-nx, -ny);
    }

    private static bool IsClockwise(IReadOnlyList<Point> points)
    {
        // Twice the area by the shoelace formula; positive is clockwise because y grows downwards.
        var doubled = Rational.Zero;
        for (var i = 0; i < points.Count; i++)
        {
            var (a, b) = (points[i], points[(i + 1) % points.Count]);
            doubled += (a.X.Nanometres * b.Y.Nanometres) - (b.X.Nanometres * a.Y.Nanometres);
        }

        return doubled.Sign > 0;
    }

    /// <summary>Halves go away from zero, so that a mirrored outline grows into the mirrored mat.</summary>
    private static Rational NearestWhole(Rational value)
    {
        var whole = Rational.From((value.Abs() + Rational.From(1, 2)).Floor(), 1);
        return value.Sign < 0 ? -whole : whole;
    }

    /// <summary>The whole square root, rounded down, by Newton's iteration from above.</summary>
    private static BigInteger SquareRoot(BigInteger value)
    {
        var root = BigInteger.One << (int)((value.GetBitLength() + 1) / 2);
        while (true)
        {
            var next = (root + (value / root)) >> 1;
            if (next >= root)
            {
                return root;
            }

            root = next;
        }
    }
}
