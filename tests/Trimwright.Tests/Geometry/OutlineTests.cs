using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using Trimwright.Geometry;
using Trimwright.Measures;
using Xunit;
using Point = Trimwright.Geometry.Point;
using Position = Trimwright.Measures.Position;

namespace Trimwright.Tests.Geometry;

public class OutlineTests
{
    private static readonly Box Hung = Box.FromCorner(Inches(1, 2), Inches(0, 1), Length.FromInches(1), Length.FromInches(3));

    private static Position Inches(long numerator, long denominator) => Position.FromLength(Length.FromInches(numerator, denominator));

    private static IReadOnlyList<Point> Corners(Outline outline) => ((PolygonContour)outline.Contours[0]).Points;

    [Fact]
    public void A_fishtail_hung_from_the_top_has_its_notch_on_the_centre_line_and_its_tips_at_the_bottom()
    {
        var points = Corners(BannerOutline.Build(Hung, Side.Top, TailShape.Fishtail, Inches(1, 2), default));

        Assert.Equal(
            [
                new(Inches(1, 2), default), new(Inches(3, 2), default), new(Inches(3, 2), Inches(3, 1)),
                new(Inches(1, 1), Inches(5, 2)), new(Inches(1, 2), Inches(3, 1)),
            ],
            points);
    }

    [Fact]
    public void A_pointed_banner_hung_from_the_left_points_to_the_right()
    {
        var box = Box.FromSize(Length.FromInches(3), Length.FromInches(1));
        var points = Corners(BannerOutline.Build(box, Side.Left, TailShape.Pointed, Inches(1, 2), default));

        Assert.Contains(new Point(Inches(3, 1), Inches(1, 2)), points);
        Assert.Contains(new Point(Inches(5, 2), default), points);
        Assert.Contains(new Point(default, Inches(1, 1)), points);
        Assert.Equal(5, points.Count);
    }

    [Fact]
    public void A_taper_is_taken_half_from_each_side_of_the_tail()
    {
        var points = Corners(BannerOutline.Build(Hung, Side.Bottom, TailShape.Straight, default, Inches(1, 4)));

        Assert.Equal([Inches(5, 8), Inches(11, 8)], points.Where(point => point.Y == default).Select(point => point.X).Order());
        Assert.Equal([Inches(1, 2), Inches(3, 2)], points.Where(point => point.Y == Inches(3, 1)).Select(point => point.X).Order());
    }

    [Theory]
    [InlineData(Side.Top)]
    [InlineData(Side.Right)]
    [InlineData(Side.Bottom)]
    [InlineData(Side.Left)]
    public void Every_hung_outline_fills_its_box_and_runs_clockwise(Side side)
    {
        foreach (var outline in new[]
        {
            BannerOutline.Build(Hung, side, TailShape.Fishtail, Inches(1, 4), Inches(1, 8)),
            BannerOutline.Build(Hung, side, TailShape.Pointed, Inches(1, 4), default),
            TagOutline.Build(Hung, side),
        })
        {
            Assert.Equal(Hung, outline.Bounds);
            Assert.True(Signed(Corners(outline)) > Rational.Zero);
        }
    }

    [Fact]
    public void A_tail_as_long_as_the_banner_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => BannerOutline.Build(Hung, Side.Top, TailShape.Fishtail, Inches(3, 1), default));

    [Fact]
    public void The_hole_of_a_tag_lies_on_its_centre_line_near_the_hung_end()
    {
        var hole = Assert.IsType<EllipseContour>(TagOutline.Build(Hung, Side.Bottom).Contours[1]);

        Assert.Equal(new(Inches(1, 1), Inches(11, 4)), hole.Centre);
        Assert.Equal((Inches(1, 16), Inches(1, 16)), (hole.RadiusX, hole.RadiusY));
    }

    [Fact]
    public void A_window_that_touches_the_edge_of_its_frame_is_refused() =>
        Assert.Throws<ArgumentException>(() => FrameOutline.Build(Hung, Hung with { Top = Inches(1, 1) }));

    [Fact]
    public void A_rectangle_grown_by_a_seventh_of_an_inch_is_larger_by_exactly_that_on_every_side() =>
        Assert.Equal(
            Outline.FromBox(Hung.Grown(new(Rational.From(Length.NanometresPerInch, 7)))).Bounds,
            OutlineOffset.Grow(Outline.FromBox(Hung), new(Rational.From(Length.NanometresPerInch, 7))).Bounds);

    [Fact]
    public void An_oval_grows_on_both_radii_and_a_frame_loses_its_window()
    {
        var oval = (EllipseContour)OutlineOffset.Grow(Outline.FromEllipse(Hung), Inches(1, 8)).Contours[0];
        Assert.Equal((Inches(5, 8), Inches(13, 8)), (oval.RadiusX, oval.RadiusY));

        var frame = FrameOutline.Build(Hung, Hung.Grown(-Inches(1, 8)));
        Assert.Single(OutlineOffset.Grow(frame, Inches(1, 8)).Contours);
    }

    [Fact]
    public void A_negative_margin_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => OutlineOffset.Grow(Outline.FromBox(Hung), -Inches(1, 8)));

    // The same outlines moved out by another library (NetTopologySuite, mitred joins): every corner of the one lies within 10 nm of
    // a corner of the other. 10 nm is what its doubles lose on a card of 10^8 nm; a wrong mitre misses by a millimetre.
    [Theory]
    [InlineData(Side.Top, TailShape.Fishtail, 4, 0)]
    [InlineData(Side.Right, TailShape.Fishtail, 3, 2)]
    [InlineData(Side.Bottom, TailShape.Pointed, 8, 1)]
    [InlineData(Side.Left, TailShape.Pointed, 2, 3)]
    [InlineData(Side.Top, TailShape.Straight, 0, 4)]
    public void Grown_banners_agree_with_another_librarys_offset(Side side, TailShape tail, int depthSixteenths, int taperSixteenths)
    {
        var outline = BannerOutline.Build(Hung, side, tail, Inches(depthSixteenths, 16), Inches(taperSixteenths, 16));
        var ours = Corners(OutlineOffset.Grow(outline, Inches(1, 8)));

        var ring = Corners(outline).Append(Corners(outline)[0]).Select(AsCoordinate).ToArray();
        var join = new BufferParameters { JoinStyle = JoinStyle.Mitre, MitreLimit = 100 };
        var theirs = BufferOp.Buffer(new Polygon(new LinearRing(ring)), Length.FromInches(1, 8).Nanometres, join).Coordinates;

        Assert.Equal(ours.Count, theirs.Length - 1);
        Assert.All(ours, point => Assert.Contains(theirs, corner => corner.Distance(AsCoordinate(point)) < 10));
    }

    private static Coordinate AsCoordinate(Point point) =>
        new((double)point.X.ToNearestNanometre().Nanometres, (double)point.Y.ToNearestNanometre().Nanometres);

    private static Rational Signed(IReadOnlyList<Point> points) =>
        points.Zip(points.Skip(1).Append(points[0]), (a, b) =>
            (a.X.Nanometres * b.Y.Nanometres) - (b.X.Nanometres * a.Y.Nanometres)).Aggregate(Rational.Zero, (sum, part) => sum + part);
}
