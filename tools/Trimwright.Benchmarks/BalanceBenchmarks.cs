using BenchmarkDotNet.Attributes;
using Trimwright.Balance;
using Trimwright.Diagnostics;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Images;
using Trimwright.Layouts;
using Trimwright.Variants;

namespace Trimwright.Benchmarks;

/// <summary>
/// The work of balancing, warm and in process: a picture of 2,000 x 2,000 pixels traced and weighed; 64 variants of the layout of twelve
/// pieces fitted, rendered at 256 cells and put in order; the sheets of the best twelve. Ratios are to fitting that layout once.
/// </summary>
[MemoryDiagnoser]
public class BalanceBenchmarks
{
    private readonly Layout _layout = WithAccents(Samples.Read(Samples.TwelvePieces));
    private readonly Picture _picture = Flower(2000);
    private readonly SourcePlace _place = SourcePlace.WholeFile("flower.png");
    private IReadOnlyList<Variant> _variants = [];
    private BalanceComparison? _comparison;

    [GlobalSetup]
    public void Setup()
    {
        // The cards that were found, over and over: how long one takes does not depend on where its pieces lie.
        var search = VariantSearch.Find(_layout, _layout.Format, _layout.Holding, Drawer.Default);
        _comparison = BalanceComparison.Of(search, FacePictures.None);
        _variants = [.. Enumerable.Range(0, VariantSearch.UsualMost).Select(i => search.Found[i % search.Found.Count])];
    }

    [Benchmark(Baseline = true)]
    public object FitOnce() => Fitter.Fit(_layout, Drawer.Default);

    [Benchmark]
    public object TraceAndWeighPicture() => PictureTracer.Trace("flower.png", _picture, TraceOptions.Default, _place);

    [Benchmark]
    public object RenderAndRank64() => BalanceRanking.Of(_variants, FacePictures.None);

    [Benchmark]
    public object FindFitRenderAndRank64() => BalanceRanking.Of(
        VariantSearch.Find(_layout, _layout.Format, _layout.Holding, Drawer.Default).Found, FacePictures.None);

    [Benchmark]
    public object DrawSheetsOf12() => BalanceDrawing.Sheets(_comparison!, 12).Select(SvgWriter.Write).ToList();

    /// <summary>All but the ground, the band and the poles as accents, so that there are more than 64 combinations.</summary>
    public static Layout WithAccents(Layout layout) => layout with
    {
        Pieces = [.. layout.Pieces.Select((piece, i) => piece with { Accent = i >= 3 })],
    };

    /// <summary>A dark flower of seven petals with a soft edge on a light ground.</summary>
    public static Picture Flower(int side)
    {
        var rgba = new byte[4 * side * side];
        for (var y = 0; y < side; y++)
        {
            for (var x = 0; x < side; x++)
            {
                var (dx, dy) = ((x - (side / 2)) / (side / 2.0), (y - (side / 2)) / (side / 2.0));
                var radius = Math.Sqrt((dx * dx) + (dy * dy));
                var across = 0.65 + (0.25 * ((Math.Abs((Turns(dx, dy) * 7 % 1) - 0.5) * 4) - 1));
                var share = Math.Clamp(((across - radius) * side / 2) + 0.5, 0, 1);
                var tone = (byte)(250 - (share * (150 + (80 * radius))));
                var at = 4 * ((y * side) + x);
                (rgba[at], rgba[at + 1], rgba[at + 2], rgba[at + 3]) = (tone, (byte)(tone - 5), (byte)(tone - (tone / 4)), 255);
            }
        }

        return Picture.FromRgba(side, side, rgba);
    }

    // How far round a direction points, from 0 to 1, by the sides of a diamond: near enough to an angle for petals.
    private static double Turns(double x, double y)
    {
        var along = Math.Abs(x) + Math.Abs(y) is var sum && sum > 0 ? x / sum : 0;
        return y < 0 ? (3 + along) / 4 : (1 - along) / 4;
    }
}
