namespace Trimwright.Cutting;

/// <summary>What to cut, from what, with what.</summary>
/// <param name="Pieces">The pieces wanted; their order breaks ties and is kept in the plan.</param>
/// <param name="Stock">The sheets there are; their order breaks ties.</param>
/// <param name="Rules">What the tool and the hand can do.</param>
public sealed record CuttingJob(IReadOnlyList<WantedPiece> Pieces, IReadOnlyList<StockSheet> Stock, CuttingRules Rules);
