using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Makes portions of one group: each with a simplex of its own, all with one budget.</summary>
internal sealed class Portions(int measureCount, SearchBudget budget, CancellationToken cancel)
{
    private readonly Stack<Simplex> _spare = [];

    /// <summary>What the group may still spend.</summary>
    public SearchBudget Budget => budget;

    /// <summary>Room for one value per measure of the system; left empty after use.</summary>
    public Rational?[] Scratch { get; } = new Rational?[measureCount];

    /// <summary>A portion for a group: one that is searched by its separators where it has some.</summary>
    public IPortion Of(Group group)
    {
        if (Separation.Of(group) is { } separation)
        {
            return new Branching(group, separation, this);
        }

        var model = ModelOf(group);
        return new Leaf(model, SearchOf(model), Release);
    }

    /// <summary>A group in a simplex of its own; see <see cref="Release"/>.</summary>
    public GroupModel ModelOf(Group group, Separation? separation = null) =>
        new(group, _spare.TryPop(out var simplex) ? simplex : new() { Cancel = cancel }, null, separation);

    /// <summary>A search over the lattices of a model.</summary>
    public Search SearchOf(GroupModel model) => new(model.Simplex, model.Stepped, budget) { MindsLattices = true };

    /// <summary>Takes a simplex back, so that its memory serves again.</summary>
    public void Release(Simplex simplex) => _spare.Push(simplex);
}
