using NetTopologySuite.Geometries;
using Trimwright.Geometry;
using Trimwright.Measures;
using Outline = Trimwright.Geometry.Outline;
using Position = Trimwright.Measures.Position;

namespace Trimwright.Tests.Geometry;

public class OutlineMeetingTests
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
        Assert.Equal(meet, OutlineMeeting.Meets(Arrow, At(left, top, right, bottom)));

    [Fact]
    public void A_box_in_a_hole_meets_nothing()
    {
        var ring = new Outline([.. Shape((0, 0), (100, 0), (100, 100), (0, 100)).Contours, .. Shape((20, 20), (20, 80), (80, 80), (80, 20)).Contours]);
        Assert.False(OutlineMeeting.Meets(ring, At(30, 30, 70, 70)));
        Assert.False(OutlineMeeting.Meets(ring, At(20, 20, 80, 80)));
        Assert.True(OutlineMeeting.Meets(ring, At(10, 30, 70, 70)));
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
            Assert.Equal(shares, OutlineMeeting.Meets(Shape(corners), At(left, top, right, bottom)));
        }

        Assert.InRange(meetings, 200, 1_500);
    }

    private static Outline Shape(params (int X, int Y)[] corners) => new([new PolygonContour([.. corners.Select(corner => new Trimwright.Geometry.Point(Place(corner.X), Place(corner.Y)))])]);

    private static Box At(int left, int top, int right, int bottom) => new(Place(left), Place(top), Place(right), Place(bottom));

    private static Position Place(int millimetres) => Position.FromLength(Trimwright.Measures.Length.FromMillimetres(millimetres));
}
