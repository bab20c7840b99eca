using System.Numerics;

namespace Trimwright.Cutting;

/// <summary>
/// The table over raster points, without holding rules. A cut need only be made at sums of piece sizes (Gilmore and Gomory, Operations
/// Research 14, 1966), and of those only what is left of the sheet by such sums, rounded down to such a sum, matters (the reduced raster
/// points of Terno, Lindemann and Scheithauer, Zuschnittprobleme, 1987; from memory). Every raster set holds the raster sets of its members,
/// so that one table serves all rectangles.
/// </summary>
internal sealed class RasterTable : SheetTable
{
    private readonly List<(int I, int J, int Shape, bool Turned, int Width, int Height)> _ways = [];
    private readonly int[] _across;
    private readonly int[] _down;
    private int[][] _restAcross = [];
    private int[][] _restDown = [];
    private int[] _best = [];
    private readonly bool _flipped;
    private int[] _worths = [];

    public RasterTable(Lot lot, int stock)
        : base(lot, stock)
    {
        var sheet = lot.Stocks[stock];
        var ways = new List<(int Width, int Height, int Shape, bool Turned)>();
        for (var k = 0; k < lot.Shapes.Count; k++)
        {
            ways.AddRange(lot.Shapes[k].WaysOn(stock).Where(way => way.Width <= sheet.Width && way.Height <= sheet.Height)
                .Select(way => (way.Width, way.Height, k, way.Turned)));
        }

        var across = Points(sheet.Width, ways.Select(way => way.Width));
        var down = Points(sheet.Height, ways.Select(way => way.Height));

        // Rows run along the longer of the two sets: the inner loop over a row is the fast one.
        _flipped = down.Length < across.Length;
        (_across, _down) = _flipped ? (down, across) : (across, down);
        foreach (var (width, height, shape, turned) in ways)
        {
            var (i, j) = _flipped ? (height, width) : (width, height);
            _ways.Add((Least(_across, i), Least(_down, j), shape, turned, width, height));
        }

        _ways.RemoveAll(way => way.I < 0 || way.J < 0);
    }

    public override bool KeepsRules => false;

    /// <summary>About how many steps one filling takes.</summary>
    public double Work => (double)_across.Length * _down.Length * (_across.Length + _down.Length);

    protected override int FillAll(int[] worths)
    {
        _worths = worths;
        var n = _across.Length;
        var m = _down.Length;
        if (_best.Length == 0)
        {
            _best = new int[n * m];
            _restAcross = Rests(_across);
            _restDown = Rests(_down);
        }

        Array.Clear(_best);
        foreach (var (i, j, shape, _, _, _) in _ways)
        {
            ref var cell = ref _best[(i * m) + j];
            cell = Math.Max(cell, worths[shape]);
        }

        for (var i = 0; i < n; i++)
        {
            var row = _best.AsSpan(i * m, m);
            if (i > 0)
            {
                Raise(row, _best.AsSpan((i - 1) * m, m));
            }

            var rests = _restAcross[i];
            for (var a = 1; a < rests.Length; a++)
            {
                RaiseBySum(row, _best.AsSpan(a * m, m), _best.AsSpan(rests[a] * m, m));
            }

            FillRow(row);
        }

        return _best[^1];
    }

    public override Part Best()
    {
        var sheet = Lot.Stocks[Stock];
        var root = new Part(sheet.Width, sheet.Height);
        Lay(root, _across.Length - 1, _down.Length - 1);
        return root;
    }

    // Only cuts at half or less: the other half is the same cut seen from the other side. Index 0 is the empty strip.
    private void FillRow(Span<int> row)
    {
        var least = 0;
        for (var j = 1; j < row.Length; j++)
        {
            least = Math.Max(least, row[j]);
            var best = least;
            var rests = _restDown[j];
            for (var c = 1; c < rests.Length; c++)
            {
                best = Math.Max(best, row[c] + row[rests[c]]);
            }

            row[j] = best;
            least = best;
        }
    }

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
        var v = 0;
        for (; v <= row.Length - Vector<int>.Count; v += Vector<int>.Count)
        {
            Vector.Max(new Vector<int>(row[v..]), new Vector<int>(a[v..]) + new Vector<int>(b[v..])).CopyTo(row[v..]);
        }

        for (; v < row.Length; v++)
        {
            row[v] = Math.Max(row[v], a[v] + b[v]);
        }
    }

    private void Lay(Part part, int i, int j)
    {
        var m = _down.Length;
        var worth = _best[(i * m) + j];
        if (worth == 0)
        {
            return;
        }

        foreach (var (wi, wj, shape, turned, width, height) in _ways)
        {
            if (wi <= i && wj <= j && _worths[shape] == worth)
            {
                Trim.Lay(Lot, part, width, height, shape, turned);
                return;
            }
        }

        for (var a = 1; a < _restAcross[i].Length; a++)
        {
            var rest = _restAcross[i][a];
            if (_best[(a * m) + j] + _best[(rest * m) + j] == worth)
            {
                // The larger part first, so that what is left over gathers at one end.
                part.Cut(!_flipped, _across[rest]);
                Lay(part.First!, rest, j);
                Lay(part.Second!, a, j);
                return;
            }
        }

        for (var c = 1; c < _restDown[j].Length; c++)
        {
            var rest = _restDown[j][c];
            if (_best[(i * m) + c] + _best[(i * m) + rest] == worth)
            {
                part.Cut(_flipped, _down[rest]);
                Lay(part.First!, i, rest);
                Lay(part.Second!, i, c);
                return;
            }
        }

        // The worth came from a smaller rectangle.
        if (i > 0 && _best[((i - 1) * m) + j] == worth)
        {
            Lay(part, i - 1, j);
        }
        else
        {
            Lay(part, i, j - 1);
        }
    }

    private static int[] Points(int length, IEnumerable<int> sizes)
    {
        var reached = new bool[length + 1];
        reached[0] = true;
        foreach (var size in sizes.Distinct().Order())
        {
            for (var at = size; at <= length; at++)
            {
                reached[at] |= reached[at - size];
            }
        }

        var floor = new int[length + 1];
        for (var at = 1; at <= length; at++)
        {
            floor[at] = reached[at] ? at : floor[at - 1];
        }

        var points = new SortedSet<int>();
        for (var at = 0; at <= length; at++)
        {
            if (reached[at])
            {
                points.Add(floor[length - at]);
            }
        }

        return [.. points];
    }

    /// <summary>For each point and each point up to half of it: the greatest point that fits into what is left.</summary>
    private static int[][] Rests(int[] points)
    {
        var rests = new int[points.Length][];
        for (var i = 0; i < points.Length; i++)
        {
            var row = new List<int>();
            var rest = i;
            for (var a = 0; a < points.Length && points[a] * 2L <= points[i]; a++)
            {
                while (points[rest] > points[i] - points[a])
                {
                    rest--;
                }

                row.Add(rest);
            }

            rests[i] = [.. row];
        }

        return rests;
    }

    private static int Least(int[] points, int size)
    {
        var at = Array.BinarySearch(points, size);
        at = at < 0 ? ~at : at;
        return at < points.Length ? at : -1;
    }
}
