using Trimwright.Geometry;
using Trimwright.Measures;
using static Trimwright.Tests.Images.TracingTests;

namespace Trimwright.Tests.Images;

public class CutoutMatTests
{
    private static readonly Length Reveal = Length.FromMillimetres(3);
    private static readonly ScissorSmoothing AsItIs = new(Length.Zero, Length.Zero);
    private static readonly double Off = CutoutMat.Tolerance.Nanometres;

    [Fact]
    public void The_border_of_a_disc_is_the_larger_disc()
    {
        const double Radius = 20e6;
        var disc = Polygon(Enumerable.Range(0, 4_000).Select(i => (Radius * Math.Cos(i * Math.PI / 2_000), Radius * Math.Sin(i * Math.PI / 2_000))));
        var mat = CutoutMat.Around([disc], Reveal, AsItIs);
        var points = Points(Assert.Single(mat.Outlines).Contours[0]);
        const double Larger = Radius + 3e6;
        Assert.All(points, point => Assert.InRange(Distance(point, (0, 0)), Larger - Off, Larger + Off));
        Assert.InRange(Area(points), Math.PI * (Larger - Off) * (Larger - Off), Math.PI * (Larger + Off) * (Larger + Off));
        Assert.InRange(Perimeter(points), 2 * Math.PI * (Larger - Off), 2 * Math.PI * (Larger + Off));
        Assert.InRange(mat.Widest.Nanometres, 3e6 - Off, 3e6 + Off);
    }

    // Steiner's formula for a convex outline: area + margin * perimeter + pi margin^2, perimeter + 2 pi margin.
    [Fact]
    public void The_border_of_a_convex_outline_follows_Steiners_formula()
    {
        (double, double)[] corners = [(0, 0), (30e6, 4e6), (36e6, 22e6), (12e6, 31e6), (-3e6, 15e6)];
        var points = Points(CutoutMat.Around([Polygon(corners)], Reveal, AsItIs).Outlines[0].Contours[0]);
        var (area, perimeter) = (Area(corners), Perimeter(corners));
        var length = perimeter + (2 * Math.PI * 3e6);
        Assert.InRange(Perimeter(points), length - (2 * Math.PI * Off), length + (2 * Math.PI * Off));
        Assert.InRange(Area(points) - (area + (3e6 * perimeter) + (Math.PI * 9e12)), -length * Off, length * Off);
    }

    [Fact]
    public void Every_point_of_the_border_of_a_star_lies_the_reveal_away_from_it()
    {
        var corners = StarCorners(20e6, 20e6, 19e6, 8e6);
        var points = Points(CutoutMat.Around([Polygon(corners)], Reveal, AsItIs).Outlines[0].Contours[0]);
        Assert.All(Along(points, 200_000), point => Assert.InRange(Nearest(point, corners), 3e6 - Off, 3e6 + Off));
    }

    [Fact]
    public void Smoothed_for_scissors_the_border_is_never_narrower_nor_wider_than_stated_and_has_no_sharp_notch()
    {
        // A narrow notch, deeper than its width, in a square.
        (double, double)[] corners = [(0, 0), (18e6, 0), (19e6, 14e6), (20e6, 0), (40e6, 0), (40e6, 40e6), (0, 40e6)];
        var smoothing = new ScissorSmoothing(Length.FromMillimetres(4), Length.FromMillimetres(2));
        var mat = CutoutMat.Around([Polygon(corners)], Reveal, smoothing);
        var points = Points(mat.Outlines[0].Contours[0]);

        // In the notch the border lies outside the picture everywhere, at least the reveal away.
        Assert.All(Along(points, 100_000), point => Assert.True(Nearest(point, corners) >= 3e6 - Off));
        Assert.All(Along(points, 100_000), point => Assert.True(Nearest(point, corners) <= 5e6 + Off));
        Assert.True(mat.Widest <= Reveal + smoothing.MostBeyond + CutoutMat.Tolerance);
        var asItIs = Points(CutoutMat.Around([Polygon(corners)], Reveal, AsItIs).Outlines[0].Contours[0]);
        Assert.True(SharpestInwards(points) < 0.2 && SharpestInwards(asItIs) > 0.1, $"{SharpestInwards(points)} and {SharpestInwards(asItIs)}");
    }

