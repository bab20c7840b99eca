using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Lowers the misses of one group: for the shoulds and then for the mays the sum, then the largest of each part that hangs together;
/// and at the end one miss after another, shoulds before mays, in order of declaration. Each step is proved least before the next, and
/// the next moves only among the points that are best so far: no weights.
/// </summary>
/// <remarks>
/// The order of declaration comes last, so it decides only between answers that are equal in every sum and every largest miss.
/// </remarks>
internal sealed class Levels(Group group, IPortion portion, Ties ties)
{
    /// <summary>Lowers everything. The portion is left with exactly the best points.</summary>
    public SearchEnd Run()
    {
        if (group.Wishes.Count == 0)
        {
            return portion.LowerSum(Strength.May, null, out _);
        }

        for (var level = Strength.Should; level <= Strength.May; level++)
        {
            if (!group.Wishes.Exists(w => w.Strength == level))
            {
                continue;
            }

            var end = portion.LowerSum(level, null, out var sum);
            if (end != SearchEnd.Proved)
            {
                return end;
            }

            if (!sum.IsZero)
            {
                LowerLargest(level);
            }
        }

        foreach (var wish in group.Wishes.OrderBy(w => w.Strength))
        {
            portion.LowerOne(wish.Statement);
        }

        return SearchEnd.Proved;
    }

    private void LowerLargest(Strength level)
    {
        if (!portion.CanTrade(level))
        {
            return;
        }

        foreach (var part in ties.Of(level, portion))
        {
            portion.Cap(part, portion.LeastLargest(part));
        }
    }
}
