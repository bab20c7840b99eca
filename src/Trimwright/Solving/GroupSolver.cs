using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Solves one group: its misses, then its free choices.</summary>
/// <param name="Outcome">How it ended.</param>
/// <param name="Level">After <see cref="Outcome.BestFound"/>: the first level that is not proved; one past the last when all misses are.</param>
/// <param name="Gap">By how much the sum of misses of that level may be above the least.</param>
internal readonly record struct GroupEnd(Outcome Outcome, Strength Level, Rational Gap);

/// <summary>Solves groups one after another, with the memory of one simplex.</summary>
internal sealed class GroupSolver(int measureCount, SolveOptions options, CancellationToken cancel)
{
    private readonly Simplex _simplex = new() { Cancel = cancel };
    private readonly int[] _variableOf = new int[measureCount];

    /// <summary>Solves a group.</summary>
    /// <param name="group">The group.</param>
    /// <param name="values">Takes the values of the free measures of the group.</param>
    /// <param name="ranges">Takes what is loose.</param>
    public GroupEnd Solve(Group group, Rational[] values, LooseRanges ranges)
    {
        var model = new GroupModel(group, _simplex, _variableOf);
        var budget = new SearchBudget(options.NodeBudget);
        var search = new Search(_simplex, model.Stepped, budget);
        var (end, unproved) = Lower(group, ref model, ref search, budget, values);
        if (end != SearchEnd.Proved)
        {
            return new(end == SearchEnd.Nothing ? Outcome.Clash : Outcome.Unknown, default, default);
        }

        var choice = new FreeChoice(model, search, ranges);
        choice.Run();
        foreach (var measure in group.Measures)
        {
            values[measure] = search.At(model.VariableOf(measure));
        }

        return unproved is { } open ? new(Outcome.BestFound, open.Level, open.Gap)
            : choice.IsProved ? new(Outcome.Best, default, default)
            : new(Outcome.BestFound, Strength.May + 1, default);
    }

    /// <summary>Whether the musts of a group can hold; null when the budget ended first.</summary>
    public bool? CanHold(Group group)
    {
        var portion = new Portions(measureCount, new(options.NodeBudget), cancel).Of(group);
        return portion.LowerSum(Strength.May, null, out _) switch
        {
            SearchEnd.Proved => true,
            SearchEnd.Nothing => false,
            _ => null,
        };
    }

    /// <summary>
    /// Lowers the misses of a group. First without lattices: if that point lies on them, it is the answer. On success the simplex has
    /// bounds that hold exactly the best points, and the search one of them.
    /// </summary>
    private (SearchEnd End, (Strength Level, Rational Gap)? Unproved) Lower(
        Group group, ref GroupModel model, ref Search search, SearchBudget budget, Rational[] values)
    {
        var ties = new Ties(group, cancel);
        var start = _simplex.Mark();
        var leaf = new Leaf(model, search);
        var end = Begin(group, leaf);
        if (end == SearchEnd.Proved && model.Stepped.TrueForAll(s => !_simplex.IsPinned(s.Variable) || s.Lattice.Holds(_simplex.Value(s.Variable))))
        {
            end = new Levels(group, leaf, ties).Run();
            if (end == SearchEnd.Proved && search.PointIsOnLattices())
            {
                search.MindsLattices = true;
                return (end, null);
            }
        }

        if (end != SearchEnd.Proved)
        {
            return (end, null);
        }

        _simplex.UndoTo(start);
        search.Forget();
        search.MindsLattices = true;
        var separation = Separation.Of(group);
        if (separation is null)
        {
            leaf = new(model, search);
            end = Begin(group, leaf);
            end = end == SearchEnd.Proved ? new Levels(group, leaf, ties).Run() : end;
            if (end != SearchEnd.Proved || !leaf.HasSumRows)
            {
                return (end, leaf.Unproved);
            }

            leaf.Write(values);
        }

        IPortion portion = leaf;
        if (separation is not null)
        {
            portion = new Branching(group, separation, new(measureCount, budget, cancel));
            end = new Levels(group, portion, ties).Run();
            if (end != SearchEnd.Proved)
            {
                return (end, null);
            }

            portion.Write(values);
        }

        // The misses now say all that there is to say of the best points; rows of sums would only be in the way.
        model = new GroupModel(group, _simplex, _variableOf);
        search = new Search(_simplex, model.Stepped, budget) { MindsLattices = true };
        model.Settle(search, values);
        return (end, portion.Unproved);
    }

    private static SearchEnd Begin(Group group, Leaf leaf) =>
        leaf.LowerSum(group.Wishes.Exists(w => w.Strength == Strength.Should) ? Strength.Should : Strength.May, null, out _);
}
