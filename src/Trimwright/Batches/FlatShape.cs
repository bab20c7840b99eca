using System.Numerics;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>
/// An outline as a seam sees it: <c>u</c> across the seam, <c>v</c> along it, in nanometres. For seams that run up and down those are x and y; for
/// seams that run across they change places, which turns no inside out.
/// </summary>
internal sealed class FlatShape
{
    private readonly List<List<(Rational U, Rational V)>> _polygons = [];
    private readonly List<FlatEllipse> _holes = [];
    private readonly FlatEllipse? _ellipse;

    // What sine and cosine are wrong by moves no corner of a card by as much: they are right to 10^-12, and no card is 1000 m wide.
    private readonly Rational _slack;

    private FlatShape(Outline outline, Angle tilt, Point centre, Axis direction)
    {
        _slack = tilt.IsZero ? Rational.Zero : Rational.One;
        var (sin, cos) = (tilt.Sin(), tilt.Cos());
        for (var n = 0; n < outline.Contours.Count; n++)
        {
            switch (outline.Contours[n])
            {
                case PolygonContour polygon:
                    _polygons.Add([.. polygon.Points.Select(Placed)]);
                    break;
                case EllipseContour ellipse:
                    var (u, v) = Placed(ellipse.Centre);
                    var (first, second) = (ellipse.RadiusX.Nanometres, ellipse.RadiusY.Nanometres);
                    var placed = direction == Axis.UpDown ? new FlatEllipse(u, v, first, second, sin, cos) : new(u, v, second, first, -sin, cos);
                    if (n == 0)
                    {
                        _ellipse = placed;
                    }
                    else
                    {
                        _holes.Add(placed);
                    }

                    break;
                default:
                    throw new InvalidOperationException($"no seam is hidden by a {outline.Contours[n].GetType().Name}");
            }
        }

        (Rational U, Rational V) Placed(Point point)
        {
            var (dx, dy) = (point.X.Nanometres - centre.X.Nanometres, point.Y.Nanometres - centre.Y.Nanometres);
            var x = centre.X.Nanometres + (dx * cos) - (dy * sin);
            var y = centre.Y.Nanometres + (dx * sin) + (dy * cos);
            return direction == Axis.UpDown ? (x, y) : (y, x);
        }
    }

    /// <summary>The shape of an outline.</summary>
    /// <param name="outline">The outline before it is tilted.</param>
    /// <param name="tilt">Its turn.</param>
    /// <param name="centre">What it is turned about.</param>
    /// <param name="direction">Which way the seam runs.</param>
    public static FlatShape Of(Outline outline, Angle tilt, Point centre, Axis direction) => new(outline, tilt, centre, direction);

    /// <summary>The stretches along the seam that the shape covers straight across, from <paramref name="a"/> to <paramref name="b"/>.</summary>
    public IEnumerable<(Rational From, Rational To)> Across(Rational a, Rational b)
    {
        (a, b) = (a - _slack, b + _slack);
        var edges = _polygons.SelectMany(polygon => Edges(polygon, a, b)).Concat(_holes.Select(hole => hole.Around(a, b)).OfType<(Rational, Rational)>())
            .Order().ToList();
        if (_ellipse is { } ellipse)
        {
            if (ellipse.Across(a, b) is not var (from, to))
            {
                yield break;
            }

            edges = [(from, from), .. edges, (to, to)];
            edges.Sort();
            edges.RemoveAll(edge => edge.Item2 < from || edge.Item1 > to);
        }

        // Between two edges the whole way across is inside or the whole way across is not.
        var middle = (a + b) / 2;
        for (var (n, end) = (1, edges.Count == 0 ? Rational.Zero : edges[0].Item2); n < edges.Count; end = edges[n].Item2 > end ? edges[n].Item2 : end, n++)
        {
            var (from, to) = (end + _slack, edges[n].Item1 - _slack);
            if (from < to && IsInside(middle, (from + to) / 2))
            {
                yield return (from, to);
            }
        }
    }

    /// <summary>From where to where across the seam it is, if it is one upright rectangle that goes from end to end; else null.</summary>
    public (Rational Left, Rational Right)? Along(Rational from, Rational to)
    {
        if (!_slack.IsZero || _ellipse is not null || _polygons is not [{ Count: 4 } corners])
        {
            return null;
        }

        var (left, right) = (corners.Min(corner => corner.U), corners.Max(corner => corner.U));
        return corners.Min(corner => corner.V) <= from && corners.Max(corner => corner.V) >= to && corners.TrueForAll(corner => corner.U == left || corner.U == right)
            ? (left, right)
            : null;
    }

