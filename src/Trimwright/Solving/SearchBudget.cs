namespace Trimwright.Solving;

/// <summary>
/// What a group may still spend on search. A node counts for one, and for one more with every <see cref="WorkPerNode"/> factors that the
/// simplex touched for it, so that a large group ends in about the same time as a small one - without looking at a clock.
/// </summary>
internal sealed class SearchBudget(long nodes)
{
    private const long WorkPerNode = 4_096;

    private long _left = nodes;

    /// <summary>Pays for a node. False when nothing is left.</summary>
    public bool Pay(Simplex simplex)
    {
        _left -= 1 + (simplex.TakeWork() / WorkPerNode);
        return _left >= 0;
    }
}
