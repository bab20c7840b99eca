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
        var search = new Search(_simplex, model.Stepped, new(options.NodeBudget));
        var levels = new Levels(model, search);
        var end = levels.Run();
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

        return levels.Unproved is { } unproved ? new(Outcome.BestFound, unproved.Level, unproved.Gap)
            : choice.IsProved ? new(Outcome.Best, default, default)
            : new(Outcome.BestFound, Strength.May + 1, default);
    }

    /// <summary>Whether the musts of a group can hold; null when the budget ended first.</summary>
    public bool? CanHold(Group group)
    {
        var model = new GroupModel(group, _simplex, _variableOf);
        var search = new Search(_simplex, model.Stepped, new(options.NodeBudget)) { MindsLattices = true };
        return search.Find() switch
        {
            SearchEnd.Proved => true,
            SearchEnd.Nothing => false,
            _ => null,
        };
    }
}
