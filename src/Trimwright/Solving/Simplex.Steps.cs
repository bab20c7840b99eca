using Trimwright.Measures;

namespace Trimwright.Solving;

/// <content>
/// The steps: the dual simplex repairs what bounds have broken, the primal simplex lowers a cost.
/// </content>
/// <remarks>
/// Both take the steepest-looking step until <see cref="Patience"/> steps in a row have gained nothing, and then the first one
/// by number until something is gained: R. G. Bland, "New finite pivoting rules for the simplex method", Mathematics of Operations
/// Research 2 (1977). Zero tests are exact here, so the rule is a guarantee.
/// </remarks>
internal sealed partial class Simplex
{
    private const int Patience = 40;

    private bool _costed;
    private bool _costStands = true;
    private int[] _objective = [];
    private Rational[] _objectiveFactors = [];
    private int _objectiveLength;

    /// <summary>Stops long work.</summary>
    public CancellationToken Cancel { get; set; }

    /// <summary>After a failed repair: the basic variable that no step can bring within its bounds.</summary>
    public int DeadVariable { get; private set; }

    /// <summary>The cost at the point.</summary>
    public Rational Objective()
    {
        Rational sum = default;
        for (var i = 0; i < _objectiveLength; i++)
        {
            sum += _objectiveFactors[i] * _value[_objective[i]];
        }

        return sum;
    }

    /// <summary>Sets the cost that <see cref="Reoptimise"/> lowers.</summary>
    public void SetCost(ReadOnlySpan<int> variables, ReadOnlySpan<Rational> factors)
    {
        ClearCost();
        if (_objective.Length < variables.Length)
        {
            _objective = new int[variables.Length * 2];
            _objectiveFactors = new Rational[variables.Length * 2];
        }

        variables.CopyTo(_objective);
        factors.CopyTo(_objectiveFactors);
        _objectiveLength = variables.Length;
        for (var i = 0; i < variables.Length; i++)
        {
            var row = _rowOf[variables[i]];
            if (row < 0)
            {
                _cost[variables[i]] += factors[i];
                continue;
            }

            for (var k = 0; k < _length[row]; k++)
            {
                _cost[_columns[row][k]] += factors[i] * _factors[row][k];
            }
        }

        _costed = true;
        _costStands = false;
    }

    /// <summary>Drops the cost: repairs then look for any point within the bounds.</summary>
    public void ClearCost()
    {
        for (var i = 0; i < _nonbasicCount; i++)
        {
            _cost[_nonbasic[i]] = default;
        }

        _costed = false;
        _costStands = true;
        _objectiveLength = 0;
    }

    /// <summary>
    /// Declares that the cost just set is at its least for the nonbasic variables as they stand, whatever the rows say, so that the
    /// dual simplex may start at once: true of misses that stand at zero. Nothing happens where it does not hold.
    /// </summary>
    public void TrustCost()
    {
        for (var i = 0; i < _nonbasicCount; i++)
        {
            if (CanGain(_nonbasic[i]))
            {
                return;
            }
        }

        _costStands = true;
    }

