using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>The columns of a wish: by how much it is missed above and below; -1 where it cannot be missed on that side.</summary>
/// <param name="Wish">The wish.</param>
/// <param name="Row">The row: its form, less the miss above, plus the miss below.</param>
/// <param name="Over">The miss above.</param>
/// <param name="Under">The miss below.</param>
internal readonly record struct WishColumns(ReducedWish Wish, int Row, int Over, int Under);

/// <summary>A group, written into a simplex: one variable per free measure, one row per form, one row and its misses per wish.</summary>
internal sealed class GroupModel
{
    private readonly int[]? _variableOf;
    private int[] _variables = new int[8];
    private Rational[] _factors = new Rational[8];

    /// <summary>Writes a group into a simplex, which is cleared first.</summary>
    /// <param name="group">The group.</param>
    /// <param name="simplex">The simplex.</param>
    /// <param name="variableOf">Room for one number per measure of the system, or null to do without.</param>
    /// <param name="separation">How the group falls apart, where it is to be searched that way; or null.</param>
    public GroupModel(Group group, Simplex simplex, int[]? variableOf, Separation? separation = null)
    {
        _variableOf = variableOf;
        Group = group;
        Simplex = simplex;
        simplex.Clear();
        foreach (var measure in group.Measures)
        {
            simplex.Cancel.ThrowIfCancellationRequested();
            var variable = simplex.AddVariable(null, null);
            if (variableOf is not null)
            {
                variableOf[measure] = variable;
            }
        }

        separation?.Tell(simplex);

        foreach (var entry in group.Bounded)
        {
            if (entry.Form.Unknowns.Length == 1)
            {
                entry.Variable = VariableOf(entry.Form.Unknowns[0]);
                Bound(entry);
            }
        }

        var onLattice = group.Stepped.Count == 0 ? null : group.Stepped.Select(s => s.Target).ToHashSet();
        foreach (var entry in group.Bounded)
        {
            if (entry.Form.Unknowns.Length == 1)
            {
                continue;
            }

            if (onLattice?.Contains(entry) == true)
            {
                entry.Variable = AddRow(entry.Form);
                Bound(entry);
            }
            else
            {
                simplex.AddWaitingRow(Array.ConvertAll(entry.Form.Unknowns, VariableOf), entry.Form.Factors, entry.Least, entry.Most);
            }
        }

        foreach (var (_, target, lattice) in group.Stepped)
        {
            Stepped.Add(new(target.Variable, lattice));
        }

        foreach (var wish in group.Wishes)
        {
            AddWish(wish);
        }
    }

    /// <summary>The group.</summary>
    public Group Group { get; }

    /// <summary>The simplex.</summary>
    public Simplex Simplex { get; }

    /// <summary>The variables that must lie on lattices, in order of declaration.</summary>
    public List<Stepped> Stepped { get; } = [];

    /// <summary>The wishes, in order of declaration.</summary>
    public List<WishColumns> Wishes { get; } = [];

    /// <summary>The variable of a free measure: its place in the group, since those are added first.</summary>
    public int VariableOf(int measure) => _variableOf is { } table ? table[measure] : Group.Measures.BinarySearch(measure);

    /// <summary>Adds a row for a form (without its constant) and gives its variable.</summary>
    public int AddRow(LinearForm form)
    {
        var count = Write(form);
        return Simplex.AddRow(_variables.AsSpan(0, count), _factors.AsSpan(0, count), null, null);
    }

    /// <summary>Adds the row form - over + under, and gives the variables: the misses cost nothing yet.</summary>
    public (int Row, int Over, int Under) AddMissRow(LinearForm form, bool over, bool under)
    {
        var count = Write(form);
        var (overColumn, underColumn) = (-1, -1);
        if (over)
        {
            overColumn = Simplex.AddVariable(Rational.Zero, null);
            (_variables[count], _factors[count++]) = (overColumn, -1);
        }

        if (under)
        {
            underColumn = Simplex.AddVariable(Rational.Zero, null);
            (_variables[count], _factors[count++]) = (underColumn, 1);
        }

        var row = Simplex.AddRow(_variables.AsSpan(0, count), _factors.AsSpan(0, count), null, null);
        Simplex.PutMisses(row, overColumn, underColumn);
        return (row, overColumn, underColumn);
    }

    /// <summary>Tells a search a point, by the values of the measures.</summary>
    public void Tell(Search search, Rational[] values)
    {
        foreach (var measure in Group.Measures)
        {
            search.Teach(VariableOf(measure), values[measure]);
        }

        foreach (var (_, target, _) in Group.Stepped)
        {
            search.Teach(target.Variable, target.Form.At(values));
        }

        foreach (var (wish, row, over, under) in Wishes)
        {
            var excess = wish.Form.At(values);
            var (above, below) = (Rational.Max(excess, default), Rational.Max(-excess, default));
            search.Teach(row, excess - wish.Form.Constant - (over >= 0 ? above : default) + (under >= 0 ? below : default));
            if (over >= 0)
            {
                search.Teach(over, above);
            }

            if (under >= 0)
            {
                search.Teach(under, below);
            }
        }

        search.Recall();
    }

    /// <summary>Tells a search a point, and lets no wish miss by more than it does there.</summary>
    public void Settle(Search search, Rational[] values)
    {
        Tell(search, values);
        foreach (var (wish, _, over, under) in Wishes)
        {
            var miss = wish.MissAt(wish.Form.At(values));
            if (over >= 0)
            {
                Simplex.Lower(over, miss);
            }

            if (under >= 0)
            {
                Simplex.Lower(under, miss);
            }
        }
    }

    private void Bound(BoundedForm entry)
    {
        if (entry.Least is { } least)
        {
            Simplex.Raise(entry.Variable, least);
        }

        if (entry.Most is { } most)
        {
            Simplex.Lower(entry.Variable, most);
        }
    }

    private void AddWish(ReducedWish wish)
    {
        var right = -wish.Form.Constant;
        var (row, over, under) = AddMissRow(wish.Form, wish.Relation != Relation.AtLeast, wish.Relation != Relation.AtMost);
        if (over >= 0)
        {
            Simplex.Lower(row, right);
        }

        if (under >= 0)
        {
            Simplex.Raise(row, right);
        }

        Wishes.Add(new(wish, row, over, under));
    }

    private int Write(LinearForm form)
    {
        var count = form.Unknowns.Length;
        if (_variables.Length < count + 2)
        {
            _variables = new int[(count + 2) * 2];
            _factors = new Rational[(count + 2) * 2];
        }

        for (var i = 0; i < count; i++)
        {
            _variables[i] = VariableOf(form.Unknowns[i]);
            _factors[i] = form.Factors[i];
        }

        return count;
    }
}
