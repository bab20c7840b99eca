using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>What a piece is glued to, and what else it lies on.</summary>
/// <param name="On">The piece that it is glued to, or null for the card.</param>
/// <param name="MeasureFrom">The piece whose edges its place is measured from, or null for the card.</param>
/// <param name="AlsoOver">Pieces below, other than those that <paramref name="On"/> rests on, that it partly lies on, from the bottom up.</param>
/// <param name="Steps">Those of them that stand higher than what it is glued to, with how much higher.</param>
internal sealed record Footing(
    FittedPiece? On, FittedPiece? MeasureFrom, IReadOnlyList<FittedPiece> AlsoOver, IReadOnlyList<(FittedPiece Piece, Length Height)> Steps)
{
    /// <summary>The footing of every piece, by the order of the card's pieces.</summary>
    public static IReadOnlyList<Footing> Of(FittedCard card)
    {
        var shapes = FaceLayer.Of(card).Where(layer => layer.MatNumber == layer.Piece.Mats.Count).Select(layer => new LayerShape(layer)).ToArray();
        var footings = new List<Footing>();
        var foam = new List<Length>();
        for (var i = 0; i < card.Pieces.Count; i++)
        {
            var on = Below(card, shapes, i);
            var under = Chain(on, footings);

            // What lies under the piece that it is glued to is met only where it reaches beyond that.
            int[] over = [.. Enumerable.Range(0, i).Where(j => !under.Contains(j) && shapes[i].Covers(shapes[j], on > j ? shapes[on.Value] : null))];
            var level = on is { } footed ? foam[footed] : Length.Zero;
            foam.Add(level + (card.Pieces[i].Source.Lift.Foam ?? Length.Zero));
            footings.Add(new(
                on is { } index ? card.Pieces[index] : null,
                on is { } edges && HasUprightEdges(card.Pieces[edges]) ? card.Pieces[edges] : null,
                [.. over.Select(j => card.Pieces[j])],
                [.. over.Where(j => foam[j] > level).Select(j => (card.Pieces[j], foam[j] - level))]));
        }

        return footings;

        HashSet<int> Chain(int? on, List<Footing> known)
        {
            var chain = new HashSet<int>();
            for (var at = on; at is { } j && chain.Add(j);)
            {
                at = known[j].On is { } next ? IndexOf(card, next.Name) : null;
            }

            return chain;
        }
    }

    private static int IndexOf(FittedCard card, string name)
    {
        for (var i = 0; i < card.Pieces.Count; i++)
        {
            if (card.Pieces[i].Name == name)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>
    /// The piece it is placed on, if that is glued down before it. A piece may be placed on one that comes later, to be tucked in
    /// behind it: then what lies highest under its centre.
    /// </summary>
    private static int? Below(FittedCard card, LayerShape[] shapes, int index)
    {
        if (card.Layout.PieceUnder(card.Pieces[index].Source.On) is not { } named)
        {
            return null;
        }

        var parent = IndexOf(card, named);
        if (parent < index)
        {
            return parent;
        }

        var area = shapes[index].Area;
        var under = Array.FindLastIndex(shapes, index - 1, index, shape => shape.Contains((area.Left + area.Right) / 2, (area.Top + area.Bottom) / 2));
        return under < 0 ? null : under;
    }

    /// <summary>Whether a ruler can be laid along its four edges.</summary>
    private static bool HasUprightEdges(FittedPiece piece) => piece.Source.Tilt.IsZero && piece.Source.CutOut is null
        && piece.Source.Kind is (PieceKind.Panel or PieceKind.Strip or PieceKind.Square or PieceKind.Label or PieceKind.Image or PieceKind.Frame);
}
