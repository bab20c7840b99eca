using Trimwright.Fitting;
using Trimwright.Geometry;

namespace Trimwright.Drawing.Measured;

/// <summary>Draws the layers of a sheet in pale colours: outlines wide, what is only there for orientation narrow, hidden edges dashed.</summary>
internal static class FaceInk
{
    private const int PalePercent = 72;
    private const int PalerPercent = 88;

    private static readonly Stroke Wide = new(Palette.Wide, Palette.Ink);
    private static readonly Stroke Narrow = new(Palette.Narrow, Palette.Ink);

    // Edges under other pieces, dashed and narrow (ISO 128-2, line 02.1). Where they can be seen they lie on the wide line.
    private static readonly Stroke Hidden = new(Palette.Narrow, Palette.Ink, DrawingRules.Dash, DrawingRules.DashGap);

    /// <summary>Draws the card and the layers.</summary>
    /// <param name="card">The card.</param>
    /// <param name="sight">The layers, from the bottom up.</param>
    /// <param name="isMeant">Whether a layer is what the sheet is about.</param>
    /// <param name="cardIsMeant">Whether the card is.</param>
    /// <param name="withHidden">Whether hidden edges are drawn.</param>
    public static IEnumerable<DrawnItem> Draw(
        FittedCard card, Sight sight, Func<FaceLayer, bool> isMeant, bool cardIsMeant, bool withHidden)
    {
        var ground = Palette.Lighter(card.Layout.PaperNamed(card.Layout.Base.Paper).Colour, cardIsMeant ? PalePercent : PalerPercent);
        yield return new DrawnGroup([new DrawnOutline(Outline.FromBox(card.Face), new(ground), cardIsMeant ? Wide : Narrow)])
        {
            Id = "card", Class = "card",
        };
        foreach (var shape in sight.Shapes)
        {
            var (layer, meant) = (shape.Layer, isMeant(shape.Layer));
            var paper = Palette.Lighter(layer.Paper.Colour, meant ? PalePercent : PalerPercent);
            yield return new DrawnGroup([new DrawnOutline(layer.Outline, new(paper), meant ? Wide : Narrow)])
            {
                Id = layer.Id, Class = !meant ? "context" : layer.MatNumber == 0 ? "piece" : "mat", Turn = TurnOf(layer),
            };
        }

        for (var i = 0; withHidden && i < sight.Shapes.Length; i++)
        {
            if (isMeant(sight.Shapes[i].Layer) && IsPartlyHidden(sight, i))
            {
                yield return new DrawnGroup([new DrawnOutline(sight.Shapes[i].Layer.Outline, null, Hidden)])
                {
                    Class = "hidden-edge", Turn = TurnOf(sight.Shapes[i].Layer),
                };
            }
        }
    }

    private static Turn? TurnOf(FaceLayer layer) => layer.Tilt.IsZero ? null : new(layer.Tilt, layer.Centre);

    private static bool IsPartlyHidden(Sight sight, int index)
    {
        var below = sight.Shapes[index];
        foreach (var other in sight.Near(below.Area))
        {
            var above = sight.Shapes[other];
            if (other > index && above.Layer.Piece != below.Layer.Piece && HidesAnEdge(above.Area, below.Area))
            {
                return true;
            }
        }

        return false;
    }

    private static bool HidesAnEdge(Area above, Area below)
    {
        var within = above.Left > below.Left && above.Right < below.Right && above.Top > below.Top && above.Bottom < below.Bottom;
        return above.Meets(below) && !within;
    }
}
