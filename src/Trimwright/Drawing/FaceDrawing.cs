using Trimwright.Fitting;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>The card as it will look, at true size and without dimensions.</summary>
public static class FaceDrawing
{
    // Room for a shadow, and for an eye to see where the card ends.
    private static readonly Length Margin = Length.FromMillimetres(6);

    /// <summary>Draws the face; the origin is the upper left corner of the card.</summary>
    public static DrawingList Draw(FittedCard card)
    {
        var painter = new FacePainter(card);
        var items = painter.Paint();
        return new()
        {
            Title = card.Layout.Title,
            Description = $"{CardWords.Describe(card)}, as it will look",
            Unit = card.Unit,
            Sheet = Boxes.OfFace(card.Face, FaceLayer.Of(card)).Grown(Position.FromLength(Margin)).OutToStep(card.Unit),
            Patterns = painter.Patterns,
            Items = items,
        };
    }
}
