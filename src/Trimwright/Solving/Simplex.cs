using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// The tableau of an exact simplex over bounded variables: every basic variable is a linear form of the nonbasic ones.
/// </summary>
/// <remarks>
/// The form of the tableau is that of B. Dutertre and L. de Moura, "A fast linear-arithmetic solver for DPLL(T)", CAV 2006: a row is a
/// variable of its own with two bounds, and nonbasic variables stand within theirs. Rows are sparse and sorted; each column
/// remembers the rows it stands in, at times one too many. Changes of bounds are put on a trail and taken back in reverse; pivots
/// are never taken back, since any basis serves. This part holds the state; <c>Simplex.Steps.cs</c> moves it.
/// </remarks>
internal sealed partial class Simplex
{
    private readonly List<BoundChange> _trail = [];
    private Rational[] _value = new Rational[16];
    private Rational[] _least = new Rational[16];
    private Rational[] _most = new Rational[16];
    private bool[] _hasLeast = new bool[16];
    private bool[] _hasMost = new bool[16];
    private int[] _rowOf = new int[16];
    private int[] _partOf = new int[16];
    private int[] _tieOf = new int[16];
    private int[] _placeOf = new int[16];
    private Rational[] _cost = new Rational[16];
    private int[][] _rowsWith = new int[16][];
    private int[] _rowsWithCount = new int[16];
    private int[] _nonbasic = new int[16];
    private int _nonbasicCount;
    private int[] _basic = new int[16];
    private int[][] _columns = new int[16][];
    private Rational[][] _factors = new Rational[16][];
    private int[] _length = new int[16];
    private int[] _stamp = new int[16];
    private int _stampNow;
    private int _rowCount;
    private long _workTaken;

    private readonly record struct BoundChange(int Variable, bool IsMost, bool Had, Rational Bound);

    /// <summary>How many variables there are.</summary>
    public int Count { get; private set; }

    /// <summary>How much work was done, counted in factors touched: a measure of effort that does not depend on the machine.</summary>
    public long Work { get; private set; }

    /// <summary>The work done since this was asked last.</summary>
    public long TakeWork()
    {
        var work = Work - _workTaken;
        _workTaken = Work;
        return work;
    }

    /// <summary>Forgets everything but its memory.</summary>
    public void Clear()
    {
        _trail.Clear();
        _waiting.Clear();
        _tiesOfPart = null;
        Count = 0;
        _rowCount = 0;
        _nonbasicCount = 0;
        _costed = false;
        _costStands = true;
        Work = 0;
        _workTaken = 0;
    }

    /// <summary>The value of a variable.</summary>
    public Rational Value(int variable) => _value[variable];

    /// <summary>The least value of a variable as bounded now, or null.</summary>
    public Rational? Least(int variable) => _hasLeast[variable] ? _least[variable] : null;

    /// <summary>The greatest value of a variable as bounded now, or null.</summary>
    public Rational? Most(int variable) => _hasMost[variable] ? _most[variable] : null;

    /// <summary>Adds a nonbasic variable that stands in no row, at the allowed value nearest to zero. Bounds given here are not on the trail.</summary>
    public int AddVariable(Rational? least, Rational? most)
    {
        var variable = NewVariable(least, most);
        _rowOf[variable] = -1;
        _placeOf[variable] = _nonbasicCount;
        Grow(ref _nonbasic, _nonbasicCount);
        _nonbasic[_nonbasicCount++] = variable;
        _value[variable] = least is { Sign: > 0 } low ? low : most is { Sign: < 0 } high ? high : default;
        return variable;
    }

    /// <summary>Adds a basic variable that is a form of other variables, basic or not.</summary>
    public int AddRow(ReadOnlySpan<int> variables, ReadOnlySpan<Rational> factors, Rational? least, Rational? most)
    {
        Cancel.ThrowIfCancellationRequested();
        var variable = NewVariable(least, most);
        var row = _rowCount++;
        Grow(ref _basic, row);
        Grow(ref _columns, row);
        Grow(ref _factors, row);
        Grow(ref _length, row);
        Grow(ref _stamp, row);
        _stamp[row] = 0;
        _basic[row] = variable;
        _rowOf[variable] = row;
        _columns[row] ??= new int[8];
        _factors[row] ??= new Rational[8];
        _length[row] = 0;
        Rational value = default;
        for (var i = 0; i < variables.Length; i++)
        {
            value += factors[i] * _value[variables[i]];
            _partOf[variable] = Join(_partOf[variable], _partOf[variables[i]]);
            _tieOf[variable] |= _tieOf[variables[i]];
            var source = _rowOf[variables[i]];
            if (source < 0)
            {
                AddEntry(row, variables[i], factors[i]);
            }
            else
            {
                AddMultiple(row, source, factors[i]);
            }
        }

        _value[variable] = value;
        return variable;
    }

