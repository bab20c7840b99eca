using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>What kind of paper.</summary>
public enum PaperKind
{
    /// <summary>Plain cardstock.</summary>
    Cardstock,

    /// <summary>Patterned paper.</summary>
    Patterned,
}

/// <summary>A paper by name.</summary>
/// <param name="Name">The name used by pieces.</param>
/// <param name="Kind">Cardstock or patterned.</param>
/// <param name="Colour">The colour it is drawn in.</param>
/// <param name="OneWay">Whether its pattern has a top, so that pieces from it must not be turned or flipped.</param>
/// <param name="Grammage">Grams per square metre (ISO 536), or null.</param>
/// <param name="Caliper">Thickness of one sheet (ISO 534), or null.</param>
/// <param name="Place">Where it is declared.</param>
public sealed record Paper(
    string Name, PaperKind Kind, Colour Colour, bool OneWay, Rational? Grammage, Length? Caliper, SourcePlace Place);

/// <summary>An opaque sRGB colour.</summary>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>The colour as CSS writes it, such as <c>#e8e2d0</c>.</summary>
    public override string ToString() => $"#{Red:x2}{Green:x2}{Blue:x2}";
}
