using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>The card face at true size in pale colours, with the dimensions that a cutter and a gluer need.</summary>
public static class MeasuredDrawing
{
    /// <summary>
    /// The most pieces that are measured one by one. A fuller card shows its own size alone: nobody could read the rest, and the trim
    /// list has it.
    /// </summary>
    public const int MostPieces = 60;

    private const double Border = 8;
    private const double BlockGap = 8;
    private const int PalePercent = 72;

    /// <summary>Draws the measured face; the origin is the upper left corner of the card.</summary>
    public static DrawingList Draw(FittedCard card)
    {
        var layers = FaceLayer.Of(card);
        var face = Plane.Roughly(Boxes.OfFace(card.Face, layers));
        var sayings = new SayingsFinder(card).Find();
        var dimensions = new LanePlacer(face, card.Unit).Place(sayings.Dimensions);
        var taken = dimensions.Aggregate(face, (area, placed) => area.Around(placed.LineArea));
        IReadOnlyList<Area> words = [.. dimensions.Select(placed => placed.TextArea)];
        var cost = new LeaderCost(new(layers), words, [.. Levels(layers)], [.. Extensions(dimensions)]);
        var callouts = new LeaderPlacer(face, taken, cost).Place(sayings.Callouts);
        var used = callouts.Aggregate(taken, (area, placed) => area.Around(placed.TextArea));
        var (block, blockArea) = TitleBlock.Draw(card, used.Left, used.Bottom + BlockGap, used.Right);
        var ink = new DimensionInk(dimensions);
        return new()
        {
            Title = card.Layout.Title,
            Description = $"{CardWords.Describe(card)}, with its measures",
            Unit = card.Unit,
            Sheet = Plane.Exactly(used.Around(blockArea).Grown(Border)).OutToStep(card.Unit),
            Patterns = [],
            Items =
            [
                .. Face(card, layers),
                .. sayings.Centres.SelectMany(DimensionInk.Mark),
                .. dimensions.Select(ink.Draw),
                .. callouts.Select(ink.Draw),
                new DrawnGroup(block) { Id = "title-block", Class = "title-block" },
            ],
        };
    }

    private static IEnumerable<(Spot Start, Spot End)> Extensions(IReadOnlyList<PlacedDimension> dimensions)
    {
        foreach (var placed in dimensions)
        {
            foreach (var witness in new[] { placed.Dimension.From, placed.Dimension.To })
            {
                var (begin, end) = placed.Extension(witness);
                var (low, high, at) = (Math.Min(begin, end), Math.Max(begin, end), Plane.Roughly(witness.At));
                yield return placed.IsAcross ? (new(at, low), new(at, high)) : (new(low, at), new(high, at));
            }
        }
    }

    /// <summary>The level edges of what lies straight.</summary>
    private static IEnumerable<(Spot Start, Spot End)> Levels(IReadOnlyList<FaceLayer> layers)
    {
        foreach (var layer in layers.Where(layer => layer.Tilt.IsZero && layer.Outline.Contours[0] is PolygonContour))
        {
            var bounds = Plane.Roughly(layer.Outline.Bounds);
            yield return (new(bounds.Left, bounds.Top), new(bounds.Right, bounds.Top));
            yield return (new(bounds.Left, bounds.Bottom), new(bounds.Right, bounds.Bottom));
        }
    }

    private static IEnumerable<DrawnItem> Face(FittedCard card, IReadOnlyList<FaceLayer> layers)
    {
        var outline = new Stroke(Palette.Wide, Palette.Ink);
        var ground = Palette.Lighter(card.Layout.PaperNamed(card.Layout.Base.Paper).Colour, PalePercent);
        yield return new DrawnGroup([new DrawnOutline(Outline.FromBox(card.Face), new(ground), outline)]) { Id = "card", Class = "card" };
        foreach (var layer in layers)
        {
            yield return new DrawnGroup(
                [new DrawnOutline(layer.Outline, new(Palette.Lighter(layer.Paper.Colour, PalePercent)), outline)])
            {
                Id = layer.Id, Class = layer.MatNumber == 0 ? "piece" : "mat", Turn = new(layer.Tilt, layer.Centre),
            };
        }

        if (card.Pieces.Count > MostPieces)
        {
            yield break;
        }

        // Edges under other pieces, dashed and narrow (ISO 128, line 02.1). Where they can be seen they lie on the wide line.
        var hidden = new Stroke(Palette.Narrow, Palette.Ink, Palette.Micrometres(1500), Palette.Micrometres(1000));
        for (var i = 0; i < layers.Count; i++)
        {
            var bounds = layers[i].BoundsAsLaid();
            if (layers.Skip(i + 1).Any(above => above.Piece != layers[i].Piece && HidesAnEdge(above.BoundsAsLaid(), bounds)))
            {
                yield return new DrawnGroup([new DrawnOutline(layers[i].Outline, null, hidden)])
                {
                    Class = "hidden-edge", Turn = new(layers[i].Tilt, layers[i].Centre),
                };
            }
        }
    }

    private static bool HidesAnEdge(Box above, Box below)
    {
        var apart = above.Right <= below.Left || above.Left >= below.Right || above.Bottom <= below.Top || above.Top >= below.Bottom;
        var within = above.Left > below.Left && above.Right < below.Right && above.Top > below.Top && above.Bottom < below.Bottom;
        return !apart && !within;
    }
}
