using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>The outline of a banner: a strip that hangs from a side of its box and ends in a tail.</summary>
public static class BannerOutline
{
    private static readonly Rational Half = Rational.From(1, 2);

    /// <summary>Makes the outline, clockwise, beginning with a corner on the side it hangs from.</summary>
    /// <param name="box">The box that the banner is trimmed from; its tips or its point reach the far side.</param>
    /// <param name="hungFrom">The side it hangs from.</param>
    /// <param name="tail">How it ends.</param>
    /// <param name="depth">How deep the notch, or how long the point; not used for a straight end.</param>
    /// <param name="taper">
    /// How much narrower it is, in all, at its tail than where it hangs: at the tips of a fishtail, at the shoulders of a point.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">The depth is not within the length, or the taper not within the width.</exception>
    public static Outline Build(Box box, Side hungFrom, TailShape tail, Position depth, Position taper)
    {
        var frame = new HungFrame(box, hungFrom);
        if (tail != TailShape.Straight && (depth < default(Position) || depth >= frame.Drop))
        {
            throw new ArgumentOutOfRangeException(nameof(depth), depth, "the tail must be shorter than the banner");
        }

        if (taper < default(Position) || taper >= frame.Breadth)
        {
            throw new ArgumentOutOfRangeException(nameof(taper), taper, "the taper must be less than the width");
        }

        var hung = frame.Breadth * Half;
        var tip = (frame.Breadth - taper) * Half;
        var end = frame.Drop;
        List<Point> points = [frame.At(-hung, default), frame.At(hung, default)];
        points.AddRange(tail switch
        {
            TailShape.Fishtail => [frame.At(tip, end), frame.At(default, end - depth), frame.At(-tip, end)],
            TailShape.Pointed => [frame.At(tip, end - depth), frame.At(default, end), frame.At(-tip, end - depth)],
            _ => (Point[])[frame.At(tip, end), frame.At(-tip, end)],
        });
        return new([new PolygonContour(points)]);
    }
}
