using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Says what is loose in a group once its misses are as small as they can be, and then chooses: each measure in order of declaration
/// goes to the allowed value nearest to the middle of the range that is left to it, the lower of two.
/// </summary>
/// <remarks>
/// The ranges are those before any choice, and exact: both ends are reached and nothing beyond them. A range that is open on one side
/// is taken at its end, one that is open on both at zero.
/// </remarks>
internal sealed class FreeChoice(GroupModel model, Search search, LooseRanges ranges)
{
    private readonly Simplex _simplex = model.Simplex;
    private readonly FormTable _table = new();
    private readonly Dictionary<BoundedForm, (Rational? Least, Rational? Most)> _ranges = [];
    private int[] _variables = [];
    private Rational[] _factors = [];

    /// <summary>Whether every search ended within the budget.</summary>
    public bool IsProved { get; private set; } = true;

    /// <summary>Finds the ranges, then chooses. The point of the search is the answer afterwards.</summary>
    public void Run()
    {
        if (model.Group.Measures.TrueForAll(m => _simplex.IsPinned(model.VariableOf(m))))
        {
            foreach (var part in model.Group.Parts)
            {
                if (!part.IsWhole)
                {
                    ranges.Add(part.Measure, ValueAtPoint(part.Form), ValueAtPoint(part.Form));
                }
            }

            return;
        }

        foreach (var (_, target, lattice) in model.Group.Stepped)
        {
            Tighten(target, lattice);
        }

        foreach (var part in model.Group.Parts)
        {
            Report(part);
        }

        var first = true;
        foreach (var part in model.Group.Parts)
        {
            // A measure that is declared after all its free ones follows them.
            if (part.Form.Unknowns[^1] >= part.Measure && IsLoose(part))
            {
                Choose(part, first);
                first = false;
            }
        }
    }

    /// <summary>
    /// Finds the range of a size and makes it a bound: that takes no point away, and once sizes are pinned the rest is often pinned
    /// without a search.
    /// </summary>
    private void Tighten(BoundedForm target, Lattice lattice)
    {
        var entry = _table.Get(target.Form, out _);
        if (_ranges.ContainsKey(entry))
        {
            return;
        }

        var range = Range(target.Form, lattice);
        _ranges.Add(entry, range);
        if (range is ({ } least, { } most))
        {
            _simplex.Raise(target.Variable, least);
            _simplex.Lower(target.Variable, most);
        }
    }

    private void Report(MeasurePart part)
    {
        var entry = _table.Get(part.Form, out var factor);
        if (!_ranges.ContainsKey(entry))
        {
            _ranges.Add(entry, Range(entry.Form, part.Lattice?.Through(factor, default)));
        }

        var (least, most) = Known(part);
        ranges.Add(part.Measure, least, most);
    }

    private (Rational? Least, Rational? Most) Known(MeasurePart part)
    {
        var (least, most) = _ranges[_table.Get(part.Form, out var factor)];
        return factor.Sign > 0 ? (least * factor, most * factor) : (most * factor, least * factor);
    }

    private bool IsLoose(MeasurePart part)
    {
        var (least, most) = Known(part);
        return least is null || most is null || least != most;
    }

    private (Rational? Least, Rational? Most) Range(LinearForm form, Lattice? lattice)
    {
        _simplex.Cancel.ThrowIfCancellationRequested();
        Write(form, Rational.One);
        _simplex.SetCost(_variables, _factors);
        if (_simplex.CostIsPinned())
        {
            Rational value = default;
            for (var i = 0; i < _variables.Length; i++)
            {
                value += _factors[i] * search.At(_variables[i]);
            }

            return (value, value);
        }

        var least = Least(lattice);
        Write(form, -Rational.One);
        return (least, -Least(lattice?.Through(-Rational.One, default)));
    }

    private Rational? Least(Lattice? lattice)
    {
        var end = search.Minimise(_variables, _factors, lattice);
        if (end == SearchEnd.OutOfBudget)
        {
            GiveUp();
            end = search.Minimise(_variables, _factors, null);
        }

        return end == SearchEnd.Endless ? null : search.Best;
    }

    private void Choose(MeasurePart part, bool first)
    {
        var (least, most) = first ? Known(part) : Range(part.Form, part.Lattice);
        if (least is not null && least == most)
        {
            return;
        }

        var target = least is { } low && most is { } high ? (low + high) / 2 : least ?? most ?? -part.Constant;
        var variable = part.Form.Unknowns.Length == 1 && part.Form.Factors[0] == Rational.One
            ? model.VariableOf(part.Form.Unknowns[0])
            : model.AddRow(part.Form);
        if (!TryPin(part.Form, variable, part.Lattice?.Nearest(target) ?? target))
        {
            Approach(part.Form, variable, target);
        }
    }

    /// <summary>Where lattices leave holes around the middle: lowers the distance from it, and takes the lower side if both are as near.</summary>
    private void Approach(LinearForm form, int variable, Rational target)
    {
        var (row, over, under) = model.AddMissRow(form, true, true);
        _simplex.Pin(row, target);
        var now = ValueAtPoint(form) - target;
        search.Teach(over, Rational.Max(now, default));
        search.Teach(under, Rational.Max(-now, default));
        (_variables, _factors) = ([over, under], [1, 1]);
        if (search.Minimise(_variables, _factors, null) == SearchEnd.OutOfBudget)
        {
            GiveUp();
            search.Minimise(_variables, _factors, null);
        }

        var distance = search.Best;
        if (!TryPin(form, variable, target - distance))
        {
            TryPin(form, variable, target + distance);
        }
    }

    private bool TryPin(LinearForm form, int variable, Rational value)
    {
        if (ValueAtPoint(form) == value)
        {
            return _simplex.Pin(variable, value);
        }

        var mark = _simplex.Mark();
        var known = search.Copy();
        search.Forget();
        var end = _simplex.Pin(variable, value) ? search.Find() : SearchEnd.Nothing;
        if (end == SearchEnd.Proved)
        {
            return true;
        }

        _simplex.UndoTo(mark);
        search.Restore(known);
        if (end == SearchEnd.OutOfBudget)
        {
            GiveUp();
        }

        return false;
    }

    private void GiveUp()
    {
        search.Freeze();
        IsProved = false;
    }

    private Rational ValueAtPoint(LinearForm form)
    {
        Rational sum = default;
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            sum += form.Factors[i] * search.At(model.VariableOf(form.Unknowns[i]));
        }

        return sum;
    }

    private void Write(LinearForm form, Rational sign)
    {
        _variables = Array.ConvertAll(form.Unknowns, model.VariableOf);
        _factors = Array.ConvertAll(form.Factors, f => f * sign);
    }
}
