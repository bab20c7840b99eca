namespace Trimwright.Cutting;

/// <summary>
/// Finds the best tree for a few given pieces in a given rectangle: tries every cut at a sum of piece sides and every share of the pieces
/// between the two parts. Places between those sums are not tried, so the best found is not claimed to be the best there is.
/// </summary>
internal sealed class SmallSearch
{
    /// <summary>The most different shares of pieces that are tried.</summary>
    public const int MostShares = 400;

    private const int SharesPerStep = 16;

    private readonly Lot _lot;
    private readonly int _stock;
    private readonly HashSet<int> _sides;
    private readonly int[] _shapes;
    private readonly int[][] _digits;
    private readonly long[] _areas;
    private readonly int[] _pieces;
    private readonly Dictionary<(int Width, int Height, int Share), Laid?> _known = [];
    private readonly int[]?[] _sums;
    private readonly int[]?[] _parts;
    private long _steps;

    private SmallSearch(Lot lot, int stock, HashSet<int> sides, int[] counts, long steps)
    {
        _lot = lot;
        _stock = stock;
        _sides = sides;
        _steps = steps;
        _shapes = [.. Enumerable.Range(0, counts.Length).Where(k => counts[k] > 0)];
        var shares = Shares(counts);
        _digits = new int[shares][];
        _areas = new long[shares];
        _pieces = new int[shares];
        _sums = new int[shares][];
        _parts = new int[shares][];
        for (var share = 0; share < shares; share++)
        {
            _digits[share] = new int[_shapes.Length];
            var rest = share;
            for (var n = 0; n < _shapes.Length; n++)
            {
                var (digit, radix) = (rest % (counts[_shapes[n]] + 1), counts[_shapes[n]] + 1);
                rest /= radix;
                _digits[share][n] = digit;
                _areas[share] += digit * lot.Shapes[_shapes[n]].Area;
                _pieces[share] += digit;
            }
        }
    }

    /// <summary>How many ways there are to take some of these pieces; more than <see cref="MostShares"/> counts as one more.</summary>
    public static int Shares(int[] counts)
    {
        var shares = 1;
        foreach (var count in counts)
        {
            shares *= count + 1;
            if (shares > MostShares)
            {
                return MostShares + 1;
            }
        }

        return shares;
    }

    /// <summary>The best tree found, or the one that is known if none is better. Whether all was tried can be told by the steps that are left.</summary>
    /// <param name="lot">The lot.</param>
    /// <param name="stock">The stock that the rectangle is part of.</param>
    /// <param name="sides">The sides of pieces.</param>
    /// <param name="now">A tree of these pieces in this rectangle.</param>
    /// <param name="counts">How many there are of each shape.</param>
    /// <param name="steps">Steps left.</param>
    public static Laid Find(Lot lot, int stock, HashSet<int> sides, Laid now, int[] counts, ref long steps)
    {
        var search = new SmallSearch(lot, stock, sides, counts, steps);
        var found = search.Solve(now.Root.Width, now.Root.Height, search._digits.Length - 1, now);
        steps = search._steps;
        return found!;
    }

    private Laid? Solve(int width, int height, int share, Laid? best = null)
    {
        if (share == 0)
        {
            return Laid.Leaf(_lot, new(width, height));
        }

        if (_areas[share] > (long)width * height)
        {
            return null;
        }

        if (_known.TryGetValue((width, height, share), out var known))
        {
            return known;
        }

        if (_pieces[share] == 1 && Exact(width, height, share) is { } piece)
        {
            best = Laid.Leaf(_lot, piece);
        }
        else
        {
            Try(upright: true, width, height, share, ref best);
            if (best is null || !IsIdeal(best, width, height, share))
            {
                Try(upright: false, width, height, share, ref best);
            }
        }

        _known[(width, height, share)] = best;
        return best;
    }

    private Part? Exact(int width, int height, int share)
    {
        var shape = _shapes[Array.IndexOf(_digits[share], 1)];
        foreach (var way in _lot.Shapes[shape].WaysOn(_stock))
        {
            if (way.Width == width && way.Height == height)
            {
                return Part.Piece(width, height, shape, way.Turned);
            }
        }

        return null;
    }

