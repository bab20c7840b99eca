using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Rectangles of one size that are wanted out of the stock.</summary>
/// <param name="Id">The name they are found by in the plan; unique in a job.</param>
/// <param name="Width">The finished width, along the width of the sheet unless turned; positive.</param>
/// <param name="Height">The finished height; positive.</param>
/// <param name="Count">How many; at least 1.</param>
public sealed record WantedPiece(string Id, Length Width, Length Height, long Count)
{
    /// <summary>
    /// Whether a piece may lie a quarter turned on stock that <see cref="Lies"/> does not name. No for a one-way pattern, or where the grain matters.
    /// </summary>
    public bool MayTurn { get; init; } = true;

    /// <summary>
    /// Stock on which it lies in a way of its own, each at most once: a pattern may have a top on one sheet and none on another, and a grain that
    /// runs across one sheet and down another has the same piece lie turned on one of them and upright on the other.
    /// </summary>
    public IReadOnlyList<StockLie> Lies { get; init; } = [];

    /// <summary>The ids of the stock it may be cut from (the right paper with the right side up); null for any.</summary>
    public IReadOnlyList<string>? From { get; init; }

    /// <summary>Whether it may be cut from that stock, if it fits.</summary>
    public bool MayComeFrom(string stock) => From?.Contains(stock, StringComparer.Ordinal) ?? true;

    /// <summary>The ways it may lie on that stock.</summary>
    public PieceLie LieOn(string stock) =>
        Lies.FirstOrDefault(known => known.Stock == stock)?.Lie ?? (MayTurn ? PieceLie.Either : PieceLie.Upright);

    /// <summary>The sizes it may have on that stock, along the width and the height of the sheet; upright first.</summary>
    internal IEnumerable<(Length Width, Length Height, bool Turned)> WaysOn(string stock)
    {
        var lie = LieOn(stock);
        if (lie != PieceLie.Turned || Width == Height)
        {
            yield return (Width, Height, false);
        }

        if (lie != PieceLie.Upright && Width != Height)
        {
            yield return (Height, Width, true);
        }
    }
}
