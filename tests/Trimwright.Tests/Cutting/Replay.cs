using System.Numerics;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>
/// Cuts the paper as a plan says and looks at what comes out. Shares nothing with the planner: rectangles are cut afresh from the stock, in
/// nanometres, and compared with what the plan claims.
/// </summary>
internal sealed class Replay
{
    private readonly CuttingJob _job;
    private readonly Dictionary<string, long> _made = [];
    private readonly Dictionary<string, long> _used = [];

    private Replay(CuttingJob job) => _job = job;

    /// <summary>Replays a plan; any slip fails the test.</summary>
    public static void Check(CuttingJob job, CuttingPlan plan)
    {
        var replay = new Replay(job);
        foreach (var sheet in plan.Sheets)
        {
            replay.Cut(sheet);
        }

        replay.CheckCounts(plan);
        replay.CheckLots(plan);
    }

    /// <summary>Replays one sheet of any number of pieces and returns how many of each came out.</summary>
    public static IReadOnlyDictionary<string, long> CheckSheet(CuttingJob job, SheetPlan sheet)
    {
        var replay = new Replay(job);
        replay.Cut(sheet);
        return replay._made;
    }

    private void Cut(SheetPlan sheet)
    {
        Assert.True(sheet.Repeats >= 1);
        var stock = _job.Stock.Single(item => item.Id == sheet.Stock);
        _used[stock.Id] = _used.GetValueOrDefault(stock.Id) + sheet.Repeats;
        var margins = stock.Margins;
        var paper = new Paper(
            margins.Left.Nanometres,
            margins.Top.Nanometres,
            stock.Width.Nanometres - margins.Left.Nanometres - margins.Right.Nanometres,
            stock.Height.Nanometres - margins.Top.Nanometres - margins.Bottom.Nanometres);
        var area = Take(paper, sheet.Root, sheet);
        if (_job.Rules.Kerf.IsZero)
        {
            Assert.Equal((BigInteger)paper.Width * paper.Height, area);
        }
    }

    private BigInteger Take(Paper paper, CutNode node, SheetPlan sheet)
    {
        Assert.Equal(paper, new Paper(node.Left.Nanometres, node.Top.Nanometres, node.Width.Nanometres, node.Height.Nanometres));
        Assert.True(paper.Width > 0 && paper.Height > 0, "a rectangle without paper");
        switch (node)
        {
            case CutInTwo cut:
                return CutThrough(paper, cut, sheet);
            case CutPiece piece:
                Finish(piece, sheet);
                break;
            case CutOffcut:
                Assert.True(IsWorthKeeping(paper), $"{paper} is no leftover worth keeping");
                break;
            case CutSliver:
                Assert.False(IsWorthKeeping(paper), $"{paper} is worth keeping");
                break;
            default:
                Assert.Fail($"an unknown leaf {node.GetType().Name}");
                break;
        }

        return (BigInteger)paper.Width * paper.Height;
    }

    private BigInteger CutThrough(Paper paper, CutInTwo cut, SheetPlan sheet)
    {
        var rules = _job.Rules;
        var upright = cut.Direction == CutDirection.Upright;
        var size = upright ? paper.Width : paper.Height;
        var through = upright ? paper.Height : paper.Width;
        var at = cut.At.Nanometres;
        Assert.InRange(at, 1, size - 1);
        Assert.True(through >= rules.LeastCut.Nanometres, $"a cut of {through} nm cannot be held");
        var rest = size - at - rules.Kerf.Nanometres;
        var first = upright ? paper with { Width = at } : paper with { Height = at };
        var area = Take(first, cut.First, sheet);
        if (cut.First is CutOffcut or CutSliver)
        {
            Assert.True(at + rules.Kerf.Nanometres >= rules.LeastTrim.Nanometres, $"{at} nm cannot be shaved off");
        }

        if (rest <= 0)
        {
            Assert.Null(cut.Second);
        }

        if (cut.Second is null or CutOffcut or CutSliver)
        {
            Assert.True(size - at >= rules.LeastTrim.Nanometres, $"{size - at} nm cannot be shaved off");
            Assert.False(cut.First is CutOffcut or CutSliver, "waste is cut from waste");
        }

        if (cut.Second is null)
        {
            Assert.True(rest <= 0, "paper is lost");
            Assert.False(cut.FromFarEdge);
            return area;
        }

        var moved = at + rules.Kerf.Nanometres;
        var second = upright
            ? paper with { Left = paper.Left + moved, Width = rest }
            : paper with { Top = paper.Top + moved, Height = rest };
        Assert.Equal(cut.FromFarEdge ? rest : at, cut.Setting.Nanometres);
        return area + Take(second, cut.Second, sheet);
    }

