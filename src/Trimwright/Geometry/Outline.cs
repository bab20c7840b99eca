using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>One closed curve of an outline.</summary>
public abstract record Contour;

/// <summary>A closed polygon; its last point joins its first.</summary>
public sealed record PolygonContour(IReadOnlyList<Point> Points) : Contour;

/// <summary>An ellipse with its axes upright; a circle where both radii are equal.</summary>
public sealed record EllipseContour(Point Centre, Position RadiusX, Position RadiusY) : Contour;

/// <summary>
/// The outline of a piece before any tilt. The outer contour comes first, holes follow (even-odd rule); of a picture in several parts, the
/// next part and its holes after them.
/// </summary>
public sealed record Outline(IReadOnlyList<Contour> Contours)
{
    /// <summary>The least upright box around it, before any tilt.</summary>
    public Box Bounds => Contours.Count == 1 ? BoundsOf(Contours[0]) : new(
        Contours.Min(contour => BoundsOf(contour).Left), Contours.Min(contour => BoundsOf(contour).Top),
        Contours.Max(contour => BoundsOf(contour).Right), Contours.Max(contour => BoundsOf(contour).Bottom));

    private static Box BoundsOf(Contour contour) => contour switch
    {
        EllipseContour e => new(e.Centre.X - e.RadiusX, e.Centre.Y - e.RadiusY, e.Centre.X + e.RadiusX, e.Centre.Y + e.RadiusY),
        PolygonContour p => new(
            p.Points.Min(point => point.X), p.Points.Min(point => point.Y), p.Points.Max(point => point.X), p.Points.Max(point => point.Y)),
        var other => throw new InvalidOperationException($"no bounds are known for a {other.GetType().Name}"),
    };

    /// <summary>The outline of a rectangle.</summary>
    public static Outline FromBox(Box box) => new([Rectangle(box)]);

    /// <summary>The outline of the ellipse that fills a box.</summary>
    public static Outline FromEllipse(Box box) => new([Ellipse(box)]);

    /// <summary>A rectangle as a contour, clockwise from its upper left corner.</summary>
    public static Contour Rectangle(Box box) => new PolygonContour(
    [
        new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom),
    ]);

    /// <summary>The ellipse that fills a box as a contour.</summary>
    public static Contour Ellipse(Box box)
    {
        var half = Rational.From(1, 2);
        return new EllipseContour(box.Centre, box.Width * half, box.Height * half);
    }
}
