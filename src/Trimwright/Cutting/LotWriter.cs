using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Writes what is known of a lot, with its proofs, in names.</summary>
internal static class LotWriter
{
    public static CuttingLot Write(CuttingJob job, Lot lot, LotPlan plan)
    {
        var state = (plan.IsComplete, plan.ShortProof) switch
        {
            (true, _) => plan.CostOf(lot) == plan.Bound.Bound ? PlanState.ProvedCheapest : PlanState.WithinBound,
            (false, null) => PlanState.Incomplete,
            _ => PlanState.ProvedIncomplete,
        };
        return new(
            [.. lot.Shapes.SelectMany(shape => shape.Members).Select(member => member.Piece).Order().Select(piece => job.Pieces[piece].Id)],
            [.. lot.Stocks.Select(stock => job.Stock[stock.Index].Id)],
            state,
            plan.Sheets.Sum(sheet => sheet.Repeats),
            plan.CostOf(lot),
            Write(job, lot, plan.Bound))
        {
            ShortProof = state == PlanState.ProvedIncomplete ? Write(job, lot, plan.ShortProof!) : null,
        };
    }

    public static BoundProof Write(CuttingJob job, Lot lot, WorthBound bound) => new()
    {
        Kind = bound.Kind,
        Pieces = [.. lot.Shapes.SelectMany((shape, k) => shape.Members.Select(member => (member.Piece, bound.Worths[k])))
            .OrderBy(item => item.Piece).Select(item => new PieceWorth(job.Pieces[item.Piece].Id, item.Item2))],
        Sheets = [.. lot.Stocks.Select((stock, s) => new SheetWorth(job.Stock[stock.Index].Id, bound.Most[s], bound.WithRules[s])
        {
            RoundedTo = bound.Steps.Length == 0 || bound.Steps[s] == 1 ? Length.Zero : Length.FromNanometres(bound.Steps[s] * lot.Unit),
        })],
        Bound = bound.Bound,
    };
}