    /// <summary>Whether the cost is the same over every point within the bounds, by the look of the nonbasic variables. True is proof.</summary>
    public bool CostIsPinned()
    {
        for (var i = 0; i < _nonbasicCount; i++)
        {
            if (!_cost[_nonbasic[i]].IsZero && !IsFixed(_nonbasic[i]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Brings every variable within its bounds and the cost to its least. False when no point is within the bounds.</summary>
    /// <exception cref="InvalidOperationException">The cost has no least value; use <see cref="TryReoptimise"/> where that may be.</exception>
    public bool Reoptimise() => TryReoptimise(out var endless)
        && (!endless ? true : throw new InvalidOperationException("the cost has no least value"));

    /// <summary>As <see cref="Reoptimise"/>, where the cost may go down without end.</summary>
    public bool TryReoptimise(out bool endless)
    {
        while (true)
        {
            endless = false;
            if (!_costStands)
            {
                if (!Repair(false))
                {
                    return false;
                }

                endless = !Minimise();
            }
            else if (!Repair(_costed))
            {
                return false;
            }

            if (!BringIn(endless))
            {
                return true;
            }
        }
    }

    /// <summary>Lowers the cost as far as it goes from a point within the bounds. False when it goes down without end.</summary>
    private bool Minimise()
    {
        var idle = 0;
        while (true)
        {
            Cancel.ThrowIfCancellationRequested();
            var entering = ChooseEntering(idle > Patience);
            if (entering < 0)
            {
                _costStands = true;
                return true;
            }

            var up = _cost[entering].Sign < 0;
            Collect(entering);
            var (row, step) = Longest(entering, up);
            var own = up
                ? _hasMost[entering] ? _most[entering] - _value[entering] : (Rational?)null
                : _hasLeast[entering] ? _value[entering] - _least[entering] : null;
            if (row < 0 && own is null)
            {
                return false;
            }

            if (own is { } whole && (row < 0 || whole <= step))
            {
                Shift(entering, up ? whole : -whole);
                idle = 0;
                continue;
            }

            idle = step.IsZero ? idle + 1 : 0;
            var factor = _factors[row][Find(row, entering)];
            var leaving = _basic[row];
            var bound = factor.Sign > 0 == up ? _most[leaving] : _least[leaving];
            PivotTo(row, entering, bound);
        }
    }

    /// <summary>
    /// After <see cref="Reoptimise"/>: pins every nonbasic variable that has a cost. What is left are exactly the points of least cost.
    /// </summary>
    public void PinFace()
    {
        for (var i = 0; i < _nonbasicCount; i++)
        {
            var variable = _nonbasic[i];
            if (!_cost[variable].IsZero)
            {
                Pin(variable, _value[variable]);
            }
        }
    }

    /// <summary>The dual simplex: brings every variable within its bounds. False when that cannot be.</summary>
    private bool Repair(bool mindCost)
    {
        var idle = 0;
        while (true)
        {
            Cancel.ThrowIfCancellationRequested();
            var first = idle > Patience + _rowCount;
            var row = ChooseLeaving(first, out var below);
            if (row < 0)
            {
                return true;
            }

            var entering = ChooseReplacement(row, below, mindCost, first, out var gained);
            var leaving = _basic[row];
            if (entering < 0)
            {
                DeadVariable = leaving;
                return false;
            }

            idle = gained ? 0 : idle + 1;
            Collect(entering);
            PivotTo(row, entering, below ? _least[leaving] : _most[leaving]);
        }
    }

    private int ChooseLeaving(bool first, out bool below)
    {
        var best = -1;
        Rational worst = default;
        below = false;
        for (var row = 0; row < _rowCount; row++)
        {
            var variable = _basic[row];
            Rational miss;
            bool under;
            if (_hasLeast[variable] && _value[variable] < _least[variable])
            {
                (under, miss) = (true, _least[variable] - _value[variable]);
            }
            else if (_hasMost[variable] && _value[variable] > _most[variable])
            {
                (under, miss) = (false, _value[variable] - _most[variable]);
            }
            else
            {
                continue;
            }

            var better = best < 0 || (first ? variable < _basic[best] : Better(miss.CompareTo(worst), variable, _basic[best]));
            if (better)
            {
                (best, worst, below) = (row, miss, under);
            }
        }

        return best;
    }

    private static bool Better(int order, int variable, int than) => order > 0 || (order == 0 && variable < than);

    private int ChooseReplacement(int row, bool below, bool mindCost, bool first, out bool gained)
    {
        var best = -1;
        Rational least = default;
        for (var i = 0; i < _length[row]; i++)
        {
            var variable = _columns[row][i];
            var up = _factors[row][i].Sign > 0 == below;
            if (up ? _hasMost[variable] && _value[variable] >= _most[variable] : _hasLeast[variable] && _value[variable] <= _least[variable])
            {
                continue;
            }

            var ratio = mindCost && !_cost[variable].IsZero ? (_cost[variable] / _factors[row][i]).Abs() : default;
            var order = best < 0 ? -1 : ratio.CompareTo(least);

            // Among equals the one in the fewest rows, so that rows stay short; under Bland's rule the first by number.
            if (order < 0 || (order == 0 && !first && _rowsWithCount[variable] < _rowsWithCount[best]))
            {
                (best, least) = (variable, ratio);
            }
        }

        gained = !least.IsZero;
        return best;
    }

    private bool CanGain(int variable) => _cost[variable].Sign switch
    {
        0 => false,
        < 0 => !_hasMost[variable] || _value[variable] < _most[variable],
        _ => !_hasLeast[variable] || _value[variable] > _least[variable],
    };

    private int ChooseEntering(bool first)
    {
        var best = -1;
        Rational most = default;
        for (var i = 0; i < _nonbasicCount; i++)
        {
            var variable = _nonbasic[i];
            if (!CanGain(variable))
            {
                continue;
            }

            var size = _cost[variable].Abs();
            if (best < 0 || (first ? variable < best : Better(size.CompareTo(most), variable, best)))
            {
                (best, most) = (variable, size);
            }
        }

        return best;
    }

    /// <summary>How far a nonbasic variable may go before a basic one meets a bound, and the row of that one; -1 when none does.</summary>
    private (int Row, Rational Step) Longest(int entering, bool up)
    {
        var best = -1;
        Rational least = default;
        for (var i = 0; i < _hits; i++)
        {
            var row = _hitRows[i];
            var factor = _factors[row][_hitAt[i]];
            var variable = _basic[row];
            Rational room;
            if (factor.Sign > 0 == up)
            {
                if (!_hasMost[variable])
                {
                    continue;
                }

                room = (_most[variable] - _value[variable]) / factor.Abs();
            }
            else
            {
                if (!_hasLeast[variable])
                {
                    continue;
                }

                room = (_value[variable] - _least[variable]) / factor.Abs();
            }

            if (best < 0 || Better(least.CompareTo(room), variable, _basic[best]))
            {
                (best, least) = (row, room);
            }
        }

        return (best, least);
    }
}
