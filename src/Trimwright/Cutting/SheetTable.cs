namespace Trimwright.Cutting;

/// <summary>Finds the most valuable way to cut one sheet of a stock, with any number of each shape.</summary>
internal abstract class SheetTable
{
    /// <summary>Worths may add up to this on one sheet.</summary>
    public const int MostWorth = 1 << 29;

    private const int FinestSide = 2_000_000;

    // Steps of one filling: about a tenth of a second.
    private const double MostWork = 4e8;

    /// <summary>The place of the stock in the lot.</summary>
    public required int Stock { get; init; }

    /// <summary>Whether the table keeps the holding rules.</summary>
    public abstract bool KeepsRules { get; }

    /// <summary>
    /// Fills the table for these worths and returns the most that a sheet can give. No shape may be worth more than
    /// <see cref="MostWorth"/> on a whole sheet by its area: see <see cref="GreatestScale"/>.
    /// </summary>
    public abstract int Fill(int[] worths);

    /// <summary>The way to cut that gives it; after <see cref="Fill"/>.</summary>
    public abstract Part Best();

    /// <summary>Whether the way to cut can be cut; if not, only what is on it may be of use.</summary>
    public virtual bool IsExact => true;

    /// <summary>The units that sides are rounded down to.</summary>
    public virtual int Step => 1;

    /// <summary>Whether the table knows a shape; one that it does not must be worth nothing.</summary>
    public virtual bool Sees(int shape) => true;

    public static SheetTable For(Lot lot, int stock)
    {
        if (lot.HasRules && RuleTable.IsSmallEnough(lot.Stocks[stock]))
        {
            return new RuleTable(lot, stock) { Stock = stock };
        }

        if (Math.Max(lot.Stocks[stock].Width, lot.Stocks[stock].Height) <= FinestSide)
        {
            var raster = new RasterTable(lot, stock) { Stock = stock };
            if (raster.Work <= MostWork)
            {
                return raster;
            }
        }

        return new CoarseTable(lot, stock) { Stock = stock };
    }

    /// <summary>What is on the sheet that gives the most, cut as the lot's rules allow; after <see cref="Fill"/>.</summary>
    public Pattern BestPattern(Lot lot)
    {
        var root = Best();
        if (!IsExact || (!KeepsRules && lot.HasRules && !root.KeepsRules(lot)))
        {
            root = Packer.PackAgain(lot, Stock, new Pattern(Stock, root, lot.Shapes.Count).Counts);
        }

        return new(Stock, root, lot.Shapes.Count);
    }

    /// <summary>Worths in whole numbers, as large as all tables can hold; what one of them does not know is worth nothing.</summary>
    public static (int[] Worths, long Scale) WholeWorths(Lot lot, SheetTable[] tables, double[] worths, long wanted)
    {
        var scale = GreatestScale(lot, worths, wanted);
        var whole = new int[worths.Length];
        for (var k = 0; k < whole.Length; k++)
        {
            whole[k] = Array.TrueForAll(tables, table => table.Sees(k)) ? (int)(worths[k] * scale) : 0;
        }

        return (whole, scale);
    }

    /// <summary>The greatest whole factor, at most <paramref name="wanted"/>, by which worths may be multiplied without leaving the table.</summary>
    private static long GreatestScale(Lot lot, double[] worths, long wanted)
    {
        var most = 0.0;
        foreach (var stock in lot.Stocks)
        {
            for (var k = 0; k < worths.Length; k++)
            {
                most = Math.Max(most, worths[k] * Math.Floor((double)stock.Area / lot.Shapes[k].Area));
            }
        }

        return most <= 0 ? wanted : (long)Math.Clamp(MostWorth / most, 1, wanted);
    }
}
