using Trimwright.Drawing.Lettering;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>A dimension on a tilted piece, along its own edges. Places are those before the tilt.</summary>
/// <param name="Dimension">What is said.</param>
/// <param name="Text">The words.</param>
/// <param name="Piece">The piece, with whose tilt all is turned.</param>
/// <param name="LineAt">Where the dimension line lies, across.</param>
/// <param name="TextAt">Where the middle of the text lies, along the line.</param>
/// <param name="FootAt">Where the line of writing lies, across.</param>
/// <param name="Area">The least upright area around the text as it lies.</param>
/// <param name="Line">The dimension line as it lies.</param>
internal sealed record TiltedDimension(
    LinearDimension Dimension, string Text, FittedPiece Piece, double LineAt, double TextAt, double FootAt, Area Area, (Spot Start, Spot End) Line);

/// <summary>
/// Says the size of a tilted piece on the piece itself, between its own edges, where that can be read: nothing else may lie on the
/// words, and both ends of the lines must be seen.
/// </summary>
/// <param name="sight">What can be seen.</param>
/// <param name="text">How lengths are written.</param>
/// <param name="extensions">Extension lines, which run over the face.</param>
/// <param name="centres">Centre marks.</param>
internal sealed class TiltedPlacer(
    Sight sight, DimensionText text, IReadOnlyList<(Spot Start, Spot End)> extensions, IReadOnlyList<Point> centres)
{
    // Farther round, words could not be read from the bottom and from the right any more.
    private const int MostTilt = 15;

    private static readonly double[] LineShares = [0.8, 0.2, 0.7, 0.3, 0.6, 0.4];
    private static readonly double[] TextShares = [0.5, 0.6, 0.4, 0.7, 0.3];

    private readonly List<Area> _taken = [];

    /// <summary>Places width and height on the first of the pieces that has room for both; null if none has.</summary>
    public IReadOnlyList<TiltedDimension>? Place(TiltedSize size)
    {
        foreach (var piece in size.Candidates.Where(piece => piece.Source.Tilt.Degrees.Abs() <= MostTilt))
        {
            var index = Array.FindIndex(sight.Shapes, shape => shape.Layer.MatNumber == 0 && shape.Layer.Piece == piece);
            var (across, upDown) = (Along(piece, Axis.Across, size), Along(piece, Axis.UpDown, size));
            foreach (var share in LineShares)
            {
                if (Find(piece, index, across, share, null) is not { } width)
                {
                    continue;
                }

                foreach (var other in LineShares)
                {
                    if (Find(piece, index, upDown, other, width) is { } height)
                    {
                        _taken.AddRange([width.Area, height.Area]);
                        return [width, height];
                    }
                }
            }
        }

        return null;
    }

    private static LinearDimension Along(FittedPiece piece, Axis axis, TiltedSize size)
    {
        var box = piece.Box;
        return axis == Axis.Across
            ? new(axis, new(box.Left, box.Top, box.Bottom), new(box.Right, box.Top, box.Bottom), size.Of, "width", size.Candidates.Count)
            : new(axis, new(box.Top, box.Left, box.Right), new(box.Bottom, box.Left, box.Right), size.Of, "height", size.Candidates.Count);
    }

    private TiltedDimension? Find(FittedPiece piece, int index, LinearDimension dimension, double lineShare, TiltedDimension? other)
    {
        var words = text.Write(dimension.Value, dimension.Count);
        var half = Plane.Roughly(LetteringFont.Instance.Width(words, Capital)) / 2;
        var (above, below) = Reach(words);
        var isAcross = dimension.Axis == Axis.Across;
        var (from, to) = (Plane.Roughly(dimension.From.At), Plane.Roughly(dimension.To.At));
        var (start, end) = (Plane.Roughly(dimension.From.Start), Plane.Roughly(dimension.From.End));
        var lineAt = start + ((end - start) * lineShare);
        var foot = lineAt - TextGap - below;
        var shape = sight.Shapes[index];

        // The line needs room for its words on one side, and for its arrowheads on both.
        if (to - from < (2 * half) + (2 * Arrow) + 2 || foot - above - Air < start || lineAt + (2 * HalfArrow) > end)
        {
            return null;
        }

        var tips = isAcross ? (A: new Spot(from, lineAt), B: new Spot(to, lineAt)) : (A: new Spot(lineAt, from), B: new Spot(lineAt, to));
        if (IsCovered(index, TurnedArea(shape, tips.A, 0.5)) || IsCovered(index, TurnedArea(shape, tips.B, 0.5)))
        {
            return null;
        }

        foreach (var share in TextShares)
        {
            var textAt = from + ((to - from) * share);
            if (textAt - half - Arrow < from || textAt + half + Arrow > to)
            {
                continue;
            }

            var local = isAcross
                ? new Area(textAt - half, foot - above, textAt + half, foot + below) : new Area(foot - above, textAt - half, foot + below, textAt + half);
            var area = Turned(shape, local.Grown(Air));
            if (other is not null && (CrossesLine(local.Grown(Air), other) || CrossesOwnLine(other, dimension, lineAt)))
            {
                continue;
            }

            if (!IsBlocked(index, area) && !_taken.Any(area.Meets) && other?.Area.Meets(area) != true)
            {
                return new(dimension, words, piece, lineAt, textAt, foot, area, (Turned(shape, tips.A), Turned(shape, tips.B)));
            }
        }

        return null;
    }

    /// <summary>Whether the line of another dimension of the piece runs through an area.</summary>
    private static bool CrossesLine(Area area, TiltedDimension other) => other.Dimension.Axis == Axis.Across
        ? area.Top < other.LineAt && area.Bottom > other.LineAt : area.Left < other.LineAt && area.Right > other.LineAt;

    /// <summary>Whether a line would run through the words of another dimension of the piece.</summary>
    private static bool CrossesOwnLine(TiltedDimension other, LinearDimension dimension, double lineAt)
    {
        var half = (Plane.Roughly(LetteringFont.Instance.Width(other.Text, Capital)) / 2) + Air;
        return dimension.Axis != other.Dimension.Axis && Math.Abs(lineAt - other.TextAt) < half;
    }

    private bool IsCovered(int index, Area area)
    {
        foreach (var near in sight.Near(area))
        {
            if (near > index && sight.Shapes[near].Layer.Piece != sight.Shapes[index].Layer.Piece)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether anything that is drawn, hidden edges included, runs through an area, or something lies on it.</summary>
    private bool IsBlocked(int index, Area area) =>
        IsCovered(index, area) || sight.Near(area).Any(near => sight.Shapes[near].HasEdgeIn(area))
        || extensions.Any(line => area.Meets(line.Start, line.End))
        || centres.Any(centre => area.Grown(CentreArm).Meets(Plane.Roughly(centre), Plane.Roughly(centre)));

    private static Area TurnedArea(Shape shape, Spot spot, double around) =>
        Turned(shape, new Area(spot.X - around, spot.Y - around, spot.X + around, spot.Y + around));

    private static Spot Turned(Shape shape, Spot spot)
    {
        var centre = Plane.Roughly(shape.Layer.Centre);
        var (x, y) = (spot.X - centre.X, spot.Y - centre.Y);
        return new(centre.X + (x * shape.Cos) - (y * shape.Sin), centre.Y + (x * shape.Sin) + (y * shape.Cos));
    }

    private static Area Turned(Shape shape, Area area)
    {
        var turned = new Area(double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        foreach (var corner in (Spot[])[new(area.Left, area.Top), new(area.Right, area.Top), new(area.Right, area.Bottom), new(area.Left, area.Bottom)])
        {
            var spot = Turned(shape, corner);
            turned = turned.Around(new(spot.X, spot.Y, spot.X, spot.Y));
        }

        return turned;
    }
}
