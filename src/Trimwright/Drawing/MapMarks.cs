using Trimwright.Drawing.Measured;

namespace Trimwright.Drawing;

/// <summary>A mark that finds room on a map: the number of a cut, or the letter of a piece too small for its words.</summary>
/// <param name="Radius">The radius of the circle that it needs.</param>
/// <param name="Places">Where its middle may stand, the best place first; at least one.</param>
internal sealed record MapMark(double Radius, IReadOnlyList<Spot> Places);

/// <summary>
/// Finds a place for each mark of a map so that they do not lie on one another. The marks with the least choice come first, each where it overlaps
/// the others least; then all are asked again, as long as that helps. Of places that overlap alike the earliest is taken.
/// </summary>
internal static class MapMarks
{
    private const double Air = 0.25;
    private const int MostSweeps = 12;
    private const double Slight = 1e-9;

    /// <summary>Where each mark stands, in their order, and whether there is room for all; where there is not, they overlap little.</summary>
    public static (IReadOnlyList<Spot> Places, bool HaveRoom) Place(IReadOnlyList<MapMark> marks)
    {
        var chosen = new Spot?[marks.Count];
        var order = Enumerable.Range(0, marks.Count).OrderBy(i => marks[i].Places.Count).ThenBy(i => i).ToList();
        for (var sweep = 0; sweep < MostSweeps; sweep++)
        {
            var moved = false;
            foreach (var i in order.Where(i => chosen[i] is not { } at || Overlap(marks, chosen, i, at) > Slight))
            {
                var best = Best(marks, chosen, i);
                moved |= chosen[i] != best;
                chosen[i] = best;
            }

            if (!moved)
            {
                break;
            }
        }

        return ([.. chosen.Select(spot => spot!.Value)], order.TrueForAll(i => Overlap(marks, chosen, i, chosen[i]!.Value) <= Slight));
    }

    private static Spot Best(IReadOnlyList<MapMark> marks, Spot?[] chosen, int mark)
    {
        var (best, least) = (marks[mark].Places[0], double.PositiveInfinity);
        foreach (var place in marks[mark].Places)
        {
            var overlap = Overlap(marks, chosen, mark, place);
            if (overlap < least - Slight)
            {
                (best, least) = (place, overlap);
            }

            if (overlap <= Slight)
            {
                break;
            }
        }

        return best;
    }

    private static double Overlap(IReadOnlyList<MapMark> marks, Spot?[] chosen, int mark, Spot place)
    {
        var sum = 0.0;
        for (var other = 0; other < marks.Count; other++)
        {
            if (other != mark && chosen[other] is { } spot)
            {
                sum += Math.Max(0, marks[mark].Radius + marks[other].Radius + Air - spot.To(place));
            }
        }

        return sum;
    }
}
