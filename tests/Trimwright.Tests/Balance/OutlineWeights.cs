using NetTopologySuite.Geometries;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Images;
using Shape = NetTopologySuite.Geometries.Geometry;

namespace Trimwright.Tests.Balance;

/// <summary>
/// Weighs a card of flat papers a second way: by the areas and centroids of what shows of each outline, clipped by a polygon library, with
/// no pixel and nothing of the engine's own code but the fitted outlines.
/// </summary>
internal static class OutlineWeights
{
    private static readonly GeometryFactory Factory = new();

    /// <summary>100 dx, 100 dy and the eight terms, against a light ground.</summary>
    public static (double Dx, double Dy, double[] Terms) Of(FittedCard card)
    {
        var (width, height) = ((double)card.Width.Nanometres, (double)card.Height.Nanometres);
        Shape square = Polygon([(0, 0), (1, 0), (1, 1), (0, 1)]);
        var sheets = new List<(Shape Shape, double Mass)> { (square, Mass(card, card.Layout.Base.Paper)) };
        foreach (var piece in card.Pieces)
        {
            foreach (var mat in piece.Mats.Reverse())
            {
                sheets.Add((Laid(mat.Outline, piece, width, height), Mass(card, mat.Source.Paper)));
            }

            sheets.Add((Laid(piece.Outline, piece, width, height), Mass(card, piece.Source.Paper)));
        }

        var open = square;
        var visible = new List<(Shape Shape, double Mass)>();
        foreach (var (shape, mass) in Enumerable.Reverse(sheets))
        {
            visible.Add((open.Intersection(shape), mass));
            open = open.Difference(shape);
        }

        var total = visible.Sum(part => part.Shape.Area * part.Mass);
        var x = visible.Sum(part => part.Shape.Area * part.Mass * (part.Shape.IsEmpty ? 0 : part.Shape.Centroid.X)) / total;
        var y = visible.Sum(part => part.Shape.Area * part.Mass * (part.Shape.IsEmpty ? 0 : part.Shape.Centroid.Y)) / total;
        var terms = Areas().Select(area =>
            Math.Abs((2 * visible.Sum(part => part.Shape.Intersection(area).Area * part.Mass)) - total) / total * 100).ToArray();
        return (50 - (100 * x), 50 - (100 * y), terms);
    }

    private static IEnumerable<Shape> Areas()
    {
        var k = 1 - Math.Sqrt(0.5);
        yield return Polygon([(0, 0), (0.5, 0), (0.5, 1), (0, 1)]);
        yield return Polygon([(0.25, 0), (0.75, 0), (0.75, 1), (0.25, 1)]);
        yield return Polygon([(0, 0), (1, 0), (1, 0.5), (0, 0.5)]);
        yield return Polygon([(0, 0.25), (1, 0.25), (1, 0.75), (0, 0.75)]);
        yield return Polygon([(0, 0), (1, 1), (0, 1)]);
        yield return Polygon([(0, 0), (k, 0), (1, 1 - k), (1, 1), (1 - k, 1), (0, k)]);
        yield return Polygon([(0, 0), (1, 0), (0, 1)]);
        yield return Polygon([(1, 0), (1, k), (k, 1), (0, 1), (0, 1 - k), (1 - k, 0)]);
    }

    // IEC 61966-2-1 and ITU-R BT.709, in floating point.
    private static double Mass(FittedCard card, string paper)
    {
        var colour = card.Layout.PaperNamed(paper).Colour;
        return 1 - ((0.2126 * Light(colour.Red)) + (0.7152 * Light(colour.Green)) + (0.0722 * Light(colour.Blue)));
        static double Light(byte value) => value / 255.0 is var c && c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
    }

    private static Shape Laid(Trimwright.Geometry.Outline outline, FittedPiece piece, double width, double height)
    {
        var shape = outline.Contours.Select(contour => (Shape)Polygon([.. Points(contour).Select(point => Turned(point))]))
            .Aggregate((outer, hole) => outer.Difference(hole));
        return shape;

        (double, double) Turned((double X, double Y) point)
        {
            var angle = piece.Source.Tilt.Degrees.ToDouble() * Math.PI / 180;
            var (cx, cy) = (piece.Box.Centre.X.Nanometres.ToDouble(), piece.Box.Centre.Y.Nanometres.ToDouble());
            var (dx, dy) = (point.X - cx, point.Y - cy);
            return ((cx + (dx * Math.Cos(angle)) - (dy * Math.Sin(angle))) / width, (cy + (dx * Math.Sin(angle)) + (dy * Math.Cos(angle))) / height);
        }
    }

    private static IEnumerable<(double X, double Y)> Points(Trimwright.Geometry.Contour contour) => contour switch
    {
        Trimwright.Geometry.EllipseContour e => Enumerable.Range(0, 4000).Select(i => (
            e.Centre.X.Nanometres.ToDouble() + (e.RadiusX.Nanometres.ToDouble() * Math.Cos(i * Math.PI / 2000)),
            e.Centre.Y.Nanometres.ToDouble() + (e.RadiusY.Nanometres.ToDouble() * Math.Sin(i * Math.PI / 2000)))),
        var polygon => TracingTests.Points(polygon),
    };

    private static Polygon Polygon((double X, double Y)[] corners) =>
        Factory.CreatePolygon([.. corners.Append(corners[0]).Select(corner => new Coordinate(corner.X, corner.Y))]);
}
