using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>A drawing before it is written: what is on the sheet, with exact places, from the bottom up.</summary>
public sealed record DrawingList
{
    /// <summary>The title.</summary>
    public required string Title { get; init; }

    /// <summary>What is shown, in a sentence, for those who cannot see it.</summary>
    public required string Description { get; init; }

    /// <summary>The unit that the size of the sheet is written in.</summary>
    public required LengthUnit Unit { get; init; }

    /// <summary>
    /// The sheet. On the drawing of one card the origin is the upper left corner of the card face, so the sheet begins at negative
    /// places and coordinates can be read off as places on the card.
    /// </summary>
    public required Box Sheet { get; init; }

    /// <summary>The patterns that fills refer to.</summary>
    public required IReadOnlyList<DrawnPattern> Patterns { get; init; }

    /// <summary>The items, from the bottom up.</summary>
    public required IReadOnlyList<DrawnItem> Items { get; init; }
}
