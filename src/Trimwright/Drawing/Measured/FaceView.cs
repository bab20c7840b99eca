using Trimwright.Geometry;

namespace Trimwright.Drawing.Measured;

/// <summary>What can be seen of every layer from above, for finding where a leader may end.</summary>
internal sealed class FaceView
{
    private readonly Shape[] _shapes;

    /// <summary>Looks at layers, from the bottom up.</summary>
    public FaceView(IReadOnlyList<FaceLayer> layers) => _shapes = [.. layers.Select(layer => new Shape(layer))];

    /// <summary>
    /// Places on a layer where a dot is surely seen to belong to it: some way from every edge that can be seen. Where the layer is
    /// hidden altogether, its centre.
    /// </summary>
    public IReadOnlyList<Spot> PlacesOn(FaceLayer layer)
    {
        var shape = _shapes.First(one => one.Layer == layer);
        var area = shape.Area;
        var step = Math.Clamp(Math.Min(area.Right - area.Left, area.Bottom - area.Top) / 9, 0.5, 2.5);
        foreach (var clear in (double[])[1.8, 1.2, 0.7])
        {
            var places = Grid(area, step).Where(spot => IsClear(shape, spot, clear)).ToArray();
            if (places.Length > 0)
            {
                return places;
            }
        }

        return [new(Plane.Roughly(layer.Centre.X), Plane.Roughly(layer.Centre.Y))];
    }

    /// <summary>How far a line runs over what lies above the layer, in millimetres: there it would seem to speak of something else.</summary>
    public double RunOverHigher(FaceLayer layer, Spot from, Spot to)
    {
        const double Step = 2;
        var higher = _shapes.AsSpan(Array.FindIndex(_shapes, shape => shape.Layer == layer) + 1);
        var steps = (int)(from.To(to) / Step);
        var over = 0;
        for (var i = 1; i < steps; i++)
        {
            var share = (double)i / steps;
            var (x, y) = (from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y)));
            foreach (var shape in higher)
            {
                if (shape.Contains(x, y))
                {
                    over++;
                    break;
                }
            }
        }

        return over * Step;
    }

    private static IEnumerable<Spot> Grid(Area area, double step)
    {
        for (var y = area.Top + (step / 2); y < area.Bottom; y += step)
        {
            for (var x = area.Left + (step / 2); x < area.Right; x += step)
            {
                yield return new(x, y);
            }
        }
    }

    private bool IsClear(Shape shape, Spot spot, double clear)
    {
        var diagonal = clear * 0.7071;
        return Top(spot.X, spot.Y) == shape && Top(spot.X - clear, spot.Y) == shape && Top(spot.X + clear, spot.Y) == shape
            && Top(spot.X, spot.Y - clear) == shape && Top(spot.X, spot.Y + clear) == shape
            && Top(spot.X - diagonal, spot.Y - diagonal) == shape && Top(spot.X + diagonal, spot.Y - diagonal) == shape
            && Top(spot.X - diagonal, spot.Y + diagonal) == shape && Top(spot.X + diagonal, spot.Y + diagonal) == shape;
    }

    private Shape? Top(double x, double y) => Array.FindLast(_shapes, shape => shape.Contains(x, y));

    private sealed class Shape
    {
        private readonly double _sin;
        private readonly double _cos;
        private readonly Spot _centre;
        private readonly IReadOnlyList<(Spot[]? Corners, Spot Centre, Spot Radii)> _contours;

        public Shape(FaceLayer layer)
        {
            Layer = layer;
            Area = Plane.Roughly(layer.BoundsAsLaid());
            _sin = Plane.Roughly(layer.Tilt.Sin());
            _cos = Plane.Roughly(layer.Tilt.Cos());
            _centre = Rough(layer.Centre);
            _contours =
            [
                .. layer.Outline.Contours.Select(contour => contour is EllipseContour e
                    ? ((Spot[]?)null, Rough(e.Centre), new Spot(Plane.Roughly(e.RadiusX), Plane.Roughly(e.RadiusY)))
                    : ([.. ((PolygonContour)contour).Points.Select(Rough)], default, default)),
            ];
        }

        public FaceLayer Layer { get; }

        public Area Area { get; }

        public bool Contains(double x, double y)
        {
            if (x < Area.Left || x > Area.Right || y < Area.Top || y > Area.Bottom)
            {
                return false;
            }

            // Turned back, so that the outline lies as it was before its tilt.
            var (dx, dy) = (x - _centre.X, y - _centre.Y);
            var spot = new Spot(_centre.X + (dx * _cos) + (dy * _sin), _centre.Y - (dx * _sin) + (dy * _cos));
            var inside = false;
            foreach (var (corners, centre, radii) in _contours)
            {
                inside ^= corners is null ? InEllipse(spot, centre, radii) : InPolygon(spot, corners);
            }

            return inside;
        }

        private static Spot Rough(Point point) => new(Plane.Roughly(point.X), Plane.Roughly(point.Y));

        private static bool InEllipse(Spot spot, Spot centre, Spot radii)
        {
            var (x, y) = ((spot.X - centre.X) / radii.X, (spot.Y - centre.Y) / radii.Y);
            return (x * x) + (y * y) < 1;
        }

        private static bool InPolygon(Spot spot, Spot[] corners)
        {
            var inside = false;
            for (var i = 0; i < corners.Length; i++)
            {
                var (a, b) = (corners[i], corners[(i + 1) % corners.Length]);
                if ((a.Y > spot.Y) != (b.Y > spot.Y) && spot.X < a.X + ((b.X - a.X) * (spot.Y - a.Y) / (b.Y - a.Y)))
                {
                    inside = !inside;
                }
            }

            return inside;
        }
    }
}
