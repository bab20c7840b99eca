using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>Which way the card is held.</summary>
public enum Holding
{
    /// <summary>The longer side up and down.</summary>
    Portrait,

    /// <summary>The longer side across.</summary>
    Landscape,
}

/// <summary>A finished card size.</summary>
/// <param name="Name">Its name, such as <c>A2</c>; for the maker's own size, the size itself.</param>
/// <param name="ShortSide">The shorter side.</param>
/// <param name="LongSide">The longer side; the same as the shorter for a square.</param>
/// <param name="Unit">The unit the format is made in, which decides the trimmer scale that is used.</param>
/// <param name="Envelope">The envelope it goes in, shorter side first, or null for the maker's own size.</param>
/// <param name="Source">Where the size comes from.</param>
public sealed record CardFormat(
    string Name, Length ShortSide, Length LongSide, LengthUnit Unit, (Length ShortSide, Length LongSide)? Envelope, string Source)
{
    /// <summary>Whether both sides are equal, so that the holding changes nothing.</summary>
    public bool IsSquare => ShortSide == LongSide;

    /// <summary>Width and height of the card face as held.</summary>
    public (Length Width, Length Height) Held(Holding holding) =>
        holding == Holding.Portrait ? (ShortSide, LongSide) : (LongSide, ShortSide);
}