    private void Finish(CutPiece leaf, SheetPlan sheet)
    {
        Assert.Equal(sheet.Repeats, leaf.Ids.Count);
        foreach (var id in leaf.Ids)
        {
            var piece = _job.Pieces.Single(item => item.Id == id);
            var (width, height) = leaf.Turned ? (piece.Height, piece.Width) : (piece.Width, piece.Height);
            Assert.Equal((width, height), (leaf.Width, leaf.Height));
            var own = piece.Lies.SingleOrDefault(lie => lie.Stock == sheet.Stock)?.Lie ?? (piece.MayTurn ? PieceLie.Either : PieceLie.Upright);
            Assert.True(own != PieceLie.Upright || !leaf.Turned, $"{id} may not turn on {sheet.Stock}");
            Assert.True(own != PieceLie.Turned || leaf.Turned || width == height, $"{id} must turn on {sheet.Stock}");
            Assert.True(piece.From is null || piece.From.Contains(sheet.Stock), $"{id} may not come from {sheet.Stock}");
            _made[id] = _made.GetValueOrDefault(id) + 1;
        }
    }

    private bool IsWorthKeeping(Paper paper)
    {
        var rules = _job.Rules;
        long[] least = [rules.OffcutWidth.Nanometres, rules.OffcutHeight.Nanometres];
        long[] own = [paper.Width, paper.Height];
        Array.Sort(least);
        Array.Sort(own);
        return own[0] >= least[0] && own[1] >= least[1];
    }

    private void CheckCounts(CuttingPlan plan)
    {
        Assert.All(plan.Missing, missing => Assert.True(missing.Count > 0));
        Assert.Equal(plan.Missing.Count > 0, plan.State is PlanState.Incomplete or PlanState.ProvedIncomplete);
        foreach (var piece in _job.Pieces)
        {
            var missing = plan.Missing.SingleOrDefault(item => item.Piece == piece.Id)?.Count ?? 0;
            var joined = plan.Joined.Sum(joined => joined.Count * (joined.Join.Parts.Count(part => part == piece.Id) - (joined.Join.Piece == piece.Id ? 1 : 0)));
            Assert.Equal(piece.Count + joined, _made.GetValueOrDefault(piece.Id) + missing);
        }

        Assert.All(plan.Joined, joined => Assert.True(joined.Count > 0 && _job.Joins.Any(join => join.Piece == joined.Join.Piece && join.Parts.SequenceEqual(joined.Join.Parts))));

        foreach (var stock in _job.Stock)
        {
            Assert.True(stock.Count is null || _used.GetValueOrDefault(stock.Id) <= stock.Count, $"more of {stock.Id} than there is");
        }

        Assert.Equal(_job.Stock.Sum(stock => stock.Cost * _used.GetValueOrDefault(stock.Id)), plan.Cost);
        Assert.Equal(_used.Values.Sum(), plan.SheetCount);
    }

    private void CheckLots(CuttingPlan plan)
    {
        var wanted = _job.Pieces.Where(piece => piece.Count > 0).Select(piece => piece.Id).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(wanted, plan.Lots.SelectMany(lot => lot.Pieces).Where(wanted.Contains).Order(StringComparer.Ordinal));
        Assert.Equal(plan.Lots.Max(lot => lot.State), plan.State);
        foreach (var lot in plan.Lots)
        {
            Assert.Equal(lot.Stock.Sum(id => _used.GetValueOrDefault(id)), lot.Sheets);
            Assert.Equal(lot.Stock.Sum(id => _used.GetValueOrDefault(id) * _job.Stock.Single(stock => stock.Id == id).Cost), lot.Cost);
            if (lot.State is PlanState.ProvedCheapest or PlanState.WithinBound)
            {
                Assert.Equal(lot.State == PlanState.ProvedCheapest, lot.Cost == lot.Proof.Bound);
                Assert.True(lot.Proof.Bound <= lot.Cost);
            }
        }
    }

    private sealed record Paper(long Left, long Top, long Width, long Height);
}
