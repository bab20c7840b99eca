using Trimwright.Geometry;
using Trimwright.Layouts;

namespace Trimwright.Fitting;

/// <summary>What lies over what a card is looked at for: its lettering and its pictures. Paper counts, mats and tilt included, and not the box around it.</summary>
internal static class Covering
{
    /// <summary>Whether a piece must not be covered unseen: lettering or a picture.</summary>
    public static bool IsSeenFirst(FittedPiece piece) => piece.Source.Kind is PieceKind.Label or PieceKind.Image;

    /// <summary>The paper of a piece with all its mats, as it lies.</summary>
    public static LaidOutline Whole(FittedPiece piece) =>
        new(piece.Mats.Count == 0 ? piece.Outline : piece.Mats[^1].Outline, piece.Source.Tilt, piece.Box.Centre);

    /// <summary>
    /// Lettering and pictures that other pieces lie over, from the bottom up, each with what lies over it. What was placed on the piece itself is meant to
    /// lie there, and so is what lies on its mats alone.
    /// </summary>
    public static IEnumerable<(FittedPiece Covered, IReadOnlyList<FittedPiece> By)> Of(FittedCard card)
    {
        for (var lower = 0; lower < card.Pieces.Count; lower++)
        {
            var piece = card.Pieces[lower];
            if (!IsSeenFirst(piece))
            {
                continue;
            }

            var own = new LaidOutline(piece.Outline, piece.Source.Tilt, piece.Box.Centre);
            var over = card.Pieces.Skip(lower + 1).Where(upper => !LiesOn(card, upper, piece) && Whole(upper).Meets(own)).ToList();
            if (over.Count > 0)
            {
                yield return (piece, over);
            }
        }
    }

    private static bool LiesOn(FittedCard card, FittedPiece upper, FittedPiece lower)
    {
        var under = card.Layout.PieceUnder(upper.Source.On);
        while (under is not null && under != lower.Name)
        {
            under = card.Layout.PieceUnder(card.PieceNamed(under).Source.On);
        }

        return under is not null;
    }
}
