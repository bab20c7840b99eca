using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Writes what was planned in units back in lengths and names.</summary>
internal sealed class PlanWriter(CuttingJob job, Lot lot)
{
    private readonly List<Stack<(int Piece, long Count)>> _members =
        [.. lot.Shapes.Select(shape => new Stack<(int Piece, long Count)>(shape.Members.Reverse()))];

    /// <summary>The sheets of a lot, equal ones together, by stock in the order of the job, those cut most often first.</summary>
    public List<SheetPlan> Sheets(LotPlan plan)
    {
        var sheets = new List<SheetPlan>();
        foreach (var same in plan.Sheets.GroupBy(sheet => sheet.Pattern.Key(), StringComparer.Ordinal)
            .Select(group => (group.First().Pattern, Repeats: group.Sum(sheet => sheet.Repeats)))
            .OrderBy(sheet => sheet.Pattern.Stock).ThenByDescending(sheet => sheet.Repeats).ThenByDescending(sheet => sheet.Pattern.Used(lot))
            .ThenBy(sheet => sheet.Pattern.Key(), StringComparer.Ordinal))
        {
            var stock = job.Stock[lot.Stocks[same.Pattern.Stock].Index];
            sheets.Add(new(stock.Id, same.Repeats, Write(same.Pattern.Root, stock.Margins.Left, stock.Margins.Top, same.Repeats)!));
        }

        return sheets;
    }

    /// <summary>One sheet whose pieces of a shape are all for one piece of the job, whatever its count.</summary>
    public CutNode One(Pattern pattern, int[] pieceOf)
    {
        for (var k = 0; k < _members.Count; k++)
        {
            _members[k].Push((pieceOf[k], long.MaxValue));
        }

        var margins = job.Stock[lot.Stocks[pattern.Stock].Index].Margins;
        return Write(pattern.Root, margins.Left, margins.Top, 1)!;
    }

    /// <summary>What the lot lacks; of pieces that are alike, those named last in the job. Call after <see cref="Sheets"/>.</summary>
    public IEnumerable<(int Piece, long Count)> Missing() => _members.SelectMany(stack => stack);

    private CutNode? Write(Part part, Length left, Length top, long repeats)
    {
        var width = Size(part.Width);
        var height = Size(part.Height);
        if (width <= Length.Zero || height <= Length.Zero)
        {
            return null;
        }

        if (part.Shape >= 0)
        {
            return new CutPiece(left, top, width, height) { Turned = part.Turned, Ids = Draw(part.Shape, repeats) };
        }

        if (part.IsWaste)
        {
            return lot.IsOffcut(part.Width, part.Height)
                ? new CutOffcut(left, top, width, height)
                : new CutSliver(left, top, width, height);
        }

        var at = Size(part.Upright ? part.First!.Width : part.First!.Height);
        var next = at + Length.FromNanometres(lot.Kerf);
        return new CutInTwo(left, top, width, height)
        {
            Direction = part.Upright ? CutDirection.Upright : CutDirection.Level,
            At = at,
            First = Write(part.First, left, top, repeats)!,
            Second = part.Upright ? Write(part.Second!, left + next, top, repeats) : Write(part.Second!, left, top + next, repeats),
        };
    }

    private Length Size(int units) => Length.FromNanometres((units * lot.Unit) - lot.Kerf);

    // Copies of one place on the sheet get one piece's id as long as it lasts: stacked sheets then differ as little as can be.
    private string[] Draw(int shape, long repeats)
    {
        var ids = new string[repeats];
        for (var n = 0L; n < repeats; n++)
        {
            var (piece, count) = _members[shape].Pop();
            ids[n] = job.Pieces[piece].Id;
            if (count > 1)
            {
                _members[shape].Push((piece, count - 1));
            }
        }

        return ids;
    }
}
