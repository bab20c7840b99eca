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
    private readonly Dictionary<(int Share, int Most), int[]> _sums = [];
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

    /// <summary>The best tree found; null when the steps ran out first, or the pieces cannot be laid at all.</summary>
    public static Laid? Find(Lot lot, int stock, HashSet<int> sides, int width, int height, int[] counts, ref long steps)
    {
        var search = new SmallSearch(lot, stock, sides, counts, steps);
        var found = search.Solve(width, height, search._digits.Length - 1);
        steps = search._steps;
        return search._steps > 0 ? found : null;
    }

    private Laid? Solve(int width, int height, int share)
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

        Laid? best = null;
        if (_pieces[share] == 1 && Exact(width, height, share) is { } piece)
        {
            best = Laid.Leaf(_lot, piece);
        }
        else
        {
            Try(upright: true, width, height, share, ref best);
            Try(upright: false, width, height, share, ref best);
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

        foreach (var at in Sums(share, size))
        {
            _steps -= 1 + (share / SharesPerStep);
            for (var first = share; first > 0; first--)
            {
                if (_steps <= 0)
                {
                    return;
                }

                if (_areas[first] > (long)at * through || _areas[share] - _areas[first] > (long)(size - at) * through || !IsPartOf(first, share))
                {
                    continue;
                }

                _steps--;
                if (first == share && !_lot.MayTrim(size - at))
                {
                    continue;
                }

                var one = upright ? Solve(at, height, first) : Solve(width, at, first);
                if (one is null)
                {
                    continue;
                }

                var two = upright ? Solve(size - at, height, share - first) : Solve(width, size - at, share - first);
                if (two is not null && Laid.Join(_sides, upright, one, two) is var joined && joined.CompareTo(best) > 0)
                {
                    best = joined;
                }
            }
        }
    }

    private bool IsPartOf(int share, int of)
    {
        var a = _digits[share];
        var b = _digits[of];
        for (var n = 0; n < a.Length; n++)
        {
            if (a[n] > b[n])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Sums of sides of these pieces, less than <paramref name="below"/>.</summary>
    private int[] Sums(int share, int below)
    {
        if (_sums.TryGetValue((share, below), out var known))
        {
            return known;
        }

        var sums = new SortedSet<int> { 0 };
        for (var n = 0; n < _shapes.Length; n++)
        {
            for (var copy = 0; copy < _digits[share][n]; copy++)
            {
                foreach (var sum in sums.ToArray())
                {
                    sums.Add(sum + _lot.Shapes[_shapes[n]].Width);
                    sums.Add(sum + _lot.Shapes[_shapes[n]].Height);
                }
            }
        }

        int[] found = [.. sums.Where(sum => sum > 0 && sum < below)];
        _sums[(share, below)] = found;
        return found;
    }
}
