using BenchmarkDotNet.Attributes;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Benchmarks;

/// <summary>
/// The main job, warm and in process, for a layout of twelve pieces. Ratios are to reading the same file, which every run has to do anyway.
/// </summary>
[MemoryDiagnoser]
public class FitBenchmarks
{
    private readonly byte[] _bytes = Samples.Bytes(Samples.TwelvePieces);
    private readonly Layout _layout = Samples.Read(Samples.TwelvePieces);
    private readonly CardFormat _other = CardFormats.Find("A7", Trimwright.Measures.LengthUnit.Inch)!;
    private FittedCard _card = null!;

    [GlobalSetup]
    public void Setup() => _card = Fitter.Fit(_layout, Drawer.Default).Card!;

    [Benchmark(Baseline = true)]
    public object Read() => LayoutReader.Read("twelve.json", _bytes);

    [Benchmark]
    public object Fit() => Fitter.Fit(_layout, Drawer.Default);

    [Benchmark]
    public object FitToAnotherFormat() => Fitter.Fit(_layout, _other, Holding.Landscape, Drawer.Default);

    [Benchmark]
    public object DrawMeasured() => SvgWriter.Write(MeasuredDrawing.Draw(_card));
}
