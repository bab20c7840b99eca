namespace Trimwright.Cutting;

/// <summary>Which free rectangle a piece goes to.</summary>
internal enum FitBy
{
    /// <summary>The one with the least area to spare.</summary>
    Area,

    /// <summary>The one with the least to spare along one side.</summary>
    ShortSide,

    /// <summary>The one with the least to spare along the other.</summary>
    LongSide,
}

/// <summary>Which of the two cuts that free a piece goes through the whole rectangle.</summary>
internal enum SplitBy
{
    /// <summary>The one that leaves the largest single rectangle.</summary>
    LargestRest,

    /// <summary>The one along the side with less to spare.</summary>
    ShorterSpare,

    /// <summary>The one along the side with more to spare.</summary>
    LongerSpare,
}

/// <summary>
/// Lays pieces one after another into free rectangles of open sheets; each takes the top left corner and is cut free at once, so what is
/// built can be cut edge to edge.
/// </summary>
internal sealed class Packer
{
    private readonly Lot _lot;
    private readonly List<(int Stock, Part Root)> _sheets = [];
    private readonly List<(Part Part, int Sheet)> _free = [];

    // A shape that found no room finds none later: free rectangles only become smaller, until another sheet is opened.
    private readonly bool[] _full;

    public Packer(Lot lot)
    {
        _lot = lot;
        _full = new bool[lot.Shapes.Count];
    }

    public FitBy FitBy { get; set; }

    public SplitBy SplitBy { get; set; }

    public IReadOnlyList<(int Stock, Part Root)> Sheets => _sheets;

    public void Clear()
    {
        _sheets.Clear();
        _free.Clear();
        Array.Clear(_full);
    }

    public void Open(int stock)
    {
        var root = new Part(_lot.Stocks[stock].Width, _lot.Stocks[stock].Height);
        _free.Add((root, _sheets.Count));
        _sheets.Add((stock, root));
        Array.Clear(_full);
    }

    /// <summary>Goes on with a sheet that is begun; its tree is cut further.</summary>
    public void Open(int stock, Part root)
    {
        var leaves = new List<Part>();
        root.Leaves(leaves);
        foreach (var leaf in leaves)
        {
            if (leaf.IsWaste)
            {
                _free.Add((leaf, _sheets.Count));
            }
        }

        _sheets.Add((stock, root));
        Array.Clear(_full);
    }

    /// <summary>Lays one piece where it fits best; false when there is no room.</summary>
    public bool TryLay(int shape)
    {
        if (_full[shape])
        {
            return false;
        }

        var item = _lot.Shapes[shape];
        var best = -1;
        var bestScore = long.MaxValue;
        var bestTurned = false;
        for (var f = 0; f < _free.Count; f++)
        {
            var (part, sheet) = _free[f];
            var stock = _sheets[sheet].Stock;
            for (var turn = item.Upright[stock] ? 0 : 1; turn < (item.Turned[stock] ? 2 : 1); turn++)
            {
                var (width, height) = turn == 0 ? (item.Width, item.Height) : (item.Height, item.Width);
                if (width <= part.Width && height <= part.Height && Score(part, width, height) is var score && score < bestScore
                    && (!_lot.HasRules || Trim.Holds(_lot, part.Width, part.Height, width, height)))
                {
                    (best, bestScore, bestTurned) = (f, score, turn == 1);
                }
            }
        }

        if (best < 0)
        {
            _full[shape] = true;
            return false;
        }

        Lay(best, shape, bestTurned);
        return true;
    }

    /// <summary>A sheet with as many of one shape as greedy laying gives, at most the demand.</summary>
    public static Pattern PackOneKind(Lot lot, int stock, int shape)
    {
        var packer = new Packer(lot) { SplitBy = SplitBy.LargestRest };
        packer.Open(stock);
        for (var n = 0L; n < lot.Shapes[shape].Demand && packer.TryLay(shape); n++)
        {
        }

        return new(stock, packer._sheets[0].Root, lot.Shapes.Count);
    }

    /// <summary>One sheet with as much of these counts as greedy laying gives, the largest first: the fullest of a few tries.</summary>
    public static Part PackAgain(Lot lot, int stock, int[] counts)
    {
        Pattern? best = null;
        var packer = new Packer(lot);
        for (var n = 0; n < 9; n++)
        {
            packer.FitBy = (FitBy)(n % 3);
            packer.SplitBy = (SplitBy)(n / 3);
            packer.Clear();
            packer.Open(stock);
            packer.LayAll((int[])counts.Clone());
            var pattern = new Pattern(stock, packer._sheets[0].Root, counts.Length);
            best = best is null || pattern.Used(lot) > best.Used(lot) ? pattern : best;
        }

        return best!.Root;
    }

    /// <summary>Lays what fits of these counts, the largest first, and takes it off them.</summary>
    public void LayAll(Span<int> counts)
    {
        foreach (var k in LargestFirst(_lot))
        {
            while (counts[k] > 0 && TryLay(k))
            {
                counts[k]--;
            }
        }
    }

    public static IEnumerable<int> LargestFirst(Lot lot) =>
        Enumerable.Range(0, lot.Shapes.Count).OrderByDescending(k => lot.Shapes[k].Area).ThenBy(k => k);

    private long Score(Part part, int width, int height) => FitBy switch
    {
        FitBy.Area => ((long)part.Width * part.Height) - ((long)width * height),
        FitBy.ShortSide => Math.Min(part.Width - width, part.Height - height),
        _ => Math.Max(part.Width - width, part.Height - height),
    };

    private void Lay(int free, int shape, bool turned)
    {
        var item = _lot.Shapes[shape];
        var (width, height) = turned ? (item.Height, item.Width) : (item.Width, item.Height);
        var (part, sheet) = _free[free];
        _free[free] = _free[^1];
        _free.RemoveAt(_free.Count - 1);
        var right = part.Width - width;
        var below = part.Height - height;
        var target = part;
        if (right > 0 && below > 0)
        {
            var upright = UprightFirst(part, width, height);
            target.Cut(upright, upright ? width : height);
            _free.Add((target.Second!, sheet));
            target = target.First!;
            target.Cut(!upright, upright ? height : width);
            _free.Add((target.Second!, sheet));
            target = target.First!;
        }
        else if (right > 0 || below > 0)
        {
            target.Cut(right > 0, right > 0 ? width : height);
            _free.Add((target.Second!, sheet));
            target = target.First!;
        }

        target.Become(shape, turned);
    }

    private bool UprightFirst(Part part, int width, int height)
    {
        if (_lot.HasRules)
        {
            var upright = Trim.UprightFirstHolds(_lot, part.Width, part.Height, width, height);
            if (upright != Trim.LevelFirstHolds(_lot, part.Width, part.Height, width, height))
            {
                return upright;
            }
        }

        var right = part.Width - width;
        var below = part.Height - height;
        return SplitBy switch
        {
            SplitBy.LargestRest => Math.Max((long)right * part.Height, (long)width * below) >= Math.Max((long)part.Width * below, (long)right * height),
            SplitBy.ShorterSpare => right < below,
            _ => right >= below,
        };
    }
}
