using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>How a bound was found.</summary>
public enum BoundKind
{
    /// <summary>
    /// Every piece is given a whole worth, and no sheet holds more than <see cref="SheetWorth.Most"/> of it, whatever is cut from it.
    /// To check it, find the most valuable way to cut each sheet, with any number of each piece.
    /// </summary>
    Worth,

    /// <summary>The same, the worth of a piece being its area (the kerf added to both sides) and that of a sheet its own: nothing to check but sums.</summary>
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
public sealed record SheetWorth(string Stock, long Most, bool WithRules)
{
    /// <summary>
    /// When positive, the most was found with every side (the kerf added) rounded down to a multiple of this, which only lets more onto the
    /// sheet: units of inches and millimetres together are too fine for a table. A way to lie in which a piece does not fit the sheet before rounding
    /// is left out. Zero when nothing was rounded.
    /// </summary>
    public Length RoundedTo { get; init; }
}

/// <summary>
/// Why the pieces of a lot cannot cost less: each has a worth, no sheet can hold more than so much worth, and sheets that hold the worth of all
/// pieces together, no more of each than there are, cost at least the bound, which is a multiple of the common divisor of the costs. (Weak duality of linear
/// programming, with whole sheets; Gilmore and Gomory, Operations Research 13, 1965.) When the stock is too little the bound is more than all of it costs.
/// </summary>
public sealed record BoundProof
{
    /// <summary>How it was found.</summary>
    public required BoundKind Kind { get; init; }

    /// <summary>What each piece of the lot is worth, in the order of the job.</summary>
    public required IReadOnlyList<PieceWorth> Pieces { get; init; }

    /// <summary>The most that each stock of the lot can hold, in the order of the job.</summary>
    public required IReadOnlyList<SheetWorth> Sheets { get; init; }

    /// <summary>
    /// The joins that the proof allows for: the parts of each are worth at least what the joined piece is, so that pieces are worth as much as before
    /// however many of them are joined. Empty where nothing may be joined.
    /// </summary>
    public IReadOnlyList<PieceJoin> Joins { get; init; } = [];

    /// <summary>The bound: the lot costs at least this.</summary>
    public required long Bound { get; init; }
}
