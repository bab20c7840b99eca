using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Splits a reduced system into groups that share no measure. Locality is a promise too: what is changed in one corner moves nothing in another.
/// </summary>
/// <remarks>
/// A rule that bounds of single measures keep already (by their sums, as intervals) ties nothing together, and is dropped.
/// </remarks>
internal sealed class Grouping(
    WishSystem system,
    Elimination elimination,
    Lattice?[] lattices,
    IReadOnlyList<BoundedForm> bounded,
    List<SteppedForm> stepped,
    List<ReducedWish> wishes,
    CancellationToken cancel)
{
    private readonly int[] _parent = Enumerable.Range(0, system.MeasureCount).ToArray();
    private readonly BoundedForm?[] _single = new BoundedForm?[system.MeasureCount];

    /// <summary>Appends the groups to a list, by their first measure.</summary>
    public void Fill(List<Group> groups)
    {
        foreach (var entry in bounded)
        {
            if (entry.Form.Unknowns.Length == 1)
            {
                _single[entry.Form.Unknowns[0]] = entry;
            }
        }

        var onLattice = stepped.Select(s => s.Target).ToHashSet();
        var kept = bounded.Where(b => b.Form.Unknowns.Length == 1 || onLattice.Contains(b) || Bites(b)).ToList();
        var keptWishes = wishes.Where(Bites).ToList();
        kept.ForEach(b => Join(b.Form));
        keptWishes.ForEach(w => Join(w.Form));
        JoinEarlyMeasures();

        var groupOf = new Group?[system.MeasureCount];
        for (var m = 0; m < system.MeasureCount; m++)
        {
            cancel.ThrowIfCancellationRequested();
            if (elimination.DefinitionOf(m) is null)
            {
                var root = Find(m);
                if (groupOf[root] is null)
                {
                    groups.Add(groupOf[root] = new());
                }

                groupOf[root]!.Measures.Add(m);
            }
        }

        Group Of(LinearForm form) => groupOf[Find(form.Unknowns[0])]!;
        kept.ForEach(b => Of(b.Form).Bounded.Add(b));
        stepped.ForEach(s => Of(s.Target.Form).Stepped.Add(s));
        keptWishes.ForEach(w => Of(w.Form).Wishes.Add(w));
        AddParts(groupOf);
    }

    /// <summary>
    /// A defined measure ties its free ones together only where it is declared before one of them: it then takes its place in its
    /// range first. Otherwise its value simply follows.
    /// </summary>
    private void JoinEarlyMeasures()
    {
        for (var m = 0; m < system.MeasureCount; m++)
        {
            if (elimination.DefinitionOf(m) is { IsConstant: false } form && form.Unknowns[^1] > m)
            {
                Join(form);
            }
        }
    }

    private void AddParts(Group?[] groupOf)
    {
        for (var m = 0; m < system.MeasureCount; m++)
        {
            cancel.ThrowIfCancellationRequested();
            if (elimination.DefinitionOf(m) is not { } form)
            {
                groupOf[Find(m)]!.Parts.Add(new(m, new([m], [Rational.One], default), true, lattices[m], default));
                continue;
            }

            var done = new bool[form.Unknowns.Length];
            for (var i = 0; i < done.Length; i++)
            {
                if (done[i])
                {
                    continue;
                }

                var root = Find(form.Unknowns[i]);
                var (unknowns, factors) = (new List<int>(), new List<Rational>());
                for (var k = i; k < done.Length; k++)
                {
                    if (Find(form.Unknowns[k]) == root)
                    {
                        done[k] = true;
                        unknowns.Add(form.Unknowns[k]);
                        factors.Add(form.Factors[k]);
                    }
                }

                var isWhole = unknowns.Count == done.Length;
                var lattice = isWhole ? lattices[m]?.Through(Rational.One, form.Constant) : null;
                groupOf[root]!.Parts.Add(
                    new(m, new([.. unknowns], [.. factors], default), isWhole, lattice, isWhole ? form.Constant : default));
            }
        }
    }

    private bool Bites(BoundedForm entry)
    {
        var (least, most) = Range(entry.Form);
        return (entry.SaidLeast is { } low && !(least >= low)) || (entry.SaidMost is { } high && !(most <= high));
    }

    private bool Bites(ReducedWish wish)
    {
        var (least, most) = Range(wish.Form);
        return wish.Relation switch
        {
            Relation.AtLeast => !(least >= Rational.Zero),
            Relation.AtMost => !(most <= Rational.Zero),
            _ => true,
        };
    }

    /// <summary>The range of a form by the bounds of its measures alone; null on a side that is open.</summary>
    private (Rational? Least, Rational? Most) Range(LinearForm form)
    {
        cancel.ThrowIfCancellationRequested();
        Rational? least = form.Constant;
        Rational? most = form.Constant;
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            var (factor, single) = (form.Factors[i], _single[form.Unknowns[i]]);
            var (low, high) = factor.Sign > 0 ? (single?.SaidLeast, single?.SaidMost) : (single?.SaidMost, single?.SaidLeast);
            least = least is { } a && low is { } b ? a + (factor * b) : null;
            most = most is { } c && high is { } d ? c + (factor * d) : null;
        }

        return (least, most);
    }

    private void Join(LinearForm form)
    {
        cancel.ThrowIfCancellationRequested();
        for (var i = 1; i < form.Unknowns.Length; i++)
        {
            var (a, b) = (Find(form.Unknowns[0]), Find(form.Unknowns[i]));
            if (a != b)
            {
                _parent[Math.Max(a, b)] = Math.Min(a, b);
            }
        }
    }

    private int Find(int measure)
    {
        while (_parent[measure] != measure)
        {
            measure = _parent[measure] = _parent[_parent[measure]];
        }

        return measure;
    }
}
