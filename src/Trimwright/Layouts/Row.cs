using Trimwright.Diagnostics;

namespace Trimwright.Layouts;

/// <summary>
/// Pieces in a row with equal gaps. The row has a box of its own, from the first piece to the last, which placements and rules may
/// name like a piece; it is not cut.
/// </summary>
public sealed record Row
{
    /// <summary>Its name, unique among pieces and rows.</summary>
    public required string Name { get; init; }

    /// <summary>Where its name stands.</summary>
    public required SourcePlace Source { get; init; }

    /// <summary>The piece it is placed on, or null for the card.</summary>
    public string? On { get; init; }

    /// <summary>Which way it runs: pieces follow one another from left to right, or from top to bottom.</summary>
    public required Axis Runs { get; init; }

    /// <summary>The names of its pieces, from the left or from the top; which lies over which is the order of <see cref="Layout.Pieces"/>.</summary>
    public required IReadOnlyList<string> Pieces { get; init; }

    /// <summary>The gap between neighbours, the same everywhere; negative when they overlap; null to let it be what fits.</summary>
    public Wish? Gap { get; init; }

    /// <summary>Whether the spaces between the row's ends and its parent's edges equal the gap.</summary>
    public bool EndsLikeGaps { get; init; }

    /// <summary>Where the row's box goes.</summary>
    public IReadOnlyList<Placement> Placements { get; init; } = [];
}
