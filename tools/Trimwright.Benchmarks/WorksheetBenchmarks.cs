using BenchmarkDotNet.Attributes;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Worksheets;

namespace Trimwright.Benchmarks;

/// <summary>The worksheet of a layout of twelve pieces, warm and in process; ratios are to a picture (PNG, 144 dots per inch) of its face.</summary>
[MemoryDiagnoser]
public class WorksheetBenchmarks
{
    private FittedCard _card = null!;
    private Worksheet _sheet = null!;

    [GlobalSetup]
    public void Setup()
    {
        _card = Fitter.Fit(Samples.Read(Samples.TwelvePieces), Drawer.Default).Card!;
        _sheet = WorksheetMaker.Make(_card, PaperSize.Letter);
    }

    [Benchmark(Baseline = true)]
    public object? FacePng() => PngWriter.TryWrite(SvgWriter.Write(FaceDrawing.Draw(_card)), 144, out var png, out _) ? png : null;

    [Benchmark]
    public object Make() => WorksheetMaker.Make(_card, PaperSize.Letter);

    [Benchmark]
    public object Pdf() => WorksheetPdf.Write(_sheet);

    [Benchmark]
    public object MakeAndPdf() => WorksheetPdf.Write(WorksheetMaker.Make(_card, PaperSize.Letter));

    [Benchmark]
    public object Html() => WorksheetHtml.Write(_sheet);
}
