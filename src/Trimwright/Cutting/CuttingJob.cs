namespace Trimwright.Cutting;

/// <summary>What to cut, from what, with what.</summary>
/// <param name="Pieces">The pieces wanted; their order breaks ties and is kept in the plan.</param>
/// <param name="Stock">The sheets there are; their order breaks ties.</param>
/// <param name="Rules">What the tool and the hand can do.</param>
public sealed record CuttingJob(IReadOnlyList<WantedPiece> Pieces, IReadOnlyList<StockSheet> Stock, CuttingRules Rules)
{
    /// <summary>
    /// Pieces that may be joined from others, the way liked best first. A plan joins where that makes the sheets cheaper, or where the
    /// piece cannot be cut whole; then as few parts as can be, then as the order says. Pieces that are only parts of others may have a count of 0.
    /// </summary>
    public IReadOnlyList<PieceJoin> Joins { get; init; } = [];

    /// <summary>Stock that costs no more than this, such as offcuts, is gladly used up: no piece is joined, nor of more parts, to save only that.</summary>
    public long SmallCost { get; init; }
}
