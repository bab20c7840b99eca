using System.Numerics;

namespace Trimwright.Cutting;

/// <summary>
/// The linear programme over the patterns found so far: cover the demand at the least cost. A revised simplex in floating point: what it says
/// is only a hint, for worths that are then rounded down to whole numbers and for patterns to try. It is the same on every run.
/// </summary>
internal sealed class Master
{
    private const double Tiny = 1e-9;
    private const int RefreshEvery = 150;

    private readonly int _rows;
    private readonly int _shapes;
    private readonly int[] _stockRow;
    private readonly int _limitRow;
    private readonly double[] _right;
    private readonly List<(int[] Rows, double[] Values, double Cost, Pattern? Pattern)> _columns = [];
    private readonly int[] _basis;
    private readonly List<bool> _inBasis = [];
    private readonly double[] _values;
    private double[] _inverse;

    /// <param name="lot">The lot.</param>
    /// <param name="demand">What is wanted of each shape.</param>
    /// <param name="stockLeft">How many sheets there are of each stock that is limited.</param>
    /// <param name="missing">What it costs to leave out one of each shape.</param>
    /// <param name="limits">More rows, each with the most it may add up to.</param>
    public Master(Lot lot, long[] demand, long[] stockLeft, double[] missing, params IReadOnlyList<long> limits)
    {
        _shapes = demand.Length;
        _stockRow = new int[lot.Stocks.Count];
        _rows = _shapes;
        for (var s = 0; s < _stockRow.Length; s++)
        {
            _stockRow[s] = lot.Stocks[s].Limited ? _rows++ : -1;
        }

        _limitRow = _rows;
        _rows += limits.Count;
        _right = new double[_rows];
        _basis = new int[_rows];
        _values = new double[_rows];
        _inverse = new double[_rows * _rows];
        for (var r = 0; r < _rows; r++)
        {
            // A little extra, different on every row, keeps the simplex from standing still on ties.
            _right[r] = RightOf(r) + (1e-7 * ((r * 7 % 13) + 1));
            _columns.Add(([r], [1.0], r < _shapes ? missing[r] : 0.0, null));
            _basis[r] = r;
            _values[r] = _right[r];
            _inverse[(r * _rows) + r] = 1;
        }

        // Making more of a shape than is wanted is no harm.
        for (var r = 0; r < _shapes; r++)
        {
            _columns.Add(([r], [-1.0], 0.0, null));
        }

        Duals = new double[_rows];
        for (var j = 0; j < _columns.Count; j++)
        {
            _inBasis.Add(j < _rows);
        }

        long RightOf(int row) => row < _shapes ? demand[row] : row >= _limitRow ? limits[row - _limitRow] : stockLeft[Array.IndexOf(_stockRow, row)];
    }

    /// <summary>Adds a column that is no pattern: what it takes of each shape (less than nothing for what it gives), and its limit, or -1 for none.</summary>
    /// <returns>Its number, for <see cref="Millionths"/>.</returns>
    /// <param name="takes">What it takes.</param>
    /// <param name="limit">Which of the limits it counts towards, or -1.</param>
    /// <param name="cost">What it costs.</param>
    /// <param name="brings">Sheets of limited stock that it brings with it.</param>
    public int AddTaker(IReadOnlyList<(int Shape, long Each)> takes, int limit, double cost, params IReadOnlyList<(int Stock, long Each)> brings)
    {
        var rows = takes.Select(take => take.Shape).Concat(brings.Select(brought => _stockRow[brought.Stock]));
        var values = takes.Select(take => -(double)take.Each).Concat(brings.Select(brought => -(double)brought.Each));
        _columns.Add(limit < 0 ? ([.. rows], [.. values], cost, null) : ([.. rows, _limitRow + limit], [.. values, 1.0], cost, null));
        _inBasis.Add(false);
        return _columns.Count - 1;
    }

    /// <summary>How often a column is used, in millionths.</summary>
    public long Millionths(int column) =>
        Array.IndexOf(_basis, column) is var row && row >= 0 ? (long)Math.Round(_values[row] * 1e6) : 0;

    /// <summary>What one of each shape is worth, then what one sheet of each limited stock saves (negative).</summary>
    public double[] Duals { get; }

    public double StockDual(int stock) => _stockRow[stock] < 0 ? 0 : Duals[_stockRow[stock]];

    public double Cost { get; private set; }

    public void Add(Pattern pattern, double cost)
    {
        var rows = new List<int>();
        var values = new List<double>();
        for (var k = 0; k < _shapes; k++)
        {
            if (pattern.Counts[k] > 0)
            {
                rows.Add(k);
                values.Add(pattern.Counts[k]);
            }
        }

        if (_stockRow[pattern.Stock] is var row && row >= 0)
        {
            rows.Add(row);
            values.Add(1);
        }

        _columns.Add(([.. rows], [.. values], cost, pattern));
        _inBasis.Add(false);
    }

    /// <summary>Improves the basis until no column known helps.</summary>
    public void Solve()
    {
        var limit = 50 * (_rows + 10);
        for (var step = 0; step < limit; step++)
        {
            if (step % RefreshEvery == RefreshEvery - 1)
            {
                Refresh();
            }

            Price();
            var enter = -1;
            var least = -Tiny;
            for (var j = 0; j < _columns.Count; j++)
            {
                if (!_inBasis[j])
                {
                    var (rows, values, cost, _) = _columns[j];
                    for (var n = 0; n < rows.Length; n++)
                    {
                        cost -= Duals[rows[n]] * values[n];
                    }

                    if (cost < least)
                    {
                        least = cost;
                        enter = j;
                    }
                }
            }

            if (enter < 0 || !Pivot(enter))
            {
                break;
            }
        }

        Cost = 0;
        for (var r = 0; r < _rows; r++)
        {
            Cost += _columns[_basis[r]].Cost * _values[r];
        }
    }

