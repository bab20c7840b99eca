using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>
/// Coordinates of a piece that hangs from one side of its box: <c>across</c> is counted from the centre line, <c>down</c> from the
/// side it hangs from. The four ways of hanging are turns of one another, so a contour keeps its direction.
/// </summary>
internal readonly record struct HungFrame(Box Box, Side HungFrom)
{
    private bool IsUpright => HungFrom is Side.Top or Side.Bottom;

    /// <summary>How wide the piece is where it hangs.</summary>
    public Position Breadth => IsUpright ? Box.Width : Box.Height;

    /// <summary>How far it hangs.</summary>
    public Position Drop => IsUpright ? Box.Height : Box.Width;

    /// <summary>The point on the card.</summary>
    public Point At(Position across, Position down) => HungFrom switch
    {
        Side.Top => new(Box.Centre.X + across, Box.Top + down),
        Side.Right => new(Box.Right - down, Box.Centre.Y + across),
        Side.Bottom => new(Box.Centre.X - across, Box.Bottom - down),
        _ => new(Box.Left + down, Box.Centre.Y - across),
    };
}
