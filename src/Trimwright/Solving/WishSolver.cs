namespace Trimwright.Solving;

/// <summary>Solver.</summary>
public static class WishSolver
{
    /// <summary>Solves a system. Pure: the same system gives the same answer, on any thread, at any time.</summary>
    public static Solution Solve(WishSystem system, SolveOptions? options = null, CancellationToken cancel = default) =>
        throw new NotImplementedException();
}

/// <summary>Limits of a solve.</summary>
public sealed record SolveOptions
{
    /// <summary>The most search nodes per connected group. Counted, never timed, so that the answer does not depend on the machine.</summary>
    public int NodeBudget { get; init; } = 20_000;
}
