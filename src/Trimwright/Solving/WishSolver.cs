using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Solves a <see cref="WishSystem"/> exactly: musts hold; then the shoulds, then the mays are missed as little as can be - the sum of
/// their misses first, then the largest miss of each connected group; of answers equal in all that, the shoulds and then the mays are
/// missed least one after another in order of declaration; what is still loose then goes to the middle of its range, in order of
/// declaration, on its grid. What a connected group is, <see cref="Ties"/> says.
/// </summary>
/// <remarks>
/// Reads as: <see cref="Reduction"/> makes the system small and splits it into groups; <see cref="GroupSolver"/> solves each;
/// <see cref="ClashFinder"/> explains when there is no answer. The answer is the only one that this order allows (two measures that
/// miss alike are told apart by declaration, values by the middle rule), so it does not depend on the way to it. Nothing is shared
/// between two solves.
/// </remarks>
public static class WishSolver
{
    /// <summary>Solves a system. Pure: the same system gives the same answer, on any thread, at any time.</summary>
    /// <param name="system">The system; it is not changed.</param>
    /// <param name="options">Limits, or null for the usual ones.</param>
    /// <param name="cancel">Stops the solve.</param>
    /// <exception cref="ArgumentException">
    /// A measure on a step grid lacks a bound, or a statement names a measure of another system.
    /// </exception>
    /// <exception cref="OperationCanceledException">The solve was stopped.</exception>
    public static Solution Solve(WishSystem system, SolveOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(system);
        options ??= new();
        Check(system);
        cancel.ThrowIfCancellationRequested();
        if (Reduction.Of(system, null, true, cancel) is not { } reduction)
        {
            return Clashing(system, options, cancel);
        }

        var values = new Rational[system.MeasureCount];
        var ranges = new LooseRanges(system.MeasureCount);
        var solver = new GroupSolver(system.MeasureCount, options, cancel);
        var ends = new List<GroupEnd>();
        foreach (var group in reduction.Groups)
        {
            cancel.ThrowIfCancellationRequested();
            var end = solver.Solve(group, values, ranges);
            if (end.Outcome == Outcome.Clash)
            {
                return Clashing(system, options, cancel);
            }

            ends.Add(end);
        }

        if (ends.Exists(e => e.Outcome == Outcome.Unknown))
        {
            return new() { Outcome = Outcome.Unknown };
        }

        for (var m = 0; m < values.Length; m++)
        {
            if (reduction.DefinitionOf(m) is { } form)
            {
                values[m] = form.At(values);
            }
        }

        var open = ends.FindAll(e => e.Outcome == Outcome.BestFound);
        var level = open.Count == 0 ? default : open.Min(e => e.Level);
        return new()
        {
            Outcome = open.Count == 0 ? Outcome.Best : Outcome.BestFound,
            Values = values,
            GaveWay = Missed(system, values),
            Loose = ranges.Collect(m => reduction.DefinitionOf(m)?.Constant ?? default, values),
            Gap = open.Count == 0 ? null : open.Where(e => e.Level == level).Aggregate(Rational.Zero, (sum, e) => sum + e.Gap),
        };
    }

    private static Solution Clashing(WishSystem system, SolveOptions options, CancellationToken cancel) => new()
    {
        Outcome = Outcome.Clash,
        Clash = new ClashFinder(system, options, cancel).Find(),
    };

    private static void Check(WishSystem system)
    {
        for (var m = 0; m < system.MeasureCount; m++)
        {
            var (least, most) = system.BoundsOf(new(m));
            if (system.GridOf(new(m))?.Step is not null && (least is null || most is null))
            {
                throw new ArgumentException($"measure {m} is on a step grid and needs a least and a greatest value", nameof(system));
            }
        }

        for (var s = 0; s < system.Statements.Count; s++)
        {
            foreach (var term in system.Statements[s].Terms)
            {
                if (term.Measure.Index < 0 || term.Measure.Index >= system.MeasureCount)
                {
                    throw new ArgumentException($"statement {s} names measure {term.Measure.Index}, which was not declared: add it to this system first", nameof(system));
                }
            }
        }
    }

    private static List<GaveWay> Missed(WishSystem system, Rational[] values)
    {
        var missed = new List<GaveWay>();
        for (var s = 0; s < system.Statements.Count; s++)
        {
            var statement = system.Statements[s];
            if (statement.Strength == Strength.Must)
            {
                continue;
            }

            Rational left = default;
            foreach (var term in statement.Terms)
            {
                left += term.Factor * values[term.Measure.Index];
            }

            var excess = left - statement.Right;
            var miss = statement.Relation switch
            {
                Relation.AtMost => Rational.Max(excess, default),
                Relation.AtLeast => Rational.Max(-excess, default),
                _ => excess.Abs(),
            };
            if (!miss.IsZero)
            {
                missed.Add(new(s, statement.Right, left, miss));
            }
        }

        return missed;
    }
}
