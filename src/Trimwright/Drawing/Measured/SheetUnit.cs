using System.Globalization;
using Trimwright.Fitting;

namespace Trimwright.Drawing.Measured;

/// <summary>What is said together on a sheet: a piece, pieces that are alike in all, or a row.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Pieces">Its pieces, from the bottom up.</param>
/// <param name="Row">The row, or null.</param>
internal sealed record SheetUnit(string Name, IReadOnlyList<FittedPiece> Pieces, FittedRow? Row)
{
    /// <summary>Its number in the key; 0 where one sheet says all.</summary>
    public int Number { get; init; }

    /// <summary>What it lies on, or null for the card.</summary>
    public string? On => Row is null ? Pieces[0].Source.On : Row.Source.On;

    /// <summary>How much there is to say of it: places, and a callout.</summary>
    public int Weight => Row is null ? Pieces.Count : 1 + (Pieces.Count / 6);

    /// <summary>What it takes of a sheet, in halves of a callout: lines around the face for a size take half as much again.</summary>
    public int Load => (2 * Weight) + (SayingsFinder.IsDimensioned(Pieces[0]) ? Weight : 0);

    /// <summary>A name with the number before it, if there is one.</summary>
    public string Numbered(string name) => Number == 0 ? name : string.Create(CultureInfo.InvariantCulture, $"{Number} {name}");
}
