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
        var unheld = refusals.Where(refusal => refusal.Reason == RefusalReason.PieceCannotBeHeld).ToList();
        var told = refusals.Except(unheld).Select(refusal => One(fitted, refusal)).Concat(Unheld(fitted, unheld)).Distinct().ToList();
        return DiagnosticList.InFileOrder(told);
    }

    /// <summary>
    /// The parts that the stock is too little for, one message for each card; with how many cards it gives where that is known.
    /// </summary>
    /// <param name="fitted">The batch.</param>
    /// <param name="ways">The ways in which panels may be pieced.</param>
    /// <param name="plan">The plan in which something is missing.</param>
    /// <param name="counts">How many of each card can be made, those before it made first; empty if that is not known.</param>
    /// <param name="stops">Why there are no more of those of which there are too few.</param>
    public static IReadOnlyList<Diagnostic> Missing(
        FittedBatch fitted, IReadOnlyList<PiecedPanel> ways, CuttingPlan plan, IReadOnlyList<int> counts, IReadOnlyList<StopReason> stops)
    {
        var missing = plan.Missing
            .Select(entry => (Found: BatchIds.PartOf(fitted, entry.Piece), entry.Piece, entry.Count))
            .Select(entry => (entry.Found.Card, Whole: WholeOf(ways, entry.Found.Part, entry.Count), entry.Piece))
            .ToLookup(entry => entry.Card, ReferenceEqualityComparer.Instance);
        if (stops.Count > 0)
        {
            return
            [
                .. stops.Select(stop =>
                {
                    var c = Enumerable.Range(0, counts.Count).First(i => ReferenceEquals(fitted.Cards[i], stop.Card));
                    return BatchMessages.Fewer(stop, counts[c], fitted.Cards.Take(c).Any(card => card.Wanted.Count > 0), counts.Any(count => count > 0), Parts(stop.Card));
                }),
            ];
        }

        return [.. missing.Select(card => BatchMessages.TooLittle((BatchCard)card.Key!, Parts(card.Key!), card.All(entry => IsProved(plan, entry.Piece))))];

        IReadOnlyList<(BatchPart Part, long Count)> Parts(object card) =>
            [.. missing[card].GroupBy(entry => entry.Whole.Part, ReferenceEqualityComparer.Instance).Select(same => (same.First().Whole.Part, same.Max(entry => entry.Whole.Count)))];
    }

    /// <summary>What cannot be held, the pieces of a card together; what the drawer would have to say is said for all of the batch, since less will not do.</summary>
    private static IEnumerable<Diagnostic> Unheld(FittedBatch fitted, IReadOnlyList<CuttingRefusal> refusals)
    {
        var limits = (refusals.Min(refusal => refusal.LeastCut), refusals.Min(refusal => refusal.LeastTrim));
        return refusals.Select(refusal => (Found: BatchIds.PartOf(fitted, refusal.Piece!), Reason: (refusal.LeastCut is not null, refusal.LeastTrim is not null)))
            .GroupBy(entry => (Card: fitted.Cards.ToList().FindIndex(card => ReferenceEquals(card, entry.Found.Card)), entry.Reason))
            .Select(same => BatchMessages.CannotBeHeld(
                fitted.Cards[same.Key.Card], [.. same.Select(entry => entry.Found.Part)], same.Key.Reason, limits, fitted.Drawer, fitted.Batch.Unit));
    }

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

    /// <summary>The first sheet that is large enough for a part, but where its grain, or the top of its paper, does not let it lie so; null if there is none.</summary>
    private static WrongWay? WrongWayOf(FittedBatch fitted, BatchCard card, BatchPart part)
    {
        var papers = card.Wanted.StandIns.FirstOrDefault(entry => entry.Paper == part.Line.Paper)?.From ?? [part.Line.Paper];
        var alongFold = card.Card.Layout.Base.Fold == Edge.Top ? Axis.Across : Axis.UpDown;
        foreach (var sheet in fitted.Batch.Stock)
        {
            var (width, height) = (sheet.Width - sheet.TrueOff - sheet.TrueOff, sheet.Height - sheet.TrueOff - sheet.TrueOff);
            var isTurned = part.Width > width || part.Height > height;
            if (papers.FirstOrDefault(sheet.Shows) is not { } paper || (isTurned && (part.Height > width || part.Width > height)))
            {
                continue;
            }

            var againstGrain = part.Line.Shape == BaseLine.Shape && sheet.Grain is { } grain && (grain == alongFold) == isTurned;
            var wrong = new WrongWay(sheet, paper, isTurned, againstGrain, isTurned && fitted.Batch.PaperNamed(paper).OneWay);
            if (wrong.Grain || wrong.Top)
            {
                return wrong;
            }
        }

        return null;
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

        var (sheet, unit) = ((refusal.SheetWidth, refusal.SheetHeight), fitted.Batch.Unit);
        return refusal.Reason switch
        {
            RefusalReason.PieceTooLarge => WrongWayOf(fitted, card, part) is { } wrong
                ? BatchMessages.FitsTheWrongWay(card, part, wrong, sheet, GrainOf(fitted, card, part, refusal), unit)
                : BatchMessages.TooLarge(card, part, sheet, GrainOf(fitted, card, part, refusal), unit),
            RefusalReason.CountOutOfRange => BatchMessages.TooManyPieces(card),
            _ => throw new InvalidOperationException($"a checked batch was refused: {refusal}"),
        };
    }
}
