using Trimwright.Batches;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

/// <summary>
/// Looks at a finished card from above and finds seams that show. Knows nothing of how seams were chosen: it slides a small rectangle, as wide as the
/// reach on both sides of the seam and as long as one overlap, down the whole seam, and wants some piece above to hide all of it at every place.
/// </summary>
internal static class SeamSight
{
    /// <summary>Whether a seam is hidden. A piece that only touches another does not hide the place where they meet.</summary>
    /// <param name="card">The card.</param>
    /// <param name="panel">The panel.</param>
    /// <param name="direction">Which way the seam runs.</param>
    /// <param name="at">How far from the left or top edge of the panel.</param>
    /// <param name="reach">How far beyond the seam everything is to be hidden on both sides.</param>
    /// <param name="overlap">How far pieces that take turns have to lap.</param>
    public static bool IsHidden(FittedCard card, FittedPiece panel, Axis direction, Length at, Length reach, Length overlap)
    {
        var upright = direction == Axis.UpDown;
        var seam = (upright ? panel.Box.Left : panel.Box.Top) + at;
        var (from, to) = upright ? (panel.Box.Top, panel.Box.Bottom) : (panel.Box.Left, panel.Box.Right);
        var above = card.Pieces.Skip(card.Pieces.ToList().FindIndex(piece => piece.Name == panel.Name) + 1).ToList();
        for (var start = from; start <= to - overlap; start = Least(start + Length.FromInches(1, 64), start < to - overlap ? to - overlap : to))
        {
            var window = upright
                ? new Box(seam - reach, start, seam + reach, start + overlap)
                : new Box(start, seam - reach, start + overlap, seam + reach);
            if (!above.Exists(piece => Hides(piece, window)))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Hides(FittedPiece piece, Box window) =>
        !(piece.Source.Kind == PieceKind.Image && piece.Source.Cut == CutWay.Scissors)
        && piece.Mats.Select(mat => mat.Outline).Append(piece.Outline).Any(outline => Holds(outline, piece, window));

    private static bool Holds(Outline outline, FittedPiece piece, Box window)
    {
        Point[] corners = [new(window.Left, window.Top), new(window.Right, window.Top), new(window.Right, window.Bottom), new(window.Left, window.Bottom)];
        var turned = corners.Select(corner => TurnedBack(corner, piece)).ToList();
        return outline.Contours.Select((contour, n) => contour switch
        {
            // Round and straight outlines without notches hold a rectangle when they hold its corners.
            EllipseContour ellipse when n == 0 => turned.TrueForAll(corner => IsIn(corner, ellipse)),
            EllipseContour hole => !turned.Exists(corner => IsIn(corner, hole)) && !IsIn(TurnedBack(window.Centre, piece), hole) && !Meets(hole, turned),
            PolygonContour polygon => n == 0 ? Surrounds(polygon, turned) : !Touches(polygon, turned) && !IsIn(Middle(turned), polygon),
            _ => false,
        }).All(holds => holds);
    }

    private static bool Surrounds(PolygonContour polygon, List<Point> rectangle) => IsIn(Middle(rectangle), polygon) && !Touches(polygon, rectangle);

    /// <summary>Whether an edge of a polygon goes through the inside of a rectangle, which may be tilted: cut off by each side of it in turn.</summary>
    private static bool Touches(PolygonContour polygon, List<Point> rectangle)
    {
        for (var n = 0; n < polygon.Points.Count; n++)
        {
            var (p, q) = (polygon.Points[n], polygon.Points[(n + 1) % polygon.Points.Count]);
            var (low, high) = (Rational.Zero, Rational.One);
            for (var side = 0; side < 4; side++)
            {
                var (a, b) = (rectangle[side], rectangle[(side + 1) % 4]);
                var (start, end) = (Left(a, b, p), Left(a, b, q));
                if (start.Sign <= 0 && end.Sign <= 0)
                {
                    (low, high) = (Rational.One, Rational.Zero);
                }
                else if (start.Sign < 0)
                {
                    var enters = start / (start - end);
                    low = enters > low ? enters : low;
                }
                else if (end.Sign < 0)
                {
                    var leaves = start / (start - end);
                    high = leaves < high ? leaves : high;
                }
            }

            if (low < high)
            {
                return true;
            }
        }

        return false;
    }

    // Positive inside: the corners go round as the hands of a clock, and y grows downwards.
    private static Rational Left(Point a, Point b, Point p) =>
        ((b.X - a.X).Nanometres * (p.Y - a.Y).Nanometres) - ((b.Y - a.Y).Nanometres * (p.X - a.X).Nanometres);

    private static bool IsIn(Point point, EllipseContour ellipse)
    {
        var (x, y) = ((point.X - ellipse.Centre.X).Nanometres / ellipse.RadiusX.Nanometres, (point.Y - ellipse.Centre.Y).Nanometres / ellipse.RadiusY.Nanometres);
        return (x * x) + (y * y) <= 1;
    }

    private static bool IsIn(Point point, PolygonContour polygon)
    {
        var inside = false;
        for (var n = 0; n < polygon.Points.Count; n++)
        {
            var (p, q) = (polygon.Points[n], polygon.Points[(n + 1) % polygon.Points.Count]);
            if (p.Y > point.Y != q.Y > point.Y
                && p.X.Nanometres + ((q.X - p.X).Nanometres * ((point.Y - p.Y).Nanometres / (q.Y - p.Y).Nanometres)) > point.X.Nanometres)
            {
                inside = !inside;
            }
        }

        return inside;
    }

    // A hole that lies inside the rectangle, or reaches into it over a side, comes near its middle: rather too many are found than too few.
    private static bool Meets(EllipseContour hole, List<Point> rectangle)
    {
        var (middle, corner) = (Middle(rectangle), rectangle[0]);
        var reach = (corner.X - middle.X).Nanometres.Abs() + (corner.Y - middle.Y).Nanometres.Abs() + hole.RadiusX.Nanometres + hole.RadiusY.Nanometres;
        return (hole.Centre.X - middle.X).Nanometres.Abs() < reach && (hole.Centre.Y - middle.Y).Nanometres.Abs() < reach;
    }

    private static Point Middle(List<Point> rectangle) => new(Position.Midway(rectangle[0].X, rectangle[2].X), Position.Midway(rectangle[0].Y, rectangle[2].Y));

    // In floating point, which is good to a nanometre here: corners are moved by a whole number of them, so that a tilted cover is seen as it is.
    private static Point TurnedBack(Point point, FittedPiece piece)
    {
        if (piece.Source.Tilt.IsZero)
        {
            return point;
        }

        var angle = -(double)piece.Source.Tilt.Degrees.Numerator / (double)piece.Source.Tilt.Degrees.Denominator * Math.PI / 180;
        var (x, y) = (Whole(point.X - piece.Box.Centre.X), Whole(point.Y - piece.Box.Centre.Y));
        return piece.Box.Centre.Moved(
            new((long)Math.Round((x * Math.Cos(angle)) - (y * Math.Sin(angle)))), new((long)Math.Round((x * Math.Sin(angle)) + (y * Math.Cos(angle)))));

        static double Whole(Position position) => (double)position.Nanometres.Numerator / (double)position.Nanometres.Denominator;
    }

    private static Position Least(Position a, Position b) => a <= b ? a : b;
}