    private void Try(bool upright, int width, int height, int share, ref Laid? best)
    {
        var (size, through) = upright ? (width, height) : (height, width);
        if (!_lot.MayCut(through))
        {
            return;
        }

        var parts = _parts[share] ??= Parts(share);
        var sums = _sums[share] ??= Sums(share);
        foreach (var at in sums)
        {
            if (at >= size)
            {
                return;
            }

            // A cut beyond the middle is one before it seen from the other side, where there is one; but waste only ever comes second.
            var isMirrored = at > size - at && Array.BinarySearch(sums, size - at) >= 0;
            _steps -= 1 + (share / SharesPerStep);
            for (var n = FirstWithin(parts, (long)at * through); n < parts.Length; n++)
            {
                var first = parts[n];
                if (_areas[share] - _areas[first] > (long)(size - at) * through)
                {
                    break;
                }

                if (first != share && (isMirrored || (at == size - at && first < share - first)))
                {
                    continue;
                }

                if (_steps <= 0)
                {
                    return;
                }

                _steps--;
                if ((first == share && !_lot.MayTrim(size - at))
                    || (best is not null && !MayBeat(best, ((long)at * through) - _areas[first], ((long)(size - at) * through) - (_areas[share] - _areas[first]))))
                {
                    continue;
                }

                var one = upright ? Solve(at, height, first) : Solve(width, at, first);
                if (one is null)
                {
                    continue;
                }

                var two = upright ? Solve(size - at, height, share - first) : Solve(width, size - at, share - first);
                if (two is not null && Laid.Betters(_sides, upright, one, two, best))
                {
                    best = Laid.Join(_sides, upright, one, two);
                }
            }
        }
    }

    /// <summary>Whether leftovers that have so much room in one part and so much in the other can be as large as those known.</summary>
    private bool MayBeat(Laid best, long one, long two)
    {
        if (best.Offcuts.Length == 0)
        {
            return true;
        }

        var (large, small) = (AreaOf(Math.Max(one, two)), AreaOf(Math.Min(one, two)));
        return large > best.Offcuts[0] || (large == best.Offcuts[0] && (best.Offcuts.Length < 2 || small >= best.Offcuts[1]));
    }

    /// <summary>Whether nothing can be better: what is left is in one, and there are no more cuts than pieces ask for.</summary>
    private bool IsIdeal(Laid best, int width, int height, int share)
    {
        var waste = ((long)width * height) - _areas[share];
        return best.OddCuts == 0 && (waste == 0 ? best.Cuts == _pieces[share] - 1
            : best.Cuts == _pieces[share] && best.Offcuts.Length == 1 && best.Offcuts[0] == AreaOf(waste));
    }

    // At least what leftovers can be in so much room, in square nanometres: with a kerf they are smaller.
    private long AreaOf(long room) => room * _lot.Unit * _lot.Unit;

    /// <summary>Where the shares begin that take no more than so much room.</summary>
    private int FirstWithin(int[] parts, long room)
    {
        var (low, high) = (0, parts.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _areas[parts[middle]] > room ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>The shares that are some or all of a share, those with the most area first.</summary>
    private int[] Parts(int share)
    {
        var parts = new List<int>();
        for (var part = share; part > 0; part--)
        {
            var isPart = true;
            for (var n = 0; n < _shapes.Length && isPart; n++)
            {
                isPart = _digits[part][n] <= _digits[share][n];
            }

            if (isPart)
            {
                parts.Add(part);
            }
        }

        return [.. parts.OrderByDescending(part => _areas[part])];
    }

    /// <summary>Sums of sides of these pieces, as far as the sheet goes, in order.</summary>
    private int[] Sums(int share)
    {
        var longest = Math.Max(_lot.Stocks[_stock].Width, _lot.Stocks[_stock].Height);
        var sums = new SortedSet<int> { 0 };
        for (var n = 0; n < _shapes.Length; n++)
        {
            for (var copy = 0; copy < _digits[share][n]; copy++)
            {
                foreach (var sum in sums.ToArray())
                {
                    foreach (var side in (int[])[_lot.Shapes[_shapes[n]].Width, _lot.Shapes[_shapes[n]].Height])
                    {
                        if (side < longest - sum)
                        {
                            sums.Add(sum + side);
                        }
                    }
                }
            }
        }

        sums.Remove(0);
        return [.. sums];
    }
}
