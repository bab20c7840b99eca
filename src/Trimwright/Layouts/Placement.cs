using Trimwright.Diagnostics;

namespace Trimwright.Layouts;

/// <summary>An edge of a piece or a card.</summary>
public enum Edge
{
    /// <summary>The left edge.</summary>
    Left,

    /// <summary>The right edge.</summary>
    Right,

    /// <summary>The top edge.</summary>
    Top,

    /// <summary>The bottom edge.</summary>
    Bottom,
}

/// <summary>A direction on the card.</summary>
public enum Axis
{
    /// <summary>From left to right.</summary>
    Across,

    /// <summary>From top to bottom.</summary>
    UpDown,
}

/// <summary>How a piece is placed. A piece may have several placements; together they say where it is and, for some, how large.</summary>
/// <param name="Source">Where it stands in the file.</param>
public abstract record Placement(SourcePlace Source);

/// <summary>The piece fills its parent and leaves a reveal, the same on all four sides.</summary>
/// <param name="Reveal">The reveal, or null for the layout's own.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Fill(Wish? Reveal, SourcePlace Source) : Placement(Source);

/// <summary>The piece runs from edge to edge of its parent along one axis.</summary>
/// <param name="Axis">The axis.</param>
/// <param name="ShortBy">How far it stops before each of the two edges (the same at both), or null to reach them.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Span(Axis Axis, Wish? ShortBy, SourcePlace Source) : Placement(Source);

/// <summary>An edge of the piece sits a distance inside the same edge of its parent (negative: beyond it).</summary>
/// <param name="Edge">The edge, of the piece and of its parent.</param>
/// <param name="Distance">The distance.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record FromEdge(Edge Edge, Wish Distance, SourcePlace Source) : Placement(Source);

/// <summary>The centre of the piece lies on the centre of another along one axis.</summary>
/// <param name="Axis">The axis.</param>
/// <param name="On">The other piece or row, <c>card</c> for the card of a piece that is not placed on it, or null for the parent.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Centred(Axis Axis, string? On, SourcePlace Source) : Placement(Source);

/// <summary>The piece hangs from an edge of its parent: the two edges meet, and a banner's tail points away from it.</summary>
/// <param name="From">The edge.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Hang(Edge From, SourcePlace Source) : Placement(Source);

/// <summary>
/// The piece lies beside another, at one of its edges: it overlaps it by an amount, or leaves a gap, or meets it.
/// </summary>
/// <param name="Other">The other piece.</param>
/// <param name="Side">The edge of the other piece beyond which this one lies.</param>
/// <param name="Gap">The gap between the two; negative when they overlap; null when they meet edge to edge.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Beside(string Other, Edge Side, Wish? Gap, SourcePlace Source) : Placement(Source);
