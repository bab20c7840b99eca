using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>One flat sheet on a face, as polygons in nanometres from the upper left corner of the card, its tilt taken into account.</summary>
/// <param name="Owner">The number of the piece it belongs to, mats included; -1 for the card itself.</param>
/// <param name="Grey">The grey of its paper, of <see cref="LinearLight.White"/>.</param>
/// <param name="Loops">Its closed lines; a point is inside where an odd number of them goes round it.</param>
/// <param name="Picture">The picture on it, or null.</param>
internal sealed record FlatLayer(int Owner, int Grey, IReadOnlyList<(long X, long Y)[]> Loops, LaidPicture? Picture);

/// <summary>Lays a fitted card out as flat sheets from the bottom up.</summary>
internal static class FaceLayers
{
    /// <summary>The sheets of a face, the card itself first.</summary>
    public static List<FlatLayer> Of(FittedCard card, FacePictures pictures)
    {
        var greys = card.Layout.Papers.ToDictionary(paper => paper.Name, paper => GreyOf(paper.Colour), StringComparer.Ordinal);
        List<FlatLayer> layers = [new(-1, greys[card.Layout.Base.Paper], Loops(Outline.FromBox(card.Face), default), null)];
        for (var owner = 0; owner < card.Pieces.Count; owner++)
        {
            var piece = card.Pieces[owner];
            var turn = Turn.Of(piece);
            for (var i = piece.Mats.Count - 1; i >= 0; i--)
            {
                layers.Add(new(owner, greys[piece.Mats[i].Source.Paper], Loops(piece.Mats[i].Outline, turn), null));
            }

            var picture = pictures.Find(piece.Name)?.LaidOn(piece, turn);
            layers.Add(new(owner, greys[piece.Source.Paper], Loops(piece.Outline, turn), picture));
        }

        return layers;
    }

    private static int GreyOf(Colour colour) => LinearLight.GreyOf(colour.Red, colour.Green, colour.Blue);

    private static List<(long X, long Y)[]> Loops(Outline outline, Turn turn)
    {
        var loops = new List<(long X, long Y)[]>(outline.Contours.Count);
        foreach (var contour in outline.Contours)
        {
            loops.Add(contour switch
            {
                PolygonContour polygon => [.. polygon.Points.Select(point => turn.Apply(Nanometres(point.X), Nanometres(point.Y)))],
                EllipseContour ellipse => Ellipse(ellipse, turn),
                _ => throw new InvalidOperationException($"no raster is known for a {contour.GetType().Name}"),
            });
        }

        return loops;
    }

    private static (long X, long Y)[] Ellipse(EllipseContour ellipse, Turn turn)
    {
        var (x, y) = (Nanometres(ellipse.Centre.X), Nanometres(ellipse.Centre.Y));
        var (across, down) = (Nanometres(ellipse.RadiusX), Nanometres(ellipse.RadiusY));
        return [.. UnitCircle.Corners.Select(corner => turn.Apply(
            x + Share(across, corner.X), y + Share(down, corner.Y)))];
    }

    private static long Share(long radius, long part) => (long)((Int128)radius * part / UnitCircle.One);

    internal static long Nanometres(Position position) => position.ToNearestNanometre().Nanometres;
}

/// <summary>A turn about a point, in whole nanometres: near enough for a raster whose cells are tenths of a millimetre.</summary>
internal readonly record struct Turn(long CentreX, long CentreY, long Sin, long Cos)
{
    // Sines and cosines are counted in these.
    private const long One = 1 << 30;

    private bool IsNone => Sin == 0 && Cos is 0 or One;

    /// <summary>The tilt of a piece, about the centre of its box.</summary>
    public static Turn Of(FittedPiece piece) => piece.Source.Tilt.IsZero ? default : new(
        FaceLayers.Nanometres(piece.Box.Centre.X),
        FaceLayers.Nanometres(piece.Box.Centre.Y),
        Scaled(piece.Source.Tilt.Sin()),
        Scaled(piece.Source.Tilt.Cos()));

    /// <summary>A point of the untilted piece, where it lies on the card; clockwise with y downwards.</summary>
    public (long X, long Y) Apply(long x, long y) => IsNone ? (x, y) : Turned(x, y, Sin);

    /// <summary>A point of the card, where it lies on the untilted piece.</summary>
    public (long X, long Y) Undo(long x, long y) => IsNone ? (x, y) : Turned(x, y, -Sin);

    private (long X, long Y) Turned(long x, long y, long sin)
    {
        Int128 dx = x - CentreX, dy = y - CentreY;
        return (CentreX + (long)(((dx * Cos) - (dy * sin)) / One), CentreY + (long)(((dx * sin) + (dy * Cos)) / One));
    }

    private static long Scaled(Rational value) => (long)((value * One) + Rational.From(1, 2)).Floor();
}
