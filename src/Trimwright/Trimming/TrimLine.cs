using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>One line of a trim list: pieces that are cut alike.</summary>
public sealed record TrimLine
{
    /// <summary>Its number in the order of assembly, from 1 for the card base.</summary>
    public required int Layer { get; init; }

    /// <summary>What it is, such as <c>band</c>, <c>mat of sun</c> or <c>card base</c>.</summary>
    public required string Name { get; init; }

    /// <summary>The name of the piece it belongs to, or <c>card</c>.</summary>
    public required string Piece { get; init; }

    /// <summary>0 for the piece itself, 1 for the mat next to it, and so on outwards.</summary>
    public required int Mat { get; init; }

    /// <summary>How many.</summary>
    public required int Count { get; init; }

    /// <summary>The shape: a piece kind in lower case, or <c>card base</c>.</summary>
    public required string Shape { get; init; }

    /// <summary>The paper.</summary>
    public required string Paper { get; init; }

    /// <summary>The finished width (for a circle its diameter; for a base the flat blank).</summary>
    public required Length Width { get; init; }

    /// <summary>The finished height.</summary>
    public required Length Height { get; init; }

    /// <summary>How it is cut.</summary>
    public required CutWay Cut { get; init; }

    /// <summary>The die, or null.</summary>
    public Die? Die { get; init; }

    /// <summary>The rectangle to trim first, where that is not the finished size; otherwise null.</summary>
    public (Length Width, Length Height)? Blank { get; init; }

    /// <summary>What it is mounted on: a piece, a mat, or the card; null for the base.</summary>
    public string? On { get; init; }

    /// <summary>The foam under it, or null where it lies flat.</summary>
    public Length? Foam { get; init; }

    /// <summary>
    /// Which mat of its own piece it is mounted on, such as <c>own mat</c>; null where it lies on something else. Pieces that are cut
    /// alike may lie each on its own.
    /// </summary>
    public string? OwnMat { get; init; }

    /// <summary>The turns that the pieces of the line are mounted with, in the order of their names.</summary>
    public IReadOnlyList<Angle> Tilts { get; init; } = [];

    /// <summary>What else to do, as short sentences without full stops.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}