    // Edges that only touch the ends of the way across leave it whole.
    private static IEnumerable<(Rational From, Rational To)> Edges(List<(Rational U, Rational V)> polygon, Rational a, Rational b)
    {
        for (var n = 0; n < polygon.Count; n++)
        {
            var (p, q) = (polygon[n], polygon[(n + 1) % polygon.Count]);
            (p, q) = p.U <= q.U ? (p, q) : (q, p);
            if (q.U <= a || p.U >= b)
            {
                continue;
            }

            var (start, end) = p.U == q.U ? (p.V, q.V) : (VAt(p, q, a > p.U ? a : p.U), VAt(p, q, b < q.U ? b : q.U));
            yield return start <= end ? (start, end) : (end, start);
        }
    }

    private static Rational VAt((Rational U, Rational V) p, (Rational U, Rational V) q, Rational u) => p.V + ((q.V - p.V) * ((u - p.U) / (q.U - p.U)));

    private bool IsInside(Rational u, Rational v)
    {
        var inside = _ellipse is not null;
        foreach (var polygon in _polygons)
        {
            for (var n = 0; n < polygon.Count; n++)
            {
                var (p, q) = (polygon[n], polygon[(n + 1) % polygon.Count]);
                if (p.U > u != q.U > u && VAt(p, q, u) > v)
                {
                    inside = !inside;
                }
            }
        }

        return inside != _holes.Exists(hole => hole.Slice(u) is var (from, to) && from < v && v < to);
    }
}

/// <summary>
/// An ellipse with its centre, its radii along its own axes and its turn. A point at (u, v) from its centre is inside where
/// A v^2 + 2 B u v + C u^2 is at most 1, with A = s^2/r1^2 + c^2/r2^2, B = s c (1/r1^2 - 1/r2^2), C = c^2/r1^2 + s^2/r2^2.
/// </summary>
internal readonly record struct FlatEllipse(Rational U, Rational V, Rational First, Rational Second, Rational Sin, Rational Cos)
{
    /// <summary>The stretch that is inside straight across; an ellipse bulges outwards, so the ends of the way decide.</summary>
    public (Rational From, Rational To)? Across(Rational a, Rational b) =>
        Slice(a) is var (from, to) && Slice(b) is var (otherFrom, otherTo) && Max(from, otherFrom) is var start && Min(to, otherTo) is var end && start < end
            ? (start, end)
            : null;

    /// <summary>A stretch that holds all of it that lies between two ends; null where none does.</summary>
    public (Rational From, Rational To)? Around(Rational a, Rational b)
    {
        var radius = First > Second ? First : Second;
        return U + radius <= a || U - radius >= b ? null : (V - radius, V + radius);
    }

    /// <summary>The stretch that is inside at one place across the seam, rounded to less by a nanometre at most.</summary>
    public (Rational From, Rational To)? Slice(Rational u)
    {
        var du = u - U;
        var (one, two) = (Rational.One / (First * First), Rational.One / (Second * Second));
        var a = (Sin * Sin * one) + (Cos * Cos * two);
        var b = Sin * Cos * (one - two);
        var c = (Cos * Cos * one) + (Sin * Sin * two);
        var square = ((b * b * du * du) - (a * ((c * du * du) - 1))) / (a * a);
        if (square.Sign < 0)
        {
            return null;
        }

        var half = Rational.From(Root(square.Floor()), 1);
        var middle = V - (b * du / a);
        return (middle - half, middle + half);
    }

    // Newton's method from above, in whole numbers: the last one that does not fall is the root rounded down.
    private static BigInteger Root(BigInteger square)
    {
        if (square.IsZero)
        {
            return square;
        }

        var root = BigInteger.One << (int)((square.GetBitLength() + 1) / 2);
        while (true)
        {
            var next = (root + (square / root)) / 2;
            if (next >= root)
            {
                return root;
            }

            root = next;
        }
    }

    private static Rational Max(Rational a, Rational b) => a >= b ? a : b;

    private static Rational Min(Rational a, Rational b) => a <= b ? a : b;
}
