using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>How a solve ended.</summary>
public enum Outcome
{
    /// <summary>The best answer, with proof.</summary>
    Best,

    /// <summary>All musts hold; the search budget ended before it was proved best. See <see cref="Solution.Gap"/>.</summary>
    BestFound,

    /// <summary>The musts cannot all hold. See <see cref="Solution.Clash"/>.</summary>
    Clash,

    /// <summary>The search budget ended before any answer was found or excluded.</summary>
    Unknown,
}

/// <summary>A wish that was not met.</summary>
/// <param name="Statement">The number of the statement.</param>
/// <param name="Wanted">Its right-hand side.</param>
/// <param name="Got">Its left-hand side in the answer.</param>
/// <param name="Miss">How much it missed by, positive, in the unit of the statement.</param>
public sealed record GaveWay(int Statement, Rational Wanted, Rational Got, Rational Miss);

/// <summary>A measure that no statement pins, once every wish is met as well as it can be.</summary>
/// <param name="Measure">The measure.</param>
/// <param name="Least">The least value it may take while nothing gets worse; null when nothing bounds it.</param>
/// <param name="Most">The greatest.</param>
/// <param name="Chosen">The value that was chosen: the middle of the range, on its grid.</param>
public sealed record Loose(Measure Measure, Rational? Least, Rational? Most, Rational Chosen);

/// <summary>
/// A smallest set that cannot hold together: leave out any one member and the rest can hold. See <see cref="IsSmallest"/> for the
/// rare case where that could not be made sure of.
/// </summary>
/// <param name="Statements">The numbers of the statements that are not structure, ascending.</param>
/// <param name="Structure">The numbers of the structural statements that take part, ascending.</param>
/// <param name="Grids">The measures whose grid takes part, in order of declaration; empty when the clash holds without any grid.</param>
public sealed record Clash(IReadOnlyList<int> Statements, IReadOnlyList<int> Structure, IReadOnlyList<Measure> Grids)
{
    /// <summary>The measures whose bounds take part, in order of declaration. Bounds are background: they cannot be left out.</summary>
    public IReadOnlyList<Measure> Bounds { get; init; } = [];

    /// <summary>
    /// Whether it is proved that no member can be left out. False only where grids take part and the search budget ended before it was
    /// known whether the rest could hold: the members cannot hold together all the same, but one of them may not be needed.
    /// </summary>
    public bool IsSmallest { get; init; } = true;
}

/// <summary>The result of a solve.</summary>
public sealed record Solution
{
    /// <summary>How it ended.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>The exact value of each measure, by index; empty after a clash.</summary>
    public IReadOnlyList<Rational> Values { get; init; } = [];

    /// <summary>The wishes not met, in order of declaration.</summary>
    public IReadOnlyList<GaveWay> GaveWay { get; init; } = [];

    /// <summary>The measures that slid freely, in order of declaration.</summary>
    public IReadOnlyList<Loose> Loose { get; init; } = [];

    /// <summary>Why there is no answer, or null.</summary>
    public Clash? Clash { get; init; }

    /// <summary>
    /// After <see cref="Outcome.BestFound"/>: for the first level that is not proved, by how much the sum of misses may still be
    /// above the best possible; null otherwise.
    /// </summary>
    public Rational? Gap { get; init; }
}
