using Trimwright.Balance;
using Trimwright.Images;
using Trimwright.Measures;
using Trimwright.Tests.Images;

namespace Trimwright.Tests.Balance;

public class WeighingTests
{
    // Worked by clipping polygons on the unit square, without pixels, from the published formulas: 100 d, APB, and its terms in the order
    // left-right, middle across, top-bottom, middle down, falling, its band, rising, its band.
    public static TheoryData<string, double, double, double, double, double[]> ExactPictures() => new()
    {
        { "whole square", 0.5, 0.5, 0, 0, [0, 0, 0, 0, 0, 0, 0, 0] },
        { "left half", 0.25, 0.5, 25, 25, [100, 0, 0, 0, 50, 0, 50, 0] },
        { "top-left quarter", 0.25, 0.25, 35.355, 53.921, [100, 0, 100, 0, 0, 65.685, 100, 65.685] },
        { "centred square, side 1/2", 0.5, 0.5, 0, 41.421, [0, 100, 0, 100, 0, 65.685, 0, 65.685] },
        { "left strip, width 1/4", 0.125, 0.5, 37.5, 47.855, [100, 100, 0, 0, 75, 16.42, 75, 16.42] },
        { "one corner square, side 1/4", 0.125, 0.125, 53.033, 87.5, [100, 100, 100, 100, 0, 100, 100, 100] },
        { "opposite corner squares, side 1/4", 0.5, 0.5, 0, 50, [0, 100, 0, 100, 0, 100, 0, 100] },
        { "all four corner squares, side 1/4", 0.5, 0.5, 0, 25, [0, 100, 0, 100, 0, 0, 0, 0] },
        { "left half mass 1 + right half mass 0.5", 0.41667, 0.5, 8.333, 8.333, [33.333, 0, 0, 0, 16.667, 0, 16.667, 0] },
    };

    [Theory]
    [MemberData(nameof(ExactPictures))]
    public void The_exact_pictures_weigh_what_they_should_on_a_fine_and_on_a_coarse_raster(
        string name, double cx, double cy, double deviation, double preference, double[] terms)
    {
        foreach (var side in new[] { 4, 12, 256 })
        {
            var weight = Weighing.Of(Draw(name, side, side), GroundTone.Light)!;
            Near(cx, weight.CentreX, 0.0001);
            Near(cy, weight.CentreY, 0.0001);
            Near(deviation, weight.Deviation);
            Near(preference, weight.Preference);
            foreach (var (expected, actual) in terms.Zip(Terms(weight)))
            {
                Near(expected, actual);
            }
        }
    }

    // A point is a cell of no size: scores are straight lines in 1 / n, so two rasters give the limit.
    [Theory]
    [InlineData(true, 70.711, 87.5)]
    [InlineData(false, 0, 50)]
    public void A_point_weighs_what_it_should_in_the_limit(bool atCorner, double deviation, double preference)
    {
        var (coarse, fine) = (Point(128), Point(256));
        Near(deviation, (2 * fine.Deviation) - coarse.Deviation);
        Near(preference, (2 * fine.Preference) - coarse.Preference);
        VisualWeight Point(int side) => Weighing.Of(Raster(side, side, (x, y) => atCorner ? x + y == 0 ? 1 : 0 : InMiddle(x, side) && InMiddle(y, side) ? 1 : 0), GroundTone.Light)!;
        static bool InMiddle(int at, int side) => at == side / 2 || at == (side / 2) - 1;
    }

    [Fact]
    public void A_raster_that_no_quarter_divides_gets_the_exact_share_of_cells_that_are_cut()
    {
        // A whole square of 7 x 5 cells is as balanced as any, though every line but the edges cuts through cells.
        var weight = Weighing.Of(Raster(7, 5, (_, _) => 1), GroundTone.Light)!;
        Assert.Equal((Rational.From(1, 2), Rational.From(1, 2)), (weight.CentreX, weight.CentreY));
        Assert.All(Terms(weight), term => Near(0, term, 0.00001));

        // The middle column of five covers 2/5 to 3/5, all of it within the middle half; of three, 1/3 to 2/3.
        Near(100, Weighing.Of(Raster(5, 5, (x, _) => x == 2 ? 1 : 0), GroundTone.Light)!.Terms.MiddleAcross);

        // The first of three columns, 0 to 1/3: 1/4 lies outside the middle half and 1/12 within, so 3/4 against 1/4.
        Near(50, Weighing.Of(Raster(3, 3, (x, _) => x == 0 ? 1 : 0), GroundTone.Light)!.Terms.MiddleAcross);
    }

    // Random cells against sums over points: 64 x 64 in each cell, each of them in one area or the other.
    [Theory]
    [InlineData(6, 6)]
    [InlineData(9, 5)]
    [InlineData(5, 11)]
    public void Any_raster_weighs_as_counted_point_by_point(int width, int height)
    {
        var seed = 20250301u;
        var masses = new int[width * height];
        for (var i = 0; i < masses.Length; i++)
        {
            seed = unchecked((seed * 1664525u) + 1013904223u);
            masses[i] = (int)(seed >> 28);
        }

        var weight = Weighing.Of(Raster(width, height, (x, y) => masses[(y * width) + x] / 15.0), GroundTone.Light)!;
        const int Fine = 64;
        var k = 1 - Math.Sqrt(0.5);
        var sums = new double[8];
        var total = 0.0;
        for (var i = 0; i < width * Fine; i++)
        {
            for (var j = 0; j < height * Fine; j++)
            {
                var (x, y) = ((i + 0.5) / (width * Fine), (j + 0.5) / (height * Fine));
                double mass = masses[(j / Fine * width) + (i / Fine)];
                total += mass;
                double[] sides =
                [
                    0.5 - x, 0.25 - Math.Abs(x - 0.5), 0.5 - y, 0.25 - Math.Abs(y - 0.5),
                    y - x, k - Math.Abs(x - y), 1 - x - y, k - Math.Abs(1 - x - y),
                ];
                for (var term = 0; term < 8; term++)
                {
                    sums[term] += mass * Math.Sign(sides[term]);
                }
            }
        }

        foreach (var (sum, term) in sums.Zip(Terms(weight)))
        {
            Near(Math.Abs(sum) / total * 100, term, 0.25);
        }
    }

