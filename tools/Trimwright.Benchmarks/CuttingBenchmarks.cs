using BenchmarkDotNet.Attributes;
using Trimwright.Cutting;

namespace Trimwright.Benchmarks;

/// <summary>
/// Planning a batch, warm and in process. The reference is the bare table for one sheet of the batch, so that ratios say how many such tables
/// a plan costs, whatever the machine.
/// </summary>
[MemoryDiagnoser]
public class CuttingBenchmarks
{
    private readonly CuttingJob _one = CuttingOrders.OnSix;
    private readonly CuttingJob _held = CuttingOrders.OnSix with { Rules = CuttingOrders.Held };
    private readonly CuttingJob _six = CuttingOrders.OnFour;
    private readonly string _demo = "layouts/batches/seed-swap.json";

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
        _one with { Stock = [CuttingOrders.Six with { Count = 20 }] },
        [new("card", [.. CuttingOrders.Seventeen.Select(piece => new SetPart(piece.Id, piece.Id == "square" ? 2 : 1))])]);

    [Benchmark]
    public object WholeDemoBatch() => WholeBatch.Run(_demo);
}
