using System.Numerics;

namespace Trimwright.Cutting;

/// <summary>Worths of shapes with what they prove about a lot, all in whole numbers.</summary>
/// <param name="Kind">How the most of a sheet was found.</param>
/// <param name="Worths">The worth of each shape.</param>
/// <param name="Most">The most that each stock can hold.</param>
/// <param name="WithRules">Whether that needs the holding rules.</param>
internal sealed record WorthBound(BoundKind Kind, long[] Worths, long[] Most, bool[] WithRules)
{
    // The table of costs is this long at most; beyond it the bound is left as the rate gives it.
    private const long LongestTable = 200_000;

    /// <summary>The units that sides were rounded down to for each stock; empty where they were not.</summary>
    public int[] Steps { get; init; } = [];

    /// <summary>The least cost that it proves; more than all sheets cost when they cannot hold the worth.</summary>
    public long Bound { get; private init; }

    /// <summary>Works out the bound. See <see cref="BoundProof"/>.</summary>
    /// <param name="kind">How the most of a sheet was found.</param>
    /// <param name="lot">The lot.</param>
    /// <param name="worths">The worth of each shape.</param>
    /// <param name="most">The most that each stock can hold.</param>
    /// <param name="withRules">Whether that needs the holding rules.</param>
    public static WorthBound From(BoundKind kind, Lot lot, long[] worths, long[] most, bool[] withRules)
    {
        var bound = new WorthBound(kind, worths, most, withRules);
        return bound with { Bound = bound.LeastCost(lot) };
    }

    /// <summary>Whether the pieces are worth more than all the sheets together can hold.</summary>
    public bool ProvesShort(Lot lot)
    {
        var wanted = Wanted(lot);
        for (var s = 0; s < Most.Length; s++)
        {
            if (!lot.Stocks[s].Limited && Most[s] > 0)
            {
                return false;
            }

            wanted -= (BigInteger)Most[s] * lot.Stocks[s].OnHand;
        }

        return wanted > 0;
    }

    private BigInteger Wanted(Lot lot)
    {
        BigInteger sum = 0;
        for (var k = 0; k < Worths.Length; k++)
        {
            sum += (BigInteger)Worths[k] * lot.Shapes[k].Demand;
        }

        return sum;
    }

    private long LeastCost(Lot lot)
    {
        var wanted = Wanted(lot);
        var step = lot.CostStep;
        if (ProvesShort(lot))
        {
            return lot.Stocks.Sum(stock => stock.Cost * stock.Count) + step;
        }

        // The sheets with the most worth for their cost first, the last one in part: no choice of whole sheets costs less.
        var left = wanted;
        BigInteger whole = 0;
        foreach (var s in Enumerable.Range(0, Most.Length).Where(s => Most[s] > 0)
            .OrderBy(s => s, Comparer<int>.Create((a, b) => ((BigInteger)lot.Stocks[a].Cost * Most[b]).CompareTo((BigInteger)lot.Stocks[b].Cost * Most[a]))))
        {
            var stock = lot.Stocks[s];
            var holds = (BigInteger)Most[s] * stock.OnHand;
            if (!stock.Limited || holds >= left)
            {
                whole += RoundUp(left * stock.Cost, Most[s]);
                break;
            }

            left -= holds;
            whole += (BigInteger)stock.Cost * stock.OnHand;
        }

        var bound = (long)(RoundUp(whole, step) * step);
        return Most.Length == 1 ? (long)RoundUp(wanted, Math.Max(1, Most[0])) * lot.Stocks[0].Cost : ByTable(lot, wanted, bound, step);
    }

    /// <summary>The least cost, not below a bound, of whole sheets that hold the worth: the most worth for each cost, one stock after another.</summary>
    private long ByTable(Lot lot, BigInteger wanted, long bound, long step)
    {
        // One more sheet of the stock that the rate left in part is enough, so the answer is not far above the bound.
        var length = ((bound + lot.Stocks.Max(stock => stock.Cost)) / step) + 1;
        if (length > LongestTable || wanted > long.MaxValue / 4)
        {
            return bound;
        }

        // More worth than is wanted counts as what is wanted, so that sums stay in range.
        var enough = (long)wanted;
        var most = new long[length];
        for (var s = 0; s < Most.Length; s++)
        {
            var stock = lot.Stocks[s];
            var cost = (int)(stock.Cost / step);
            if (cost == 0)
            {
                var all = Capped(stock.OnHand);
                for (var at = 0; at < length; at++)
                {
                    most[at] = Math.Min(enough, most[at] + all);
                }

                continue;
            }

            // In bundles of 1, 2, 4 ...: every number up to the count is a sum of them.
            for (var (left, bundle) = (stock.Limited ? Math.Min(stock.OnHand, length / cost) : length / cost, 1L); left > 0; bundle *= 2)
            {
                bundle = Math.Min(bundle, left);
                left -= bundle;
                var worth = Capped(bundle);
                for (var at = length - 1; at >= bundle * cost; at--)
                {
                    most[at] = Math.Max(most[at], Math.Min(enough, most[at - (bundle * cost)] + worth));
                }
            }

            long Capped(long sheets) => (long)BigInteger.Min(enough, (BigInteger)Most[s] * sheets);
        }

        for (var at = bound / step; at < length; at++)
        {
            if (most[at] >= wanted)
            {
                return at * step;
            }
        }

        return bound;
    }

    private static BigInteger RoundUp(BigInteger value, BigInteger divisor) => (value + divisor - 1) / divisor;
}
