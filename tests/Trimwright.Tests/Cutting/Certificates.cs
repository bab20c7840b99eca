using System.Numerics;
using Trimwright.Cutting;

namespace Trimwright.Tests.Cutting;

/// <summary>
/// Checks the proofs of a plan again, in exact arithmetic, by the sum that <see cref="BoundProof"/> states and a table of its own: every whole
/// unit, every cut, nothing clever.
/// </summary>
internal static class Certificates
{
    public static void Check(CuttingJob job, CuttingPlan plan)
    {
        foreach (var lot in plan.Lots)
        {
            Check(job, lot);
        }
    }

    private static void Check(CuttingJob job, CuttingLot lot)
    {
        var proof = lot.Proof;
        Assert.Equal(lot.Pieces, proof.Pieces.Select(piece => piece.Piece));
        Assert.Equal(lot.Stock, proof.Sheets.Select(sheet => sheet.Stock));
        CheckMost(job, proof);
        CheckJoins(job, lot, proof);
        CheckBound(job, proof);
        Assert.Equal(lot.State == PlanState.ProvedIncomplete, lot.ShortProof is not null);
        if (lot.ShortProof is { } shortage)
        {
            CheckMost(job, shortage);
            CheckJoins(job, lot, shortage);
            BigInteger wanted = shortage.Pieces.Aggregate(BigInteger.Zero, (sum, piece) => sum + (piece.Worth * (BigInteger)Piece(job, piece.Piece).Count));
            BigInteger there = 0;
            foreach (var sheet in shortage.Sheets.Where(sheet => sheet.Most > 0))
            {
                there += sheet.Most * (BigInteger)Assert.NotNull(Stock(job, sheet.Stock).Count);
            }

            Assert.True(wanted > there, "the sheets can hold what the pieces are worth");
        }
    }

    /// <summary>Joining makes nothing of nothing: the parts of every join that can be made are worth what the whole is.</summary>
    private static void CheckJoins(CuttingJob job, CuttingLot lot, BoundProof proof)
    {
        Assert.Equal(
            job.Joins.Where(join => lot.Pieces.Contains(join.Piece) && join.Parts.All(lot.Pieces.Contains)).Select(join => $"{join.Piece} {string.Join('+', join.Parts)}"),
            proof.Joins.Select(join => $"{join.Piece} {string.Join('+', join.Parts)}"));
        long Worth(string id) => proof.Pieces.Single(piece => piece.Piece == id).Worth;
        Assert.All(proof.Joins, join => Assert.True(join.Parts.Sum(Worth) >= Worth(join.Piece)));
    }

    /// <summary>What is a little cheaper than the bound cannot hold the worth: the most worth for each cost, sheet by sheet.</summary>
    private static void CheckBound(CuttingJob job, BoundProof proof)
    {
        BigInteger wanted = 0;
        foreach (var piece in proof.Pieces)
        {
            Assert.True(piece.Worth >= 0);
            wanted += (BigInteger)piece.Worth * Piece(job, piece.Piece).Count;
        }

        var stocks = proof.Sheets.Select(sheet => (Stock(job, sheet.Stock).Cost, Stock(job, sheet.Stock).Count, sheet.Most)).ToList();
        var step = (long)stocks.Aggregate(BigInteger.Zero, (divisor, stock) => BigInteger.GreatestCommonDivisor(divisor, stock.Cost));
        step = Math.Max(step, 1);
        Assert.Equal(0, proof.Bound % step);
        if (proof.Bound == 0)
        {
            return;
        }

        if (stocks is [{ Cost: > 0 } only])
        {
            Assert.True(((proof.Bound / only.Cost) - 1) * (BigInteger)only.Most < wanted, $"sheets that cost less than {proof.Bound} can hold the worth");
            return;
        }

        var most = new BigInteger[proof.Bound / step];
        foreach (var (cost, count, worth) in stocks)
        {
            Assert.True(cost > 0 || count is not null, "free sheets without end can hold any worth");
            for (var n = 0L; n < (count ?? long.MaxValue) && n * cost < proof.Bound; n++)
            {
                var before = (BigInteger[])most.Clone();
                for (var at = cost / step; at < most.Length; at++)
                {
                    most[at] = BigInteger.Max(most[at], before[at - (cost / step)] + worth);
                }
            }
        }

        Assert.True(most[^1] < wanted, $"sheets that cost less than {proof.Bound} can hold the worth");
    }

    private static void CheckMost(CuttingJob job, BoundProof proof)
    {
        var kerf = job.Rules.Kerf.Nanometres;
        switch (proof.Kind)
        {
            case BoundKind.Area:
                foreach (var sheet in proof.Sheets)
                {
                    var (width, height) = Trued(Stock(job, sheet.Stock));
                    foreach (var worth in proof.Pieces)
                    {
                        var piece = Piece(job, worth.Piece);
                        Assert.Equal(
                            worth.Worth * (BigInteger)(width + kerf) * (height + kerf),
                            sheet.Most * (BigInteger)(piece.Width.Nanometres + kerf) * (piece.Height.Nanometres + kerf));
                    }
                }

                break;
            case BoundKind.NoTwoTogether:
                CheckNoTwoTogether(job, proof);
                break;
            default:
                foreach (var sheet in proof.Sheets)
                {
                    var most = MostWorth.Of(job, Stock(job, sheet.Stock), proof.Pieces, sheet);
                    Assert.True(most <= sheet.Most, $"a sheet of {sheet.Stock} can hold {most}, not only {sheet.Most}");
                }

                break;
        }
    }

    private static void CheckNoTwoTogether(CuttingJob job, BoundProof proof)
    {
        Assert.All(proof.Sheets, sheet => Assert.Equal(1, sheet.Most));
        Assert.All(proof.Pieces, piece => Assert.InRange(piece.Worth, 0, 1));
        var alone = proof.Pieces.Where(piece => piece.Worth == 1).Select(piece => Piece(job, piece.Piece)).ToList();
        for (var a = 0; a < alone.Count; a++)
        {
            for (var b = alone[a].Count > 1 ? a : a + 1; b < alone.Count; b++)
            {
                foreach (var stock in proof.Sheets.Select(sheet => Stock(job, sheet.Stock)))
                {
                    Assert.False(FitTogether(job, alone[a], alone[b], stock), $"{alone[a].Id} and {alone[b].Id} fit one {stock.Id}");
                }
            }
        }
    }

    private static bool FitTogether(CuttingJob job, WantedPiece a, WantedPiece b, StockSheet stock)
    {
        if (!MostWorth.MayComeFrom(a, stock) || !MostWorth.MayComeFrom(b, stock))
        {
            return false;
        }

        var (width, height) = Trued(stock);
        var kerf = job.Rules.Kerf.Nanometres;
        foreach (var (aw, ah) in MostWorth.Ways(a, stock))
        {
            foreach (var (bw, bh) in MostWorth.Ways(b, stock))
            {
                if ((aw + kerf + bw <= width && Math.Max(ah, bh) <= height) || (ah + kerf + bh <= height && Math.Max(aw, bw) <= width))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static (long Width, long Height) Trued(StockSheet stock) => MostWorth.Trued(stock);

    private static WantedPiece Piece(CuttingJob job, string id) => job.Pieces.Single(piece => piece.Id == id);

    private static StockSheet Stock(CuttingJob job, string id) => job.Stock.Single(stock => stock.Id == id);
}
