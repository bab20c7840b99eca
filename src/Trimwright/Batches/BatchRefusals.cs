using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

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
        .Select(missing => (BatchIds.PartOf(fitted, missing.Piece).Card, Part: WholeOf(ways, BatchIds.PartOf(fitted, missing.Piece).Part), missing.Piece, missing.Count))
        .GroupBy(missing => missing.Card)
        .Select(card => BatchMessages.TooLittle(
            card.Key, [.. card.GroupBy(missing => missing.Part, ReferenceEqualityComparer.Instance).Select(same => (same.First().Part, same.Max(missing => missing.Count)))],
            card.All(missing => IsProved(plan, missing.Piece))));

    // A panel that lacks one strip of several is not made.
    private static BatchPart WholeOf(IReadOnlyList<PiecedPanel> ways, BatchPart part) =>
        ways.FirstOrDefault(way => way.Strips.Any(strip => ReferenceEquals(strip, part)))?.Panel ?? part;

    // Whether a lot is short is known of each lot by itself.
    private static bool IsProved(CuttingPlan plan, string piece) => plan.Lots.First(lot => lot.Pieces.Contains(piece)).State == PlanState.ProvedIncomplete;

    /// <summary>Why a panel that no sheet gives whole cannot be pieced either; null where no strip as long as a seam fits a sheet, so that a larger sheet is needed.</summary>
    private static Diagnostic? CannotBePieced(FittedBatch fitted, BatchCard card, BatchPart part, FittedPiece panel)
    {
        var choice = new SeamChoice(fitted, card.Card, panel, part.Sources);
        var overlap = fitted.Batch.SeamOverlap;
        var directions = new[] { Axis.UpDown, Axis.Across }.Where(direction => !choice.WidestStrip(direction).IsZero).ToList();
        var covers = directions.ConvertAll(direction => new SeamCovers(card.Card, panel, direction, overlap));
        if (covers.Count == 0)
        {
            return null;
        }

        for (var n = 0; n < covers.Count; n++)
        {
            if (covers[n].All().FirstOrDefault() is { } seam)
            {
                return BatchMessages.NoStrip(
                    card, part, seam, choice.WidestStrip(directions[n]), directions[n] == Axis.UpDown ? panel.Width : panel.Height, (2 * overlap).CeilingTo(card.Card.Increment), fitted.Batch);
            }
        }

        // Twice the overlap will do where its middle lies on the trimmer's scale; one step more always does.
        var widest = covers.Select(cover => cover.Widest()).Where(cover => cover is not null).OrderByDescending(cover => cover!.Value.Width).FirstOrDefault();
        var least = (2 * overlap).CeilingTo(card.Card.Increment);
        return BatchMessages.NoCover(card, part, widest, widest is { } known && known.Width >= least ? known.Width + card.Card.Increment : least, fitted.Batch);
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
            RefusalReason.PieceTooLarge => BatchMessages.TooLarge(card, part, (refusal.SheetWidth, refusal.SheetHeight), fitted.Batch.Unit),
            RefusalReason.PieceCannotBeHeld => BatchMessages.CannotBeHeld(card, part, fitted.Drawer.SmallestPiece, fitted.Batch.Unit),
            RefusalReason.CountOutOfRange => BatchMessages.TooManyPieces(card),
            _ => throw new InvalidOperationException($"a checked batch was refused: {refusal}"),
        };
    }
}
