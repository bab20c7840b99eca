namespace Trimwright.Cutting;

/// <summary>Makes a plan cheaper by giving up sheets, or changing them for cheaper ones, as long as rounds are left.</summary>
internal sealed class PlanImprover(
    Lot lot,
    PlanRandom random,
    long bound,
    int rounds,
    Action<int, (List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing)> report,
    CancellationToken cancel)
{
    // More sheets than this are not all laid again: the rest stays as the linear programme gave it.
    private const int MostLoose = 1_500;

    private readonly Relayer _relayer = new(lot, random);
    private readonly List<(Pattern Pattern, long Repeats)> _fixed = [];
    private List<Pattern> _loose = [];
    private List<int> _bag = [];

    public (List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing) Improve(
        List<(Pattern Pattern, long Repeats)> sheets, long[] missing)
    {
        Loosen(sheets, missing);
        if (_bag.Count > 0 || missing.Any(count => count > 0))
        {
            FillStock();
            _relayer.PlaceAll(_loose, _bag, Left / 2, cancel);
        }

        var attempt = 0;
        while (_bag.Count == 0 && Left > 0 && Cost(_loose) + FixedCost > bound && !cancel.IsCancellationRequested)
        {
            if (!Attempt(attempt++))
            {
                break;
            }

            report(_relayer.Rounds, Result());
        }

        return Result();
    }

    private int Left => rounds - _relayer.Rounds;

    private long FixedCost => _fixed.Sum(sheet => sheet.Repeats * lot.Stocks[sheet.Pattern.Stock].Cost);

    private void Loosen(List<(Pattern Pattern, long Repeats)> sheets, long[] missing)
    {
        var most = sheets.Sum(sheet => sheet.Repeats) <= MostLoose ? long.MaxValue : 2;
        foreach (var (pattern, repeats) in sheets)
        {
            var loose = Math.Min(repeats, most);
            for (var n = 0L; n < loose; n++)
            {
                _loose.Add(pattern);
            }

            if (repeats > loose)
            {
                _fixed.Add((pattern, repeats - loose));
            }
        }

        for (var k = 0; k < missing.Length; k++)
        {
            // More than this cannot be placed one by one in the rounds there are.
            for (var n = 0L; n < Math.Min(missing[k], 10_000); n++)
            {
                _bag.Add(k);
            }

            _unplaced[k] = missing[k] - Math.Min(missing[k], 10_000);
        }
    }

    private readonly long[] _unplaced = new long[lot.Shapes.Count];

    // Opens the stock that is left, as far as what is missing may need it.
    private void FillStock()
    {
        for (var s = 0; s < lot.Stocks.Count; s++)
        {
            for (var n = Used(s); n < lot.Stocks[s].Count && _loose.Count < MostLoose && _bag.Any(k => lot.Shapes[k].MayComeFrom(s)); n++)
            {
                var packer = new Packer(lot);
                packer.Open(s);
                _bag = [.. _bag.OrderByDescending(k => lot.Shapes[k].Area).ThenBy(k => k).Where(k => !packer.TryLay(k))];
                var pattern = new Pattern(s, packer.Sheets[0].Root, lot.Shapes.Count);
                if (pattern.Counts.Any(count => count > 0))
                {
                    _loose.Add(pattern);
                }
                else
                {
                    break;
                }
            }
        }
    }

    private long Used(int stock) =>
        _fixed.Sum(sheet => sheet.Pattern.Stock == stock ? sheet.Repeats : 0) + _loose.Count(sheet => sheet.Stock == stock);

    /// <summary>One change and the search that goes with it. False when there is no change left that would help.</summary>
    private bool Attempt(int attempt)
    {
        var (remove, add) = lot.Stocks.Count == 1 ? DropOne(attempt) : Change();
        if (remove.Count == 0)
        {
            return false;
        }

        var sheets = new List<Pattern>();
        var bag = new List<int>();
        for (var n = 0; n < _loose.Count; n++)
        {
            if (!remove.Contains(n))
            {
                sheets.Add(_loose[n]);
                continue;
            }

            for (var k = 0; k < lot.Shapes.Count; k++)
            {
                bag.AddRange(Enumerable.Repeat(k, _loose[n].Counts[k]));
            }
        }

        foreach (var stock in add)
        {
            sheets.Add(new(stock, new(lot.Stocks[stock].Width, lot.Stocks[stock].Height), lot.Shapes.Count));
        }

        // One kind of stock has one way to become cheaper, so it gets long attempts; several kinds have many.
        var share = lot.Stocks.Count == 1 ? Math.Max(2_000, rounds / 4) : 100 << Math.Min(attempt / 50, 5);
        if (_relayer.PlaceAll(sheets, bag, Math.Min(share, Left), cancel))
        {
            sheets.RemoveAll(sheet => sheet.Counts.All(count => count == 0));
            _loose = sheets;
        }

        return true;
    }

    private (List<int> Remove, List<int> Add) DropOne(int attempt)
    {
        if (_loose.Count < 2 || Cost(_loose) + FixedCost - lot.Stocks[0].Cost < bound)
        {
            return ([], []);
        }

        var emptiest = Enumerable.Range(0, _loose.Count).OrderBy(n => _loose[n].Used(lot)).ThenBy(n => n).ToList();
        return ([emptiest[attempt == 0 ? 0 : random.Next(Math.Min(emptiest.Count, 4))]], []);
    }

    private (List<int> Remove, List<int> Add) Change()
    {
        // Every other time one of the sheets that are emptiest for what they cost is among those given up: what it holds needs the least.
        var emptiest = Enumerable.Range(0, _loose.Count).OrderByDescending(Wasted).ThenBy(n => n).Take(4).ToList();
        for (var tries = 0; tries < 1_000 && _loose.Count > 0; tries++)
        {
            var remove = new List<int>();
            if (tries % 2 == 0)
            {
                remove.Add(emptiest[random.Next(emptiest.Count)]);
            }

            for (var n = Math.Min(_loose.Count, 1 + random.Next(3)); n > 0; n--)
            {
                var at = random.Next(_loose.Count);
                if (!remove.Contains(at))
                {
                    remove.Add(at);
                }
            }

            var add = new List<int>();
            for (var n = random.Next(4); n > 0; n--)
            {
                add.Add(random.Next(lot.Stocks.Count));
            }

            var change = add.Sum(stock => lot.Stocks[stock].Cost) - remove.Sum(n => lot.Stocks[_loose[n].Stock].Cost);
            if (change < 0 && Cost(_loose) + FixedCost + change >= bound && add.Distinct().All(stock => Allows(stock, add, remove)))
            {
                return (remove, add);
            }
        }

        return ([], []);
    }

    private Int128 Wasted(int sheet)
    {
        var stock = lot.Stocks[_loose[sheet].Stock];
        return (Int128)stock.Cost * 1_000_000 * (stock.Area - _loose[sheet].Used(lot)) / stock.Area;
    }

    private bool Allows(int stock, List<int> add, List<int> remove) =>
        Used(stock) + add.Count(s => s == stock) - remove.Count(n => _loose[n].Stock == stock) <= lot.Stocks[stock].Count;

    private long Cost(List<Pattern> sheets) => sheets.Sum(sheet => lot.Stocks[sheet.Stock].Cost);

    private (List<(Pattern Pattern, long Repeats)> Sheets, long[] Missing) Result()
    {
        var missing = (long[])_unplaced.Clone();
        foreach (var k in _bag)
        {
            missing[k]++;
        }

        return ([.. _fixed, .. _loose.Select(sheet => (sheet, 1L))], missing);
    }
}
