using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Why a wish was not met: a smallest set that, together with the wish, cannot hold.</summary>
/// <param name="Statement">The wish.</param>
/// <param name="Statements">
/// The statements that forced it and are not structure, ascending: musts, and wishes of the same or a stronger strength. With the wish
/// held, leaving out any one of them would let the rest hold.
/// </param>
/// <param name="Traded">
/// Those of <paramref name="Statements"/> that gave way themselves, ascending: they would have to miss by more than they do.
/// </param>
/// <param name="Structure">The structural statements that take part, ascending.</param>
/// <param name="Grids">The measures whose grid takes part, in order of declaration.</param>
/// <param name="Bounds">The measures whose bounds take part where no grid does, in order of declaration.</param>
public sealed record Because(
    int Statement, IReadOnlyList<int> Statements, IReadOnlyList<int> Traded, IReadOnlyList<int> Structure, IReadOnlyList<Measure> Grids,
    IReadOnlyList<Measure> Bounds);
