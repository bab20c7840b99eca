using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Which statements and grids of a system count. Made for looking into clashes, where some are left out.</summary>
/// <param name="Statements">Whether each statement counts.</param>
/// <param name="Grids">Whether the grid of each measure counts.</param>
internal sealed record Selection(bool[] Statements, bool[] Grids);

/// <summary>
/// Makes a system small before it is solved: equalities define measures away, rules about one measure become its bounds, rules that
/// are multiples of each other become one, rules that can never bite go, and what is left falls into groups.
/// </summary>
internal sealed class Reduction
{
    private readonly WishSystem _system;
    private readonly Selection? _selection;
    private readonly CancellationToken _cancel;
    private readonly FormBuilder _builder;
    private readonly Lattice?[] _lattices;
    private readonly Lattice?[] _own;
    private readonly Elimination _elimination;
    private readonly FormTable _table = new();
    private readonly List<SteppedForm> _stepped = [];

    private Reduction(WishSystem system, Selection? selection, CancellationToken cancel)
    {
        _cancel = cancel;
        _system = system;
        _selection = selection;
        _builder = new(system.MeasureCount);
        _lattices = new Lattice?[system.MeasureCount];
        for (var m = 0; m < _lattices.Length; m++)
        {
            _lattices[m] = system.GridOf(new(m)) is { } grid && (selection is null || selection.Grids[m]) ? Lattice.From(grid) : null;
        }

        _own = [.. _lattices];
        _elimination = new(system.MeasureCount, _lattices, _builder);
    }

    /// <summary>The groups, by their first measure.</summary>
    public List<Group> Groups { get; } = [];

    /// <summary>The definition of a measure by free ones, or null where it is free.</summary>
    public LinearForm? DefinitionOf(int measure) => _elimination.DefinitionOf(measure);

    /// <summary>Reduces a system. Null when the musts are seen to clash on the way.</summary>
    /// <param name="system">The system.</param>
    /// <param name="selection">What counts; null when all does.</param>
    /// <param name="withWishes">Whether shoulds and mays count.</param>
    /// <param name="cancel">Stops the work.</param>
    public static Reduction? Of(WishSystem system, Selection? selection, bool withWishes, CancellationToken cancel)
    {
        var reduction = new Reduction(system, selection, cancel);
        if (!reduction.Equate() || !reduction.Bound())
        {
            return null;
        }

        new Grouping(system, reduction._elimination, reduction._lattices, reduction._table.InOrder, reduction._stepped,
            withWishes ? reduction.Wishes() : [], cancel).Fill(reduction.Groups);
        return reduction;
    }

    private bool Counts(int statement) => _selection is null || _selection.Statements[statement];

    /// <summary>A statement as a form over free measures: left minus right.</summary>
    private LinearForm FormOf(Statement statement)
    {
        _cancel.ThrowIfCancellationRequested();
        foreach (var term in statement.Terms)
        {
            _elimination.AddTo(term.Measure.Index, term.Factor);
        }

        _builder.Add(-statement.Right);
        return _builder.Take();
    }

