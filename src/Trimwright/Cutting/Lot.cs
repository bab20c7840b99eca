namespace Trimwright.Cutting;

/// <summary>Pieces of one size that lie in the same ways on the same stock: planned as one.</summary>
/// <param name="Width">The grown width, along the width of a sheet on which it lies upright.</param>
/// <param name="Height">The grown height.</param>
/// <param name="Demand">How many are wanted.</param>
/// <param name="Upright">For each stock of the lot: whether one may lie upright on it.</param>
/// <param name="Turned">For each stock of the lot: whether one may lie a quarter turned on it.</param>
internal sealed record Shape(int Width, int Height, long Demand, bool[] Upright, bool[] Turned)
{
    /// <summary>The pieces of the job that it stands for, by their place in the job, with their counts.</summary>
    public required IReadOnlyList<(int Piece, long Count)> Members { get; init; }

    public long Area => (long)Width * Height;

    /// <summary>Whether it may be cut from a stock at all.</summary>
    public bool MayComeFrom(int stock) => Upright[stock] || Turned[stock];

    /// <summary>The ways it may lie on a stock: none where it may not come from it.</summary>
    public IEnumerable<(int Width, int Height, bool Turned)> WaysOn(int stock)
    {
        if (Upright[stock])
        {
            yield return (Width, Height, false);
        }

        if (Turned[stock])
        {
            yield return (Height, Width, true);
        }
    }
}

/// <summary>
/// Sheets of one kind, trued. <see cref="Count"/> is never more than there are pieces, so that stock without limit has a number too.
/// </summary>
internal sealed record LotStock(int Index, int Width, int Height, bool Limited, long Count, long Cost)
{
    /// <summary>How many there are, also where that is more than there are pieces: what is proved is proved of these. Means nothing without limit.</summary>
    public required long OnHand { get; init; }

    public long Area => (long)Width * Height;
}

/// <summary>
/// A lot in whole units. All sizes have the kerf added: a cut that leaves parts of a and b out of w takes a + kerf + b = w, which is
/// (a + kerf) + (b + kerf) = (w + kerf), so that grown sizes add up with no kerf at all.
/// </summary>
internal sealed record Lot(IReadOnlyList<Shape> Shapes, IReadOnlyList<LotStock> Stocks)
{
    /// <summary>Nanometres in a unit: a common divisor of all grown sizes.</summary>
    public required long Unit { get; init; }

    /// <summary>The kerf in nanometres.</summary>
    public required long Kerf { get; init; }

    /// <summary>No cut through less than this (grown); 0 for no limit.</summary>
    public required int LeastCut { get; init; }

    /// <summary>No waste thinner than this (grown, so with the kerf that frees it); 0 for no limit.</summary>
    public required int LeastTrim { get; init; }

    /// <summary>The least leftover worth keeping, grown: shorter and longer side.</summary>
    public required (int Short, int Long) Offcut { get; init; }

    /// <summary>How many equal sheets are cut at once.</summary>
    public int StackLimit { get; init; } = 1;

    public bool HasRules => LeastCut > 0 || LeastTrim > 0;

    /// <summary>The common divisor of the costs: no plan costs anything between its multiples.</summary>
    public long CostStep
    {
        get
        {
            var step = 0L;
            foreach (var stock in Stocks)
            {
                step = Gcd(step, stock.Cost);
            }

            return Math.Max(step, 1);
        }
    }

    public bool MayTrim(int thickness) => thickness == 0 || thickness >= LeastTrim;

    public bool MayCut(int through) => through >= LeastCut;

    public bool IsOffcut(int width, int height) => Math.Min(width, height) >= Offcut.Short && Math.Max(width, height) >= Offcut.Long;

    /// <summary>The area of a grown rectangle without its kerf, in square nanometres.</summary>
    public long TrueArea(int width, int height) => ((width * Unit) - Kerf) * ((height * Unit) - Kerf);

    public static long Gcd(long a, long b)
    {
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return a;
    }
}
