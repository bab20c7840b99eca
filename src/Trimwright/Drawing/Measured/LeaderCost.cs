using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>What a leader costs, in millimetres of leader: the shorter and the clearer, the cheaper.</summary>
/// <param name="view">What can be seen on the face.</param>
/// <param name="words">The areas of the words placed so far.</param>
/// <param name="edges">Level edges, which a leader should not run along.</param>
/// <param name="extensions">Extension lines, likewise; nor should a dot lie on one.</param>
internal sealed class LeaderCost(
    FaceView view, IReadOnlyList<Area> words,
    IReadOnlyList<(Spot Start, Spot End)> edges, IReadOnlyList<(Spot Start, Spot End)> extensions)
{
    // Running through words is worse than anything, and running past another leader's dot seems to speak of its piece; what follows is
    // only unlovely.
    private const double Words = 2000;
    private const double Crossing = 120;
    private const double NearDot = 250;
    private const double Steep = 30;
    private const double AlongLine = 5;
    private const double OverHigher = 0.6;

    private const double ClearOfWords = 0.9;
    private const double ClearOfLines = 1.2;
    private const double ClearOfDots = 1.5;

    // Which of the places in a row are tried, in hundredths of it: more towards the ends, where leaders are short.
    private static readonly int[] Shares = [0, 6, 15, 30, 70, 85, 94, 100];

    private readonly Area[] _words = [.. words.Select(area => area.Grown(ClearOfWords))];
    private readonly (Spot Start, Spot End)[] _levels = [.. edges, .. extensions.Where(line => line.Start.Y == line.End.Y)];

    /// <summary>
    /// Some dots to choose from: places that are seen and lie on no extension line; at each of four heights some from either end.
    /// </summary>
    public IReadOnlyList<Spot> DotsFor(Callout callout)
    {
        var seen = callout.Targets.SelectMany(view.PlacesOn).ToArray();
        var free = seen.Where(dot => !extensions.Any(line => Plane.Distance(dot, line.Start, line.End) < ClearOfLines)).ToArray();
        var places = free.Length > 0 ? free : seen;
        var (top, bottom) = (places.Min(dot => dot.Y), places.Max(dot => dot.Y));
        var band = Math.Max(bottom - top, 1) / 3.99;
        return
        [
            .. places.GroupBy(dot => (int)((dot.Y - top) / band)).SelectMany(dots =>
            {
                var byX = dots.OrderBy(dot => dot.X).ThenBy(dot => dot.Y).ToArray();
                return Shares.Select(share => byX[(byX.Length - 1) * share / 100]).Distinct();
            }),
        ];
    }

    /// <summary>What two leaders cost because of each other.</summary>
    public static double Between(PlacedCallout a, PlacedCallout b) =>
        (Plane.Cross(a.Dot, a.Knee, b.Dot, b.Knee) ? Crossing : 0)
        + (Plane.Distance(b.Dot, a.Dot, a.Knee) < ClearOfDots || Plane.Distance(a.Dot, b.Dot, b.Knee) < ClearOfDots ? NearDot : 0);

    /// <summary>What a leader costs by itself; counting ends when the limit is reached.</summary>
    public double Alone(PlacedCallout own, double limit)
    {
        var (dot, knee) = (own.Dot, own.Knee);
        var cost = dot.To(knee);
        if (Math.Abs(dot.Y - knee.Y) > 1.7 * Math.Abs(dot.X - knee.X))
        {
            cost += Steep;
        }

        if (cost >= limit)
        {
            return cost;
        }

        foreach (var area in _words)
        {
            cost += area.Meets(dot, knee) || area.Meets(knee, own.End) ? Words : 0;
        }

        var (high, low) = (Math.Min(dot.Y, knee.Y) - ClearOfLines, Math.Max(dot.Y, knee.Y) + ClearOfLines);
        foreach (var (start, end) in _levels)
        {
            if (cost >= limit)
            {
                return cost;
            }

            cost += start.Y < high || start.Y > low ? 0 : AlongLine * Plane.RunAlong(dot, knee, start, end, ClearOfLines);
        }

        // Of several equal pieces the leader starts on one; the others can only run longer under what lies above.
        return cost >= limit ? cost : cost + (OverHigher * own.Callout.Targets.Min(target => view.RunOverHigher(target, dot, knee)));
    }
}
