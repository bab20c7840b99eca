using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A portion of a group whose misses are lowered step by step. After each step it stands for exactly those of its points that are
/// best so far, and it knows one of them. Every step may be asked for twice; the second time changes nothing.
/// </summary>
internal interface IPortion
{
    /// <summary>Once the budget has ended: the first level that is not proved, and by how much its sum may be above the least.</summary>
    (Strength Level, Rational Gap)? Unproved { get; }

    /// <summary>A value that the least sum of a level cannot be below, found without a search; null when nothing is within the bounds.</summary>
    Rational? SumBound(Strength level);

    /// <summary>Lowers the sum of the misses of a level.</summary>
    /// <param name="level">The level.</param>
    /// <param name="most">A sum above this is of no use to the caller, who then takes <see cref="SearchEnd.Dear"/>; null for any.</param>
    /// <param name="sum">The least sum.</param>
    SearchEnd LowerSum(Strength level, Rational? most, out Rational sum);

    /// <summary>Whether the sum of a level may be shared out in more than one way. False is proof.</summary>
    bool CanTrade(Strength level);

    /// <summary>The least that the largest miss of some wishes can be; nothing is taken away yet, see <see cref="Cap"/>.</summary>
    /// <param name="wishes">The numbers of their statements.</param>
    Rational LeastLargest(WishSet wishes);

    /// <summary>Lets none of some wishes miss by more than this.</summary>
    void Cap(WishSet wishes, Rational most);

    /// <summary>Lowers the miss of one wish.</summary>
    /// <param name="wish">The number of its statement.</param>
    /// <returns>The least miss; null when the wish has no part here.</returns>
    Rational? LowerOne(int wish);

    /// <summary>The miss of a wish at the point known; null when the wish has no part here.</summary>
    Rational? MissOf(int wish);

    /// <summary>Writes the values of its measures at the point known.</summary>
    void Write(Rational[] values);

    /// <summary>Gives its memory back. It is not to be asked anything after.</summary>
    void Release();
}

/// <summary>Some wishes of one level, by the numbers of their statements.</summary>
/// <param name="Level">Their level.</param>
/// <param name="Statements">The numbers of their statements.</param>
internal sealed record WishSet(Strength Level, IReadOnlySet<int> Statements);
