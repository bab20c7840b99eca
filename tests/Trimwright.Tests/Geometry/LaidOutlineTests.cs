using NetTopologySuite.Geometries;
using Trimwright.Geometry;
using Trimwright.Measures;
using Outline = Trimwright.Geometry.Outline;
using Position = Trimwright.Measures.Position;

namespace Trimwright.Tests.Geometry;

public class LaidOutlineTests
{
    // An arrow to the left: there is room above and below its point, within its box.
    private static readonly Outline Arrow = Shape((0, 50), (60, 0), (60, 100));

    [Theory]
    [InlineData(0, 0, 20, 20, false)]    // in the corner of its box, beside it
    [InlineData(0, 0, 35, 35, true)]     // reaching over its edge
    [InlineData(30, 40, 50, 60, true)]   // all on it
    [InlineData(-10, -10, 80, 110, true)] // all around it
    [InlineData(60, 0, 90, 100, false)]  // edge to edge
    [InlineData(0, 0, 30, 25, false)]    // a corner on its edge
    [InlineData(-10, 45, 5, 55, true)]   // its point alone
    public void A_box_meets_an_outline_where_they_share_paper(int left, int top, int right, int bottom, bool meet) =>
        Assert.Equal(meet, Meets(Arrow, At(left, top, right, bottom)));

    [Fact]
    public void A_box_in_a_hole_meets_nothing()
    {
        var ring = new Outline([.. Shape((0, 0), (100, 0), (100, 100), (0, 100)).Contours, .. Shape((20, 20), (20, 80), (80, 80), (80, 20)).Contours]);
        Assert.False(Meets(ring, At(30, 30, 70, 70)));
        Assert.False(Meets(ring, At(20, 20, 80, 80)));
        Assert.True(Meets(ring, At(10, 30, 70, 70)));
    }

    // Against the areas of intersections as NetTopologySuite computes them.
    [Fact]
    public void Random_triangles_meet_boxes_where_another_library_finds_a_common_area()
    {
        var seed = 12345u;
        int Next(int below)
        {
            seed = unchecked((seed * 1664525) + 1013904223);
            return (int)(seed >> 16) % below;
        }

        var factory = new GeometryFactory();
        var meetings = 0;
        for (var i = 0; i < 2_000; i++)
        {
            (int X, int Y)[] corners = [(Next(12), Next(12)), (Next(12), Next(12)), (Next(12), Next(12))];
            var (left, top) = (Next(11), Next(11));
            var (right, bottom) = (left + 1 + Next(4), top + 1 + Next(4));
            var triangle = factory.CreatePolygon([.. corners.Append(corners[0]).Select(corner => new Coordinate(corner.X, corner.Y))]);
            if (triangle.Area == 0)
            {
                continue;
            }

            var box = factory.ToGeometry(new Envelope(left, right, top, bottom));
            var shares = triangle.Intersection(box).Area > 1e-9;
            meetings += shares ? 1 : 0;
            Assert.Equal(shares, Meets(Shape(corners), At(left, top, right, bottom)));
        }

        Assert.InRange(meetings, 200, 1_500);
    }

    // Tilted stars with notches, rectangles and ovals. The corners are turned here in floating point; what comes within a thousandth of a square millimetre is left out.
    [Fact]
    public void Random_tilted_outlines_meet_where_another_library_finds_a_common_area()
    {
        var seed = 4711u;
        int Next(int below)
        {
            seed = unchecked((seed * 1664525) + 1013904223);
            return (int)(seed >> 16) % below;
        }

        var (meetings, misses) = (0, 0);
        for (var i = 0; i < 1_500; i++)
        {
            var (x, y, tilt) = (Next(40), Next(40), Next(179) - 89);
            (int X, int Y)[] star = [(x, y), (x + 6, y + 9), (x + 12, y), (x + 9, y + 14), (x + 3, y + 14)];
            var (left, top, width, height, other) = (Next(40), Next(40), 1 + Next(9), 1 + Next(9), Next(179) - 89);
            var box = At(left, top, left + width, top + height);
            var oval = Next(2) == 0;
            var about = new Trimwright.Geometry.Point(Place(x + 6), Place(y + 7));
            var meet = Laid(Shape(star), tilt, about).Meets(Laid(oval ? Outline.FromEllipse(box) : Outline.FromBox(box), other, box.Centre));

            var middle = (X: left + (width / 2.0), Y: top + (height / 2.0));
            var round = oval
                ? Enumerable.Range(0, 256).Select(k => (middle.X + (width / 2.0 * Math.Cos(k * Math.PI / 128)), middle.Y + (height / 2.0 * Math.Sin(k * Math.PI / 128))))
                : [(left, top), (left + width, top), (left + width, top + height), (left, top + height)];
            var area = Turned(star.Select(corner => ((double)corner.X, (double)corner.Y)), (x + 6, y + 7), tilt).Intersection(Turned(round, middle, other)).Area;
            if (area is > 0 and < 0.01)
            {
                continue;
            }

            (meetings, misses) = meet ? (meetings + 1, misses) : (meetings, misses + 1);
            Assert.Equal(area > 0, meet);
        }

        Assert.True(meetings > 100 && misses > 100, $"{meetings} {misses}");
    }

    [Fact]
    public void Of_two_with_notches_one_counts_as_whole()
    {
        // The point of one in the notch of the other: apart as paper, together once a notch is filled.
        var upper = Laid(Shape((0, 0), (10, 0), (10, 10), (5, 5), (0, 10)), 0, default);
        var lower = Laid(Shape((0, 20), (0, 14), (4, 10), (5, 6), (6, 10), (10, 14), (10, 20), (5, 18)), 0, default);
        Assert.True(upper.Meets(lower));
        Assert.True(lower.Meets(upper));
    }

    private static NetTopologySuite.Geometries.Geometry Turned(IEnumerable<(double X, double Y)> corners, (double X, double Y) about, int degrees)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        var turned = corners.Select(corner => (X: corner.X - about.X, Y: corner.Y - about.Y))
            .Select(d => new Coordinate(about.X + (d.X * cos) - (d.Y * sin), about.Y + (d.X * sin) + (d.Y * cos))).ToList();
        return new GeometryFactory().CreatePolygon([.. turned, turned[0]]);
    }

    private static LaidOutline Laid(Outline outline, int degrees, Trimwright.Geometry.Point about) => new(outline, new(degrees), about);

    private static bool Meets(Outline outline, Box box)
    {
        var (one, other) = (Laid(outline, 0, default), Laid(Outline.FromBox(box), 0, default));
        Assert.Equal(one.Meets(other), other.Meets(one));
        return one.Meets(other);
    }

    private static Outline Shape(params (int X, int Y)[] corners) => new([new PolygonContour([.. corners.Select(corner => new Trimwright.Geometry.Point(Place(corner.X), Place(corner.Y)))])]);

    private static Box At(int left, int top, int right, int bottom) => new(Place(left), Place(top), Place(right), Place(bottom));

    private static Position Place(int millimetres) => Position.FromLength(Trimwright.Measures.Length.FromMillimetres(millimetres));
}
