using System.Globalization;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>One piece of paper on the face: a piece, or one of its mats.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="MatNumber">0 for the piece itself, 1 for the mat next to it, and so on.</param>
/// <param name="Outline">Its outline before any tilt.</param>
/// <param name="Paper">Its paper.</param>
internal sealed record FaceLayer(FittedPiece Piece, int MatNumber, Outline Outline, Paper Paper)
{
    /// <summary>Its id: <c>piece-band</c>, <c>mat-band-1</c>.</summary>
    public string Id => MatNumber == 0
        ? "piece-" + SvgWriter.IdFrom(Piece.Name)
        : string.Create(CultureInfo.InvariantCulture, $"mat-{SvgWriter.IdFrom(Piece.Name)}-{MatNumber}");

    /// <summary>Its tilt; mats turn with their piece, about the centre of its box.</summary>
    public Angle Tilt => Piece.Source.Tilt;

    /// <summary>The point that it turns about.</summary>
    public Point Centre => Piece.Box.Centre;

    /// <summary>All that is mounted on the face, from the bottom up.</summary>
    public static IReadOnlyList<FaceLayer> Of(FittedCard card)
    {
        List<FaceLayer> layers = [];
        foreach (var piece in card.Pieces)
        {
            for (var i = piece.Mats.Count; i > 0; i--)
            {
                var mat = piece.Mats[i - 1];
                layers.Add(new(piece, i, mat.Outline, card.Layout.PaperNamed(mat.Source.Paper)));
            }

            layers.Add(new(piece, 0, piece.Outline, card.Layout.PaperNamed(piece.Source.Paper)));
        }

        return layers;
    }

    /// <summary>The least upright box around it as it lies, tilt included, to the nearest nanometre.</summary>
    public Box BoundsAsLaid()
    {
        if (Tilt.IsZero)
        {
            return Outline.Bounds;
        }

        // The tilted corners of the bounding box are enough: a margin too wide for a tilted oval does no harm on paper.
        var (sin, cos) = (Tilt.Sin(), Tilt.Cos());
        var bounds = Outline.Bounds;
        var corners = ((PolygonContour)Outline.Rectangle(bounds)).Points.Select(corner =>
        {
            var (x, y) = ((corner.X - Centre.X).Nanometres, (corner.Y - Centre.Y).Nanometres);
            return new Point(
                Position.FromLength((Centre.X + new Position((x * cos) - (y * sin))).ToNearestNanometre()),
                Position.FromLength((Centre.Y + new Position((x * sin) + (y * cos))).ToNearestNanometre()));
        }).ToArray();
        return new(corners.Min(c => c.X), corners.Min(c => c.Y), corners.Max(c => c.X), corners.Max(c => c.Y));
    }
}
