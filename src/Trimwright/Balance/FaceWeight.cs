using System.Numerics;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>What one piece with its mats, as far as it shows, adds to the weight of a face.</summary>
/// <param name="Piece">Its name, or null for the card itself.</param>
/// <param name="Share">Its part of the whole weight, from 0 to 1. The shares of a face add up to 1.</param>
/// <param name="PullX">
/// How far it alone moves the centre of weight across, in hundredths of the width; positive to the right. The pulls of a face add up to
/// where its centre of weight lies from the middle.
/// </param>
/// <param name="PullY">The same down, in hundredths of the height; positive downwards.</param>
public sealed record PieceWeight(string? Piece, Rational Share, Rational PullX, Rational PullY);

/// <summary>A face weighed.</summary>
/// <param name="Whole">The whole face.</param>
/// <param name="Pieces">The card itself, then each piece in the order of the card.</param>
/// <param name="From">The middle of the card: where an arrow that shows the balance begins.</param>
/// <param name="To">The centre of weight: where it ends.</param>
public sealed record FaceWeight(VisualWeight Whole, IReadOnlyList<PieceWeight> Pieces, Point From, Point To)
{
    /// <summary>Weighs a card face on its own render.</summary>
    /// <param name="card">The fitted card.</param>
    /// <param name="pictures">The pictures on its pieces.</param>
    /// <param name="ground">What to weigh it against; null for its own ground. Faces that are compared must be weighed against one ground.</param>
    /// <param name="longerSide">Cells along the longer side of the render.</param>
    /// <returns>The weight, or null where the face is all white on a light ground, or all black on a dark one.</returns>
    public static FaceWeight? Of(FittedCard card, FacePictures pictures, GroundTone? ground = null, int longerSide = FaceRender.UsualSide)
    {
        var render = FaceRender.Draw(card, pictures, longerSide);
        var against = ground ?? Weighing.GroundOf(render.Grey);
        if (Weighing.Of(render.Grey, against) is not { } whole)
        {
            return null;
        }

        var masses = render.Owners.Select(owner => against == GroundTone.Light
            ? (Mass: ((Int128)owner.Cover * LinearLight.White) - owner.Light, X: (owner.CoverX * LinearLight.White) - owner.LightX, Y: (owner.CoverY * LinearLight.White) - owner.LightY)
            : (Mass: owner.Light, X: owner.LightX, Y: owner.LightY)).ToList();
        BigInteger total = masses.Aggregate((Int128)0, (sum, own) => sum + own.Mass);
        var pieces = masses.Select((own, i) => new PieceWeight(
            i == 0 ? null : card.Pieces[i - 1].Name,
            Rational.From(own.Mass, total),
            Pull(own.X, own.Mass, render.Grey.Width, total),
            Pull(own.Y, own.Mass, render.Grey.Height, total))).ToList();
        var to = new Point(card.Face.Width * whole.CentreX, card.Face.Height * whole.CentreY);
        return new(whole, pieces, card.Face.Centre, to);
    }

    // Moments are in half cells from the edge; the middle lies as many half cells from it as there are cells.
    private static Rational Pull(Int128 moment, Int128 mass, int cells, BigInteger total) =>
        Rational.From(50 * (moment - (mass * cells)), total * cells);
}
