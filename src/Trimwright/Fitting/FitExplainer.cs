using Trimwright.Diagnostics;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>Says why wishes gave way: the smallest set of the maker's own sentences that leaves no room for each.</summary>
public static class FitExplainer
{
    /// <summary>
    /// The most wishes that are looked into. A card on which more give way has a few causes that show in the first ones.
    /// </summary>
    public const int MostExplained = 40;

    /// <summary>The reasons for each wish of a card that gave way, in the order of <see cref="FittedCard.GaveWay"/>.</summary>
    /// <returns>
    /// One entry for each of the first <see cref="MostExplained"/>; null where none could be found within the search limit. Reasons
    /// stand in the order of the file, what the tools say last.
    /// </returns>
    /// <exception cref="OperationCanceledException">The search was stopped.</exception>
    public static IReadOnlyList<IReadOnlyList<Reason>?> Explain(FittedCard card, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        if (card.GaveWay.Count == 0)
        {
            return [];
        }

        // Solving again costs less than carrying the system about with every card, and gives the same answer.
        var builder = SystemBuilder.Of(card.Layout, card.Width, card.Height, card.Increment, new(card.Drawer, card.Unit));
        var solution = WishSolver.Solve(builder.System, null, cancel);
        return
        [
            .. solution.GaveWay.Take(MostExplained)
                .Select(gave => WishExplainer.WhyMissed(builder.System, solution, gave.Statement, null, cancel))
                .Select(because => because is null ? null : Told(because, builder, card)),
        ];
    }

    private static List<Reason> Told(Because because, SystemBuilder builder, FittedCard card)
    {
        var reasons = because.Statements.Concat(because.Structure)
            .Select(s => (Saying: builder.Sayings[s], GaveWayToo: because.Traded.Contains(s)))
            .DistinctBy(reason => (reason.Saying.Source, reason.Saying.Text))
            .Select(reason => new Reason(
                reason.GaveWayToo ? reason.Saying.What! : FitWords.Said(reason.Saying), reason.Saying.Source, reason.GaveWayToo))
            .OrderBy(reason => reason.Source!, Comparer<SourcePlace>.Create(SourcePlace.Compare))
            .ToList();
        reasons.AddRange(because.Bounds
            .Where(measure => because.Statements.Count == 0 || because.Bounds.Count == 1)
            .Select(measure => new Reason(RangeOf(measure, builder, card.Unit), null, false))
            .DistinctBy(reason => reason.Text));
        reasons.AddRange(FitWords.OnGrids(because.Grids, builder, card.Unit).Select(text => new Reason(text, null, false)));
        return reasons;
    }

    private static string RangeOf(Measure measure, SystemBuilder builder, LengthUnit unit)
    {
        // Every unknown of a layout has both bounds; those far beyond the card only keep the search finite.
        var (least, most) = builder.System.BoundsOf(measure);
        var (what, from) = (builder.Unknowns[measure.Index].Text, LengthText.Write(new Position(least!.Value), unit));
        return most > builder.LongestOnCard
            ? $"{what} is at least {from}"
            : $"{what} can be {from} to {LengthText.Write(new Position(most!.Value), unit)} on this card";
    }
}
