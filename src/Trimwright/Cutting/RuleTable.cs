using System.Numerics;

namespace Trimwright.Cutting;

/// <summary>
/// The table over every whole size, with holding rules: with them a rectangle that is a little larger can be worse, so sizes cannot be
/// rounded to raster points.
/// </summary>
internal sealed class RuleTable : SheetTable
{
    // Sums of two stay far from overflow, and no worth reaches it.
    private const int None = -(1 << 30);

    private readonly List<(int Width, int Height, int Shape, bool Turned)> _ways = [];
    private readonly int _width;
    private readonly int _height;
    private readonly int[] _used;
    private readonly int[] _columnWaste;
    private int[] _worths = [];

    public RuleTable(Lot lot, int stock)
        : base(lot, stock)
    {
        _width = lot.Stocks[stock].Width;
        _height = lot.Stocks[stock].Height;
        _used = new int[(_width + 1) * (_height + 1)];
        _columnWaste = new int[_height + 1];
        for (var y = 0; y <= _height; y++)
        {
            _columnWaste[y] = y > 0 && y >= lot.LeastTrim ? 0 : None;
        }

        for (var k = 0; k < lot.Shapes.Count; k++)
        {
            _ways.AddRange(lot.Shapes[k].WaysOn(stock).Where(way => way.Width <= _width && way.Height <= _height)
                .Select(way => (way.Width, way.Height, k, way.Turned)));
        }
    }

    public override bool KeepsRules => true;

    /// <summary>The work grows with the third power of the side: 768 is 12 in at 1/64 in.</summary>
    public static bool IsSmallEnough(LotStock stock) => (Int128)stock.Area * ((long)stock.Width + stock.Height) <= 500_000_000;

    protected override int FillAll(int[] worths)
    {
        _worths = worths;
        var m = _height + 1;
        Array.Fill(_used, None);
        foreach (var (width, height, shape, _) in _ways)
        {
            ref var cell = ref _used[(width * m) + height];
            cell = Math.Max(cell, worths[shape]);
        }

        // An upright cut runs through the whole height, so only heights that can be cut take part.
        var from = Math.Max(1, Lot.LeastCut);
        Span<int> open = new int[m];
        for (var x = 1; x <= _width; x++)
        {
            var row = _used.AsSpan(x * m, m);
            for (var a = 1; a < x && from < m; a++)
            {
                // Both halves hold pieces: half the cuts will do. One half waste: it may be either side, at the end will do.
                if (a * 2 <= x)
                {
                    RaiseBySum(row[from..], _used.AsSpan((a * m) + from, m - from), _used.AsSpan(((x - a) * m) + from, m - from));
                }

                if (x - a >= Lot.LeastTrim)
                {
                    Raise(row[from..], _used.AsSpan((a * m) + from, m - from));
                }
            }

            if (x >= Lot.LeastCut)
            {
                FillRow(row);
            }
        }

        return Math.Max(0, _used[^1]);
    }

    public override Part Best()
    {
        var root = new Part(_width, _height);
        Lay(root);
        return root;
    }

    // Pushes every finished height on to all greater ones, so that the inner loop runs along the row.
    private void FillRow(Span<int> row)
    {
        for (var y = 1; y < row.Length - 1; y++)
        {
            if (row[y] < 0)
            {
                continue;
            }

            var reach = Math.Min(y, row.Length - 1 - y);
            RaiseBy(row.Slice(y + 1, reach), row.Slice(1, reach), row[y]);
            RaiseBy(row[(y + 1)..], _columnWaste.AsSpan(1, row.Length - 1 - y), row[y]);
        }
    }

    private void Lay(Part part)
    {
        var worth = Used(part.Width, part.Height);
        if (worth < 0)
        {
            return;
        }

        foreach (var (width, height, shape, turned) in _ways)
        {
            if (width == part.Width && height == part.Height && _worths[shape] == worth)
            {
                part.Become(shape, turned);
                return;
            }
        }

        if (!CutAt(part, upright: true, worth, out var second) && !CutAt(part, upright: false, worth, out second))
        {
            throw new InvalidOperationException($"no cut gives {worth} out of {part.Width} x {part.Height}");
        }

        Lay(part.First!);
        if (second)
        {
            Lay(part.Second!);
        }
    }

    // Waste comes second: which end it is cut from makes no difference to what can be cut.
    private bool CutAt(Part part, bool upright, int worth, out bool secondIsUsed)
    {
        secondIsUsed = false;
        var through = upright ? part.Height : part.Width;
        var size = upright ? part.Width : part.Height;
        if (!Lot.MayCut(through))
        {
            return false;
        }

        for (var at = size - 1; at > 0; at--)
        {
            var first = upright ? Used(at, part.Height) : Used(part.Width, at);
            if (first < 0)
            {
                continue;
            }

            var second = upright ? Used(size - at, part.Height) : Used(part.Width, size - at);
            secondIsUsed = second >= 0 && first + second == worth;
            if (secondIsUsed || (first == worth && size - at >= Lot.LeastTrim))
            {
                part.Cut(upright, at);
                return true;
            }
        }

        return false;
    }

    private int Used(int width, int height) => _used[(width * (_height + 1)) + height];

    private static void Raise(Span<int> row, ReadOnlySpan<int> other)
    {
        var v = 0;
        for (; v <= row.Length - Vector<int>.Count; v += Vector<int>.Count)
        {
            Vector.Max(new Vector<int>(row[v..]), new Vector<int>(other[v..])).CopyTo(row[v..]);
        }

        for (; v < row.Length; v++)
        {
            row[v] = Math.Max(row[v], other[v]);
        }
    }

    private static void RaiseBySum(Span<int> row, ReadOnlySpan<int> a, ReadOnlySpan<int> b)
    {
        var none = new Vector<int>(None);
        var v = 0;
        for (; v <= row.Length - Vector<int>.Count; v += Vector<int>.Count)
        {
            // Two that cannot be add up to the least number there is, which stays in range.
            Vector.Max(new Vector<int>(row[v..]), Vector.Max(none, new Vector<int>(a[v..]) + new Vector<int>(b[v..]))).CopyTo(row[v..]);
        }

        for (; v < row.Length; v++)
        {
            row[v] = Math.Max(row[v], Math.Max(None, a[v] + b[v]));
        }
    }

    private static void RaiseBy(Span<int> row, ReadOnlySpan<int> a, int b)
    {
        var add = new Vector<int>(b);
        var v = 0;
        for (; v <= row.Length - Vector<int>.Count; v += Vector<int>.Count)
        {
            Vector.Max(new Vector<int>(row[v..]), new Vector<int>(a[v..]) + add).CopyTo(row[v..]);
        }

        for (; v < row.Length; v++)
        {
            row[v] = Math.Max(row[v], a[v] + b);
        }
    }
}
