namespace Trimwright.Cutting;

/// <summary>The two bounds that can be checked by hand.</summary>
internal static class SimpleBounds
{
    /// <summary>By area: a sheet cannot give more paper than it is.</summary>
    public static WorthBound ByArea(Lot lot) => WorthBound.From(
        BoundKind.Area, lot, [.. lot.Shapes.Select(shape => shape.Area)], [.. lot.Stocks.Select(stock => stock.Area)],
        new bool[lot.Stocks.Count]);

    /// <summary>Pieces of which no two fit one sheet, gathered from the largest down.</summary>
    public static WorthBound ByNoTwoTogether(Lot lot)
    {
        var worths = new long[lot.Shapes.Count];
        var chosen = new List<int>();
        foreach (var k in Enumerable.Range(0, worths.Length)
            .OrderByDescending(k => Math.Min(lot.Shapes[k].Width, lot.Shapes[k].Height)).ThenByDescending(k => lot.Shapes[k].Area).ThenBy(k => k))
        {
            if ((lot.Shapes[k].Demand == 1 || !FitTogether(lot, k, k)) && !chosen.Any(other => FitTogether(lot, k, other)))
            {
                chosen.Add(k);
                worths[k] = 1;
            }
        }

        return WorthBound.From(
            BoundKind.NoTwoTogether, lot, worths, [.. Enumerable.Repeat(1L, lot.Stocks.Count)], new bool[lot.Stocks.Count]);
    }

    private static bool FitTogether(Lot lot, int a, int b)
    {
        for (var s = 0; s < lot.Stocks.Count; s++)
        {
            var sheet = lot.Stocks[s];
            if (lot.Shapes[a].WaysOn(s).Any(first => lot.Shapes[b].WaysOn(s).Any(second =>
                (first.Width <= sheet.Width - second.Width && Math.Max(first.Height, second.Height) <= sheet.Height)
                || (first.Height <= sheet.Height - second.Height && Math.Max(first.Width, second.Width) <= sheet.Width))))
            {
                return true;
            }
        }

        return false;
    }
}
