using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>The edge along which the base is folded.</summary>
/// <param name="Paper">Its paper.</param>
/// <param name="Fold">Left (opens like a book) or top (opens like a tent).</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record CardBase(string Paper, Edge Fold, SourcePlace Source);

/// <summary>A checked layout: every name known, every value in its place. Pieces from the bottom up.</summary>
public sealed record Layout
{
    /// <summary>The file it was read from, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>The title.</summary>
    public required string Title { get; init; }

    /// <summary>The format that its measures are meant for.</summary>
    public required CardFormat Format { get; init; }

    /// <summary>Which way the card is held.</summary>
    public required Holding Holding { get; init; }

    /// <summary>The unit of plain numbers.</summary>
    public required LengthUnit Unit { get; init; }

    /// <summary>The reveal where none is named.</summary>
    public required Wish Reveal { get; init; }

    /// <summary>The card base.</summary>
    public required CardBase Base { get; init; }

    /// <summary>The papers, in file order.</summary>
    public required IReadOnlyList<Paper> Papers { get; init; }

    /// <summary>The pieces from the bottom up; the pieces of a row stand where the row stands.</summary>
    public required IReadOnlyList<Piece> Pieces { get; init; }

    /// <summary>The rows, in file order.</summary>
    public required IReadOnlyList<Row> Rows { get; init; }

    /// <summary>The rules, in file order.</summary>
    public required IReadOnlyList<Rule> Rules { get; init; }

    /// <summary>The paper of that name.</summary>
    public Paper PaperNamed(string name) => Papers.First(paper => paper.Name == name);

    /// <summary>The piece that lies under what is placed on a piece or a row, or null for the card: a row is no paper, so what the row lies on.</summary>
    /// <param name="name">The name of the piece or row; null for the card.</param>
    public string? PieceUnder(string? name)
    {
        while (Rows.FirstOrDefault(row => row.Name == name) is { } row)
        {
            name = row.On;
        }

        return name;
    }
}
