namespace Trimwright.Cutting;

/// <summary>Which ways a piece may lie on a sheet.</summary>
public enum PieceLie
{
    /// <summary>Upright or a quarter turned.</summary>
    Either,

    /// <summary>Its width along the width of the sheet only, as for a pattern with a top.</summary>
    Upright,

    /// <summary>A quarter turned only, as for a fold along the grain where the grain runs across the sheet.</summary>
    Turned,
}

/// <summary>How a piece lies on one kind of stock.</summary>
/// <param name="Stock">The id of the stock.</param>
/// <param name="Lie">The ways it may lie there.</param>
public sealed record StockLie(string Stock, PieceLie Lie);
