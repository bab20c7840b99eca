using SkiaSharp;
using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Measures;
using static Trimwright.Tests.Images.TestPictures;

namespace Trimwright.Tests.Images;

public class TracingTests
{
    private const double Radius = 180.3;

    private static readonly Length Wide = Length.FromMillimetres(50);

    [Fact]
    public void The_outline_of_a_disc_has_the_area_and_the_length_of_a_circle()
    {
        var outline = Traced(Shape(400, 400, Disc(200.4, 199.7, Radius)), new() { Tolerance = Rational.From(1, 8) });
        var points = Points(outline.In(Box.FromSize(Wide, outline.HeightAt(Wide)))[0].Contours[0]);
        var r = Wide.Nanometres / 2.0;

        // An eighth of a pixel all round is 2 / 8 / 180 of the area; the outline keeps far within it.
        Assert.InRange(Math.Abs(Area(points)) / (Math.PI * r * r), 1 - 0.0014, 1 + 0.0005);
        Assert.InRange(Perimeter(points) / (2 * Math.PI * r), 1 - 0.001, 1 + 0.001);
        Assert.InRange(outline.Aspect.ToDouble(), 0.9995, 1.0005);
        Assert.All(points, point => Assert.InRange(Distance(point, (r, r)), r - Off(outline, 0.2), r + Off(outline, 0.2)));
    }

    [Fact]
    public void The_outline_of_a_star_has_its_area_and_its_corners()
    {
        var corners = StarCorners(200, 200, 190, 80);
        var outline = Traced(Shape(400, 400, (x, y) => Inside(corners, x, y)));
        var box = outline.PictureBoxFor(Box.FromSize(Wide, outline.HeightAt(Wide)));
        var pixel = box.Width.Nanometres.ToDouble() / 400;
        var points = Points(outline.In(Box.FromSize(Wide, outline.HeightAt(Wide)))[0].Contours[0])
            .Select(point => ((point.X - box.Left.Nanometres.ToDouble()) / pixel, (point.Y - box.Top.Nanometres.ToDouble()) / pixel)).ToArray();

        Assert.InRange(Math.Abs(Area(points)) / Math.Abs(Area(corners)), 0.997, 1.003);

        // A tip of 37 degrees is blunted by a pixel or two, as it is in the picture itself.
        Assert.All(corners, corner => Assert.Contains(points, point => Distance(point, corner) < 2.5));
        Assert.True(points.Length < 60, $"{points.Length} corners");
    }

    [Theory]
    [InlineData(0, 100)]
    [InlineData(100, 0)]
    [InlineData(200, 100)]
    [InlineData(100, 200)]
    [InlineData(0, 0)]
    [InlineData(100, 100)]
    public void A_picture_cropped_close_is_cut_along_its_border(double middleX, double middleY)
    {
        // A disc that the border of a picture of 200 pixels cuts off, or that touches all four of its sides; by hand: halves, a quarter, the whole.
        const double Disc = 100;
        var outline = Traced(Shape(200, 200, (x, y) => Distance((x, y), (middleX, middleY)) < Disc));
        var box = Box.FromSize(Wide, outline.HeightAt(Wide));
        var points = Points(outline.In(box)[0].Contours[0]);
        var (wide, high) = (middleX == 100 ? 2 : 1, middleY == 100 ? 2 : 1);
        Assert.InRange(outline.Aspect.ToDouble(), 0.99 * wide / high, 1.01 * wide / high);
        var pixel = Wide.Nanometres / (wide * Disc);
        Assert.InRange(Math.Abs(Area(points)) / (pixel * pixel), 0.98 * Math.PI * Disc * Disc * wide * high / 4, 1.005 * Math.PI * Disc * Disc * wide * high / 4);
    }

