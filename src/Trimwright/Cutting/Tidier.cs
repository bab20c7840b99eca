namespace Trimwright.Cutting;

/// <summary>
/// Lays sheets again one at a time, with the same pieces on the same sheet, for larger leftovers, then fewer cuts, then fewer settings.
/// The cost is not touched. Sheets with the same pieces come out alike.
/// </summary>
internal sealed class Tidier(Lot lot, int steps, ulong seed, CancellationToken cancel)
{
    private const int StepsPerSample = 100;

    private readonly HashSet<int> _sides = [.. lot.Shapes.SelectMany(shape => new[] { shape.Width, shape.Height })];

    // Sheets with the same pieces are laid once.
    private readonly Dictionary<string, Pattern> _done = new(StringComparer.Ordinal);

    // Steps left for the sheet at hand.
    private long _left;

    public List<(Pattern Pattern, long Repeats)> Tidy(List<(Pattern Pattern, long Repeats)> sheets)
    {
        var tidied = new List<(Pattern Pattern, long Repeats)>();
        foreach (var (pattern, repeats) in sheets)
        {
            var key = string.Join(',', pattern.Counts.Append(pattern.Stock));
            if (!_done.TryGetValue(key, out var tidy))
            {
                tidy = cancel.IsCancellationRequested || steps == 0 ? pattern : Tidy(pattern);
                _done.Add(key, tidy);
            }

            tidied.Add((new(tidy.Stock, tidy.Root.Gathered(lot), tidy.Counts.Length), repeats));
        }

        return tidied;
    }

    private Pattern Tidy(Pattern pattern)
    {
        _left = steps;
        if (SmallSearch.Shares(pattern.Counts) <= SmallSearch.MostShares)
        {
            return new(pattern.Stock, Polish(pattern.Stock, pattern.Root).Root, pattern.Counts.Length);
        }

        // Too many pieces to try everything: other ways to lay them, and everything in the small parts of the three best.
        Laid? best = null;
        foreach (var sample in Samples(pattern).Append(Laid.From(lot, _sides, pattern.Root)).OrderDescending().Take(3).ToList())
        {
            var polished = Polish(pattern.Stock, sample.Root);
            best = polished.CompareTo(best) > 0 ? polished : best;
        }

        return new(pattern.Stock, best!.Root, pattern.Counts.Length);
    }

    /// <summary>Searches the largest subtrees that are small enough, and puts the rest together again as it was.</summary>
    private Laid Polish(int stock, Part part)
    {
        var now = Laid.From(lot, _sides, part);
        if (part.First is null)
        {
            return now;
        }

        var counts = new Pattern(0, part, lot.Shapes.Count).Counts;
        if (_left > 0 && SmallSearch.Shares(counts) <= SmallSearch.MostShares)
        {
            // Half of what is left, so that the parts have their turn where the whole is too much.
            var half = _left / 2;
            var unspent = half;
            now = SmallSearch.Find(lot, stock, _sides, now, counts, ref unspent);
            _left -= half - Math.Max(unspent, 0);
            if (unspent > 0)
            {
                return now;
            }
        }

        part = now.Root;
        var joined = Laid.Join(_sides, part.Upright, Polish(stock, part.First!), Polish(stock, part.Second!));
        return joined.CompareTo(now) > 0 && joined.Root.KeepsRules(lot) ? joined : now;
    }

    private IEnumerable<Laid> Samples(Pattern pattern)
    {
        var random = new PlanRandom(seed);
        var packer = new Packer(lot);
        var pieces = Enumerable.Range(0, pattern.Counts.Length).SelectMany(k => Enumerable.Repeat(k, pattern.Counts[k])).ToArray();
        for (var n = 0; n < steps / 2 / StepsPerSample; n++)
        {
            _left -= StepsPerSample;
            packer.Clear();
            packer.Open(pattern.Stock);
            packer.FitBy = (FitBy)random.Next(3);
            packer.SplitBy = (SplitBy)random.Next(3);
            var shake = n % 2 == 0 ? 512 : 128;
            var keys = pieces.Select(k => -((Int128)lot.Shapes[k].Area * (1024 - random.Next(shake)))).ToArray();
            var order = (int[])pieces.Clone();
            Array.Sort(keys, order);
            if (order.All(packer.TryLay))
            {
                yield return Laid.From(lot, _sides, packer.Sheets[0].Root);
            }
        }
    }
}
