using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Writes pieces of a group anew where some of its measures have got their values.</summary>
/// <param name="values">The value of each measure that has one; null for the others. By measure.</param>
internal sealed class Pinned(Rational?[] values)
{
    /// <summary>A piece as a group of its own. Null when one of its rules is broken already.</summary>
    public Group? Group(Separation.Piece piece)
    {
        var group = new Group();
        group.Measures.AddRange(piece.Measures);
        var table = new FormTable();
        foreach (var entry in piece.Bounded)
        {
            var form = Apply(entry.Form);
            if (form.IsConstant)
            {
                if (form.Constant < entry.Least || form.Constant > entry.Most)
                {
                    return null;
                }

                continue;
            }

            var target = table.Get(form, out var factor);
            var (low, high) = factor.Sign > 0 ? (entry.Least, entry.Most) : (entry.Most, entry.Least);
            if (low is { } least)
            {
                target.Raise((least - form.Constant) / factor);
            }

            if (high is { } most)
            {
                target.Lower((most - form.Constant) / factor);
            }

            if (target.IsEmpty)
            {
                return null;
            }
        }

        foreach (var (measure, entry, lattice) in piece.Stepped)
        {
            var form = Apply(entry.Form);
            if (form.IsConstant)
            {
                if (!lattice.Holds(form.Constant))
                {
                    return null;
                }

                continue;
            }

            var target = table.Get(form, out var factor);
            group.Stepped.Add(new(measure, target, lattice.Through(factor, form.Constant)));
        }

        foreach (var wish in piece.Wishes)
        {
            group.Wishes.Add(wish with { Form = Apply(wish.Form) });
        }

        group.Bounded.AddRange(table.InOrder);
        return group;
    }

    private LinearForm Apply(LinearForm form)
    {
        var left = 0;
        foreach (var unknown in form.Unknowns)
        {
            left += values[unknown] is null ? 1 : 0;
        }

        if (left == form.Unknowns.Length)
        {
            return form;
        }

        var (unknowns, factors, constant) = (new int[left], new Rational[left], form.Constant);
        for (int i = 0, k = 0; i < form.Unknowns.Length; i++)
        {
            if (values[form.Unknowns[i]] is { } value)
            {
                constant += form.Factors[i] * value;
            }
            else
            {
                unknowns[k] = form.Unknowns[i];
                factors[k++] = form.Factors[i];
            }
        }

        return new(unknowns, factors, constant);
    }
}
