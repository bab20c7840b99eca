using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Balance;

/// <summary>Which pictures look off the card: they face the edge that they stand nearer to.</summary>
/// <remarks>That a figure should look into the picture is common practice, no source; so it is noted and no variant is ranked by it.</remarks>
public static class FacingNotes
{
    /// <summary>
    /// A sentence for each, such as <c>`wren` faces left and stands nearer to the left edge, so it looks off the card</c>, in the order of
    /// the card. A piece in the middle looks off neither edge.
    /// </summary>
    public static IReadOnlyList<string> Of(FittedCard card) =>
    [
        .. card.Pieces
            .Where(piece => piece.Source.Faces is { } side && IsNearer(piece, card, side))
            .Select(piece => $"`{piece.Name}` faces {FitWords.Edge(piece.Source.Faces!.Value)} and stands nearer to the {FitWords.Edge(piece.Source.Faces!.Value)} edge, so it looks off the card"),
    ];

    // The middle of its box against the middle of the card; a tilt turns a piece about the middle of its box.
    private static bool IsNearer(FittedPiece piece, FittedCard card, Edge side)
    {
        var (at, middle) = (piece.Box.Centre, card.Face.Centre);
        return side switch
        {
            Edge.Left => at.X < middle.X,
            Edge.Right => at.X > middle.X,
            Edge.Top => at.Y < middle.Y,
            _ => at.Y > middle.Y,
        };
    }
}
