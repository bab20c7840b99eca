using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Splits the wishes of a group into parts that hang together at a level: by musts and by wishes of that level or stronger ones. So a
/// may that ties two parts of a layout together cannot change which shoulds give way.
/// </summary>
internal sealed class WishParts
{
    private readonly Dictionary<int, int> _parent = [];

    /// <summary>Ties the measures of a group together.</summary>
    public WishParts(Group group, Strength level)
    {
        group.Bounded.ForEach(b => Join(b.Form));
        foreach (var wish in group.Wishes)
        {
            if (wish.Strength <= level)
            {
                Join(wish.Form);
            }
        }
    }

    /// <summary>The parts, in order of the first wish of each, with the wishes in the order given.</summary>
    public IEnumerable<List<WishColumns>> Split(List<WishColumns> wishes) =>
        wishes.GroupBy(w => Find(w.Wish.Form.Unknowns[0])).Select(g => g.ToList());

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
