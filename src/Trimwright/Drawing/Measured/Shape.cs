using Trimwright.Geometry;

namespace Trimwright.Drawing.Measured;

/// <summary>A layer as it lies, in millimetres, for deciding where words go.</summary>
internal sealed class Shape
{
    private const int EllipseCorners = 48;

    private readonly Spot[][] _contours;
    private readonly bool _isUpright;

    /// <summary>The shape of a layer, with the sine and the cosine of its tilt.</summary>
    public Shape(FaceLayer layer, (double Sin, double Cos) turn)
    {
        Layer = layer;
        var (sin, cos) = (Sin, Cos) = turn;
        var centre = Plane.Roughly(layer.Centre);
        var contours = layer.Outline.Contours;
        _contours = new Spot[contours.Count][];
        for (var i = 0; i < contours.Count; i++)
        {
            _contours[i] = CornersOf(contours[i]);
            for (var k = 0; k < _contours[i].Length && !layer.Tilt.IsZero; k++)
            {
                var (x, y) = (_contours[i][k].X - centre.X, _contours[i][k].Y - centre.Y);
                _contours[i][k] = new(centre.X + (x * cos) - (y * sin), centre.Y + (x * sin) + (y * cos));
            }
        }

        Area = AreaOf(_contours[0]);
        Holes = [.. _contours.Skip(1).Select(AreaOf)];
        _isUpright = layer.Tilt.IsZero && _contours.Length == 1 && contours[0] is PolygonContour { Points.Count: 4 } polygon
            && polygon.Points[0].Y == polygon.Points[1].Y && polygon.Points[1].X == polygon.Points[2].X
            && polygon.Points[2].Y == polygon.Points[3].Y && polygon.Points[3].X == polygon.Points[0].X;
    }

    /// <summary>The layer.</summary>
    public FaceLayer Layer { get; }

    /// <summary>The least upright area around it.</summary>
    public Area Area { get; }

    /// <summary>The least upright areas around its holes.</summary>
    public IReadOnlyList<Area> Holes { get; }

    /// <summary>The sine of its tilt.</summary>
    public double Sin { get; }

    /// <summary>The cosine of its tilt.</summary>
    public double Cos { get; }

    /// <summary>The edges of all its contours; ellipses as many short ones.</summary>
    public IEnumerable<(Spot Start, Spot End)> Edges()
    {
        foreach (var corners in _contours)
        {
            for (var i = 0; i < corners.Length; i++)
            {
                yield return (corners[i], corners[(i + 1) % corners.Length]);
            }
        }
    }

    /// <summary>Whether any edge meets an area.</summary>
    public bool HasEdgeIn(Area area)
    {
        if (!Area.Meets(area))
        {
            return false;
        }

        foreach (var (start, end) in Edges())
        {
            if (area.Meets(start, end))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Adds the stretches of a level line that lie in the shape, from left to right.</summary>
    public void AddInside(double y, List<(double From, double To)> stretches)
    {
        if (y <= Area.Top || y >= Area.Bottom)
        {
            return;
        }

        if (_isUpright)
        {
            stretches.Add((Area.Left, Area.Right));
            return;
        }

        Span<double> crossings = stackalloc double[16];
        var count = 0;
        foreach (var corners in _contours)
        {
            for (var i = 0; i < corners.Length && count < crossings.Length; i++)
            {
                var (a, b) = (corners[i], corners[i + 1 == corners.Length ? 0 : i + 1]);
                if ((a.Y > y) != (b.Y > y))
                {
                    crossings[count++] = a.X + ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y));
                }
            }
        }

        crossings[..count].Sort();
        for (var i = 0; i + 1 < count; i += 2)
        {
            stretches.Add((crossings[i], crossings[i + 1]));
        }
    }

    private static Area AreaOf(Spot[] corners)
    {
        var area = new Area(double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        foreach (var corner in corners)
        {
            area = area.Around(new(corner.X, corner.Y, corner.X, corner.Y));
        }

        return area;
    }

    private static Spot[] CornersOf(Contour contour)
    {
        if (contour is EllipseContour ellipse)
        {
            var (centre, x, y) = (Plane.Roughly(ellipse.Centre), Plane.Roughly(ellipse.RadiusX), Plane.Roughly(ellipse.RadiusY));
            var corners = new Spot[EllipseCorners];
            for (var i = 0; i < EllipseCorners; i++)
            {
                corners[i] = new(centre.X + (x * Circle[i].X), centre.Y + (y * Circle[i].Y));
            }

            return corners;
        }

        var points = ((PolygonContour)contour).Points;
        var spots = new Spot[points.Count];
        for (var i = 0; i < spots.Length; i++)
        {
            spots[i] = Plane.Roughly(points[i]);
        }

        return spots;
    }

    // The unit circle by turning step by step with the exact sine and cosine that all machines agree on.
    private static readonly Spot[] Circle =
    [
        .. Enumerable.Range(0, EllipseCorners).Select(i =>
        {
            var angle = new Measures.Angle(Measures.Rational.From(360 * i, EllipseCorners));
            return new Spot(Plane.Roughly(angle.Cos()), Plane.Roughly(angle.Sin()));
        }),
    ];
}
