using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>A portion that is solved with one simplex and one search.</summary>
/// <remarks>
/// Where the linear program proves a step, its face stays: nonbasic variables with a cost are pinned (their reduced cost says that any
/// move would lose; exact zero makes that valid). Where whole steps cost more, the least sum becomes a row, and a least miss a bound.
/// </remarks>
/// <param name="model">The group, in its simplex.</param>
/// <param name="search">The search over its lattices.</param>
/// <param name="release">Takes the simplex back, or null.</param>
internal sealed class Leaf(GroupModel model, Search search, Action<Simplex>? release = null) : IPortion
{
    private const int MostRounds = 5;

    private readonly Simplex _simplex = model.Simplex;
    private readonly List<int> _variables = [];
    private readonly List<Rational> _factors = [];
    private readonly LeastMisses _leastMisses = new(model.Group);
    private readonly Rational?[] _sums = new Rational?[(int)Strength.May + 1];
    private readonly bool[] _expected = new bool[(int)Strength.May + 1];
    private Rational? _dear;
    private Rational? _bound;
    private Dictionary<int, Rational>? _lowered;
    private Dictionary<int, WishColumns>? _columnsOf;

    /// <inheritdoc/>
    public (Strength Level, Rational Gap)? Unproved { get; private set; }

    /// <summary>Whether a sum was kept as a row, since whole steps cost more than the linear program knows.</summary>
    public bool HasSumRows { get; private set; }

    /// <inheritdoc/>
    public Rational? SumBound(Strength level)
    {
        if (_sums[(int)level] is { } known)
        {
            return known;
        }

        if (_bound is null)
        {
            GatherSum(level);
            _simplex.SetCost(_variables.ToArray(), _factors.ToArray());
            _simplex.TrustCost();
            _bound = _simplex.Reoptimise() ? _simplex.Objective() : null;
        }

        return _bound;
    }

    /// <inheritdoc/>
    public SearchEnd LowerSum(Strength level, Rational? most, out Rational sum)
    {
        if (_sums[(int)level] is { } known)
        {
            sum = known;
            return SearchEnd.Proved;
        }

        sum = default;
        if (most <= _dear)
        {
            return SearchEnd.Dear;
        }

        GatherSum(level);
        if (_variables.Count == 0)
        {
            var found = search.HasPoint ? SearchEnd.Proved : search.Find();
            if (found == SearchEnd.Proved)
            {
                _sums[(int)level] = default(Rational);
            }

            return found;
        }

        search.Most = most;
        var end = Least(level, true);
        search.Most = null;
        if (end != SearchEnd.Proved)
        {
            _dear = end == SearchEnd.Dear ? most : null;
            return end;
        }

        sum = search.Best;
        _sums[(int)level] = sum;
        if (sum.IsZero)
        {
            Each(level, w => Cap(w, Rational.Zero));
        }
        else if (search.Best == search.Bound)
        {
            _simplex.PinFace();
        }
        else
        {
            HasSumRows = true;
            GatherSum(level);
            _simplex.Lower(_simplex.AddRow(_variables.ToArray(), _factors.ToArray(), null, null), search.Best);
        }

        return end;
    }

    /// <summary>Takes a point and the least sum of a level as known.</summary>
    /// <param name="level">The level.</param>
    /// <param name="sum">Its least sum.</param>
    /// <param name="values">The values of the measures at a point that has it.</param>
    public void Accept(Strength level, Rational sum, Rational[] values)
    {
        model.Tell(search, values);
        if (sum.IsZero)
        {
            Each(level, w => Cap(w, Rational.Zero));
        }
        else
        {
            GatherSum(level);
            _simplex.Lower(_simplex.AddRow(_variables.ToArray(), _factors.ToArray(), null, null), sum);
            HasSumRows = true;
        }

        _sums[(int)level] = sum;
    }

    /// <inheritdoc/>
    public bool CanTrade(Strength level)
    {
        var free = model.Wishes.FindAll(w => w.Wish.Strength == level && !IsPinned(w));
        return search.MindsLattices ? free.Count > 0 : free.Exists(CanGrow);
    }

    /// <inheritdoc/>
    public Rational LeastLargest(WishSet wishes)
    {
        Rational now = default;
        var members = model.Wishes.FindAll(w => wishes.Statements.Contains(w.Wish.Statement));
        members.ForEach(w => now = Rational.Max(now, MissAtPoint(w)));
        var movable = members.FindAll(w => !IsPinned(w));
        if (movable.Count == 0 || now.IsZero)
        {
            return now;
        }

        var largest = _simplex.AddVariable(Rational.Zero, null);
        var waiting = _simplex.WaitingCount;
        foreach (var wish in members)
        {
            if (IsPinned(wish))
            {
                _simplex.Raise(largest, MissAtPoint(wish));
                continue;
            }

            Begin();
            Miss(wish);
            _variables.Add(largest);
            _factors.Add(-1);
            _simplex.AddWaitingRow(_variables.ToArray(), _factors.ToArray(), null, Rational.Zero);
        }

        search.Teach(largest, now);
        Begin();
        _variables.Add(largest);
        _factors.Add(1);
        Least(wishes.Level, false);
        var least = search.Best;
        _simplex.ForgetWaiting(waiting);
        return least;
    }

    /// <inheritdoc/>
    public void Cap(WishSet wishes, Rational most)
    {
        foreach (var wish in model.Wishes)
        {
            if (wishes.Statements.Contains(wish.Wish.Statement))
            {
                Cap(wish, most);
            }
        }
    }

