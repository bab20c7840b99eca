using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
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
    public static IEnumerable<Diagnostic> Missing(FittedBatch fitted, IReadOnlyList<PiecedPanel> ways, CuttingPlan plan) => plan.Missing
        .Select(missing => (Found: BatchIds.PartOf(fitted, missing.Piece), missing.Piece, missing.Count))
        .Select(missing => (missing.Found.Card, Whole: WholeOf(ways, missing.Found.Part, missing.Count), missing.Piece))
        .GroupBy(missing => missing.Card)
        .Select(card => BatchMessages.TooLittle(
            card.Key, [.. card.GroupBy(missing => missing.Whole.Part, ReferenceEqualityComparer.Instance).Select(same => (same.First().Whole.Part, same.Max(missing => missing.Whole.Count)))],
            card.All(missing => IsProved(plan, missing.Piece))));

    // A panel that lacks one strip of several is not made, and no more than one for each that is lacking.
    private static (BatchPart Part, long Count) WholeOf(IReadOnlyList<PiecedPanel> ways, BatchPart part, long count) =>
        ways.FirstOrDefault(way => way.Strips.Any(strip => ReferenceEquals(strip, part))) is { } way
            ? (way.Panel, (count + way.Strips.Count(strip => ReferenceEquals(strip, part)) - 1) / way.Strips.Count(strip => ReferenceEquals(strip, part)))
            : (part, count);

    // Whether a lot is short is known of each lot by itself.
    private static bool IsProved(CuttingPlan plan, string piece) => plan.Lots.First(lot => lot.Pieces.Contains(piece)).State == PlanState.ProvedIncomplete;

    /// <summary>Why a panel that no sheet gives whole cannot be pieced either; null where no strip as long as a seam fits a sheet, so that a larger sheet is needed.</summary>
    private static Diagnostic? CannotBePieced(FittedBatch fitted, BatchCard card, BatchPart part, FittedPiece panel)
    {
        var choice = new SeamChoice(fitted, card.Card, panel, part.Sources);
        var least = (2 * fitted.Batch.SeamOverlap).CeilingTo(card.Card.Increment);
        var wanted = new[] { Axis.UpDown, Axis.Across }.Where(direction => !choice.WidestStrip(direction).IsZero)
            .Select(direction => new CoverWanted(direction, direction == Axis.UpDown ? panel.Width : panel.Height, choice.WidestStrip(direction), least)).ToList();
        if (wanted.Count == 0)
        {
            return null;
        }

        // One seam is easier to hide than two.
        var best = wanted.OrderBy(cover => cover.IsOne ? 0 : 1).First();
        var covers = wanted.ConvertAll(cover => new SeamCovers(card.Card, panel, cover.Direction, fitted.Batch.SeamOverlap));
        for (var n = 0; n < covers.Count; n++)
        {
            if (covers[n].All().FirstOrDefault() is { } seam)
            {
                return BatchMessages.NoStrip(card, part, seam, wanted[n], best, fitted.Batch);
            }
        }

        // Twice the overlap will do where its middle lies on the trimmer's scale; one step more always does.
        for (var n = 0; n < covers.Count; n++)
        {
            if (wanted[n].IsOne && covers[n].Widest(wanted[n].Size - wanted[n].Widest, wanted[n].Widest) is var (cover, width))
            {
                return BatchMessages.NarrowCover(card, part, (cover, width), width >= least ? width + card.Card.Increment : least, fitted.Batch);
            }
        }

        return BatchMessages.NoCover(card, part, wanted, best, fitted.Batch);
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
            && CannotBePieced(fitted, card, part, panel) is { } told)
        {
            return told;
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
