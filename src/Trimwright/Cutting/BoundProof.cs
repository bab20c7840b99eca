namespace Trimwright.Cutting;

/// <summary>How a bound was found.</summary>
public enum BoundKind
{
    /// <summary>
    /// Every piece is given a whole worth, and no sheet holds more than <see cref="SheetWorth.Most"/> of it, whatever is cut from it.
    /// To check it, find the most valuable way to cut each sheet, with any number of each piece.
    /// </summary>
    Worth,

    /// <summary>The same, the worth of a piece being its area and that of a sheet its own: nothing to check but sums.</summary>
    Area,

    /// <summary>
    /// Pieces with the worth 1 of which no two fit one sheet. To check it, try each two side by side and one above the other.
    /// Of a piece with the worth 1 that is wanted once, a second copy is no matter.
    /// </summary>
    NoTwoTogether,
}

/// <summary>What a piece is worth in a proof.</summary>
/// <param name="Piece">The id of the piece.</param>
/// <param name="Worth">The worth of one; at least 0.</param>
public sealed record PieceWorth(string Piece, long Worth);

/// <summary>The most worth a sheet can hold.</summary>
/// <param name="Stock">The id of the stock.</param>
/// <param name="Most">No way to cut one sheet gives more than this.</param>
/// <param name="WithRules">Whether that holds because of the holding rules; if not, it holds without them too.</param>
public sealed record SheetWorth(string Stock, long Most, bool WithRules);

/// <summary>
/// Why the pieces of a lot cannot cost less. With d pieces of worth p each, sheets of at most worth F, cost c and, where limited, count N,
/// and a rate R = <see cref="RateWorth"/> / <see cref="RateCost"/> of worth to cost with F &lt;= c R for stock without limit, the cost is at
/// least (sum of p d - sum over limited stock of N max(0, F - c R)) / R, rounded up to a multiple of the common divisor of the costs. When no
/// stock is without limit any positive rate will do. (Weak duality of linear programming; Gilmore and Gomory, Operations Research 13, 1965.)
/// </summary>
public sealed record BoundProof
{
    /// <summary>How it was found.</summary>
    public required BoundKind Kind { get; init; }

    /// <summary>What each piece of the lot is worth, in the order of the job.</summary>
    public required IReadOnlyList<PieceWorth> Pieces { get; init; }

    /// <summary>The most that each stock of the lot can hold, in the order of the job.</summary>
    public required IReadOnlyList<SheetWorth> Sheets { get; init; }

    /// <summary>The worth part of the rate.</summary>
    public required long RateWorth { get; init; }

    /// <summary>The cost part of the rate.</summary>
    public required long RateCost { get; init; }

    /// <summary>The bound: the lot costs at least this.</summary>
    public required long Bound { get; init; }
}
