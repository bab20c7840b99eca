using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Which way a cut runs on the sheet.</summary>
public enum CutDirection
{
    /// <summary>Down the sheet: the parts lie left and right.</summary>
    Upright,

    /// <summary>Across the sheet: the parts lie above and below.</summary>
    Level,
}

/// <summary>
/// A rectangle of paper in a cut tree: either cut in two, or done. Places are measured from the top left corner of the untrimmed sheet,
/// to the right and down.
/// </summary>
/// <param name="Left">The left edge.</param>
/// <param name="Top">The top edge.</param>
/// <param name="Width">The width; positive.</param>
/// <param name="Height">The height; positive.</param>
public abstract record CutNode(Length Left, Length Top, Length Width, Length Height)
{
    /// <summary>The node and all below it, parents before children, first before second: an order in which the cuts can be made.</summary>
    public IEnumerable<CutNode> Walk()
    {
        var open = new Stack<CutNode>([this]);
        while (open.TryPop(out var node))
        {
            yield return node;
            if (node is CutInTwo cut)
            {
                if (cut.Second is { } second)
                {
                    open.Push(second);
                }

                open.Push(cut.First);
            }
        }
    }
}

/// <summary>
/// A rectangle that is cut from edge to edge. The first part is left of (above) the cut, then comes the kerf, then the second part.
/// </summary>
public sealed record CutInTwo(Length Left, Length Top, Length Width, Length Height) : CutNode(Left, Top, Width, Height)
{
    /// <summary>Which way the cut runs.</summary>
    public required CutDirection Direction { get; init; }

    /// <summary>The distance from the left (top) edge of this rectangle to the cut: the width (height) of the first part.</summary>
    public required Length At { get; init; }

    /// <summary>The part left of (above) the cut.</summary>
    public required CutNode First { get; init; }

    /// <summary>The part right of (below) the cut; null when the kerf takes all of it.</summary>
    public CutNode? Second { get; init; }

    /// <summary>
    /// Whether it is the second part that lies against the fence, so that the rectangle is held by its right (lower) edge. Waste is never held.
    /// </summary>
    public bool FromFarEdge { get; init; }

    /// <summary>The distance of the fence from the blade: the size, across the cut, of the part that is held.</summary>
    public Length Setting => !FromFarEdge || Second is null ? At : Direction == CutDirection.Upright ? Second.Width : Second.Height;
}

/// <summary>A finished piece.</summary>
public sealed record CutPiece(Length Left, Length Top, Length Width, Length Height) : CutNode(Left, Top, Width, Height)
{
    /// <summary>
    /// Which piece is cut here on each copy of the sheet, one id per copy: pieces of one size share plans, so copies may differ in what
    /// the piece is for.
    /// </summary>
    public required IReadOnlyList<string> Ids { get; init; }

    /// <summary>Whether it lies a quarter turned: its own width runs down the sheet.</summary>
    public required bool Turned { get; init; }
}

/// <summary>A leftover worth keeping.</summary>
public sealed record CutOffcut(Length Left, Length Top, Length Width, Length Height) : CutNode(Left, Top, Width, Height);

/// <summary>A leftover that is not.</summary>
public sealed record CutSliver(Length Left, Length Top, Length Width, Length Height) : CutNode(Left, Top, Width, Height);
