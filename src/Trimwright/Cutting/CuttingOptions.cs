namespace Trimwright.Cutting;

/// <summary>Limits of a planning run. Counted, never timed, so that the plan does not depend on the machine.</summary>
public sealed record CuttingOptions
{
    /// <summary>The most rounds of taking sheets apart and laying them again, for each lot, in search of a cheaper plan.</summary>
    public int Rounds { get; init; } = 100_000;

    /// <summary>The most steps for each different sheet in search of larger leftovers, fewer cuts and fewer settings.</summary>
    public int TidySteps { get; init; } = 400_000;

    /// <summary>Where the search starts. The same seed gives the same plan.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Told now and then how far the search is; counts only. Called on the thread that plans.</summary>
    public Action<CuttingProgress>? Progress { get; init; }

    /// <summary>Whether a plan that leaves nothing out is good enough, whatever it costs.</summary>
    internal bool IsAnyCostGood { get; init; }
}
