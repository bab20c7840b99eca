using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using NetTopologySuite.Operation.Distance;
using NetTopologySuite.Operation.Valid;
using NetTopologySuite.Precision;
using NetTopologySuite.Simplify;
using Trimwright.Measures;
using LibraryPolygon = NetTopologySuite.Geometries.Polygon;
using Length = Trimwright.Measures.Length;
using Position = Trimwright.Measures.Position;

namespace Trimwright.Geometry;

/// <summary>
/// The one file that knows the polygon library. It serves outlines that come from pictures, with thousands of corners; what is cut on a
/// trimmer never passes through here. Why it is here at all stands in docs/decisions, under outlines of pictures.
/// </summary>
internal static class PolygonLibrary
{
    // How far the chords of a rounded corner may lie inside it: 2 micrometres, a fiftieth of a sheet of paper.
    private const double MostChord = 2_000;

    // Corners no further than this from the line without them are left out; a blade would not notice them.
    private const double LeftOut = 1_500;

    // Results are brought to whole micrometres. The library computes in floating point, whose last digits differ from machine to machine.
    private static readonly PrecisionModel Micrometres = new(1.0 / 1_000);

    /// <summary>Whether closed lines, the outer one first, neither touch nor cross themselves or one another.</summary>
    public static bool IsSimple(IEnumerable<(long X, long Y)[]> rings)
    {
        var factory = GeometryFactory.Default;
        var loops = rings.Select(ring => factory.CreateLinearRing(
            [.. ring.Append(ring[0]).Select(point => new Coordinate(point.X, point.Y))])).ToArray();
        return new IsValidOp(factory.CreatePolygon(loops[0], loops[1..])).IsValid;
    }

    /// <summary>
    /// The shapes moved out by a margin with rounded corners; notches narrower than twice the closing radius are filled, but nowhere
    /// further than the most beyond the margin. Holes are filled. The largest first, clockwise, to the nearest micrometre.
    /// </summary>
    public static (IReadOnlyList<PolygonContour> Contours, Length Widest) GrowRounded(
        IEnumerable<PolygonContour> shapes, Length margin, Length closing, Length most)
    {
        var factory = GeometryFactory.Default;
        var core = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(
            shapes.Select(shape => (NetTopologySuite.Geometries.Geometry)factory.CreatePolygon(Ring(factory, shape))).ToList());
        var grown = Buffer(core, margin + closing);
        if (!closing.IsZero)
        {
            // Moved out and back in, the border loses its notches and keeps its convex corners.
            grown = Buffer(grown, -closing).Intersection(Buffer(core, margin + most));
        }

        var plain = TopologyPreservingSimplifier.Simplify(Filled(factory, grown), LeftOut);
        var snapped = GeometryPrecisionReducer.Reduce(plain, Micrometres);
        var polygons = Enumerable.Range(0, snapped.NumGeometries).Select(snapped.GetGeometryN).OfType<LibraryPolygon>()
            .OrderByDescending(polygon => polygon.Area)
            .ThenBy(polygon => polygon.EnvelopeInternal.MinY).ThenBy(polygon => polygon.EnvelopeInternal.MinX).ToList();
        var distances = new IndexedFacetDistance(core);
        var widest = polygons.SelectMany(polygon => polygon.ExteriorRing.Coordinates)
            .Max(corner => distances.Distance(factory.CreatePoint(corner)));
        return ([.. polygons.Select(Contour)], Length.FromNanometres((long)Math.Ceiling(widest)));
    }

    private static NetTopologySuite.Geometries.Geometry Buffer(NetTopologySuite.Geometries.Geometry shape, Length by)
    {
        double distance = by.Nanometres;
        var parameters = new BufferParameters
        {
            JoinStyle = JoinStyle.Round,
            QuadrantSegments = Segments(Math.Abs(distance)),

            // Left alone, the library leaves corners out up to a hundredth of the distance.
            SimplifyFactor = Math.Min(0.01, MostChord / Math.Max(1, Math.Abs(distance))),
        };
        return BufferOp.Buffer(shape, distance, parameters);
    }

    // A chord over the angle a of a circle of radius r lies r (1 - cos (a/2)) inside it, which is less than r a^2 / 8.
    private static int Segments(double radius) =>
        Math.Clamp((int)Math.Ceiling(Math.PI / 2 / Math.Sqrt(8 * MostChord / Math.Max(radius, MostChord))), 2, 200);

    private static NetTopologySuite.Geometries.Geometry Filled(GeometryFactory factory, NetTopologySuite.Geometries.Geometry shape) =>
        NetTopologySuite.Operation.Union.UnaryUnionOp.Union(
            Enumerable.Range(0, shape.NumGeometries).Select(shape.GetGeometryN).OfType<LibraryPolygon>()
                .Select(polygon => (NetTopologySuite.Geometries.Geometry)factory.CreatePolygon(polygon.Shell)).ToList());

    private static LinearRing Ring(GeometryFactory factory, PolygonContour contour) => factory.CreateLinearRing(
        [.. contour.Points.Append(contour.Points[0]).Select(point =>
            new Coordinate(point.X.ToNearestNanometre().Nanometres, point.Y.ToNearestNanometre().Nanometres))]);

    // Clockwise with y downwards is what the library, whose y grows upwards, calls anticlockwise.
    private static PolygonContour Contour(LibraryPolygon polygon)
    {
        var corners = polygon.ExteriorRing.Coordinates[..^1];
        if (!Orientation.IsCCW(polygon.ExteriorRing.CoordinateSequence))
        {
            Array.Reverse(corners);
        }

        return new([.. corners.Select(corner => new Point(Whole(corner.X), Whole(corner.Y)))]);
    }

    private static Position Whole(double nanometres) => Position.FromLength(Length.FromNanometres((long)Math.Round(nanometres / 1_000) * 1_000));
}
