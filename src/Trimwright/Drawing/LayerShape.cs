using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>A layer as it lies, for finding what it covers. It decides where words and foam go and what is said, and no size.</summary>
internal sealed class LayerShape
{
    private const int Sides = 24;

    private readonly double _sin;
    private readonly double _cos;
    private readonly (double X, double Y) _centre;
    private readonly List<(List<(double X, double Y)>? Corners, (double X, double Y) Centre, (double X, double Y) Radii)> _contours = [];

    public LayerShape(FaceLayer layer)
    {
        Layer = layer;
        Area = Plane.Roughly(layer.BoundsAsLaid());
        (_sin, _cos) = (Plane.Roughly(layer.Tilt.Sin()), Plane.Roughly(layer.Tilt.Cos()));
        _centre = Rough(layer.Centre);
        foreach (var contour in layer.Outline.Contours)
        {
            _contours.Add(contour is EllipseContour e
                ? (null, Rough(e.Centre), (Plane.Roughly(e.RadiusX), Plane.Roughly(e.RadiusY)))
                : ([.. ((PolygonContour)contour).Points.Select(Rough)], default, default));
        }
    }

    public FaceLayer Layer { get; }

    /// <summary>The least upright area around it.</summary>
    public Area Area { get; }

    /// <summary>Whether a place lies on its paper.</summary>
    public bool Contains(double x, double y)
    {
        if (x <= Area.Left || x >= Area.Right || y <= Area.Top || y >= Area.Bottom)
        {
            return false;
        }

        // Turned back, so that the outline lies as it was before its tilt.
        var (dx, dy) = (x - _centre.X, y - _centre.Y);
        return ContainsUntilted(_centre.X + (dx * _cos) + (dy * _sin), _centre.Y - (dx * _sin) + (dy * _cos));
    }

    /// <summary>Whether a place lies on its paper as that lay before its tilt.</summary>
    public bool ContainsUntilted(double x, double y)
    {
        var inside = false;
        foreach (var (corners, centre, radii) in _contours)
        {
            inside ^= corners is null ? InEllipse(x, y, centre, radii) : InPolygon(x, y, corners);
        }

        return inside;
    }

    /// <summary>Whether some of its paper lies on another's: looked for on a raster of half a millimetre, so that a mere touch is none.</summary>
    /// <param name="other">The other.</param>
    /// <param name="between">What may lie between the two, or null: where it does, they do not meet.</param>
    public bool Covers(LayerShape other, LayerShape? between)
    {
        const double Step = 0.5;
        var (left, right) = (Math.Max(Area.Left, other.Area.Left), Math.Min(Area.Right, other.Area.Right));
        var (top, bottom) = (Math.Max(Area.Top, other.Area.Top), Math.Min(Area.Bottom, other.Area.Bottom));
        for (var y = top + (Step / 2); y < bottom; y += Step)
        {
            for (var x = left + (Step / 2); x < right; x += Step)
            {
                if (Contains(x, y) && other.Contains(x, y) && between?.Contains(x, y) != true)
                {
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>Its edges as it lies, as straight lines; a round edge as two dozen of them.</summary>
    public IEnumerable<(Spot Start, Spot End)> Edges()
    {
        foreach (var (corners, centre, radii) in _contours)
        {
            var around = corners ?? [.. Enumerable.Range(0, Sides).Select(Turn).Select(turn => (centre.X + (radii.X * turn.Cos), centre.Y + (radii.Y * turn.Sin)))];
            for (var i = 0; i < around.Count; i++)
            {
                yield return (AsLaid(around[i]), AsLaid(around[(i + 1) % around.Count]));
            }
        }
    }

    private static (double Sin, double Cos) Turn(int side)
    {
        var angle = new Angle(Rational.From(360 * side, Sides));
        return (Plane.Roughly(angle.Sin()), Plane.Roughly(angle.Cos()));
    }

    private Spot AsLaid((double X, double Y) place)
    {
        var (dx, dy) = (place.X - _centre.X, place.Y - _centre.Y);
        return new(_centre.X + (dx * _cos) - (dy * _sin), _centre.Y + (dx * _sin) + (dy * _cos));
    }

    private static (double X, double Y) Rough(Point point) => (Plane.Roughly(point.X), Plane.Roughly(point.Y));

    private static bool InEllipse(double x, double y, (double X, double Y) centre, (double X, double Y) radii)
    {
        var (u, v) = ((x - centre.X) / radii.X, (y - centre.Y) / radii.Y);
        return (u * u) + (v * v) < 1;
    }

    private static bool InPolygon(double x, double y, List<(double X, double Y)> corners)
    {
        var inside = false;
        for (var i = 0; i < corners.Count; i++)
        {
            var (a, b) = (corners[i], corners[(i + 1) % corners.Count]);
            if ((a.Y > y) != (b.Y > y) && x < a.X + ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y)))
            {
                inside = !inside;
            }
        }

        return inside;
    }
}
