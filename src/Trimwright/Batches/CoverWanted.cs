using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>The narrowest cover that would let a panel be pieced from the strips that the stock gives.</summary>
/// <param name="Direction">Which way its seam would run.</param>
/// <param name="Size">How large the panel is across the seam.</param>
/// <param name="Widest">How large strips can be across the seam.</param>
/// <param name="Least">How wide the cover has to be: twice the overlap, on the trimmer's scale.</param>
internal sealed record CoverWanted(Axis Direction, Length Size, Length Widest, Length Least)
{
    /// <summary>Whether two strips make the panel, so that one cover will do.</summary>
    public bool IsOne => Widest + Widest >= Size;

    /// <summary>What to lay where, for a maker.</summary>
    public string Remedy(LengthUnit unit)
    {
        string Text(Length length) => LengthText.Write(length, unit);
        var (edge, along) = Direction == Axis.UpDown ? ("left", "from top to bottom") : ("top", "from side to side");
        var whole = $"at least {Text(Least)} wide across the whole of it, {along}";
        return IsOne
            ? $"lay a strip {whole}, with its middle {(Size - Widest == Widest ? Text(Widest) : $"{Text(Size - Widest)} to {Text(Widest)}")} from the {edge} edge, or add a larger sheet to `stock`"
            : $"lay strips {whole}, with their middles, and the edges of the panel, no more than {Text(Widest)} apart, or add a larger sheet to `stock`";
    }
}
