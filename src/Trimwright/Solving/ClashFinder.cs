using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Finds a smallest set of musts, structure and grids that cannot hold together.</summary>
/// <remarks>
/// Two ways, after the kind of clash. Without grids the linear program itself names the set: see <see cref="LinearClash"/>. With
/// grids a deletion filter does (J. W. Chinneck, "Feasibility and Infeasibility in Optimization", 2008, chapter 6): what can be left
/// out while the rest still clashes, is - in halves first, so that a set of few among many is found in few steps. Statements go
/// before structure and later ones before earlier ones, so that what stays is what was said first; grids go last of all.
/// </remarks>
internal sealed class ClashFinder(WishSystem system, SolveOptions options, CancellationToken cancel)
{
    private readonly GroupSolver _solver = new(system.MeasureCount, options, cancel);
    private bool _isSmallest = true;

    /// <summary>The clash of a system whose musts are known not to hold together.</summary>
    public Clash Find() => LinearClash.Find(system, cancel) ?? FindWithGrids();

    private Clash FindWithGrids()
    {
        var statements = new bool[system.Statements.Count];
        for (var s = 0; s < statements.Length; s++)
        {
            statements[s] = system.Statements[s].Strength == Strength.Must;
        }

        var grids = new bool[system.MeasureCount];
        for (var m = 0; m < grids.Length; m++)
        {
            grids[m] = system.GridOf(new(m)) is not null;
        }

        var selection = new Selection(statements, grids);
        var makers = Enumerable.Range(0, statements.Length).Where(s => statements[s] && !system.Statements[s].IsStructure).Reverse();
        var structure = Enumerable.Range(0, statements.Length).Where(s => statements[s] && system.Statements[s].IsStructure).Reverse();
        var measures = Enumerable.Range(0, grids.Length).Where(m => grids[m]).Reverse();
        Filter(selection, statements, makers.ToArray());
        Filter(selection, statements, structure.ToArray());
        Filter(selection, grids, measures.ToArray());
        var bounds = Enumerable.Range(0, grids.Length).Where(m => grids[m]).Select(m => new Measure(m)).ToList();
        return new(
            Enumerable.Range(0, statements.Length).Where(s => statements[s] && !system.Statements[s].IsStructure).ToList(),
            Enumerable.Range(0, statements.Length).Where(s => statements[s] && system.Statements[s].IsStructure).ToList(),
            bounds)
        {
            IsSmallest = _isSmallest,
        };
    }

    /// <summary>Leaves out what can be left out of a list, in order, by halves.</summary>
    private void Filter(Selection selection, bool[] flags, ReadOnlySpan<int> members)
    {
        if (members.Length == 0)
        {
            return;
        }

        foreach (var member in members)
        {
            flags[member] = false;
        }

        var clashes = Clashes(selection);
        if (clashes == true)
        {
            return;
        }

        // Several that are not settled together are asked one by one.
        _isSmallest &= clashes is not null || members.Length > 1;

        foreach (var member in members)
        {
            flags[member] = true;
        }

        if (members.Length > 1)
        {
            var half = members.Length / 2;
            Filter(selection, flags, members[..half]);
            Filter(selection, flags, members[half..]);
        }
    }

    /// <summary>Whether a selection cannot hold; null when the budget ended first, so that the members stay blamed.</summary>
    private bool? Clashes(Selection selection)
    {
        if (Reduction.Of(system, selection, false, cancel) is not { } reduction)
        {
            return true;
        }

        bool? clashes = false;
        foreach (var group in reduction.Groups)
        {
            switch (_solver.CanHold(group))
            {
                case false:
                    return true;
                case null:
                    clashes = null;
                    break;
            }
        }

        return clashes;
    }
}
