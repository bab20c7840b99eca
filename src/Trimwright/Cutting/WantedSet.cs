namespace Trimwright.Cutting;

/// <summary>How many of a piece a set takes.</summary>
/// <param name="Piece">The id of the piece.</param>
/// <param name="Each">How many for one set; at least 1.</param>
public sealed record SetPart(string Piece, long Each);

/// <summary>Pieces that are only of use together, such as those of one card.</summary>
/// <param name="Id">The name it is found by; unique.</param>
/// <param name="Parts">What one takes.</param>
public sealed record WantedSet(string Id, IReadOnlyList<SetPart> Parts)
{
    /// <summary>What one is worth next to other sets; at least 1.</summary>
    public long Weight { get; init; } = 1;

    /// <summary>Stock that each one brings with it, such as the hidden middles of its own mats. The count of that stock in the job means nothing.</summary>
    public IReadOnlyList<BroughtStock> Brings { get; init; } = [];

    /// <summary>The most that are of use, at least 1; null for as many as the stock gives.</summary>
    public long? AtMost { get; init; }
}

/// <summary>Stock that a set brings with it.</summary>
/// <param name="Stock">The id of the stock.</param>
/// <param name="Each">How many sheets one set brings; at least 1.</param>
public sealed record BroughtStock(string Stock, long Each);
