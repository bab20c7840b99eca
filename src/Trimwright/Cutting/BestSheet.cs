namespace Trimwright.Cutting;

/// <summary>The most valuable way to cut one sheet.</summary>
/// <param name="Worth">What the pieces on it are worth together.</param>
/// <param name="Root">The trued sheet and its cuts.</param>
public sealed record BestSheet(long Worth, CutNode Root)
{
    /// <summary>Pieces may be worth at most this on one sheet, by area.</summary>
    public const long MostWorth = SheetTable.MostWorth;

    /// <summary>
    /// Finds it, with any number of each piece; counts are left out of it. Exact: no way to cut edge to edge gives more. (With holding rules on
    /// a sheet of very many units the rules are kept, but a better sheet may exist; see <paramref name="job"/>.)
    /// </summary>
    /// <param name="job">Pieces, rules, and one kind of stock.</param>
    /// <param name="worths">What one of each piece is worth, at least 0.</param>
    /// <exception cref="ArgumentException">
    /// The job is refused (see <see cref="CuttingPlanner.Plan"/>), has several kinds of stock, or the worths are negative or too large.
    /// </exception>
    public static BestSheet Find(CuttingJob job, IReadOnlyList<long> worths)
    {
        if (job.Stock.Count != 1 || worths.Count != job.Pieces.Count || JobChecks.Check(job) is { Count: > 0 })
        {
            throw new ArgumentException("the job is not sound, or has not one kind of stock and one worth for each piece", nameof(job));
        }

        // Any number of each: the largest count that the sheet could hold, so that nothing is held back.
        var lot = LotMaker.Make(job)[0];
        var table = SheetTable.For(lot, 0);
        var whole = new int[lot.Shapes.Count];
        for (var k = 0; k < whole.Length; k++)
        {
            var worth = lot.Shapes[k].Members.Max(member => worths[member.Piece]);
            if (lot.Shapes[k].Members.Any(member => worths[member.Piece] < 0)
                || worth > MostWorth / table.MostOf(k))
            {
                throw new ArgumentException("a worth is negative or too large", nameof(worths));
            }

            whole[k] = (int)worth;
        }

        var most = table.Fill(whole);
        var pattern = new Pattern(0, table.Best(), lot.Shapes.Count);
        return new(most, new PlanWriter(job, lot).One(pattern, [.. lot.Shapes.Select(shape => shape.Members.MaxBy(member => worths[member.Piece]).Piece)]));
    }
}
