using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// What a wish for one exact value must miss by, whatever else happens, because all its measures are on grids: its form then takes only
/// values on a lattice, and the nearest one to the wish may be some way off. Known beforehand, this spares the search most of its
/// proofs; the linear program alone would believe in a miss of nothing.
/// </summary>
internal sealed class LeastMisses
{
    private readonly Dictionary<int, Lattice> _latticeOf = [];

    /// <summary>Notes the lattices of the measures of a group.</summary>
    public LeastMisses(Group group)
    {
        foreach (var (_, target, lattice) in group.Stepped)
        {
            if (target.Form.Unknowns.Length == 1)
            {
                _latticeOf.TryAdd(target.Form.Unknowns[0], lattice);
            }
        }
    }

    /// <summary>The least miss of a wish by its lattice alone; zero where it has none.</summary>
    public Rational Of(ReducedWish wish)
    {
        if (wish.Relation != Relation.Equal)
        {
            return default;
        }

        if (ValuesOf(wish.Form) is not var (value, step))
        {
            return default;
        }

        // The form takes values value + k step; the nearest to zero from above and from below.
        var above = value - (step * Rational.From((value / step).Floor(), 1));
        return Rational.Min(above, step - above);
    }

    /// <summary>
    /// The lattice that the misses of a wish lie on whatever the sizes are, where there is one: the common step of what its form can be.
    /// </summary>
    public Lattice? LatticeOf(ReducedWish wish) =>
        ValuesOf(wish.Form) is var (value, step) ? Lattice.From(Grid.FromStep(Lattice.CommonStep(step, value))) : null;

    /// <summary>The values of a form are among value + k step; null where it has a measure without a lattice.</summary>
    private (Rational Value, Rational Step)? ValuesOf(LinearForm form)
    {
        var value = form.Constant;
        Rational step = default;
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            if (!_latticeOf.TryGetValue(form.Unknowns[i], out var lattice))
            {
                return null;
            }

            value += form.Factors[i] * lattice.Offset;
            step = Lattice.CommonStep(step, form.Factors[i] * lattice.Step);
        }

        return (value, step);
    }
}
