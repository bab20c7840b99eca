using BenchmarkDotNet.Attributes;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Benchmarks;

/// <summary>
/// Planning a batch, warm and in process. The reference is the bare table for one sheet of the batch, so that ratios say how many such tables
/// a plan costs, whatever the machine.
/// </summary>
[MemoryDiagnoser]
public class CuttingBenchmarks
{
    private static readonly (string Id, int Width, int Height, int Count)[] Seventeen =
    [
        ("front", 64, 84, 17), ("mat", 60, 80, 17), ("hedge", 60, 24, 17), ("path", 64, 28, 17), ("square", 22, 22, 34), ("tag", 16, 20, 17),
    ];

    private static readonly (string Id, int Width, int Height, int Count)[] SixHundred =
    [
        ("front", 64, 84, 70), ("mat", 60, 80, 70), ("hedge", 60, 24, 70), ("path", 64, 28, 70), ("square", 22, 22, 100), ("tag", 16, 20, 70),
        ("packet", 40, 56, 50), ("trellis", 32, 96, 50), ("bean row", 12, 72, 50),
    ];

    private static readonly StockSheet Six = Sheet("6 x 6", 96, 96, null, 100);

    private readonly CuttingJob _one = Job(Seventeen, [Six]);
    private readonly CuttingJob _held = Job(Seventeen, [Six]) with
    {
        Rules = new() { LeastCut = Length.FromInches(1), LeastTrim = Length.FromInches(1, 8) },
    };

    private readonly CuttingJob _six = Job(
        SixHundred,
        [Sheet("offcut", 96, 32, 12, 1), Sheet("6 x 6", 96, 96, 60, 100), Sheet("12 x 12", 192, 192, null, 360), Sheet("letter", 136, 176, 20, 220)]);

    [Benchmark(Baseline = true)]
    public object OneSheetTable() => BestSheet.Find(_one, [64 * 84, 60 * 80, 60 * 24, 64 * 28, 22 * 22, 16 * 20]);

    [Benchmark]
    public object Pieces119OnSixBySix() => CuttingPlanner.Plan(_one);

    [Benchmark]
    public object Pieces119OnSixBySixHeld() => CuttingPlanner.Plan(_held);

    [Benchmark]
    public object Pieces600OnFourStocks() => CuttingPlanner.Plan(_six);

    [Benchmark]
    public object MostCardsFromTwentySheets() => SetPlanner.Find(
        _one with { Stock = [Six with { Count = 20 }] },
        [new("card", [.. Seventeen.Select(piece => new SetPart(piece.Id, piece.Id == "square" ? 2 : 1))])]);

    private static CuttingJob Job((string Id, int Width, int Height, int Count)[] pieces, IReadOnlyList<StockSheet> stock) => new(
        [.. pieces.Select(piece => new WantedPiece(piece.Id, Length.FromInches(piece.Width, 16), Length.FromInches(piece.Height, 16), piece.Count))],
        stock,
        new());

    private static StockSheet Sheet(string id, int width, int height, long? count, long cost) =>
        new(id, Length.FromInches(width, 16), Length.FromInches(height, 16), count, cost);
}