    /// <summary>Marks the state of the bounds, for <see cref="UndoTo"/>.</summary>
    public int Mark() => _trail.Count;

    /// <summary>Takes back all changes of bounds since a mark.</summary>
    public void UndoTo(int mark)
    {
        for (var i = _trail.Count - 1; i >= mark; i--)
        {
            var (variable, isMost, had, bound) = _trail[i];
            if (isMost)
            {
                _hasMost[variable] = had;
                _most[variable] = bound;
            }
            else
            {
                _hasLeast[variable] = had;
                _least[variable] = bound;
            }
        }

        // A nonbasic variable with a cost belongs at a bound; where that bound has moved away, it follows.
        for (var i = _trail.Count - 1; i >= mark; i--)
        {
            var variable = _trail[i].Variable;
            if (_costed && _rowOf[variable] < 0 && !_cost[variable].IsZero)
            {
                FollowBound(variable);
            }
        }

        _trail.RemoveRange(mark, _trail.Count - mark);
    }

    /// <summary>Raises the least value of a variable; a lower one than now changes nothing. False when it passes the greatest.</summary>
    public bool Raise(int variable, Rational least)
    {
        if (!_hasLeast[variable] || least > _least[variable])
        {
            _trail.Add(new(variable, false, _hasLeast[variable], _least[variable]));
            _hasLeast[variable] = true;
            _least[variable] = least;
            if (_hasMost[variable] && least > _most[variable])
            {
                return false;
            }

            if (_rowOf[variable] < 0 && _value[variable] < least)
            {
                MoveNonbasic(variable, least);
            }
        }

        return true;
    }

    /// <summary>Lowers the greatest value of a variable; a higher one than now changes nothing. False when it passes the least.</summary>
    public bool Lower(int variable, Rational most)
    {
        if (!_hasMost[variable] || most < _most[variable])
        {
            _trail.Add(new(variable, true, _hasMost[variable], _most[variable]));
            _hasMost[variable] = true;
            _most[variable] = most;
            if (_hasLeast[variable] && most < _least[variable])
            {
                return false;
            }

            if (_rowOf[variable] < 0 && _value[variable] > most)
            {
                MoveNonbasic(variable, most);
            }
        }

        return true;
    }

    /// <summary>Takes a bound away for good, not only until it is undone.</summary>
    public void Drop(int variable, bool least)
    {
        if (least)
        {
            _hasLeast[variable] = false;
        }
        else
        {
            _hasMost[variable] = false;
        }
    }

    /// <summary>Pins a variable to a value.</summary>
    public bool Pin(int variable, Rational value) => Raise(variable, value) && Lower(variable, value);

    /// <summary>
    /// Whether bounds alone hold the variable where it is: it is nonbasic and pinned, or its row holds pinned ones only.
    /// True is proof; false is not.
    /// </summary>
    public bool IsPinned(int variable)
    {
        var row = _rowOf[variable];
        if (row < 0 || IsFixed(variable))
        {
            return IsFixed(variable);
        }

        for (var i = 0; i < _length[row]; i++)
        {
            if (!IsFixed(_columns[row][i]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The nonbasic variables of the row of a basic one, for explanations.</summary>
    public IReadOnlyList<int> RowOf(int basicVariable)
    {
        var row = _rowOf[basicVariable];
        return _columns[row][.._length[row]];
    }

    private bool IsFixed(int variable) => _hasLeast[variable] && _hasMost[variable] && _least[variable] == _most[variable];

    private int NewVariable(Rational? least, Rational? most)
    {
        var variable = Count++;
        Grow(ref _value, variable);
        Grow(ref _least, variable);
        Grow(ref _most, variable);
        Grow(ref _hasLeast, variable);
        Grow(ref _hasMost, variable);
        Grow(ref _rowOf, variable);
        Grow(ref _partOf, variable);
        Grow(ref _tieOf, variable);
        (_partOf[variable], _tieOf[variable]) = (AnyPart, 0);
        Grow(ref _placeOf, variable);
        Grow(ref _cost, variable);
        Grow(ref _rowsWith, variable);
        Grow(ref _rowsWithCount, variable);
        (_hasLeast[variable], _least[variable]) = (least is not null, least ?? default);
        (_hasMost[variable], _most[variable]) = (most is not null, most ?? default);
        _cost[variable] = default;
        _rowsWith[variable] ??= new int[4];
        _rowsWithCount[variable] = 0;
        return variable;
    }

    private static void Grow<T>(ref T[] array, int index)
    {
        if (index >= array.Length)
        {
            Array.Resize(ref array, Math.Max(index + 1, array.Length * 2));
        }
    }
}
