using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Parts a sound job into lots that have nothing to do with each other, and writes each in whole units.</summary>
internal static class LotMaker
{
    public static List<Lot> Make(CuttingJob job)
    {
        var lies = job.Pieces.Select(piece => job.Stock.Select(sheet => Ways(piece, sheet)).ToArray()).ToList();
        var mayUse = lies.ConvertAll(piece => Array.ConvertAll(piece, way => way != Lie.None));
        var group = Enumerable.Range(0, job.Stock.Count).ToArray();
        foreach (var uses in mayUse)
        {
            var first = group[Array.IndexOf(uses, true)];
            for (var s = 0; s < uses.Length; s++)
            {
                if (uses[s] && group[s] != first)
                {
                    var old = group[s];
                    for (var other = 0; other < group.Length; other++)
                    {
                        group[other] = group[other] == old ? first : group[other];
                    }
                }
            }
        }

        var lots = new List<Lot>();
        foreach (var key in mayUse.Select(uses => group[Array.IndexOf(uses, true)]).Distinct())
        {
            var pieces = Enumerable.Range(0, job.Pieces.Count).Where(p => group[Array.IndexOf(mayUse[p], true)] == key).ToList();
            var stock = Enumerable.Range(0, job.Stock.Count).Where(s => group[s] == key).ToList();
            lots.Add(MakeLot(job, pieces, stock, lies));
        }

        return lots;
    }

    /// <summary>The whole job as one lot, for what ties everything together.</summary>
    public static Lot MakeOne(CuttingJob job) => MakeLot(
        job,
        [.. Enumerable.Range(0, job.Pieces.Count)],
        [.. Enumerable.Range(0, job.Stock.Count)],
        [.. job.Pieces.Select(piece => job.Stock.Select(sheet => Ways(piece, sheet)).ToArray())]);

    // The ways that a piece fits stock that it may come from: what does not fit ties nothing together.
    private static Lie Ways(WantedPiece piece, StockSheet sheet)
    {
        var (width, height) = JobChecks.Trued(sheet);
        return piece.MayComeFrom(sheet.Id)
            ? piece.WaysOn(sheet.Id).Where(way => way.Width <= width && way.Height <= height)
                .Aggregate(Lie.None, (ways, way) => ways | (way.Turned ? Lie.Turned : Lie.Upright))
            : Lie.None;
    }

    private static Lot MakeLot(CuttingJob job, List<int> pieces, List<int> stock, List<Lie[]> lies)
    {
        var kerf = job.Rules.Kerf.Nanometres;
        var unit = 0L;
        foreach (var p in pieces)
        {
            unit = Lot.Gcd(Lot.Gcd(unit, job.Pieces[p].Width.Nanometres + kerf), job.Pieces[p].Height.Nanometres + kerf);
        }

        foreach (var s in stock)
        {
            var (width, height) = JobChecks.Trued(job.Stock[s]);
            unit = Lot.Gcd(Lot.Gcd(unit, width.Nanometres + kerf), height.Nanometres + kerf);
        }

        var total = pieces.Sum(p => job.Pieces[p].Count);
        var shapes = new List<Shape>();
        foreach (var same in pieces.GroupBy(p => KeyOf(job.Pieces[p], lies[p])))
        {
            var (piece, ways) = (job.Pieces[same.First()], lies[same.First()]);
            shapes.Add(new(Units(piece.Width), Units(piece.Height), same.Sum(p => job.Pieces[p].Count),
                [.. stock.Select(s => ways[s].HasFlag(Lie.Upright))], [.. stock.Select(s => ways[s].HasFlag(Lie.Turned))])
            {
                Members = [.. same.Select(p => (p, job.Pieces[p].Count))],
            });
        }

        var rules = job.Rules;
        var (least, most) = rules.OffcutWidth < rules.OffcutHeight
            ? (rules.OffcutWidth, rules.OffcutHeight) : (rules.OffcutHeight, rules.OffcutWidth);
        return new(shapes, [.. stock.Select(s => MakeStock(job.Stock[s], s))])
        {
            Unit = unit,
            Kerf = kerf,
            LeastCut = rules.LeastCut.IsZero ? 0 : UnitsUp(rules.LeastCut.Nanometres + kerf),
            StackLimit = rules.StackLimit,
            LeastTrim = UnitsUp(rules.LeastTrim.Nanometres),
            Offcut = (UnitsUp(Math.Max(least.Nanometres, 1) + kerf), UnitsUp(most.Nanometres + kerf)),
        };

        int Units(Length length) => (int)((length.Nanometres + kerf) / unit);

        // No side is as long as the greatest number, so what is longer than every sheet stays so.
        int UnitsUp(long nanometres) => (int)Math.Min((nanometres + unit - 1) / unit, int.MaxValue);

        LotStock MakeStock(StockSheet sheet, int index)
        {
            var (width, height) = JobChecks.Trued(sheet);
            return new(index, Units(width), Units(height), sheet.Count < total || sheet.Cost == 0,
                Math.Min(sheet.Count ?? total, total), sheet.Cost)
            {
                OnHand = sheet.Count ?? total,
            };
        }
    }

    private static (long Width, long Height, string Lies) KeyOf(WantedPiece piece, Lie[] lies) => (
        piece.Width.Nanometres, piece.Height.Nanometres, string.Concat(lies.Select(lie => (char)('0' + (int)lie))));

    [Flags]
    private enum Lie
    {
        None = 0,
        Upright = 1,
        Turned = 2,
    }
}
