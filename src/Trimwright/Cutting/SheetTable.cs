namespace Trimwright.Cutting;

/// <summary>Finds the most valuable way to cut one sheet of a stock, with any number of each shape.</summary>
internal abstract class SheetTable(Lot lot, int stock)
{
    /// <summary>Worths may add up to this on one sheet.</summary>
    public const int MostWorth = 1 << 29;

    private const int FinestSide = 2_000_000;

    // Steps of one filling: about a tenth of a second.
    private const double MostWork = 4e8;

    /// <summary>The lot, with sides as they are.</summary>
    public Lot Lot { get; } = lot;

    /// <summary>The place of the stock in the lot.</summary>
    public int Stock { get; } = stock;

    /// <summary>Whether the table keeps the holding rules.</summary>
    public abstract bool KeepsRules { get; }

    /// <summary>
    /// How many of a shape a sheet could hold by its area, as the table measures sides; at least 1, and 1 for a shape that cannot come from it. Where
    /// none of them is worth more than <see cref="MostWorth"/> times so many, no mixed sheet is worth twice that: the sums stay whole numbers of 32 bits.
    /// </summary>
    public virtual long MostOf(int shape) =>
        Lot.Shapes[shape].MayComeFrom(Stock) ? Math.Max(1, Lot.Stocks[Stock].Area / Lot.Shapes[shape].Area) : 1;

    /// <summary>Fills the table for these worths, whole numbers from 0, and returns the most that a sheet can give.</summary>
    /// <exception cref="ArgumentException">A shape is worth more than <see cref="MostWorth"/> on a whole sheet: see <see cref="MostOf"/>.</exception>
    public int Fill(int[] worths)
    {
        for (var k = 0; k < worths.Length; k++)
        {
            // The sums are added many at a time, and so wrap round without a word: a bound that came of it would be wrong.
            if (worths[k] < 0 || worths[k] > MostWorth / MostOf(k))
            {
                throw new ArgumentException($"a worth of {worths[k]} is negative or too large for the table", nameof(worths));
            }
        }

        return FillAll(worths);
    }

    /// <summary>Fills the table; the worths are in range.</summary>
    protected abstract int FillAll(int[] worths);

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
            return new RuleTable(lot, stock);
        }

        if (Math.Max(lot.Stocks[stock].Width, lot.Stocks[stock].Height) <= FinestSide)
        {
            var raster = new RasterTable(lot, stock);
            if (raster.Work <= MostWork)
            {
                return raster;
            }
        }

        return new CoarseTable(lot, stock);
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

    /// <summary>
    /// Worths in whole numbers, as large as all tables can hold, with what they were multiplied by; what a table does not know is worth nothing.
    /// What leaving out a piece costs is far above what a sheet does, so that where the stock is too little the factor can be less than 1.
    /// </summary>
    public static (int[] Worths, double Scale) WholeWorths(SheetTable[] tables, double[] worths, long wanted)
    {
        var scale = GreatestScale(tables, worths, wanted);
        var whole = new int[worths.Length];
        for (var k = 0; k < whole.Length; k++)
        {
            whole[k] = Array.TrueForAll(tables, table => table.Sees(k)) ? (int)(worths[k] * scale) : 0;
        }

        return (whole, scale);
    }

    /// <summary>The greatest factor, at most <paramref name="wanted"/> and whole from 1 on, by which worths may be multiplied without leaving a table.</summary>
    private static double GreatestScale(SheetTable[] tables, double[] worths, long wanted)
    {
        var most = 0.0;
        foreach (var table in tables)
        {
            for (var k = 0; k < worths.Length; k++)
            {
                most = Math.Max(most, worths[k] * table.MostOf(k));
            }
        }

        var scale = most <= 0 ? wanted : Math.Min(MostWorth / most, wanted);
        return scale >= 1 ? Math.Floor(scale) : scale;
    }
}
