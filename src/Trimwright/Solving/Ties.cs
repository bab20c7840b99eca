using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Says which wishes of a group hang together at a level: those whose measures are tied by musts, or by wishes of that level or stronger
/// ones. So a may that ties two parts of a layout together cannot change which shoulds give way.
/// </summary>
/// <remarks>
/// <para>What ties is what the musts mean, not how they are written. Let M be all points that the musts and the ranges of measures
/// allow, grids aside. In the measures that are free in M (those that come first by order of elimination), M is full, so it has one
/// description by facets: each must of it that the others do not imply, and no must that they do. A partition of the free measures
/// makes M a product exactly when no facet speaks of two of its sets (a product has the facets of its factors; and where no facet
/// crosses, M is cut out set by set). So "joined by a facet" is the finest such partition, and it depends on M alone: a must that the
/// others imply leaves M, and with it the partition, as they are. Wishes, and grids on sums of measures, then join further.</para>
/// <para>Parts that do not hang together can be chosen apart, each with the least of its sum, so the largest miss of one does not
/// depend on the order in which they are asked. Linear programs find the measures that M leaves no freedom, and test for a facet; they
/// are asked only for what leads out of a part where misses are left to share out.</para>
/// </remarks>
internal sealed class Ties(Group group, CancellationToken cancel)
{
    private readonly Dictionary<int, int>?[] _parentsAt = new Dictionary<int, int>?[(int)Strength.May + 1];
    private readonly List<Rule> _rules = [];
    private readonly List<bool?> _bites = [];
    private Dictionary<int, int> _parent = [];
    private List<ReducedWish> _wishes = [];
    private bool _isPrepared;
    private Interior? _interior;
    private TiesModel? _model;

    /// <summary>One side of a must, over the measures that are free.</summary>
    private readonly record struct Rule(LinearForm Form, int Entry, Rational Bound, bool IsLeast);

    /// <summary>The musts in a program; made when it is needed.</summary>
    private TiesModel Model => _model ??= new(group, cancel);

    /// <summary>
    /// The parts of a level that have something to share out, in order of the first wish of each. Levels may be asked for in any order,
    /// and again: a group is solved without its grids first, down to the mays, and then once more with them.
    /// </summary>
    /// <param name="level">The level.</param>
    /// <param name="portion">The group, its sums lowered.</param>
    public IReadOnlyList<WishSet> Of(Strength level, IPortion portion)
    {
        var missed = group.Wishes
            .FindAll(w => w.Strength == level && portion.MissOf(w.Statement) is { IsZero: false })
            .ConvertAll(w => w.Statement)
            .ToHashSet();
        if (missed.Count == 0)
        {
            return [];
        }

        Prepare(portion);
        for (var stronger = Strength.Should; stronger <= level; stronger++)
        {
            TakeUp(stronger);
        }

        var asked = _wishes.FindAll(w => w.Strength == level);
        while (asked.Select(w => Find(w.Form.Unknowns[0])).Distinct().Skip(1).Any()
            && JoinMusts(asked.FindAll(w => missed.Contains(w.Statement)).Select(w => Find(w.Form.Unknowns[0])).ToHashSet()))
        {
        }

        return asked
            .GroupBy(w => Find(w.Form.Unknowns[0]))
            .Select(g => new WishSet(level, g.Select(w => w.Statement).ToHashSet()))
            .Where(s => s.Statements.Overlaps(missed))
            .ToList();
    }

    /// <summary>Goes on with what is joined at a level, so that a weaker one joins nothing there; the first time with all that stronger ones join.</summary>
    private void TakeUp(Strength level)
    {
        if (_parentsAt[(int)level] is { } known)
        {
            _parent = known;
            return;
        }

        _parentsAt[(int)level] = _parent = new(_parent);
        _wishes.FindAll(w => w.Strength == level).ForEach(JoinWish);
    }

    /// <summary>Joins by the musts that lead out of some parts. False when none does.</summary>
    private bool JoinMusts(HashSet<int> roots)
    {
        var joined = false;
        for (var i = _rules.Count - 1; i >= 0; i--)
        {
            cancel.ThrowIfCancellationRequested();
            var rule = _rules[i];
            if (_bites[i] != false && IsSplit(rule.Form) && rule.Form.Unknowns.Any(u => roots.Contains(Find(u))))
            {
                _bites[i] ??= Bites(rule);
                if (_bites[i] == true)
                {
                    Join(rule.Form);
                    joined = true;
                    roots.Add(Find(rule.Form.Unknowns[0]));
                }
            }
        }

        return joined;
    }

