namespace Trimwright.Cutting;

/// <summary>
/// Makes a plan cheaper: gives up a sheet, or swaps one for a cheaper one, then takes a few sheets apart and lays their pieces again
/// together with those without a place, until all have one (ruin and recreate; late acceptance after Burke and Bykov, European Journal of
/// Operational Research 258, 2017).
/// </summary>
internal sealed class Relayer
{
    private const int Memory = 40;

    // A round counts for one, and for one more with every so many pieces, so that full sheets do not take longer than others.
    private const int PiecesPerRound = 24;

    private readonly Lot _lot;
    private readonly PlanRandom _random;
    private readonly Packer _packer;
    private readonly List<int> _pool = [];
    private readonly List<int> _rest = [];

    // For each of four senses of large, the size of each shape.
    private readonly long[][] _sizes;
    private long[] _keys = [];
    private int[] _items = [];

    public Relayer(Lot lot, PlanRandom random)
    {
        _lot = lot;
        _random = random;
        _packer = new(lot);
        _sizes = [.. Enumerable.Range(0, 4).Select(order => Sizes(lot, order))];
    }

    /// <summary>Rounds spent so far.</summary>
    public int Rounds { get; private set; }

    /// <summary>
    /// Tries to give every piece of the bag a place on the sheets, changing them. False when the rounds ran out; then the sheets and the bag
    /// are the best found, with the least area in the bag.
    /// </summary>
    public bool PlaceAll(List<Pattern> sheets, List<int> bag, int rounds, CancellationToken cancel)
    {
        // An attempt counts even when there is nothing to lay again, so that attempts come to an end.
        Rounds++;
        var now = Loss(sheets, bag);
        var memory = new Int128[Memory];
        Array.Fill(memory, now);
        var bestBag = AreaOf(bag);
        var best = (Sheets: sheets.ToArray(), Bag: bag.ToArray());
        var end = Rounds + rounds;
        for (var round = 0; Rounds < end && bag.Count > 0 && sheets.Count > 0 && !cancel.IsCancellationRequested; round++)
        {
            var chosen = Choose(Math.Min(sheets.Count, 1 + _random.Next(3)), sheets.Count);
            var (made, newBag) = LayAgain(sheets, chosen, bag);
            Rounds += 1 + (_pool.Count / PiecesPerRound);
            Int128 before = 0;
            Int128 after = 0;
            for (var n = 0; n < chosen.Length; n++)
            {
                before += Fill(sheets[chosen[n]]);
                after += Fill(made[n]);
            }

            var then = now - (2 * AreaOf(bag)) + (2 * AreaOf(newBag)) + before - after;
            ref var old = ref memory[round % Memory];
            if (then <= now || then <= old)
            {
                for (var n = 0; n < chosen.Length; n++)
                {
                    sheets[chosen[n]] = made[n];
                }

                bag.Clear();
                bag.AddRange(newBag);
                now = then;
                if (AreaOf(bag) < bestBag)
                {
                    bestBag = AreaOf(bag);
                    best = (sheets.ToArray(), bag.ToArray());
                }
            }

            old = now;
        }

        if (bag.Count > 0)
        {
            sheets.Clear();
            sheets.AddRange(best.Sheets);
            bag.Clear();
            bag.AddRange(best.Bag);
        }

        return bag.Count == 0;
    }

    /// <summary>
    /// Moves pieces together, so that some sheets are full and what is left over lies on few: lays two or three sheets again, one filled
    /// before the next is begun, and keeps what is better. Nothing loses its place; sheets left empty are taken out.
    /// </summary>
    public void Gather(List<Pattern> sheets, int rounds, CancellationToken cancel)
    {
        for (var end = Rounds + rounds; Rounds < end && sheets.Count > 1 && !cancel.IsCancellationRequested;)
        {
            var chosen = Choose(Math.Min(sheets.Count, 2 + _random.Next(2)), sheets.Count);
            var (made, left) = LayAgain(sheets, chosen, [], oneByOne: true);
            Rounds += 1 + (_pool.Count / PiecesPerRound);
            if (left.Count == 0 && made.Sum(Fill) > chosen.Sum(at => Fill(sheets[at])))
            {
                for (var n = 0; n < chosen.Length; n++)
                {
                    sheets[chosen[n]] = made[n];
                }

                sheets.RemoveAll(sheet => sheet.Counts.All(count => count == 0));
            }
        }
    }

