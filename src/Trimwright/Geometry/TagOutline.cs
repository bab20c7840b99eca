using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>The outline of a tag: a rectangle with two cut corners and a hole at the end it hangs from.</summary>
/// <remarks>
/// Common practice, no source: the corners are cut at 45 degrees by a quarter of the width, and the hole sits on the centre line
/// where the cuts end, an eighth of the width across.
/// </remarks>
public static class TagOutline
{
    /// <summary>Makes the outline; the hole is its second contour.</summary>
    /// <param name="box">The box that the tag is trimmed from.</param>
    /// <param name="hungFrom">The side it hangs from.</param>
    public static Outline Build(Box box, Side hungFrom)
    {
        var frame = new HungFrame(box, hungFrom);
        var half = frame.Breadth * Rational.From(1, 2);

        // A tag that is wider than long would lose its sides to the cuts: then half the length is cut.
        var cut = new Position(Rational.Min((frame.Breadth * Rational.From(1, 4)).Nanometres, (frame.Drop * Rational.From(1, 2)).Nanometres));
        var radius = cut * Rational.From(1, 4);
        return new(
        [
            new PolygonContour(
            [
                frame.At(-half + cut, default), frame.At(half - cut, default), frame.At(half, cut),
                frame.At(half, frame.Drop), frame.At(-half, frame.Drop), frame.At(-half, cut),
            ]),
            new EllipseContour(frame.At(default, cut), radius, radius),
        ]);
    }
}