    [Fact]
    public void A_mirrored_picture_has_the_mirrored_deviation_and_the_same_totals()
    {
        foreach (var (width, height) in new[] { (64, 64), (37, 53) })
        {
            var one = Weighing.Of(Scene(width, height, (x, y) => (x, y)))!;
            var mirrored = Weighing.Of(Scene(width, height, (x, y) => (width - 1 - x, y)))!;
            Assert.Equal((-one.Dx, one.Dy), (mirrored.Dx, mirrored.Dy));
            Assert.Equal((one.Deviation, one.Preference), (mirrored.Deviation, mirrored.Preference));
            Assert.Equal((one.Terms.FallingDiagonal, one.Terms.MiddleRising), (mirrored.Terms.RisingDiagonal, mirrored.Terms.MiddleFalling));
            Assert.NotEqual(Rational.Zero, one.Dx);
        }
    }

    [Fact]
    public void A_square_turned_by_a_quarter_has_the_same_totals_and_its_deviations_change_places()
    {
        var one = Weighing.Of(Scene(48, 48, (x, y) => (x, y)))!;
        var turned = Weighing.Of(Scene(48, 48, (x, y) => (y, 47 - x)))!;
        Assert.Equal((one.Deviation, one.Preference), (turned.Deviation, turned.Preference));
        Assert.Equal((one.Dx.Abs(), one.Dy.Abs()), (turned.Dy.Abs(), turned.Dx.Abs()));
    }

    [Fact]
    public void The_lighter_or_darker_half_of_the_cells_makes_the_ground()
    {
        var light = Raster(8, 8, (x, _) => x < 3 ? 1 : 0);
        var dark = Raster(8, 8, (x, _) => x < 3 ? 0 : 1);
        Assert.Equal((GroundTone.Light, GroundTone.Dark), (Weighing.GroundOf(light), Weighing.GroundOf(dark)));

        // Dark bars on light and light bars on dark weigh the same.
        Assert.Equal(Weighing.Of(light)!.Terms, Weighing.Of(dark)!.Terms);
        Assert.Equal(GroundTone.Light, Weighing.GroundOf(Raster(8, 8, (x, _) => x < 4 ? 1 : 0)));
    }

    [Fact]
    public void What_is_all_ground_has_no_centre()
    {
        Assert.Null(Weighing.Of(Raster(8, 8, (_, _) => 0), GroundTone.Light));
        Assert.Null(Weighing.Of(Raster(8, 8, (_, _) => 1), GroundTone.Dark));
    }

    private static GreyRaster Scene(int width, int height, Func<int, int, (int X, int Y)> from) => Raster(width, height, (x, y) =>
    {
        var (u, v) = from(x, y);
        return (u < width / 3 && v > height / 2 ? 0.8 : 0) + (((u * 7) + (v * 3)) % 11 == 0 ? 0.2 : 0);
    });

    private static GreyRaster Draw(string name, int width, int height) => Raster(width, height, (i, j) =>
    {
        var (x, y) = ((i + 0.5) / width, (j + 0.5) / height);
        var (left, right, top, bottom) = (x < 0.25, x > 0.75, y < 0.25, y > 0.75);
        return name switch
        {
            "whole square" => 1,
            "left half" => x < 0.5 ? 1 : 0,
            "top-left quarter" => x < 0.5 && y < 0.5 ? 1 : 0,
            "centred square, side 1/2" => left || right || top || bottom ? 0 : 1,
            "left strip, width 1/4" => left ? 1 : 0,
            "one corner square, side 1/4" => left && top ? 1 : 0,
            "opposite corner squares, side 1/4" => (left && top) || (right && bottom) ? 1 : 0,
            "all four corner squares, side 1/4" => (left || right) && (top || bottom) ? 1 : 0,
            "left half mass 1 + right half mass 0.5" => x < 0.5 ? 1 : 0.5,
            _ => throw new ArgumentOutOfRangeException(nameof(name)),
        };
    });

    private static GreyRaster Raster(int width, int height, Func<int, int, double> mass)
    {
        const int White = 30_000;
        var levels = new int[width * height];
        for (var i = 0; i < levels.Length; i++)
        {
            levels[i] = White - (int)Math.Round(White * mass(i % width, i / width));
        }

        return GreyRaster.FromLevels(width, height, White, levels);
    }

    private static Rational[] Terms(VisualWeight weight) =>
    [
        weight.Terms.LeftRight, weight.Terms.MiddleAcross, weight.Terms.TopBottom, weight.Terms.MiddleDown,
        weight.Terms.FallingDiagonal, weight.Terms.MiddleFalling, weight.Terms.RisingDiagonal, weight.Terms.MiddleRising,
    ];

    private static void Near(double expected, Rational actual, double within = 0.01) =>
        Assert.InRange(actual.ToDouble(), expected - within, expected + within);
}
