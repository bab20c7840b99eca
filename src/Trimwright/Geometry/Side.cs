namespace Trimwright.Geometry;

/// <summary>A side of a box.</summary>
public enum Side
{
    /// <summary>The left side.</summary>
    Left,

    /// <summary>The right side.</summary>
    Right,

    /// <summary>The top side.</summary>
    Top,

    /// <summary>The bottom side.</summary>
    Bottom,
}
