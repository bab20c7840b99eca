using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>The line of the card base: its flat blank, its score and its grain.</summary>
public static class BaseLine
{
    /// <summary>The shape that the trim list gives the base.</summary>
    public const string Shape = "card base";

    /// <summary>
    /// The blank of a folded card: twice the side that runs across the fold, by the other side; scored in the middle.
    /// </summary>
    public static (Length Width, Length Height, Length ScoreAt) Blank(Length width, Length height, Edge fold) =>
        fold == Edge.Top ? (width, 2 * height, height) : (2 * width, height, width);

    internal static TrimLine Of(FittedCard card)
    {
        var fold = card.Layout.Base.Fold;
        var (width, height, score) = Blank(card.Width, card.Height, fold);
        var (edge, side) = fold == Edge.Top ? ("top", height) : ("left", width);
        return new()
        {
            Layer = 0,
            Name = Shape,
            Piece = "card",
            Mat = 0,
            Count = 1,
            Shape = Shape,
            Paper = card.Layout.Base.Paper,
            Width = width,
            Height = height,
            Cut = CutWay.Trimmer,
            Notes =
            [
                $"score at {LengthText.Write(score, card.Unit)} along the {LengthText.Write(side, card.Unit)} side, fold at the {edge}",
                // Folding along the grain cracks least; merchants' pages agree on it.
                $"grain along the fold, {(fold == Edge.Top ? "across" : "up and down")}",
                $"folded {LengthText.WriteSize(card.Width, card.Height, card.Unit)}",
            ],
        };
    }
}
