using Trimwright.Cutting;

namespace Trimwright.Benchmarks;

/// <summary>What a plain program would do, to measure ours beside it: the textbook table for one sheet, and laying pieces on shelves.</summary>
internal static class PlainCutting
{
    /// <summary>
    /// The most worth on one sheet: a table over every whole unit that tries every cut up to the middle (Gilmore and Gomory, Operations Research 14, 1966).
    /// </summary>
    public static long MostWorth(CuttingJob job, long[] worths, long unit)
    {
        var sheet = job.Stock[0];
        var (w, h) = ((int)(sheet.Width.Nanometres / unit), (int)(sheet.Height.Nanometres / unit));
        var most = new long[w + 1, h + 1];
        for (var n = 0; n < job.Pieces.Count; n++)
        {
            var piece = job.Pieces[n];
            var (x, y) = ((int)(piece.Width.Nanometres / unit), (int)(piece.Height.Nanometres / unit));
            Raise(most, x, y, worths[n]);
            if (piece.MayTurn)
            {
                Raise(most, y, x, worths[n]);
            }
        }

        for (var x = 1; x <= w; x++)
        {
            for (var y = 1; y <= h; y++)
            {
                var best = Math.Max(most[x, y], Math.Max(most[x - 1, y], most[x, y - 1]));
                for (var at = 1; at * 2 <= x; at++)
                {
                    best = Math.Max(best, most[at, y] + most[x - at, y]);
                }

                for (var at = 1; at * 2 <= y; at++)
                {
                    best = Math.Max(best, most[x, at] + most[x, y - at]);
                }

                most[x, y] = best;
            }
        }

        return most[w, h];
    }

    /// <summary>
    /// The cost of laying the highest pieces first, each on the first shelf with room, else on a new shelf of the first sheet with room, else on a new sheet
    /// (finite first fit: Berkey and Wang, Journal of the Operational Research Society 38, 1987). Sheets are opened cheapest for their area first.
    /// </summary>
    public static long CostOnShelves(CuttingJob job)
    {
        var stock = job.Stock.OrderBy(sheet => (double)sheet.Cost / ((double)sheet.Width.Nanometres * sheet.Height.Nanometres)).ToList();
        var left = stock.ConvertAll(sheet => sheet.Count ?? long.MaxValue);
        var shelves = new List<(long Width, long Height, int Sheet)>();
        var rooms = new List<(long Width, long Height)>();
        var cost = 0L;
        foreach (var piece in job.Pieces.SelectMany(piece => Enumerable.Repeat(piece, (int)piece.Count)).OrderByDescending(piece => Math.Min(piece.Width.Nanometres, piece.Height.Nanometres)))
        {
            var (width, height) = (Math.Max(piece.Width.Nanometres, piece.Height.Nanometres), Math.Min(piece.Width.Nanometres, piece.Height.Nanometres));
            var shelf = shelves.FindIndex(other => width <= other.Width && height <= other.Height);
            if (shelf < 0)
            {
                var room = rooms.FindIndex(other => width <= other.Width && height <= other.Height);
                if (room < 0)
                {
                    var s = Enumerable.Range(0, stock.Count).First(s => left[s] > 0 && width <= stock[s].Width.Nanometres && height <= stock[s].Height.Nanometres);
                    left[s]--;
                    cost += stock[s].Cost;
                    room = rooms.Count;
                    rooms.Add((stock[s].Width.Nanometres, stock[s].Height.Nanometres));
                }

                shelf = shelves.Count;
                shelves.Add((rooms[room].Width, height, room));
                rooms[room] = rooms[room] with { Height = rooms[room].Height - height };
            }

            shelves[shelf] = shelves[shelf] with { Width = shelves[shelf].Width - width };
        }

        return cost;
    }

    private static void Raise(long[,] most, int x, int y, long worth)
    {
        if (x < most.GetLength(0) && y < most.GetLength(1))
        {
            most[x, y] = Math.Max(most[x, y], worth);
        }
    }
}
