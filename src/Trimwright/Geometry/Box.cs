using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>A point on the card: x to the right from its left edge, y down from its top edge.</summary>
public readonly record struct Point(Position X, Position Y)
{
    /// <summary>The point moved.</summary>
    public Point Moved(Position right, Position down) => new(X + right, Y + down);
}

/// <summary>An upright box on the card; y grows downwards.</summary>
public readonly record struct Box(Position Left, Position Top, Position Right, Position Bottom)
{
    /// <summary>A box by its upper left corner and its size.</summary>
    public static Box FromCorner(Position left, Position top, Length width, Length height) =>
        new(left, top, left + width, top + height);

    /// <summary>A box of a size, with its upper left corner at the origin.</summary>
    public static Box FromSize(Length width, Length height) => FromCorner(default, default, width, height);

    /// <summary>The width.</summary>
    public Position Width => Right - Left;

    /// <summary>The height.</summary>
    public Position Height => Bottom - Top;

    /// <summary>The centre.</summary>
    public Point Centre => new(Position.Midway(Left, Right), Position.Midway(Top, Bottom));

    /// <summary>The box larger by a margin on every side (smaller where it is negative).</summary>
    public Box Grown(Position margin) => new(Left - margin, Top - margin, Right + margin, Bottom + margin);

    /// <summary>The box moved.</summary>
    public Box Moved(Position right, Position down) => new(Left + right, Top + down, Right + right, Bottom + down);
}
