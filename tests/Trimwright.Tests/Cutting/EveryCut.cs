using Trimwright.Cutting;

namespace Trimwright.Tests.Cutting;

/// <summary>
/// The least cost of a tiny job by trying everything: every set of pieces that some way to cut a sheet gives, whole millimetre by whole millimetre, and
/// every choice of sheets. Knows nothing of bounds or patterns; for jobs without kerf and rules and of few pieces.
/// </summary>
internal static class EveryCut
{
    /// <summary>The least cost, or null if the stock cannot give all pieces.</summary>
    public static long? Cheapest(CuttingJob job)
    {
        var all = job.Pieces.Select(piece => (int)piece.Count).ToArray();
        var sheets = job.Stock.SelectMany(stock => Enumerable.Repeat((stock.Cost, Sets: Sets(job, stock, all)), (int)stock.Count!.Value)).ToList();
        var least = new Dictionary<int, long> { [0] = 0 };
        foreach (var (cost, sets) in sheets)
        {
            foreach (var (made, spent) in least.ToList())
            {
                foreach (var set in sets)
                {
                    if (Sum(made, set, all) is { } sum && (!least.TryGetValue(sum, out var known) || spent + cost < known))
                    {
                        least[sum] = spent + cost;
                    }
                }
            }
        }

        return least.TryGetValue(Code(all, all), out var found) ? found : null;
    }

    /// <summary>All sets of pieces that can be cut from a sheet, as numbers whose digits are counts.</summary>
    private static HashSet<int> Sets(CuttingJob job, StockSheet stock, int[] all)
    {
        var (w, h) = ((int)(stock.Width.Nanometres / 1_000_000), (int)(stock.Height.Nanometres / 1_000_000));
        var sets = new HashSet<int>[w + 1, h + 1];
        for (var x = 1; x <= w; x++)
        {
            for (var y = 1; y <= h; y++)
            {
                var own = sets[x, y] = [0];
                for (var p = 0; p < all.Length; p++)
                {
                    if (MostWorth.MayComeFrom(job.Pieces[p], stock) && MostWorth.Ways(job.Pieces[p], stock).Contains((x * 1_000_000L, y * 1_000_000L)))
                    {
                        own.Add(Code([.. all.Select((_, n) => n == p ? 1 : 0)], all));
                    }
                }

                for (var at = 1; at < x; at++)
                {
                    Join(own, sets[at, y], sets[x - at, y], all);
                }

                for (var at = 1; at < y; at++)
                {
                    Join(own, sets[x, at], sets[x, y - at], all);
                }
            }
        }

        return sets[w, h];
    }

    private static void Join(HashSet<int> into, HashSet<int> first, HashSet<int> second, int[] all)
    {
        foreach (var a in first)
        {
            foreach (var b in second)
            {
                if (Sum(a, b, all) is { } sum)
                {
                    into.Add(sum);
                }
            }
        }
    }

    private static int Code(int[] counts, int[] all)
    {
        var code = 0;
        for (var n = all.Length - 1; n >= 0; n--)
        {
            code = (code * (all[n] + 1)) + counts[n];
        }

        return code;
    }

    // Null where more of a piece comes out than is wanted.
    private static int? Sum(int a, int b, int[] all)
    {
        var (sum, place) = (0, 1);
        foreach (var most in all)
        {
            var radix = most + 1;
            var digit = (a % radix) + (b % radix);
            if (digit > most)
            {
                return null;
            }

            sum += digit * place;
            place *= radix;
            a /= radix;
            b /= radix;
        }

        return sum;
    }
}