    /// <inheritdoc/>
    public Rational? LowerOne(int wish)
    {
        if (ColumnsOf(wish) is not { } columns)
        {
            return null;
        }

        var now = MissAtPoint(columns);
        if (_lowered?.ContainsKey(wish) == true || IsPinned(columns))
        {
            return now;
        }

        (_lowered ??= []).Add(wish, now);
        if (!now.IsZero)
        {
            Begin();
            Miss(columns);
            Least(columns.Wish.Strength, false);
            if (search.Best == search.Bound)
            {
                _simplex.PinFace();
            }

            now = search.Best;
        }

        Cap(columns, now);
        return now;
    }

    /// <inheritdoc/>
    public Rational? MissOf(int wish) => ColumnsOf(wish) is { } columns ? MissAtPoint(columns) : null;

    /// <inheritdoc/>
    public void Write(Rational[] values)
    {
        foreach (var measure in model.Group.Measures)
        {
            values[measure] = search.At(model.VariableOf(measure));
        }
    }

    /// <inheritdoc/>
    public void Release() => release?.Invoke(_simplex);

    /// <summary>Whether a miss can be larger than it is while the sum stays: where none can, none can be smaller either.</summary>
    private bool CanGrow(WishColumns wish)
    {
        var now = MissAtPoint(wish);
        Begin();
        Miss(wish);
        _simplex.SetCost(_variables.ToArray(), _factors.ConvertAll(f => -f).ToArray());
        return !_simplex.CostIsPinned() && _simplex.TryReoptimise(out var endless) && (endless || -_simplex.Objective() > now);
    }

    private WishColumns? ColumnsOf(int wish)
    {
        _columnsOf ??= model.Wishes.ToDictionary(w => w.Wish.Statement);
        return _columnsOf.TryGetValue(wish, out var columns) ? columns : null;
    }

    /// <summary>Tells the linear program what a wish must miss by because of its grids.</summary>
    private void Expect(WishColumns wish)
    {
        var least = _leastMisses.Of(wish.Wish);
        if (!least.IsZero)
        {
            Begin();
            Miss(wish);
            _simplex.Raise(_simplex.AddRow(_variables.ToArray(), _factors.ToArray(), null, null), least);
        }
    }

    /// <summary>
    /// Lowers the cost gathered. When the budget ends with a point known, all sizes stay where they are from there on, and the rest is
    /// lowered for them: a full answer, though not proved.
    /// </summary>
    private SearchEnd Least(Strength level, bool isSum)
    {
        var (variables, factors) = (_variables.ToArray(), _factors.ToArray());
        var end = search.Minimise(variables, factors, null);
        if (end == SearchEnd.OutOfBudget && search.HasPoint)
        {
            var bound = search.Bound;
            search.Freeze();
            end = search.Minimise(variables, factors, null);
            Unproved ??= (level, isSum ? search.Best - bound : default);
        }

        return end;
    }

    private void GatherSum(Strength level)
    {
        if (search.MindsLattices && !_expected[(int)level])
        {
            _expected[(int)level] = true;
            Each(level, Expect);
            Strengthen(level);
        }

        Begin();
        Each(level, Miss);
    }

    /// <summary>Cuts the point of the linear program off as long as that raises the least sum.</summary>
    private void Strengthen(Strength level)
    {
        Begin();
        Each(level, Miss);
        _simplex.SetCost(_variables.ToArray(), _factors.ToArray());
        _simplex.TrustCost();
        if (!_simplex.Reoptimise())
        {
            return;
        }

        var whole = new List<Stepped>(model.Stepped);
        foreach (var (wish, _, over, under) in model.Wishes)
        {
            if (_leastMisses.LatticeOf(wish) is { } lattice)
            {
                whole.AddRange(from variable in (int[])[over, under] where variable >= 0 select new Stepped(variable, lattice));
            }
        }

        var (reached, patience) = (_simplex.Objective(), 2);
        for (var round = 0; round < MostRounds && patience > 0 && _simplex.Cut(model.Stepped, whole) && _simplex.Reoptimise(); round++)
        {
            patience = _simplex.Objective() > reached ? 2 : patience - 1;
            reached = _simplex.Objective();
        }
    }

    private void Each(Strength level, Action<WishColumns> act)
    {
        foreach (var wish in model.Wishes)
        {
            if (wish.Wish.Strength == level)
            {
                act(wish);
            }
        }
    }

    private void Begin()
    {
        _variables.Clear();
        _factors.Clear();
    }

    private void Miss(WishColumns wish)
    {
        if (wish.Over >= 0)
        {
            _variables.Add(wish.Over);
            _factors.Add(1);
        }

        if (wish.Under >= 0)
        {
            _variables.Add(wish.Under);
            _factors.Add(1);
        }
    }

    private Rational MissAtPoint(WishColumns wish) =>
        (wish.Over >= 0 ? search.At(wish.Over) : default) + (wish.Under >= 0 ? search.At(wish.Under) : default);

    private bool IsPinned(WishColumns wish) =>
        (wish.Over < 0 || _simplex.IsPinned(wish.Over)) && (wish.Under < 0 || _simplex.IsPinned(wish.Under));

    /// <summary>
    /// Lets a wish miss by no more than this. Each side on its own is enough: left minus right is over minus under, so it then lies
    /// within the miss on both sides.
    /// </summary>
    private void Cap(WishColumns wish, Rational most)
    {
        if (wish.Over >= 0)
        {
            _simplex.Lower(wish.Over, most);
        }

        if (wish.Under >= 0)
        {
            _simplex.Lower(wish.Under, most);
        }
    }
}