    [Fact]
    public void A_ring_keeps_its_hole()
    {
        var outline = Traced(Shape(300, 300, (x, y) => Distance((x, y), (150, 150)) is > 60 and < 140));
        var ring = Assert.Single(outline.In(Box.FromSize(Wide, Wide)));
        Assert.Equal(2, ring.Contours.Count);
        Assert.True(Area(Points(ring.Contours[0])) > 0 && Area(Points(ring.Contours[1])) < 0, "the outer line runs clockwise, the hole the other way");
        Assert.InRange(Math.Abs(Area(Points(ring.Contours[1]))) / Area(Points(ring.Contours[0])), 0.98 * 3600 / 19600, 1.02 * 3600 / 19600);
    }

    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 2)]
    public void Plain_ground_that_is_enclosed_is_a_hole_only_where_that_is_asked_for(bool asked, int contours)
    {
        var picture = ShapeOn(300, 300, 245, 30, (x, y) => Distance((x, y), (150, 150)) is > 60 and < 140);
        var outline = Traced(picture, new() { EnclosedGroundIsHole = asked });
        Assert.Equal(contours, Assert.Single(outline.In(Box.FromSize(Wide, Wide))).Contours.Count);
    }

    [Fact]
    public void The_same_shape_is_traced_alike_on_a_clear_and_on_a_plain_ground()
    {
        var clear = Traced(Shape(400, 300, Ellipse), new() { Tolerance = Rational.Zero });
        var plain = Traced(ShapeOn(400, 300, 250, 60, Ellipse), new() { Tolerance = Rational.Zero });
        var box = Box.FromSize(Wide, Length.FromMillimetres(30));
        Assert.InRange(Area(Points(plain.In(box)[0].Contours[0])) / Area(Points(clear.In(box)[0].Contours[0])), 0.999, 1.001);
        Assert.InRange((plain.Aspect / clear.Aspect).ToDouble(), 0.999, 1.001);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Filled_anew_a_traced_outline_covers_the_picture_it_was_traced_from(int tolerance)
    {
        foreach (var picture in new[]
        {
            Shape(400, 400, Disc(200, 200, Radius)),
            Shape(500, 400, (x, y) => Inside(StarCorners(250, 200, 190, 80), x, y)),
            Shape(400, 500, Leaf),
        })
        {
            var outline = Traced(picture, new() { Tolerance = Rational.From(tolerance, 2) });
            Assert.InRange(Overlap(picture, outline), 0.995, 1);
        }
    }

    [Fact]
    public void Every_corner_that_is_left_out_lies_within_the_tolerance()
    {
        var picture = Shape(400, 500, Leaf);
        var box = Box.FromSize(Wide, Length.FromMillimetres(60));
        var full = Points(Traced(picture, new() { Tolerance = Rational.Zero }).In(box)[0].Contours[0]);
        var outline = Traced(picture, new() { Tolerance = 2 });
        var few = Points(outline.In(box)[0].Contours[0]);
        Assert.True(few.Length * 8 < full.Length, $"{few.Length} of {full.Length}");

        // The box stretches the picture down: the larger of the two scales bounds the distance. Points lie on whole nanometres.
        var down = 60e6 / (outline.HeightAt(Wide).Nanometres / 1.0);
        var most = (outline.ToleranceAt(Wide).Nanometres.ToDouble() * Math.Max(1, down)) + 2;
        Assert.All(full, point => Assert.True(Enumerable.Range(0, few.Length).Min(i => DistanceTo(point, few[i], few[(i + 1) % few.Length])) <= most));
    }

    [Fact]
    public void The_furthest_corners_lie_on_the_box_exactly()
    {
        var box = Box.FromCorner(new(Rational.From(25_400_000, 7)), default, Length.FromInches(13, 8), Length.FromInches(7, 4));
        Assert.Equal(box, Traced(Shape(123, 321, Leafy)).In(box)[0].Bounds);
    }

    [Fact]
    public void A_mirrored_picture_has_the_mirrored_outline_and_the_mirrored_weight()
    {
        var picture = Shape(201, 160, (x, y) => Inside(StarCorners(90, 80, 75, 30), x, y) || (x > 60 && x < 170 && y > 100 && y < 150));
        var mirrored = Make(201, 160, (x, y) => At(picture, 200 - x, y));
        var (one, other) = (Traced(picture, new() { Tolerance = Rational.Zero }), Traced(mirrored, new() { Tolerance = Rational.Zero }));
        Assert.Equal(one.Aspect, other.Aspect);
        Assert.Equal(one.Mass.CentreX, 1 - other.Mass.CentreX);
        Assert.Equal((one.Mass.CentreY, one.Mass.Darkness), (other.Mass.CentreY, other.Mass.Darkness));
        var box = Box.FromSize(Wide, Wide);
        var expected = Points(one.In(box)[0].Contours[0]).Select(point => ((long)(Wide.Nanometres - point.X), (long)point.Y)).ToHashSet();
        Assert.All(Points(other.In(box)[0].Contours[0]), point =>
            Assert.True(expected.Contains(((long)point.X, (long)point.Y)) || expected.Contains(((long)point.X - 1, (long)point.Y)) || expected.Contains(((long)point.X + 1, (long)point.Y))));
    }

    [Fact]
    public void The_weight_of_a_half_black_half_white_square_lies_a_quarter_from_its_edge()
    {
        var picture = Make(100, 100, (x, y) => x < 10 || x >= 90 || y < 10 || y >= 90 ? ((byte)0, (byte)0, (byte)0, (byte)0) : x < 50 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)255, (byte)255, (byte)255, (byte)255));
        var mass = Traced(picture).Mass;
        Assert.Equal(new VisualMass(Rational.From(1, 2), Rational.From(1, 4), Rational.From(1, 2)), mass);
    }

    [Fact]
    public void Two_leaves_that_do_not_touch_are_two_parts_and_that_is_said()
    {
        var picture = Shape(200, 100, (x, y) => Distance((x, y), (50, 50)) < 40 || Distance((x, y), (150, 50)) < 30);
        var tracing = PictureTracer.Trace("leaves.png", picture, TraceOptions.Default, Place);
        Assert.Equal(["W0503"], tracing.Diagnostics.Select(diagnostic => diagnostic.Code));
        Assert.Equal(2, tracing.Outline!.Parts);
        Assert.Equal(Box.FromSize(Wide, Length.FromMillimetres(20)).Left, tracing.Outline.In(Box.FromSize(Wide, Length.FromMillimetres(20)))[0].Bounds.Left);
    }

    [Fact]
    public void Specks_are_no_parts() => Assert.Equal(1, Traced(Shape(400, 400, (x, y) =>
        Distance((x, y), (200, 200)) < 150 || ((int)x % 40 == 3 && (int)y % 40 == 3 && Distance((x, y), (200, 200)) > 160))).Parts);

    [Fact]
    public void An_empty_picture_has_nothing_left() =>
        Assert.Equal("E0506", Assert.Single(PictureTracer.Trace("bean.png", Make(50, 50, (_, _) => (0, 0, 0, 0)), TraceOptions.Default, Place).Diagnostics).Code);

    [Fact]
    public void A_photograph_that_fills_its_frame_has_no_plain_ground()
    {
        var photograph = Make(90, 90, (x, y) => ((byte)(x * 2), (byte)(y * 2), (byte)((x * y) % 251), 255));
        Assert.Equal("E0507", Assert.Single(PictureTracer.Trace("bean.png", photograph, TraceOptions.Default, Place).Diagnostics).Code);
    }

    [Fact]
    public void A_jpeg_on_white_paper_is_cut_out_despite_its_blur()
    {
        var picture = ShapeOn(400, 400, 255, 70, Disc(200, 200, Radius));
        var reading = PictureReader.Read("bean.jpg", Encode(picture, SKEncodedImageFormat.Jpeg, 75), Place);
        var outline = Traced(reading.Picture!);
        Assert.Equal(1, outline.Parts);
        Assert.InRange(Overlap(Shape(400, 400, Disc(200, 200, Radius)), outline), 0.985, 1);
    }

    // At true size nothing depends on how many pixels a picture came with.
    [Fact]
    public void A_picture_too_fine_to_trace_is_traced_smaller_and_has_the_same_outline()
    {
        var large = Make(3200, 1600, (x, y) => (0, 0, 0, (byte)(Math.Pow((x - 1600) / 1400.0, 2) + Math.Pow((y - 800) / 700.0, 2) < 1 ? 255 : 0)));
        var outline = Traced(large);
        Assert.InRange(outline.Aspect.ToDouble(), 1.998, 2.002);
        var points = Points(outline.In(Box.FromSize(Wide, outline.HeightAt(Wide)))[0].Contours[0]);
        Assert.InRange(Area(points) / (Math.PI * 25e6 * 12.5e6), 0.998, 1.002);
    }

    private static double Off(PictureOutline outline, double pixels) => pixels * outline.ToleranceAt(Wide).Nanometres.ToDouble() * 8;

    private static Func<double, double, bool> Disc(double x0, double y0, double r) => (x, y) => Distance((x, y), (x0, y0)) < r;

    private static bool Ellipse(double x, double y) => Math.Pow((x - 200.2) / 170, 2) + Math.Pow((y - 149.6) / 120, 2) < 1;

    private static bool Leaf(double x, double y) =>
        Math.Abs(x - 200) < (150 * Math.Sin(Math.PI * y / 500)) + (12 * Math.Sin(y / 9)) && y > 30 && y < 470;

    private static bool Leafy(double x, double y) => Math.Abs(x - 60) < 50 * Math.Sin(Math.PI * y / 321);

    private static (byte, byte, byte, byte) At(Picture picture, int x, int y)
    {
        var at = 4 * ((y * picture.Width) + x);
        return (picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2], picture.Rgba[at + 3]);
    }

    internal static (double X, double Y)[] StarCorners(double x, double y, double outer, double inner) =>
    [
        .. Enumerable.Range(0, 10).Select(i => (
            x + ((i % 2 == 0 ? outer : inner) * Math.Sin(i * Math.PI / 5)), y - ((i % 2 == 0 ? outer : inner) * Math.Cos(i * Math.PI / 5)))),
    ];

    internal static bool Inside((double X, double Y)[] corners, double x, double y)
    {
        var inside = false;
        for (var (i, j) = (0, corners.Length - 1); i < corners.Length; j = i++)
        {
            inside ^= corners[i].Y > y != corners[j].Y > y
                && x < ((corners[j].X - corners[i].X) * (y - corners[i].Y) / (corners[j].Y - corners[i].Y)) + corners[i].X;
        }

        return inside;
    }

    internal static (double X, double Y)[] Points(Contour contour) =>
        [.. ((PolygonContour)contour).Points.Select(point => (point.X.Nanometres.ToDouble(), point.Y.Nanometres.ToDouble()))];

    internal static double Area((double X, double Y)[] points) =>
        points.Select((point, i) => points[(i + 1) % points.Length] is var next ? (point.X * next.Y) - (next.X * point.Y) : 0).Sum() / 2;

    internal static double Perimeter((double X, double Y)[] points) =>
        points.Select((point, i) => Distance(point, points[(i + 1) % points.Length])).Sum();

    internal static double Distance((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(Math.Pow(a.X - b.X, 2) + Math.Pow(a.Y - b.Y, 2));

    internal static double DistanceTo((double X, double Y) p, (double X, double Y) a, (double X, double Y) b)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var t = Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / Math.Max(1e-9, (dx * dx) + (dy * dy)), 0, 1);
        return Distance(p, (a.X + (t * dx), a.Y + (t * dy)));
    }

    // Filled by the graphics library, whose scan conversion is none of ours, and compared with the alpha: shared over joined.
    private static double Overlap(Picture picture, PictureOutline outline)
    {
        var whole = outline.PictureBoxFor(Box.FromSize(Wide, outline.HeightAt(Wide)));
        using var bitmap = new SKBitmap(new SKImageInfo(picture.Width, picture.Height, SKColorType.Alpha8));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.Transparent);
        using var builder = new SKPathBuilder { FillType = SKPathFillType.EvenOdd };
        foreach (var contour in outline.In(Box.FromSize(Wide, outline.HeightAt(Wide))).SelectMany(part => part.Contours))
        {
            builder.AddPoly([.. Points(contour).Select(point => new SKPoint(
                (float)((point.X - whole.Left.Nanometres.ToDouble()) / whole.Width.Nanometres.ToDouble() * picture.Width),
                (float)((point.Y - whole.Top.Nanometres.ToDouble()) / whole.Height.Nanometres.ToDouble() * picture.Height)))]);
        }

        using var path = builder.Detach();
        using var paint = new SKPaint { IsAntialias = true, Color = SKColors.Black };
        canvas.DrawPath(path, paint);
        var filled = bitmap.GetPixelSpan();
        var (shared, joined) = (0L, 0L);
        for (var y = 0; y < picture.Height; y++)
        {
            for (var x = 0; x < picture.Width; x++)
            {
                int a = picture.Rgba[(4 * ((y * picture.Width) + x)) + 3];
                int b = filled[(y * bitmap.RowBytes) + x];
                shared += Math.Min(a, b);
                joined += Math.Max(a, b);
            }
        }

        return (double)shared / joined;
    }
}
