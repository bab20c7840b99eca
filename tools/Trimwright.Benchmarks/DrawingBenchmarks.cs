using BenchmarkDotNet.Attributes;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Benchmarks;

/// <summary>
/// All measured sheets of a card, placed and written, warm and in process, by the number of pieces; ratios are to twelve pieces, so
/// that they show how the time grows. Twice the pieces should take about twice the time.
/// </summary>
[MemoryDiagnoser]
public class DrawingBenchmarks
{
    private readonly Dictionary<int, FittedCard> _cards = new[] { 12, 50, 200, 800, 2000 }.ToDictionary(count => count, Beds);

    [Benchmark(Baseline = true)]
    public object Pieces12() => Draw(12);

    [Benchmark]
    public object Pieces50() => Draw(50);

    [Benchmark]
    public object Pieces200() => Draw(200);

    [Benchmark]
    public object Pieces800() => Draw(800);

    [Benchmark]
    public object Pieces2000() => Draw(2000);

    /// <summary>A card full of beds, round and square by turns, each on a mat: all different, so that nothing is said once for several.</summary>
    public static FittedCard Beds(int count)
    {
        var card = Fitter.Fit(Samples.Read(Samples.TwelvePieces), Drawer.Default).Card!;
        var matted = card.Pieces.First(piece => piece.Mats.Count > 0 && piece.Source.Kind is PieceKind.Panel or PieceKind.Label or PieceKind.Image or PieceKind.Strip);
        var columns = (int)Math.Ceiling(Math.Sqrt(count));
        var (pitchX, pitchY) = (card.Width.Nanometres / (columns + 1), card.Height.Nanometres / (columns + 1));
        List<FittedPiece> pieces = [];
        for (var i = 0; i < count; i++)
        {
            // No two have the same size, by as little as a nanometre.
            var (left, top) = ((pitchX / 2) + (pitchX * (i % columns)), (pitchY / 2) + (pitchY * (i / columns)));
            var box = Box.FromCorner(
                Position.FromLength(Length.FromNanometres(left)), Position.FromLength(Length.FromNanometres(top)),
                Length.FromNanometres((pitchX * 6 / 10) + i), Length.FromNanometres((pitchY * 6 / 10) + i));
            var outline = i % 2 == 0 ? Outline.FromBox(box) : Outline.FromEllipse(box);
            var reveal = Position.FromLength(Length.FromNanometres(pitchX / 20));
            var grown = OutlineOffset.Grow(outline, reveal);
            pieces.Add(matted with
            {
                Source = matted.Source with
                {
                    Name = $"bed-{i}", Kind = i % 2 == 0 ? PieceKind.Panel : PieceKind.Oval, On = null, Row = null, Tilt = default, Placements = [], Text = null,
                },
                Box = box, Outline = outline, Reveal = null, Width = box.Width.ToNearestNanometre(), Height = box.Height.ToNearestNanometre(),
                Mats = [matted.Mats[0] with { Outline = grown, Box = grown.Bounds, Reveal = reveal }],
            });
        }

        return card with { Pieces = pieces, Rows = [] };
    }

    private int Draw(int count) => MeasuredDrawing.Sheets(_cards[count]).Sum(sheet => SvgWriter.Write(sheet.Drawing).Length);
}
