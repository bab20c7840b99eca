namespace Trimwright.Solving;

/// <summary>Limits of a solve.</summary>
public sealed record SolveOptions
{
    /// <summary>
    /// The most search nodes per connected group; a node of a large group counts for more than one. Counted, never timed, so that the
    /// answer does not depend on the machine.
    /// </summary>
    public int NodeBudget { get; init; } = 20_000;
}