    /// <summary>How often each pattern of the basis is used, in millionths, in the order they were added.</summary>
    public List<(Pattern Pattern, long Millionths)> Uses()
    {
        var uses = new SortedDictionary<int, long>();
        for (var r = 0; r < _rows; r++)
        {
            if (_columns[_basis[r]].Pattern is not null)
            {
                uses[_basis[r]] = (long)Math.Round(_values[r] * 1e6);
            }
        }

        return [.. uses.Where(use => use.Value > 0).Select(use => (_columns[use.Key].Pattern!, use.Value))];
    }

    /// <summary>Whether something is left out.</summary>
    public bool LeavesOut()
    {
        for (var r = 0; r < _rows; r++)
        {
            if (_basis[r] < _shapes && _values[r] > 1e-4)
            {
                return true;
            }
        }

        return false;
    }

    private void Price()
    {
        Array.Clear(Duals);
        for (var r = 0; r < _rows; r++)
        {
            var cost = _columns[_basis[r]].Cost;
            if (cost != 0)
            {
                TakeOff(Duals, -cost, _inverse.AsSpan(r * _rows, _rows));
            }
        }
    }

    // Element by element, so that the width of the machine's vectors changes nothing.
    private static void TakeOff(Span<double> row, double factor, ReadOnlySpan<double> other)
    {
        var by = new Vector<double>(factor);
        var v = 0;
        for (; v <= row.Length - Vector<double>.Count; v += Vector<double>.Count)
        {
            (new Vector<double>(row[v..]) - (by * new Vector<double>(other[v..]))).CopyTo(row[v..]);
        }

        for (; v < row.Length; v++)
        {
            row[v] -= factor * other[v];
        }
    }

    private bool Pivot(int enter)
    {
        var (rows, values, _, _) = _columns[enter];
        var column = new double[_rows];
        for (var r = 0; r < _rows; r++)
        {
            var sum = 0.0;
            for (var n = 0; n < rows.Length; n++)
            {
                sum += _inverse[(r * _rows) + rows[n]] * values[n];
            }

            column[r] = sum;
        }

        var leave = -1;
        var ratio = double.MaxValue;
        for (var r = 0; r < _rows; r++)
        {
            if (column[r] > 1e-8)
            {
                var own = _values[r] / column[r];
                if (own < ratio - Tiny || (own < ratio + Tiny && leave >= 0 && column[r] > column[leave]))
                {
                    ratio = Math.Min(own, ratio);
                    leave = r;
                }
            }
        }

        if (leave < 0)
        {
            return false;
        }

        var pivot = column[leave];
        var ratioOfLeaving = _values[leave] / pivot;
        for (var c = 0; c < _rows; c++)
        {
            _inverse[(leave * _rows) + c] /= pivot;
        }

        for (var r = 0; r < _rows; r++)
        {
            if (r != leave && column[r] != 0)
            {
                TakeOff(_inverse.AsSpan(r * _rows, _rows), column[r], _inverse.AsSpan(leave * _rows, _rows));
                _values[r] -= column[r] * ratioOfLeaving;
            }
        }

        _values[leave] = ratioOfLeaving;
        _inBasis[_basis[leave]] = false;
        _basis[leave] = enter;
        _inBasis[enter] = true;
        return true;
    }

    // Inverts the basis afresh, so that rounding does not pile up. A basis that has become singular is kept as it is.
    private void Refresh()
    {
        var n = _rows;
        var matrix = new double[n * n];
        var inverse = new double[n * n];
        for (var c = 0; c < n; c++)
        {
            inverse[(c * n) + c] = 1;
            var (rows, values, _, _) = _columns[_basis[c]];
            for (var k = 0; k < rows.Length; k++)
            {
                matrix[(rows[k] * n) + c] = values[k];
            }
        }

        for (var c = 0; c < n; c++)
        {
            var best = c;
            for (var r = c + 1; r < n; r++)
            {
                if (Math.Abs(matrix[(r * n) + c]) > Math.Abs(matrix[(best * n) + c]))
                {
                    best = r;
                }
            }

            if (Math.Abs(matrix[(best * n) + c]) < 1e-10)
            {
                return;
            }

            for (var k = 0; k < n && best != c; k++)
            {
                (matrix[(c * n) + k], matrix[(best * n) + k]) = (matrix[(best * n) + k], matrix[(c * n) + k]);
                (inverse[(c * n) + k], inverse[(best * n) + k]) = (inverse[(best * n) + k], inverse[(c * n) + k]);
            }

            var pivot = matrix[(c * n) + c];
            for (var k = 0; k < n; k++)
            {
                matrix[(c * n) + k] /= pivot;
                inverse[(c * n) + k] /= pivot;
            }

            for (var r = 0; r < n; r++)
            {
                var factor = matrix[(r * n) + c];
                if (r != c && factor != 0)
                {
                    TakeOff(matrix.AsSpan(r * n, n), factor, matrix.AsSpan(c * n, n));
                    TakeOff(inverse.AsSpan(r * n, n), factor, inverse.AsSpan(c * n, n));
                }
            }
        }

        _inverse = inverse;
        for (var r = 0; r < n; r++)
        {
            var sum = 0.0;
            for (var c = 0; c < n; c++)
            {
                sum += inverse[(r * n) + c] * _right[c];
            }

            _values[r] = Math.Max(0, sum);
        }
    }
}
