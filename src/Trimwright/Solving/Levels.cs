using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Lowers the misses of one group, level by level: the sum, then the largest of each part that hangs together, then one by one in order
/// of declaration. Each step is proved least before the next, and the next moves only among the points that are best so far: no weights.
/// </summary>
/// <remarks>
/// Where the linear program proves a step, its face stays: nonbasic variables with a cost are pinned (their reduced cost says that any
/// move would lose; exact zero makes that valid). Where whole steps cost more, the least sum becomes a row, and a least miss a bound.
/// </remarks>
internal sealed class Levels(GroupModel model, Search search)
{
    private readonly Simplex _simplex = model.Simplex;
    private readonly List<int> _variables = [];
    private readonly List<Rational> _factors = [];
    private readonly LeastMisses _leastMisses = new(model.Group);

    /// <summary>Once the budget has ended: the level that is not proved, and by how much its sum may be above the least.</summary>
    public (Strength Level, Rational Gap)? Unproved { get; private set; }

    /// <summary>
    /// Finds the best misses. First without lattices: if that point lies on them, it is the answer. <see cref="SearchEnd.Proved"/> leaves
    /// the simplex with bounds that hold exactly the best points, and the search with one of them.
    /// </summary>
    public SearchEnd Run()
    {
        var start = _simplex.Mark();
        search.MindsLattices = false;
        var end = Each();
        if (end != SearchEnd.Proved || model.Stepped.Count == 0 || search.PointIsOnLattices())
        {
            search.MindsLattices = true;
            return end;
        }

        _simplex.UndoTo(start);
        search.Forget();
        search.MindsLattices = true;
        return Each();
    }

    private SearchEnd Each()
    {
        var end = model.Wishes.Count == 0 ? search.Find() : SearchEnd.Proved;
        for (var level = Strength.Should; level <= Strength.May && end == SearchEnd.Proved; level++)
        {
            var wishes = model.Wishes.FindAll(w => w.Wish.Strength == level);
            if (wishes.Count > 0)
            {
                end = Lower(level, wishes);
            }
        }

        return end == SearchEnd.OutOfBudget && search.HasPoint ? SearchEnd.Proved : end;
    }

    private SearchEnd Lower(Strength level, List<WishColumns> wishes)
    {
        if (search.MindsLattices)
        {
            wishes.ForEach(Expect);
        }

        Begin();
        wishes.ForEach(Miss);
        var end = Least(level, true);
        if (end != SearchEnd.Proved)
        {
            return end;
        }

        if (search.Best.IsZero)
        {
            wishes.ForEach(w => Cap(w, Rational.Zero));
            return end;
        }

        if (search.Best == search.Bound)
        {
            _simplex.PinFace();
        }
        else
        {
            var sum = _simplex.AddRow(_variables.ToArray(), _factors.ToArray(), null, null);
            _simplex.Lower(sum, search.Best);
        }

        var parts = new WishParts(model.Group, level);
        foreach (var part in parts.Split(wishes))
        {
            LowerLargest(level, part);
        }

        wishes.ForEach(w => LowerOne(level, w));
        return end;
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

    /// <summary>Lowers the largest of some misses: a variable that none of them passes.</summary>
    private void LowerLargest(Strength level, List<WishColumns> wishes)
    {
        var movable = wishes.FindAll(w => !IsPinned(w));

        // One alone is lowered in its turn.
        if (movable.Count < 2)
        {
            return;
        }

        var now = MissAtPoint(wishes[0]);
        wishes.ForEach(w => now = Rational.Max(now, MissAtPoint(w)));
        var largest = _simplex.AddVariable(Rational.Zero, null);
        var waiting = _simplex.WaitingCount;
        foreach (var wish in wishes)
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
        Least(level, false);
        if (search.Best == search.Bound)
        {
            _simplex.PinFace();
        }

        _simplex.ForgetWaiting(waiting);
        movable.ForEach(w => Cap(w, search.Best));
    }

    private void LowerOne(Strength level, WishColumns wish)
    {
        if (IsPinned(wish))
        {
            return;
        }

        if (MissAtPoint(wish).IsZero)
        {
            Cap(wish, Rational.Zero);
            return;
        }

        Begin();
        Miss(wish);
        Least(level, false);
        if (search.Best == search.Bound)
        {
            _simplex.PinFace();
        }

        Cap(wish, search.Best);
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
            Unproved = (level, isSum ? search.Best - bound : default);
        }

        return end;
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
