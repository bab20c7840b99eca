using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Puts what the planner refuses into a maker's words, with the place in the batch.</summary>
internal static class BatchRefusals
{
    public static IReadOnlyList<Diagnostic> Told(FittedBatch fitted, IReadOnlyList<CuttingRefusal> refusals)
    {
        var told = refusals.Select(refusal => One(fitted, refusal)).Distinct().ToList();
        return DiagnosticList.InFileOrder(told);
    }

    /// <summary>The parts that the stock is too little for, one message for each card.</summary>
    public static IEnumerable<Diagnostic> Missing(FittedBatch fitted, CuttingPlan plan) => plan.Missing
        .Select(missing => (Found: BatchIds.PartOf(fitted, missing.Piece), missing.Piece, missing.Count))
        .GroupBy(missing => missing.Found.Card)
        .Select(card => BatchMessages.TooLittle(
            card.Key, [.. card.Select(missing => (missing.Found.Part, missing.Count))], card.All(missing => IsProved(plan, missing.Piece))));

    // Whether a lot is short is known of each lot by itself.
    private static bool IsProved(CuttingPlan plan, string piece) => plan.Lots.First(lot => lot.Pieces.Contains(piece)).State == PlanState.ProvedIncomplete;

    // Twice the overlap will do where its middle lies on the trimmer's scale; one step more always does.
    private static Length LeastCover(FittedBatch fitted, BatchCard card, Fitting.FittedPiece panel)
    {
        var least = (2 * fitted.Batch.SeamOverlap).CeilingTo(card.Card.Increment);
        return SeamFinder.Widest(card.Card, panel) is { } widest && widest.Width >= least ? widest.Width + card.Card.Increment : least;
    }

    /// <summary>The way that the grain of the sheet that would do has to run, where all sheets that a base may come from have a known one; otherwise null.</summary>
    private static Axis? GrainOf(FittedBatch fitted, BatchCard card, BatchPart part, CuttingRefusal refusal)
    {
        if (part.Line.Shape != BaseLine.Shape || part.Sources.Any(source => fitted.Batch.Stock[source.Sheet].Grain is null))
        {
            return null;
        }

        var isTurned = refusal.SheetWidth - part.Width != refusal.SheetHeight - part.Height;
        return (card.Card.Layout.Base.Fold == Edge.Top) != isTurned ? Axis.Across : Axis.UpDown;
    }

    private static Diagnostic One(FittedBatch fitted, CuttingRefusal refusal)
    {
        if (refusal.Piece is not { } id)
        {
            throw new InvalidOperationException($"a checked batch was refused: {refusal}");
        }

        var (card, part) = BatchIds.PartOf(fitted, id);
        if (refusal.Reason == RefusalReason.PieceTooLarge && fitted.Batch.MayPiece && Piecing.PanelOf(card, part) is { } panel
            && !SeamFinder.Find(card.Card, panel, fitted.Batch.SeamOverlap).Any())
        {
            return BatchMessages.NoCover(card, part, SeamFinder.Widest(card.Card, panel), LeastCover(fitted, card, panel), fitted.Batch);
        }

        return refusal.Reason switch
        {
            RefusalReason.PieceTooLarge => BatchMessages.TooLarge(card, part, (refusal.SheetWidth, refusal.SheetHeight), GrainOf(fitted, card, part, refusal), fitted.Batch.Unit),
            RefusalReason.PieceCannotBeHeld => BatchMessages.CannotBeHeld(card, part, fitted.Drawer, refusal.LeastCut, refusal.LeastTrim, fitted.Batch.Unit),
            RefusalReason.CountOutOfRange => BatchMessages.TooManyPieces(card),
            _ => throw new InvalidOperationException($"a checked batch was refused: {refusal}"),
        };
    }
}
