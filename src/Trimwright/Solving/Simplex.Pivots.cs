using Trimwright.Measures;

namespace Trimwright.Solving;

/// <content>How a step is carried out: values move, and two variables change their roles.</content>
internal sealed partial class Simplex
{
    private int[] _hitRows = new int[16];
    private int[] _hitAt = new int[16];
    private int _hits;

    /// <summary>Lists the rows that a nonbasic variable stands in, and tidies its column.</summary>
    private void Collect(int column)
    {
        _hits = 0;
        var stamp = ++_stampNow;
        var rows = _rowsWith[column];
        for (var i = 0; i < _rowsWithCount[column]; i++)
        {
            var row = rows[i];
            if (_stamp[row] == stamp)
            {
                continue;
            }

            _stamp[row] = stamp;
            var at = Find(row, column);
            if (at >= 0)
            {
                Grow(ref _hitRows, _hits);
                Grow(ref _hitAt, _hits);
                _hitRows[_hits] = row;
                _hitAt[_hits] = at;
                rows[_hits++] = row;
            }
        }

        _rowsWithCount[column] = _hits;
    }

    private void MoveNonbasic(int variable, Rational value)
    {
        Collect(variable);
        Shift(variable, value - _value[variable]);
    }

    /// <summary>Moves a nonbasic variable whose rows have been collected.</summary>
    private void Shift(int variable, Rational by)
    {
        _value[variable] += by;
        for (var i = 0; i < _hits; i++)
        {
            _value[_basic[_hitRows[i]]] += _factors[_hitRows[i]][_hitAt[i]] * by;
        }
    }

    private void FollowBound(int variable)
    {
        var positive = _cost[variable].Sign > 0;
        if (positive ? !_hasLeast[variable] : !_hasMost[variable])
        {
            _costStands = false;
            return;
        }

        var bound = positive ? _least[variable] : _most[variable];
        if (_value[variable] != bound)
        {
            MoveNonbasic(variable, bound);
        }
    }

    /// <summary>Moves the basic variable of a row to a bound by way of a nonbasic one whose rows have been collected, and changes their roles.</summary>
    private void PivotTo(int row, int entering, Rational bound)
    {
        var leaving = _basic[row];
        var at = Find(row, entering);
        Shift(entering, (bound - _value[leaving]) / _factors[row][at]);
        Turn(row, at, leaving);
        for (var i = 0; i < _hits; i++)
        {
            var other = _hitRows[i];
            if (other != row)
            {
                var factor = _factors[other][_hitAt[i]];
                RemoveEntry(other, _hitAt[i]);
                AddMultiple(other, row, factor);
            }
        }

        if (_costed && !_cost[entering].IsZero)
        {
            var cost = _cost[entering];
            _cost[entering] = default;
            for (var i = 0; i < _length[row]; i++)
            {
                _cost[_columns[row][i]] += cost * _factors[row][i];
            }
        }

        _rowsWithCount[entering] = 0;
        _basic[row] = entering;
        _rowOf[entering] = row;
        _rowOf[leaving] = -1;
        _placeOf[leaving] = _placeOf[entering];
        _nonbasic[_placeOf[leaving]] = leaving;
    }

    /// <summary>Solves a row for the nonbasic variable at a place: it leaves the row, and the basic one comes in.</summary>
    private void Turn(int row, int at, int leaving)
    {
        var factors = _factors[row];
        var by = -factors[at];
        RemoveEntry(row, at);

        // x = -e + rest gives e = -x + rest: the rest stays as it is.
        if (by != Rational.One)
        {
            for (var i = 0; i < _length[row]; i++)
            {
                factors[i] /= by;
            }
        }

        _rowsWithCount[leaving] = 0;
        _cost[leaving] = default;
        AddEntry(row, leaving, Rational.One / -by);
    }
}
