using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>A place in millimetres, for deciding where words and lines go. No size that is cut or written is computed from it.</summary>
internal readonly record struct Spot(double X, double Y)
{
    /// <summary>The distance to another.</summary>
    public double To(Spot other) => Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));

    /// <summary>The place on the drawing, to the nearest micrometre.</summary>
    public Point ToPoint() => new(Plane.Exactly(X), Plane.Exactly(Y));
}

/// <summary>An upright area in millimetres.</summary>
internal readonly record struct Area(double Left, double Top, double Right, double Bottom)
{
    /// <summary>The area larger on every side.</summary>
    public Area Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);

    /// <summary>The least area around both.</summary>
    public Area Around(Area other) => new(
        Math.Min(Left, other.Left), Math.Min(Top, other.Top), Math.Max(Right, other.Right), Math.Max(Bottom, other.Bottom));

    /// <summary>Whether the two have more than an edge in common.</summary>
    public bool Meets(Area other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    /// <summary>Whether a straight line between two places meets the area.</summary>
    public bool Meets(Spot a, Spot b) => Within(a, b) is not null;

    /// <summary>Which part of a straight line between two places lies in the area, as shares of its length; null if none.</summary>
    public (double Enter, double Leave)? Within(Spot a, Spot b)
    {
        if (Math.Max(a.X, b.X) < Left || Math.Min(a.X, b.X) > Right || Math.Max(a.Y, b.Y) < Top || Math.Min(a.Y, b.Y) > Bottom)
        {
            return null;
        }

        // Liang and Barsky's clipping: the line is inside all four half planes for some stretch of its length.
        var (enter, leave) = (0.0, 1.0);
        return Clip(a.X - b.X, a.X - Left) && Clip(b.X - a.X, Right - a.X) && Clip(a.Y - b.Y, a.Y - Top) && Clip(b.Y - a.Y, Bottom - a.Y)
            && enter <= leave ? (enter, leave) : null;

        bool Clip(double outwards, double room)
        {
            if (outwards == 0)
            {
                return room >= 0;
            }

            if (outwards < 0)
            {
                enter = Math.Max(enter, room / outwards);
            }
            else
            {
                leave = Math.Min(leave, room / outwards);
            }

            return true;
        }
    }
}

/// <summary>Between exact places and millimetres.</summary>
internal static class Plane
{
    /// <summary>An exact place in millimetres, for deciding where words go.</summary>
    public static double Roughly(Position position) => position.ToNearestNanometre().Nanometres / 1e6;

    /// <summary>An exact place in millimetres, for deciding where words go.</summary>
    public static Spot Roughly(Point point) => new(Roughly(point.X), Roughly(point.Y));

    /// <summary>A length in millimetres, for deciding where words go.</summary>
    public static double Roughly(Length length) => length.Nanometres / 1e6;

    /// <summary>A ratio, for deciding where words go.</summary>
    public static double Roughly(Rational ratio) => (double)ratio.Numerator / (double)ratio.Denominator;

    /// <summary>A box in millimetres, for deciding where words go.</summary>
    public static Area Roughly(Box box) => new(Roughly(box.Left), Roughly(box.Top), Roughly(box.Right), Roughly(box.Bottom));

    /// <summary>A chosen place, to the nearest micrometre.</summary>
    public static Position Exactly(double millimetres) =>
        Position.FromLength(Length.FromNanometres((long)Math.Round(millimetres * 1000) * 1000));

    /// <summary>A chosen box, to the nearest micrometre.</summary>
    public static Box Exactly(Area area) => new(Exactly(area.Left), Exactly(area.Top), Exactly(area.Right), Exactly(area.Bottom));

    /// <summary>Whether two straight lines cross.</summary>
    public static bool Cross(Spot a, Spot b, Spot c, Spot d) =>
        Turn(a, b, c) * Turn(a, b, d) < 0 && Turn(c, d, a) * Turn(c, d, b) < 0;

    /// <summary>The distance of a place from a straight line between two others.</summary>
    public static double Distance(Spot place, Spot a, Spot b)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var squared = (dx * dx) + (dy * dy);
        var share = squared == 0 ? 0 : Math.Clamp((((place.X - a.X) * dx) + ((place.Y - a.Y) * dy)) / squared, 0, 1);
        return place.To(new(a.X + (share * dx), a.Y + (share * dy)));
    }

    /// <summary>
    /// How far, along x, a line between two places runs closer than some distance to a level line; short stretches, such as a
    /// crossing makes, count as nothing.
    /// </summary>
    public static double RunAlong(Spot a, Spot b, Spot levelStart, Spot levelEnd, double closer)
    {
        var (from, to) = (Math.Max(Math.Min(a.X, b.X), levelStart.X), Math.Min(Math.Max(a.X, b.X), levelEnd.X));
        if (to <= from || a.X == b.X)
        {
            return 0;
        }

        // Height over the level line grows evenly with x: find where it is within the distance on either side.
        var slope = (b.Y - a.Y) / (b.X - a.X);
        var height = a.Y + (slope * (from - a.X)) - levelStart.Y;
        if (slope == 0)
        {
            return Math.Abs(height) < closer ? to - from : 0;
        }

        var (enter, leave) = ((-closer - height) / slope, (closer - height) / slope);
        var run = Math.Min(to - from, Math.Max(enter, leave)) - Math.Max(0, Math.Min(enter, leave));
        return run > 8 * closer ? run : 0;
    }

    private static double Turn(Spot a, Spot b, Spot c) => ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
