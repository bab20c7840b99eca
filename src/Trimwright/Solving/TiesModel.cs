using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>The musts of a group as they are said, in a simplex of their own, without wishes and grids.</summary>
internal sealed class TiesModel
{
    private readonly Group _group;

    /// <summary>Writes the musts. They are known to hold at some point.</summary>
    public TiesModel(Group group, CancellationToken cancel)
    {
        _group = group;
        Simplex = new() { Cancel = cancel };
        group.Measures.ForEach(_ => Simplex.AddVariable(null, null));
        foreach (var entry in group.Bounded)
        {
            var variables = Array.ConvertAll(entry.Form.Unknowns, group.Measures.BinarySearch);
            var isMeasure = variables.Length == 1 && entry.Form.Factors[0] == Rational.One;
            var variable = isMeasure ? variables[0] : Simplex.AddRow(variables, entry.Form.Factors, null, null);
            Rows.Add((entry, variable));
            if (entry.SaidLeast is { } least)
            {
                Simplex.Raise(variable, least);
            }

            if (entry.SaidMost is { } most)
            {
                Simplex.Lower(variable, most);
            }
        }
    }

    /// <summary>The simplex; its first variables are the measures of the group.</summary>
    public Simplex Simplex { get; }

    /// <summary>The bounded forms of the group, with their variables.</summary>
    public List<(BoundedForm Entry, int Variable)> Rows { get; } = [];

    /// <summary>
    /// Finds the musts that hold as equalities at every point that all of them allow, and defines measures by them; null when there are
    /// none. All that still touch their bounds are moved away from them together; those that then cannot move are equalities.
    /// </summary>
    public TiesDefinitions? Settle()
    {
        Simplex.Reoptimise();
        var stuck = new List<(BoundedForm Entry, int Variable, Rational Bound, bool IsLeast)>();
        foreach (var (entry, variable) in Rows)
        {
            if (entry.SaidLeast is { } least)
            {
                stuck.Add((entry, variable, least, true));
            }

            if (entry.SaidMost is { } most)
            {
                stuck.Add((entry, variable, most, false));
            }
        }

        while (true)
        {
            stuck.RemoveAll(s => Simplex.Value(s.Variable) != s.Bound);
            var before = stuck.Count;
            if (before == 0)
            {
                return null;
            }

            if (!MoveAway(stuck.ConvertAll(s => (s.Variable, s.IsLeast))))
            {
                stuck.RemoveAll(s => !MoveAway([(s.Variable, s.IsLeast)]) || Simplex.Value(s.Variable) != s.Bound);
                break;
            }

            if (stuck.TrueForAll(s => Simplex.Value(s.Variable) == s.Bound))
            {
                break;
            }
        }

        return stuck.Count == 0 ? null : new(_group, stuck.ConvertAll(s => (s.Entry.Form, s.Bound)));
    }

    /// <summary>Moves variables away from their bounds, in sum as far as it goes. False when that has no end.</summary>
    private bool MoveAway(List<(int Variable, bool IsLeast)> stuck)
    {
        Simplex.SetCost([.. stuck.Select(s => s.Variable)], [.. stuck.Select(s => s.IsLeast ? -Rational.One : Rational.One)]);
        Simplex.TryReoptimise(out var endless);
        Simplex.ClearCost();
        return !endless;
    }
}

/// <summary>Measures of a group that its musts define by others without saying so in one statement.</summary>
internal sealed class TiesDefinitions
{
    private readonly FormBuilder _builder;
    private readonly Elimination _elimination;
    private readonly Lattice?[] _lattices;

    /// <summary>Solves equalities for measures.</summary>
    public TiesDefinitions(Group group, List<(LinearForm Form, Rational Value)> equalities)
    {
        var count = group.Measures[^1] + 1;
        _builder = new(count);
        _lattices = new Lattice?[count];
        foreach (var (measure, target, lattice) in group.Stepped)
        {
            if (target.Form.Unknowns is [var unknown] && unknown == measure)
            {
                _lattices[measure] = lattice;
            }
        }

        _elimination = new(count, _lattices, _builder);
        foreach (var (form, value) in equalities)
        {
            Add(form);
            _builder.Add(-value);
            _elimination.MakeZero(_builder.Take());
        }
    }

    /// <summary>A form over the measures that stay free.</summary>
    public LinearForm Apply(LinearForm form)
    {
        Add(form);
        _builder.Add(form.Constant);
        return _builder.Take();
    }

    /// <summary>The forms of defined measures that have a grid of their own to keep.</summary>
    public IEnumerable<LinearForm> OnGrids() =>
        from measure in Enumerable.Range(0, _lattices.Length)
        where _lattices[measure] is not null && !_elimination.IsImpliedWhole(measure) && _elimination.DefinitionOf(measure) is not null
        select _elimination.DefinitionOf(measure);

    private void Add(LinearForm form)
    {
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            _elimination.AddTo(form.Unknowns[i], form.Factors[i]);
        }
    }
}
