using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Splits the wishes of a group into parts that hang together at a level: by musts and by wishes of that level or stronger ones. So a
/// may that ties two parts of a layout together cannot change which shoulds give way.
/// </summary>
internal sealed class WishParts(Group group)
{
    private readonly Dictionary<int, int> _parent = [];
    private bool _mustsAreIn;

    /// <summary>The parts of the wishes of a level, in order of the first wish of each. Levels are asked for from the strongest down.</summary>
    public IReadOnlyList<WishSet> Of(Strength level)
    {
        if (!_mustsAreIn)
        {
            _mustsAreIn = true;
            group.Bounded.ForEach(b => Join(b.Form));
        }

        foreach (var wish in group.Wishes)
        {
            if (wish.Strength <= level)
            {
                Join(wish.Form);
            }
        }

        return group.Wishes.FindAll(w => w.Strength == level)
            .GroupBy(w => Find(w.Form.Unknowns[0]))
            .Select(g => new WishSet(level, g.Select(w => w.Statement).ToHashSet()))
            .ToList();
    }

    private void Join(LinearForm form)
    {
        var first = Find(form.Unknowns[0]);
        foreach (var unknown in form.Unknowns)
        {
            _parent[Find(unknown)] = first;
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
