using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A point that all musts of a group hold at with room to spare. From it a must is seen to be one that the others do not imply: whoever
/// walks straight on and meets it before any other has found a point that only it forbids.
/// </summary>
internal sealed class Interior
{
    private const int MostPasses = 6;

    private readonly Group _group;
    private readonly List<(BoundedForm Entry, Rational Factor)>[] _rowsWith;
    private readonly Rational[] _at;

    private Interior(Group group, Rational[] at)
    {
        _group = group;
        _at = at;
        _rowsWith = new List<(BoundedForm, Rational)>[group.Measures.Count];
        foreach (var entry in group.Bounded)
        {
            for (var i = 0; i < entry.Form.Unknowns.Length; i++)
            {
                (_rowsWith[PlaceOf(entry.Form.Unknowns[i])] ??= []).Add((entry, entry.Form.Factors[i]));
            }
        }
    }

    /// <summary>
    /// Finds such a point by moving one measure after another into the middle of what the rest leaves it. Null when that does not lead to
    /// one; there may be one all the same.
    /// </summary>
    /// <param name="group">The group.</param>
    /// <param name="at">A point that its musts allow, by measure; it is moved.</param>
    /// <param name="cancel">Stops the work.</param>
    public static Interior? Find(Group group, Rational[] at, CancellationToken cancel)
    {
        var interior = new Interior(group, at);
        for (var pass = 0; pass < MostPasses; pass++)
        {
            foreach (var measure in group.Measures)
            {
                cancel.ThrowIfCancellationRequested();
                interior.Center(measure);
            }

            if (group.Bounded.TrueForAll(interior.HasRoom))
            {
                return interior;
            }
        }

        return null;
    }

    /// <summary>Whether a must is met before any other on some straight way from the point. False says nothing.</summary>
    public bool IsMetFirst(BoundedForm entry, bool isLeast)
    {
        for (var i = 0; i < entry.Form.Unknowns.Length; i++)
        {
            var up = entry.Form.Factors[i].Sign < 0 == isLeast;
            var own = Distance(entry, entry.Form.Factors[i], up, isLeast)!.Value;
            var isFirst = true;
            foreach (var (other, factor) in _rowsWith[PlaceOf(entry.Form.Unknowns[i])])
            {
                isFirst &= (other == entry || (Distance(other, factor, up, true) is not { } low || low > own))
                    && (other == entry || (Distance(other, factor, up, false) is not { } high || high > own));
            }

            if (isFirst)
            {
                return true;
            }
        }

        return false;
    }

    private int PlaceOf(int measure) => _group.Measures.BinarySearch(measure);

    private bool HasRoom(BoundedForm entry)
    {
        var value = entry.Form.At(_at);
        return !(value <= entry.SaidLeast) && !(value >= entry.SaidMost);
    }

    /// <summary>How far a measure may go until a form meets its bound on one side; null when it never does.</summary>
    private Rational? Distance(BoundedForm entry, Rational factor, bool up, bool toLeast)
    {
        if (factor.Sign > 0 == up == toLeast || (toLeast ? entry.SaidLeast : entry.SaidMost) is not { } bound)
        {
            return null;
        }

        return ((bound - entry.Form.At(_at)) / factor).Abs();
    }

    private void Center(int measure)
    {
        Rational? down = null;
        Rational? up = null;
        foreach (var (entry, factor) in _rowsWith[PlaceOf(measure)] ?? [])
        {
            foreach (var toLeast in (ReadOnlySpan<bool>)[true, false])
            {
                down = Nearer(down, Distance(entry, factor, false, toLeast));
                up = Nearer(up, Distance(entry, factor, true, toLeast));
            }
        }

        var by = down is { } low && up is { } high ? (high - low) / 2 : up is { } above ? above / 2 : down is { } below ? -below / 2 : default;
        if (down is { } least && up is { } most && least + most is { IsZero: false } room)
        {
            by = Simple(by, room / 8);
        }

        _at[measure] += by;
    }

    private static Rational? Nearer(Rational? now, Rational? distance) => now is null || distance < now ? distance ?? now : now;

    /// <summary>A fraction with a small denominator near another, so that numbers stay short.</summary>
    private static Rational Simple(Rational value, Rational within)
    {
        var step = Rational.One;
        while (step > within)
        {
            step /= 2;
        }

        return step * Rational.From((value / step).Floor(), 1);
    }
}
