using Trimwright.Measures;

namespace Trimwright.Solving;

/// <content>Rows: sparse and sorted, and the columns that remember them.</content>
internal sealed partial class Simplex
{
    private int[] _spareColumns = [];
    private Rational[] _spareFactors = [];

    private int Find(int row, int column) => Array.BinarySearch(_columns[row], 0, _length[row], column);

    private void NoteRow(int column, int row)
    {
        // A column that is never walked would gather one stale entry each time a factor vanishes and comes back.
        if (_rowsWithCount[column] > (4 * _rowCount) + 16)
        {
            Tidy(column);
        }

        var count = _rowsWithCount[column]++;
        Grow(ref _rowsWith[column], count);
        _rowsWith[column][count] = row;
    }

    private void Tidy(int column)
    {
        var stamp = ++_stampNow;
        var (rows, kept) = (_rowsWith[column], 0);
        for (var i = 0; i < _rowsWithCount[column]; i++)
        {
            var row = rows[i];
            if (_stamp[row] != stamp && Find(row, column) >= 0)
            {
                _stamp[row] = stamp;
                rows[kept++] = row;
            }
        }

        _rowsWithCount[column] = kept;
    }

    private void AddEntry(int row, int column, Rational factor)
    {
        var at = Find(row, column);
        if (at >= 0)
        {
            _factors[row][at] += factor;
            if (_factors[row][at].IsZero)
            {
                RemoveEntry(row, at);
            }

            return;
        }

        at = ~at;
        var length = _length[row]++;
        Grow(ref _columns[row], length);
        Grow(ref _factors[row], length);
        Array.Copy(_columns[row], at, _columns[row], at + 1, length - at);
        Array.Copy(_factors[row], at, _factors[row], at + 1, length - at);
        _columns[row][at] = column;
        _factors[row][at] = factor;
        NoteRow(column, row);
    }

    private void RemoveEntry(int row, int at)
    {
        var length = --_length[row];
        Array.Copy(_columns[row], at + 1, _columns[row], at, length - at);
        Array.Copy(_factors[row], at + 1, _factors[row], at, length - at);
    }

    /// <summary>Adds a multiple of one row to another: a merge of two sorted lists into the spare one, which then takes its place.</summary>
    private void AddMultiple(int row, int source, Rational factor)
    {
        var (a, aFactors, aLength) = (_columns[row], _factors[row], _length[row]);
        var (b, bFactors, bLength) = (_columns[source], _factors[source], _length[source]);
        if (_spareColumns.Length < aLength + bLength)
        {
            _spareColumns = new int[(aLength + bLength) * 2];
            _spareFactors = new Rational[(aLength + bLength) * 2];
        }

        var (to, toFactors) = (_spareColumns, _spareFactors);
        var (i, j, length) = (0, 0, 0);
        var plain = factor == Rational.One;
        while (i < aLength || j < bLength)
        {
            if (j == bLength || (i < aLength && a[i] < b[j]))
            {
                to[length] = a[i];
                toFactors[length++] = aFactors[i++];
                continue;
            }

            var term = plain ? bFactors[j] : factor * bFactors[j];
            if (i < aLength && a[i] == b[j])
            {
                term = aFactors[i++] + term;
                if (term.IsZero)
                {
                    j++;
                    continue;
                }
            }
            else
            {
                NoteRow(b[j], row);
            }

            to[length] = b[j++];
            toFactors[length++] = term;
        }

        Work += aLength + bLength;
        (_spareColumns, _spareFactors) = (a, aFactors);
        (_columns[row], _factors[row], _length[row]) = (to, toFactors, length);
    }
}
