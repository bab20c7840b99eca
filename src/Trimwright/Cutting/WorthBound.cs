using System.Numerics;

namespace Trimwright.Cutting;

/// <summary>Worths of shapes with what they prove about a lot, all in whole numbers.</summary>
/// <param name="Kind">How the most of a sheet was found.</param>
/// <param name="Worths">The worth of each shape.</param>
/// <param name="Most">The most that each stock can hold.</param>
/// <param name="WithRules">Whether that needs the holding rules.</param>
internal sealed record WorthBound(BoundKind Kind, long[] Worths, long[] Most, bool[] WithRules)
{
    public long RateWorth { get; private init; }

    public long RateCost { get; private init; }

    /// <summary>The least cost that it proves.</summary>
    public long Bound { get; private init; }

    /// <summary>Works out the bound. See <see cref="BoundProof"/>.</summary>
    /// <param name="kind">How the most of a sheet was found.</param>
    /// <param name="lot">The lot.</param>
    /// <param name="worths">The worth of each shape.</param>
    /// <param name="most">The most that each stock can hold.</param>
    /// <param name="withRules">Whether that needs the holding rules.</param>
    /// <param name="rate">Worth for a cost of one, where no stock without limit sets it.</param>
    public static WorthBound From(BoundKind kind, Lot lot, long[] worths, long[] most, bool[] withRules, long rate)
    {
        BigInteger rateWorth = rate;
        BigInteger rateCost = 1;
        var set = false;
        for (var s = 0; s < most.Length; s++)
        {
            var stock = lot.Stocks[s];
            if (!stock.Limited && (!set || most[s] * rateCost > rateWorth * stock.Cost))
            {
                (rateWorth, rateCost, set) = (Math.Max(most[s], 1), stock.Cost, true);
            }
        }

        BigInteger sum = 0;
        for (var k = 0; k < worths.Length; k++)
        {
            sum += (BigInteger)worths[k] * lot.Shapes[k].Demand;
        }

        sum *= rateCost;
        for (var s = 0; s < most.Length; s++)
        {
            if (lot.Stocks[s].Limited)
            {
                sum -= lot.Stocks[s].Count * BigInteger.Max(0, (most[s] * rateCost) - (lot.Stocks[s].Cost * rateWorth));
            }
        }

        var step = lot.CostStep;
        var bound = sum <= 0 ? 0 : (((sum + (rateWorth * step) - 1) / (rateWorth * step)) * step);
        return new(kind, worths, most, withRules) { RateWorth = (long)rateWorth, RateCost = (long)rateCost, Bound = (long)bound };
    }

    /// <summary>Whether the pieces are worth more than all the sheets together can hold.</summary>
    public bool ProvesShort(Lot lot)
    {
        BigInteger sum = 0;
        for (var k = 0; k < Worths.Length; k++)
        {
            sum += (BigInteger)Worths[k] * lot.Shapes[k].Demand;
        }

        for (var s = 0; s < Most.Length; s++)
        {
            if (!lot.Stocks[s].Limited && Most[s] > 0)
            {
                return false;
            }

            sum -= (BigInteger)Most[s] * lot.Stocks[s].Count;
        }

        return sum > 0;
    }
}
