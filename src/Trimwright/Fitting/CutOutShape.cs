using Trimwright.Geometry;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>
/// The outline of a picture on a card, and the mats around it. All is computed about the middle of the picture and moved into place, so that
/// equal pictures have equal mats wherever they lie, and a flipped one the flipped mat.
/// </summary>
internal sealed class CutOutShape
{
    private readonly IReadOnlyList<Outline> _parts;
    private readonly Point _centre;
    private readonly bool _flipped;

    public CutOutShape(PictureOutline picture, Box box, bool flipped)
    {
        var (halfWidth, halfHeight) = (box.Width * Half, box.Height * Half);
        _parts = picture.In(new(-halfWidth, -halfHeight, halfWidth, halfHeight));
        (_centre, _flipped) = (box.Centre, flipped);
    }

    private static Rational Half => Rational.From(1, 2);

    /// <summary>The outline of the picture: its parts, the largest first, each followed by its holes.</summary>
    public Outline Picture => InPlace(_parts);

    /// <summary>The outline of a mat, and how much of it shows where a notch was filled; null where its reveal is the same all round.</summary>
    public (Outline Outline, Length? Widest) Mat(Position reveal)
    {
        var margin = reveal.ToNearestNanometre();
        var mat = CutoutMat.Around(_parts, margin, ScissorSmoothing.Default);
        return (InPlace(Reaching(mat.Outlines, reveal)), mat.Widest > margin + CutoutMat.Tolerance ? mat.Widest : null);
    }

    // The border is in whole micrometres; its outermost corners are put where the layout was solved for, so that every distance to them
    // is the one that was asked for.
    private List<Outline> Reaching(IReadOnlyList<Outline> mats, Position reveal)
    {
        var picture = new Outline([.. _parts.SelectMany(part => part.Contours)]).Bounds;
        var (made, meant) = (new Outline([.. mats.SelectMany(mat => mat.Contours)]).Bounds, picture.Grown(reveal));
        return [.. mats.Select(mat => new Outline([.. mat.Contours.Select(contour => new PolygonContour(
            [.. ((PolygonContour)contour).Points.Select(point => new Point(
                point.X == made.Left ? meant.Left : point.X == made.Right ? meant.Right : point.X,
                point.Y == made.Top ? meant.Top : point.Y == made.Bottom ? meant.Bottom : point.Y))]))]))];
    }

    private Outline InPlace(IReadOnlyList<Outline> parts) => new([.. parts.SelectMany(part => part.Contours).Select(InPlace)]);

    private Contour InPlace(Contour contour)
    {
        var points = ((PolygonContour)contour).Points.Select(point => new Point(_centre.X + (_flipped ? -point.X : point.X), _centre.Y + point.Y));

        // A flip turns the way round; taken backwards, an outer contour is clockwise again.
        return new PolygonContour(_flipped ? [.. points.Reverse()] : [.. points]);
    }
}
