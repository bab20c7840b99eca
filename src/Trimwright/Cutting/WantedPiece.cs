using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Rectangles of one size that are wanted out of the stock.</summary>
/// <param name="Id">The name they are found by in the plan; unique in a job.</param>
/// <param name="Width">The finished width, along the width of the sheet unless turned; positive.</param>
/// <param name="Height">The finished height; positive.</param>
/// <param name="Count">How many; at least 1.</param>
public sealed record WantedPiece(string Id, Length Width, Length Height, long Count)
{
    /// <summary>Whether a piece may lie a quarter turned on the sheet. No for a one-way pattern, or where the grain matters.</summary>
    public bool MayTurn { get; init; } = true;

    /// <summary>The ids of the stock it may be cut from (the right paper with the right side up); null for any.</summary>
    public IReadOnlyList<string>? From { get; init; }
}
