using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Adds terms up to a <see cref="LinearForm"/>. Used again and again for one solve, so that sums need no memory of their own.</summary>
internal sealed class FormBuilder(int unknownCount)
{
    private readonly Rational[] _factors = new Rational[unknownCount];
    private readonly bool[] _touched = new bool[unknownCount];
    private readonly List<int> _order = [];
    private Rational _constant;

    /// <summary>Adds a constant.</summary>
    public void Add(Rational constant) => _constant += constant;

    /// <summary>Adds one term.</summary>
    public void Add(int unknown, Rational factor)
    {
        if (!_touched[unknown])
        {
            _touched[unknown] = true;
            _order.Add(unknown);
            _factors[unknown] = factor;
            return;
        }

        _factors[unknown] += factor;
    }

    /// <summary>Adds a multiple of a form.</summary>
    public void Add(LinearForm form, Rational factor)
    {
        _constant += form.Constant * factor;
        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            Add(form.Unknowns[i], form.Factors[i] * factor);
        }
    }

    /// <summary>Hands the sum out and starts again from zero.</summary>
    public LinearForm Take()
    {
        _order.Sort();
        var count = 0;
        foreach (var unknown in _order)
        {
            count += _factors[unknown].IsZero ? 0 : 1;
        }

        var unknowns = count == 0 ? [] : new int[count];
        var factors = count == 0 ? [] : new Rational[count];
        count = 0;
        foreach (var unknown in _order)
        {
            _touched[unknown] = false;
            if (!_factors[unknown].IsZero)
            {
                unknowns[count] = unknown;
                factors[count++] = _factors[unknown];
            }
        }

        _order.Clear();
        var constant = _constant;
        _constant = default;
        return new(unknowns, factors, constant);
    }
}
