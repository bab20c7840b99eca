using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Engines;
using Trimwright.Solving;

namespace Trimwright.Benchmarks;

/// <summary>The solver without grids beside GLOP, and with grids beside CP-SAT, on the same systems in the same run.</summary>
[GroupBenchmarksBy(BenchmarkLogicalGroupRule.ByCategory, BenchmarkLogicalGroupRule.ByParams)]
[CategoriesColumn]
[MemoryDiagnoser]
[SimpleJob(RunStrategy.Throughput, launchCount: 1, warmupCount: 3, iterationCount: 7)]
public class SolverBenchmarks
{
    private WishSystem _free = new();
    private WishSystem _gridded = new();

    /// <summary>How many pieces.</summary>
    [Params(5, 12, 40, 200)]
    public int Pieces { get; set; }

    /// <summary>Whether the sheet is itself a wish.</summary>
    [Params(false, true)]
    public bool SheetIsWish { get; set; }

    [GlobalSetup]
    public void Setup()
    {
        _free = CardTrees.Build(Pieces, SheetIsWish, hasGrid: false);
        _gridded = CardTrees.Build(Pieces, SheetIsWish, hasGrid: true);
    }

    [Benchmark(Baseline = true), BenchmarkCategory("no grid")]
    public Solution Ours() => WishSolver.Solve(_free);

    [Benchmark, BenchmarkCategory("no grid")]
    public object Glop() => References.Glop(_free);

    [Benchmark(Baseline = true), BenchmarkCategory("on sixteenths")]
    public Solution OursOnGrid() => WishSolver.Solve(_gridded);

    [Benchmark, BenchmarkCategory("on sixteenths")]
    public object CpSat() => References.CpSat(_gridded, 20);
}
