using System.Numerics;
using Trimwright.Cutting;

namespace Trimwright.Tests.Cutting;

/// <summary>
/// The most worth that can be cut from one sheet, edge to edge, with any number of each piece: a table over every whole unit that tries every
/// cut. Slow and plain, to check the planner's tables by.
/// </summary>
internal static class MostWorth
{
    public static long Of(CuttingJob job, StockSheet stock, IReadOnlyList<PieceWorth> worths, SheetWorth sheet)
    {
        var rules = job.Rules;
        var withRules = sheet.WithRules;
        var kerf = rules.Kerf.Nanometres;
        var (sheetWidth, sheetHeight) = Trued(stock);
        var pieces = new List<(long Width, long Height, long Worth)>();
        foreach (var worth in worths)
        {
            var piece = job.Pieces.Single(item => item.Id == worth.Piece);
            if (MayComeFrom(piece, stock))
            {
                pieces.AddRange(Ways(piece, stock).Select(way => (way.Width + kerf, way.Height + kerf, worth.Worth)));
            }
        }

        if (!sheet.RoundedTo.IsZero)
        {
            Assert.False(withRules);
            var to = sheet.RoundedTo.Nanometres;

            // What is a few nanometres too tall is on no sheet, though rounded down it would fit.
            pieces = [.. pieces.Where(piece => piece.Width <= sheetWidth + kerf && piece.Height <= sheetHeight + kerf).Select(piece => (piece.Width / to, piece.Height / to, piece.Worth)).Where(piece => piece.Worth > 0)];
            Assert.All(pieces, piece => Assert.True(piece.Item1 > 0 && piece.Item2 > 0));
            return WithoutRules(pieces, (int)((sheetWidth + kerf) / to), (int)((sheetHeight + kerf) / to));
        }

        var unit = BigInteger.GreatestCommonDivisor(sheetWidth + kerf, sheetHeight + kerf);
        foreach (var (width, height, _) in pieces)
        {
            unit = BigInteger.GreatestCommonDivisor(unit, BigInteger.GreatestCommonDivisor(width, height));
        }

        var step = (long)unit;
        var (w, h) = ((int)((sheetWidth + kerf) / step), (int)((sheetHeight + kerf) / step));
        if ((long)w * h > 250_000)
        {
            Assert.False(withRules, "too fine a unit for the plain table");
            return AtSums(pieces, sheetWidth + kerf, sheetHeight + kerf, []);
        }

        var leastCut = withRules && !rules.LeastCut.IsZero ? rules.LeastCut.Nanometres + kerf : 0;
        var leastTrim = withRules ? rules.LeastTrim.Nanometres : 0;

        // -1: no piece can be cut out of it under the rules.
        var most = new long[w + 1, h + 1];
        for (var x = 1; x <= w; x++)
        {
            for (var y = 1; y <= h; y++)
            {
                var best = -1L;
                foreach (var (width, height, worth) in pieces)
                {
                    best = width == x * step && height == y * step ? Math.Max(best, worth) : best;
                }

                for (var at = 1; at < x && y * step >= leastCut; at++)
                {
                    best = Math.Max(best, Sum(most[at, y], most[x - at, y], at * step >= leastTrim, (x - at) * step >= leastTrim));
                }

                for (var at = 1; at < y && x * step >= leastCut; at++)
                {
                    best = Math.Max(best, Sum(most[x, at], most[x, y - at], at * step >= leastTrim, (y - at) * step >= leastTrim));
                }

                most[x, y] = best;
            }
        }

        return Math.Max(0, most[w, h]);
    }

    private static long WithoutRules(List<(long Width, long Height, long Worth)> pieces, int w, int h)
    {
        var most = new long[w + 1, h + 1];
        for (var x = 1; x <= w; x++)
        {
            for (var y = 1; y <= h; y++)
            {
                var best = 0L;
                foreach (var (width, height, worth) in pieces)
                {
                    best = width <= x && height <= y ? Math.Max(best, worth) : best;
                }

                for (var at = 1; at * 2 <= x; at++)
                {
                    best = Math.Max(best, most[at, y] + most[x - at, y]);
                }

                for (var at = 1; at * 2 <= y; at++)
                {
                    best = Math.Max(best, most[x, at] + most[x, y - at]);
                }

                most[x, y] = best;
            }
        }

        return most[w, h];
    }

    /// <summary>Without rules a cut need only be made at a sum of sides: for inches and millimetres on one sheet, whose common unit is very fine.</summary>
    private static long AtSums(
        List<(long Width, long Height, long Worth)> pieces, long width, long height, Dictionary<(long Width, long Height), long> known)
    {
        if (known.TryGetValue((width, height), out var most))
        {
            return most;
        }

        most = pieces.Where(piece => piece.Width <= width && piece.Height <= height).Select(piece => piece.Worth).DefaultIfEmpty(0).Max();
        foreach (var at in Sums(pieces.Select(piece => piece.Width), width))
        {
            most = Math.Max(most, AtSums(pieces, at, height, known) + AtSums(pieces, width - at, height, known));
        }

        foreach (var at in Sums(pieces.Select(piece => piece.Height), height))
        {
            most = Math.Max(most, AtSums(pieces, width, at, known) + AtSums(pieces, width, height - at, known));
        }

        return known[(width, height)] = most;
    }

    private static SortedSet<long> Sums(IEnumerable<long> sides, long below)
    {
        var sums = new SortedSet<long> { 0 };
        foreach (var side in sides.Distinct())
        {
            for (var at = sums.Min; at < below; at = sums.GetViewBetween(at + 1, long.MaxValue).DefaultIfEmpty(long.MaxValue).Min())
            {
                if (at + side < below)
                {
                    sums.Add(at + side);
                }
            }
        }

        sums.Remove(0);
        return sums;
    }

    public static bool MayComeFrom(WantedPiece piece, StockSheet stock) => piece.From is null || piece.From.Contains(stock.Id);

    /// <summary>The sizes a piece may have on a sheet, read from the job and not asked of it.</summary>
    public static IEnumerable<(long Width, long Height)> Ways(WantedPiece piece, StockSheet stock)
    {
        var own = piece.Lies.SingleOrDefault(lie => lie.Stock == stock.Id);
        if (own is null || own.Lie is PieceLie.Either or PieceLie.Upright)
        {
            yield return (piece.Width.Nanometres, piece.Height.Nanometres);
        }

        if (own is null ? piece.MayTurn : own.Lie is PieceLie.Either or PieceLie.Turned)
        {
            yield return (piece.Height.Nanometres, piece.Width.Nanometres);
        }
    }

    public static (long Width, long Height) Trued(StockSheet stock) => (
        stock.Width.Nanometres - stock.Margins.Left.Nanometres - stock.Margins.Right.Nanometres,
        stock.Height.Nanometres - stock.Margins.Top.Nanometres - stock.Margins.Bottom.Nanometres);

    private static long Sum(long a, long b, bool aMayBeWaste, bool bMayBeWaste) => (a, b) switch
    {
        ( >= 0, >= 0) => a + b,
        ( >= 0, < 0) => bMayBeWaste ? a : -1,
        ( < 0, >= 0) => aMayBeWaste ? b : -1,
        _ => -1,
    };
}
