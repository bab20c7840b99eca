using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>Paints a card face: as it will look.</summary>
/// <param name="card">The card.</param>
/// <param name="prefix">What ids begin with, so that several faces may stand on one sheet.</param>
/// <param name="withoutLettering">The names of pieces whose lettering is left out, since something else is drawn there; null for none.</param>
internal sealed class FacePainter(FittedCard card, string prefix = "", IReadOnlySet<string>? withoutLettering = null)
{
    private static readonly Length EdgeWidth = Palette.Micrometres(120);

    private readonly List<DrawnPattern> _patterns = [];

    /// <summary>The patterns that the painted items use.</summary>
    public IReadOnlyList<DrawnPattern> Patterns => _patterns;

    /// <summary>Paints the card and all that is mounted on it, from the bottom up.</summary>
    public IReadOnlyList<DrawnItem> Paint()
    {
        var paper = card.Layout.PaperNamed(card.Layout.Base.Paper);
        List<DrawnItem> items =
        [
            new DrawnGroup([Sheet(Outline.FromBox(card.Face), paper, card.Face.Centre, prefix + "paper-of-card")])
            {
                Id = prefix + "card", Class = "card",
            },
        ];
        foreach (var layer in FaceLayer.Of(card))
        {
            if (layer.Piece.Source.Lift.Foam is { } foam && layer.MatNumber == layer.Piece.Mats.Count)
            {
                items.Add(Shadow(layer, foam));
            }

            items.Add(PaintLayer(layer));
        }

        return items;
    }

    private DrawnGroup PaintLayer(FaceLayer layer)
    {
        List<DrawnItem> parts = [Sheet(layer.Outline, layer.Paper, layer.Centre, prefix + "paper-of-" + layer.Id)];
        if (layer.MatNumber == 0)
        {
            if (layer.Piece is { PictureBox: { } box, Source.Picture.Content: { } content })
            {
                parts.Add(new DrawnPicture(
                    prefix + "edge-of-" + layer.Id, content, box, layer.Outline, layer.Piece.Source.Flipped ? layer.Centre.X : null));
            }
            else if (layer.Piece.Source.Kind == PieceKind.Image)
            {
                parts.Add(PictureSign.Draw(layer.Piece, layer.Paper.Colour));
            }

            if (layer.Piece.Source.Text is { } lettering && withoutLettering?.Contains(layer.Piece.Name) != true)
            {
                parts.AddRange(LabelLettering.Draw(layer.Piece, lettering, layer.Paper.Colour));
            }
        }

        return new(parts)
        {
            Id = prefix + layer.Id,
            Class = layer.MatNumber == 0 ? "piece" : "mat",
            Turn = new(layer.Tilt, layer.Centre),
        };
    }

    private DrawnOutline Sheet(Outline outline, Paper paper, Point centre, string patternId)
    {
        var edge = new Stroke(EdgeWidth, Palette.Darker(paper.Colour, 30));
        if (paper.Kind != PaperKind.Patterned)
        {
            return new(outline, new(paper.Colour), edge);
        }

        var number = card.Layout.Papers
            .Where(other => other.Kind == PaperKind.Patterned && other.OneWay == paper.OneWay)
            .TakeWhile(other => other.Name != paper.Name)
            .Count();
        _patterns.Add(PaperTile.Make(patternId, paper, number, centre));
        return new(outline, new(paper.Colour, Pattern: patternId), edge);
    }

    /// <summary>
    /// A soft shadow of height: the outline again, several times over, wider and lower with the foam, as under a broad light from above. It
    /// falls straight down, so that a mirrored card has the mirrored shadow. Plain translucent outlines look the same in every viewer;
    /// a blur does not.
    /// </summary>
    private static DrawnGroup Shadow(FaceLayer layer, Length foam)
    {
        var height = Position.FromLength(foam);
        List<DrawnItem> veils = [];

        // What has the many corners of a picture is only lowered, a few times: at the height of foam the eye sees no difference.
        var cutOut = layer.Piece.Source.CutOut is not null;
        var (count, percent) = cutOut ? (3, 9) : (ShadowVeils, VeilPercent);
        for (var i = count; i > 0; i--)
        {
            // From the widest and lowest to the one close to the piece.
            var share = Rational.From(i, count);
            var spread = height * (share * Rational.From(3, 5));
            var outline = layer.Outline.Contours.Count == 1 && !cutOut ? OutlineOffset.Grow(layer.Outline, spread) : layer.Outline;
            veils.Add(new DrawnOutline(Lowered(outline, height * (share * Rational.From(1, 2))), new(Palette.Ink, percent), null));
        }

        return new(veils) { Class = "shadow", Turn = new(layer.Tilt, layer.Centre) };
    }

    private const int ShadowVeils = 10;
    private const int VeilPercent = 3;

    private static Outline Lowered(Outline outline, Position down) => new(
    [
        .. outline.Contours.Select(contour => contour switch
        {
            PolygonContour p => new PolygonContour([.. p.Points.Select(point => point.Moved(default, down))]),
            EllipseContour e => (Contour)(e with { Centre = e.Centre.Moved(default, down) }),
            _ => contour,
        }),
    ]);
}