    private int[] Choose(int count, int of)
    {
        var chosen = new int[count];
        for (var n = 0; n < count;)
        {
            var at = _random.Next(of);
            if (Array.IndexOf(chosen, at, 0, n) < 0)
            {
                chosen[n++] = at;
            }
        }

        return chosen;
    }

    private (List<Pattern> Sheets, List<int> Bag) LayAgain(List<Pattern> sheets, int[] chosen, List<int> bag, bool oneByOne = false)
    {
        _pool.Clear();
        _pool.AddRange(bag);
        _packer.Clear();
        foreach (var at in chosen)
        {
            if (!oneByOne)
            {
                _packer.Open(sheets[at].Stock);
            }

            for (var k = 0; k < _lot.Shapes.Count; k++)
            {
                for (var n = 0; n < sheets[at].Counts[k]; n++)
                {
                    _pool.Add(k);
                }
            }
        }

        _packer.FitBy = (FitBy)_random.Next(3);
        _packer.SplitBy = (SplitBy)_random.Next(3);
        SortPool(_sizes[_random.Next(4)]);
        _rest.Clear();
        _rest.AddRange(_items.AsSpan(0, _pool.Count));
        for (var n = 0; n < (oneByOne ? chosen.Length : 1); n++)
        {
            if (oneByOne)
            {
                _packer.Open(sheets[chosen[n]].Stock);
            }

            _rest.RemoveAll(_packer.TryLay);
        }

        return ([.. _packer.Sheets.Select(sheet => new Pattern(sheet.Stock, sheet.Root, _lot.Shapes.Count))], [.. _rest]);
    }

    // Largest first in one sense or another, shaken by up to a half so that no two rounds are alike.
    private void SortPool(long[] sizes)
    {
        if (_keys.Length < _pool.Count)
        {
            (_keys, _items) = (new long[2 * _pool.Count], new int[2 * _pool.Count]);
        }

        for (var n = 0; n < _pool.Count; n++)
        {
            (_keys[n], _items[n]) = (-(sizes[_pool[n]] * (1024 - _random.Next(512))), _pool[n]);
        }

        Array.Sort(_keys, _items, 0, _pool.Count);
    }

    // In units of a few nanometres the last digits are left out, so that a size may be shaken and still be a number of 64 bits.
    private static long[] Sizes(Lot lot, int order)
    {
        var sizes = lot.Shapes.Select(shape => order switch
        {
            0 => shape.Area,
            1 => (Int128)Math.Max(shape.Width, shape.Height) * Math.Max(shape.Width, shape.Height),
            2 => (Int128)Math.Min(shape.Width, shape.Height) * Math.Min(shape.Width, shape.Height),
            _ => ((Int128)shape.Width + shape.Height) * ((Int128)shape.Width + shape.Height) / 4,
        }).ToList();
        var digits = 0;
        while (sizes.Max() >> digits > long.MaxValue / 1024)
        {
            digits++;
        }

        return [.. sizes.Select(size => (long)(size >> digits))];
    }

    private Int128 Loss(List<Pattern> sheets, List<int> bag)
    {
        var loss = 2 * AreaOf(bag);
        foreach (var sheet in sheets)
        {
            loss -= Fill(sheet);
        }

        return loss;
    }

    // Full sheets and empty sheets are better than half full ones: the square of what is used, in parts of the sheet.
    private long Fill(Pattern pattern)
    {
        var used = pattern.Used(_lot);
        return (long)((Int128)used * used / _lot.Stocks[pattern.Stock].Area);
    }

    // In units of a few nanometres one sheet alone takes most of 64 bits.
    private Int128 AreaOf(List<int> bag)
    {
        Int128 area = 0;
        foreach (var k in bag)
        {
            area += _lot.Shapes[k].Area;
        }

        return area;
    }
}
