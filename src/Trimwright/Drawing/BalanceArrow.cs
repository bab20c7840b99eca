using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>
/// The sign for the balance of a face: a ring in the middle of the card, a dot where the weight lies, and an arrow from one to the other. Where the two
/// lie so near that no arrowhead goes between them, it stands beyond the dot, so that the way can be seen all the same. All has a white rim, so that it shows on light papers and on dark ones.
/// </summary>
internal static class BalanceArrow
{
    /// <summary>How far ring, dot and rim reach from the line between middle and weight, in millimetres.</summary>
    public const double Reach = RingRadius + (LineWidth / 2) + Rim;

    private const double RingRadius = 1.1;
    private const double DotRadius = 0.6;
    private const double LineWidth = 0.4;
    private const double Rim = 0.35;
    private const double HeadLength = 1.8;
    private const double HeadHalf = 0.6;
    private const double HeadGap = 0.3;

    // Nearer than half a line, the dot would only look like a ring drawn badly.
    private const double Tiny = LineWidth / 2;

    // Dark enough that on any grey of paper either it or the rim stands out by 3 to 1 (WCAG 2.1, 1.4.11).
    private static readonly Colour Sign = new(0x8a, 0x00, 0x48);
    private static readonly Colour White = new(0xff, 0xff, 0xff);

    /// <summary>Draws it on a sheet.</summary>
    /// <param name="from">The middle of the card on the sheet.</param>
    /// <param name="to">Where the weight lies; the same as <paramref name="from"/> where there is none, which gives the ring alone.</param>
    public static DrawnGroup Draw(Point from, Point to)
    {
        var (start, end) = (Plane.Roughly(from), Plane.Roughly(to));
        var far = start.To(end);
        List<Func<bool, DrawnItem>> parts = [];
        if (far > Tiny)
        {
            var (x, y) = ((end.X - start.X) / far, (end.Y - start.Y) / far);
            Spot At(double along, double aside) => new(start.X + (along * x) - (aside * y), start.Y + (along * y) + (aside * x));
            var tip = Tip(far);
            if (far > RingRadius + DotRadius)
            {
                parts.Add(rim => Line([At(RingRadius, 0), At(Math.Min(far, tip - (HeadLength / 2)), 0)], rim));
            }

            parts.Add(rim => Filled(new([new PolygonContour(
                [At(tip, 0).ToPoint(), At(tip - HeadLength, HeadHalf).ToPoint(), At(tip - HeadLength, -HeadHalf).ToPoint()])]), rim));
        }

        parts.Add(rim => new DrawnOutline(Round(from, RingRadius), null, StrokeOf(rim)));
        if (far > Tiny)
        {
            parts.Add(rim => Filled(Round(to, DotRadius), rim));
        }

        // All rims lie below all signs, so that none cuts through another part.
        return new([.. parts.Select(part => part(true)), .. parts.Select(part => part(false))]) { Class = "balance" };
    }

    /// <summary>How far from the middle the sign reaches towards a weight so far from it, in millimetres.</summary>
    public static double Length(double far) => far > Tiny ? Math.Max(far, Tip(far)) : 0;

    // Between ring and dot if there is room, else beyond both.
    private static double Tip(double far) => far - DotRadius - RingRadius > HeadLength
        ? far - DotRadius
        : Math.Max(far + DotRadius, RingRadius + (LineWidth / 2)) + HeadGap + HeadLength;

    private static DrawnLine Line(Spot[] spots, bool rim) => new([.. spots.Select(spot => spot.ToPoint())], StrokeOf(rim));

    private static DrawnOutline Filled(Outline outline, bool rim) =>
        rim ? new(outline, new(White), new(Width(2 * Rim), White)) : new(outline, new(Sign), null);

    private static Stroke StrokeOf(bool rim) => rim ? new(Width(LineWidth + (2 * Rim)), White) : new(Width(LineWidth), Sign);

    private static Measures.Length Width(double millimetres) => Palette.Micrometres((long)Math.Round(millimetres * 1000));

    private static Outline Round(Point centre, double radius) => new([new EllipseContour(centre, Plane.Exactly(radius), Plane.Exactly(radius))]);
}
