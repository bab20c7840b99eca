namespace Trimwright.Cutting;

/// <summary>How many of a set are made.</summary>
/// <param name="Set">The id of the set.</param>
/// <param name="Count">How many.</param>
public sealed record SetCount(string Set, long Count);

/// <summary>
/// Why no more can be made. Every piece has a worth, and no sheet can hold more than so much of it. A set takes at least
/// <see cref="WorthOfWeight"/> times its weight, except for what its own limit makes up for. So with N sheets of at most F, and sets of weight w that
/// take v (less the most that the stock they bring can hold) and of which at most n are wanted, the weights add up to at most
/// (sum of N F + sum over limited sets of n max(0, w * WorthOfWeight - v)) / WorthOfWeight, rounded down.
/// </summary>
public sealed record MostProof
{
    /// <summary>What each piece is worth.</summary>
    public required IReadOnlyList<PieceWorth> Pieces { get; init; }

    /// <summary>The most that each stock can hold; zero for stock without limit.</summary>
    public required IReadOnlyList<SheetWorth> Sheets { get; init; }

    /// <summary>The worth that stands for one of weight; positive.</summary>
    public required long WorthOfWeight { get; init; }

    /// <summary>The joins that the proof allows for: the parts of each are worth at least what the joined piece is.</summary>
    public IReadOnlyList<PieceJoin> Joins { get; init; } = [];

    /// <summary>The weights of all sets made add up to at most this.</summary>
    public required long Bound { get; init; }
}

/// <summary>The most sets that a stock gives, or all the reasons why that cannot be worked out.</summary>
public sealed record MostSets
{
    /// <summary>Why the job was refused; empty when there is an answer.</summary>
    public IReadOnlyList<CuttingRefusal> Refusals { get; init; } = [];

    /// <summary>How many of each set are made, in the order given.</summary>
    public IReadOnlyList<SetCount> Sets { get; init; } = [];

    /// <summary>The weights of the sets made, added up.</summary>
    public long Weight { get; init; }

    /// <summary>Why it cannot be more; null when the sets are all that is wanted.</summary>
    public MostProof? Proof { get; init; }

    /// <summary>No sets weigh more than this together.</summary>
    public long Bound { get; init; }

    /// <summary>Whether it is proved that no more can be made.</summary>
    public bool IsProved => Weight == Bound;

    /// <summary>The stock that runs out first: the ids of the sheets that the proof rests on, the one that holds most of the worth first.</summary>
    public IReadOnlyList<string> RunsOut { get; init; } = [];

    /// <summary>The pieces it runs out for: the ids of those with worth, the one that takes most of it first.</summary>
    public IReadOnlyList<string> RunsOutFor { get; init; } = [];

    /// <summary>How they are cut; null when none can be made.</summary>
    public CuttingPlan? Plan { get; init; }
}