    private bool Equate()
    {
        for (var s = 0; s < _system.Statements.Count; s++)
        {
            var statement = _system.Statements[s];
            if (statement.Strength == Strength.Must && statement.Relation == Relation.Equal && Counts(s)
                && !_elimination.MakeZero(FormOf(statement)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Gathers bounds until none of them leaves a single value, since that is one more equality.</summary>
    private bool Bound()
    {
        while (true)
        {
            if (_elimination.WholeIsHard && !WholeEqualities.Thin(_elimination.Whole, _lattices))
            {
                return false;
            }

            _table.Clear();
            _stepped.Clear();
            if (!BoundMeasures() || !BoundStatements() || !PutOnLattices())
            {
                return false;
            }

            var settled = true;
            foreach (var entry in _table.InOrder)
            {
                _cancel.ThrowIfCancellationRequested();
                if (entry.IsEmpty)
                {
                    return false;
                }

                if (entry.Only is { } value)
                {
                    settled = false;
                    AddExpanded(entry.Form);
                    _builder.Add(-value);
                    if (!_elimination.MakeZero(_builder.Take()))
                    {
                        return false;
                    }
                }
            }

            if (settled)
            {
                return true;
            }
        }
    }

    private void AddExpanded(LinearForm form)
    {
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            _elimination.AddTo(form.Unknowns[i], form.Factors[i]);
        }
    }

    private bool BoundMeasures()
    {
        for (var m = 0; m < _system.MeasureCount; m++)
        {
            _cancel.ThrowIfCancellationRequested();
            var (least, most) = _system.BoundsOf(new(m));
            if (_own[m] is { } own)
            {
                // The range of a measure is its own: drawing it in to its grid takes no statement to know.
                var ends = own.Ends;
                least = least is { } low0 ? own.Above(low0) : ends?.Least;
                most = most is { } high0 ? own.Below(high0) : ends?.Most;
                if (own.IsList && (least is null || most is null))
                {
                    return false;
                }
            }

            if (least is null && most is null && _lattices[m] is null)
            {
                continue;
            }

            _elimination.AddTo(m, Rational.One);
            var form = _builder.Take();
            if ((least is { } low && !Bound(form, Relation.AtLeast, low)) || (most is { } high && !Bound(form, Relation.AtMost, high)))
            {
                return false;
            }

            if (_lattices[m] is not { } lattice || (_elimination.IsImpliedWhole(m) && !lattice.IsList))
            {
                continue;
            }

            if (form.IsConstant)
            {
                if (!lattice.Holds(form.Constant))
                {
                    return false;
                }

                continue;
            }

            var target = _table.Get(form, out var factor);
            _stepped.Add(new(m, target, lattice.Through(factor, form.Constant)));
        }

        return true;
    }

    private bool BoundStatements()
    {
        for (var s = 0; s < _system.Statements.Count; s++)
        {
            var statement = _system.Statements[s];
            if (statement.Strength == Strength.Must && statement.Relation != Relation.Equal && Counts(s)
                && !Bound(FormOf(statement), statement.Relation, default))
            {
                return false;
            }
        }

        return true;
    }

    private bool Bound(LinearForm form, Relation relation, Rational right)
    {
        if (form.IsConstant)
        {
            return relation == Relation.AtLeast ? form.Constant >= right : form.Constant <= right;
        }

        var entry = _table.Get(form, out var factor);
        var bound = (right - form.Constant) / factor;
        if ((relation == Relation.AtLeast) == (factor.Sign > 0))
        {
            entry.Raise(bound);
        }
        else
        {
            entry.Lower(bound);
        }

        return true;
    }

    /// <summary>Draws bounds in to the nearest values that lie on the lattices. False when none does.</summary>
    private bool PutOnLattices()
    {
        var known = new Lattice?[_lattices.Length];
        foreach (var (measure, target, _) in _stepped)
        {
            if (target.Form.Unknowns is [var unknown] && unknown == measure)
            {
                known[measure] = _lattices[measure];
            }
        }

        foreach (var entry in _table.InOrder)
        {
            entry.DrawIn(known);
        }

        foreach (var (_, target, lattice) in _stepped)
        {
            if ((target.Least is { } least && Raised(target, lattice.Above(least)) is false)
                || (target.Most is { } most && Lowered(target, lattice.Below(most)) is false))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Raised(BoundedForm target, Rational? least)
    {
        if (least is { } value)
        {
            target.DrawUp(value);
        }

        return least is not null;
    }

    private static bool Lowered(BoundedForm target, Rational? most)
    {
        if (most is { } value)
        {
            target.DrawDown(value);
        }

        return most is not null;
    }

    private List<ReducedWish> Wishes()
    {
        var wishes = new List<ReducedWish>();
        for (var s = 0; s < _system.Statements.Count; s++)
        {
            var statement = _system.Statements[s];
            if (statement.Strength != Strength.Must && Counts(s) && FormOf(statement) is { IsConstant: false } form)
            {
                wishes.Add(new(s, form, statement.Relation, statement.Strength));
            }
        }

        return wishes;
    }
}
