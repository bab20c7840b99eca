using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>A length that the maker wrote, with its strength and its place in the file.</summary>
/// <param name="Value">The length on the format that the layout was drawn for.</param>
/// <param name="Strength">Must for <c>exactly</c>, should for a plain length, may for <c>about</c>.</param>
/// <param name="Unit">The unit it was written in.</param>
/// <param name="Place">Where it stands.</param>
public sealed record Wish(Length Value, Strength Strength, LengthUnit Unit, SourcePlace Place)
{
    /// <summary>The wish as a maker would say it, such as <c>about 2 in</c>.</summary>
    public override string ToString() => Strength switch
    {
        Strength.Must => "exactly ",
        Strength.May => "about ",
        _ => "",
    } + LengthText.Write(Value, Unit);
}
