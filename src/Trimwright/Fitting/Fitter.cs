using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>The result of a fit: a card, or why there is none; warnings in either case.</summary>
/// <param name="Card">The fitted card, or null after an error.</param>
/// <param name="Diagnostics">Errors and warnings, in file order.</param>
public sealed record FitResult(FittedCard? Card, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>Fits layouts to formats.</summary>
public static class Fitter
{
    /// <summary>Fits a layout to the format and holding it was drawn for.</summary>
    public static FitResult Fit(Layout layout, Drawer drawer, CancellationToken cancel = default) =>
        Fit(layout, layout.Format, layout.Holding, drawer, cancel);

    /// <summary>
    /// Fits a layout to a format: every size on the drawer's increment, every reveal even, stronger wishes first. Pure: the same
    /// layout, format and drawer give the same card.
    /// </summary>
    /// <exception cref="OperationCanceledException">The fit was cancelled.</exception>
    public static FitResult Fit(Layout layout, CardFormat format, Holding holding, Drawer drawer, CancellationToken cancel = default)
    {
        var diagnostics = new List<Diagnostic>();
        var dies = new DieChooser(drawer, format.Unit);
        foreach (var piece in layout.Pieces)
        {
            if (piece.Cut == CutWay.Die && !dies.Has(piece.Kind))
            {
                diagnostics.Add(FitMessages.NoDie(piece));
            }

            if (piece.Lift.Foam is { } foam && !drawer.Foam.Contains(foam))
            {
                diagnostics.Add(FitMessages.UnknownFoam(piece, foam, drawer));
            }
        }

        if (diagnostics.Exists(diagnostic => diagnostic.Severity == Severity.Error))
        {
            return new(null, diagnostics);
        }

        var (width, height) = format.Held(holding);
        var increment = drawer.IncrementFor(format.Unit);
        var builder = SystemBuilder.Of(layout, width, height, increment, dies);
        var solution = WishSolver.Solve(builder.System, null, cancel);
        var whole = SourcePlace.WholeFile(layout.File);
        switch (solution.Outcome)
        {
            case Outcome.Clash:
                diagnostics.AddRange(new ClashReport(builder, FormatWords(format, holding), format.Unit, cancel).ExplainAll(solution.Clash!));
                return new(null, diagnostics);
            case Outcome.Unknown:
                diagnostics.Add(FitMessages.SearchEnded(whole));
                return new(null, diagnostics);
            case Outcome.BestFound:
                diagnostics.Add(FitMessages.NotProved(whole, new(solution.Gap ?? 0), format.Unit));
                break;
        }

        var assembly = new CardAssembly(builder, solution, dies);
        return new(
            new FittedCard
            {
                Layout = layout,
                Drawer = drawer,
                Format = format,
                Holding = holding,
                Width = width,
                Height = height,
                Unit = format.Unit,
                Increment = increment,
                Pieces = assembly.Pieces(),
                Rows = assembly.Rows(),
                GaveWay = assembly.GaveWay(),
                Loose = assembly.Loose(),
                Carried = assembly.Carried(),
                NotProvedWithin = solution.Outcome == Outcome.BestFound ? new Position(solution.Gap ?? 0) : null,
            },
            diagnostics);
    }

    /// <summary>A format and how it is held, such as <c>A2 portrait</c>.</summary>
    public static string FormatWords(CardFormat format, Holding holding) =>
        format.IsSquare ? format.Name : $"{format.Name} {(holding == Holding.Portrait ? "portrait" : "landscape")}";
}
