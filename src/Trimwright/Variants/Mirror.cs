namespace Trimwright.Variants;

/// <summary>The ways a layout is mirrored.</summary>
public enum Mirror
{
    /// <summary>Left and right change places.</summary>
    LeftRight,

    /// <summary>Top and bottom change places.</summary>
    TopBottom,

    /// <summary>Both: the layout turned half round.</summary>
    HalfTurn,

    /// <summary>The accents alone change from left to right, each within the piece it is placed on; the rest stays.</summary>
    AccentsAlone,
}