    /// <summary>Takes out the measures that the musts leave no freedom, and lists the musts over the others.</summary>
    private void Prepare(IPortion portion)
    {
        if (_isPrepared)
        {
            return;
        }

        _isPrepared = true;
        var at = new Rational[group.Measures[^1] + 1];
        portion.Write(at);
        _interior = Interior.Find(group, at, cancel);

        // A point with room on all sides shows that nothing is without freedom.
        var definitions = _interior is null ? Model.Settle() : null;
        LinearForm Apply(LinearForm form) => definitions is null ? form : definitions.Apply(form);
        _wishes = group.Wishes.ConvertAll(w => w with { Form = Apply(w.Form) });
        _wishes.RemoveAll(w => w.Form.IsConstant);
        foreach (var form in group.Stepped.Select(s => Apply(s.Target.Form)).Concat(definitions?.OnGrids() ?? []))
        {
            Join(form);
        }

        for (var i = 0; i < group.Bounded.Count; i++)
        {
            var form = Apply(group.Bounded[i].Form);
            if (group.Bounded[i].SaidLeast is { } least)
            {
                _rules.Add(new(form, i, least, true));
            }

            if (group.Bounded[i].SaidMost is { } most)
            {
                _rules.Add(new(form, i, most, false));
            }
        }

        _bites.AddRange(Enumerable.Repeat<bool?>(null, _rules.Count));
    }

    /// <summary>A wish that cannot be missed whatever the musts allow ties nothing.</summary>
    private void JoinWish(ReducedWish wish)
    {
        if (!IsSplit(wish.Form))
        {
            return;
        }

        var original = group.Wishes.Find(w => w.Statement == wish.Statement).Form;
        if (wish.Relation == Relation.Equal || Reaches(original, wish.Relation == Relation.AtLeast) is not { } end
            || (wish.Relation == Relation.AtLeast ? end.Sign < 0 : end.Sign > 0))
        {
            Join(wish.Form);
        }
    }

    /// <summary>Whether the other musts would let a rule be broken.</summary>
    private bool Bites(in Rule rule)
    {
        if (_interior?.IsMetFirst(group.Bounded[rule.Entry], rule.IsLeast) == true)
        {
            return true;
        }

        var (simplex, variable) = (Model.Simplex, Model.Rows[rule.Entry].Variable);
        simplex.Drop(variable, rule.IsLeast);
        simplex.SetCost([variable], [rule.IsLeast ? Rational.One : -Rational.One]);
        simplex.TryReoptimise(out var endless);
        var end = simplex.Value(variable);
        simplex.ClearCost();
        var bites = endless || (rule.IsLeast ? end < rule.Bound : end > rule.Bound);

        // What does not bite stays out: the others imply it.
        if (bites)
        {
            _ = rule.IsLeast ? simplex.Raise(variable, rule.Bound) : simplex.Lower(variable, rule.Bound);
        }

        return bites;
    }

    /// <summary>The least or the greatest value of a form within the musts; null where it has none.</summary>
    private Rational? Reaches(LinearForm form, bool least)
    {
        var simplex = Model.Simplex;
        var variables = Array.ConvertAll(form.Unknowns, u => group.Measures.BinarySearch(u));
        simplex.SetCost(variables, Array.ConvertAll(form.Factors, f => least ? f : -f));
        simplex.TryReoptimise(out var endless);
        var end = simplex.Objective();
        simplex.ClearCost();
        return endless ? null : form.Constant + (least ? end : -end);
    }

    private bool IsSplit(LinearForm form)
    {
        for (var i = 1; i < form.Unknowns.Length; i++)
        {
            if (Find(form.Unknowns[i]) != Find(form.Unknowns[0]))
            {
                return true;
            }
        }

        return false;
    }

    private void Join(LinearForm form)
    {
        for (var i = 1; i < form.Unknowns.Length; i++)
        {
            _parent[Find(form.Unknowns[i])] = Find(form.Unknowns[0]);
        }
    }

    private int Find(int measure)
    {
        while (_parent.TryGetValue(measure, out var parent) && parent != measure)
        {
            measure = parent;
        }

        return measure;
    }
}