    [Fact]
    public void A_hole_is_backed_and_parts_near_one_another_are_joined()
    {
        var ring = new Outline([Contour([(0, 0), (20e6, 0), (20e6, 20e6), (0, 20e6)]), Contour([(5e6, 5e6), (5e6, 15e6), (15e6, 15e6), (15e6, 5e6)])]);
        Assert.Single(Assert.Single(CutoutMat.Around([ring], Reveal, AsItIs).Outlines).Contours);
        Outline Square(double left) => Polygon([(left, 0), (left + 10e6, 0), (left + 10e6, 10e6), (left, 10e6)]);
        Assert.Single(CutoutMat.Around([Square(0), Square(15e6)], Reveal, AsItIs).Outlines);
        Assert.Equal(2, CutoutMat.Around([Square(0), Square(17e6)], Reveal, AsItIs).Outlines.Count);
    }

    [Fact]
    public void Borders_run_clockwise_on_whole_micrometres()
    {
        var contour = (PolygonContour)CutoutMat.Around([Polygon(StarCorners(20e6, 20e6, 19e6, 8e6))], Reveal, ScissorSmoothing.Default).Outlines[0].Contours[0];
        Assert.True(Area(Points(contour)) > 0);
        Assert.All(contour.Points, point => Assert.True((point.X.Nanometres / 1000).IsWhole && (point.Y.Nanometres / 1000).IsWhole));
    }

    [Fact]
    public void Borders_of_no_width_and_of_ovals_are_refused()
    {
        var square = Polygon([(0, 0), (1e6, 0), (1e6, 1e6)]);
        Assert.Throws<ArgumentOutOfRangeException>(() => CutoutMat.Around([square], Length.Zero, AsItIs));
        Assert.Throws<ArgumentOutOfRangeException>(() => CutoutMat.Around([square], Reveal, new(-Reveal, Reveal)));
        Assert.Throws<ArgumentException>(() => CutoutMat.Around([Outline.FromEllipse(Box.FromSize(Reveal, Reveal))], Reveal, AsItIs));
        Assert.Throws<ArgumentException>(() => CutoutMat.Around([], Reveal, AsItIs));
    }

    private static Outline Polygon(IEnumerable<(double X, double Y)> corners) => new([Contour(corners)]);

    private static PolygonContour Contour(IEnumerable<(double X, double Y)> corners) => new([.. corners.Select(corner => new Point(
        Position.FromLength(Length.FromNanometres((long)Math.Round(corner.X))), Position.FromLength(Length.FromNanometres((long)Math.Round(corner.Y)))))]);

    private static IEnumerable<(double X, double Y)> Along((double X, double Y)[] points, double step)
    {
        for (var i = 0; i < points.Length; i++)
        {
            var (a, b) = (points[i], points[(i + 1) % points.Length]);
            var parts = (int)Math.Ceiling(Distance(a, b) / step);
            for (var part = 0; part < parts; part++)
            {
                yield return (a.X + ((b.X - a.X) * part / parts), a.Y + ((b.Y - a.Y) * part / parts));
            }
        }
    }

    private static double Nearest((double X, double Y) point, (double X, double Y)[] corners) =>
        Enumerable.Range(0, corners.Length).Min(i => DistanceTo(point, corners[i], corners[(i + 1) % corners.Length]));

    // The largest turn inwards at a corner, in radians.
    private static double SharpestInwards((double X, double Y)[] points) => Enumerable.Range(0, points.Length).Max(i =>
    {
        var (a, b, c) = (points[i], points[(i + 1) % points.Length], points[(i + 2) % points.Length]);
        var (x0, y0, x1, y1) = (b.X - a.X, b.Y - a.Y, c.X - b.X, c.Y - b.Y);
        return -Math.Atan2((x0 * y1) - (y0 * x1), (x0 * x1) + (y0 * y1));
    });
}
