using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>What is cut off the four edges of a sheet to true it, the width of the cut included. Zero is no cut.</summary>
/// <param name="Left">Off the left edge.</param>
/// <param name="Top">Off the top edge.</param>
/// <param name="Right">Off the right edge.</param>
/// <param name="Bottom">Off the bottom edge.</param>
public readonly record struct SheetMargins(Length Left, Length Top, Length Right, Length Bottom)
{
    /// <summary>How many trueing cuts that is.</summary>
    public int Cuts => (Left.IsZero ? 0 : 1) + (Top.IsZero ? 0 : 1) + (Right.IsZero ? 0 : 1) + (Bottom.IsZero ? 0 : 1);

    /// <summary>The same off all four edges.</summary>
    public static SheetMargins FromEqual(Length all) => new(all, all, all, all);
}
