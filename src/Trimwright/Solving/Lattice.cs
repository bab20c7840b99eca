using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// The values that an unknown of the reduced system may take: offset + whole number x step, and only those of a list where there is one.
/// </summary>
/// <remarks>
/// A <see cref="Grid"/> belongs to a measure as declared. The reduced system knows it through a form a x + c, and x then lies on a
/// scaled and shifted grid; that is what this is. A list lies within the lattice of the greatest common step of its values.
/// </remarks>
internal sealed class Lattice
{
    private readonly Rational[]? _values;

    private Lattice(Rational offset, Rational step, Rational[]? values)
    {
        Offset = offset;
        Step = step;
        _values = values;
    }

    /// <summary>One value of the lattice.</summary>
    public Rational Offset { get; }

    /// <summary>The step, above zero; one for a list of a single value.</summary>
    public Rational Step { get; }

    /// <summary>Whether only the values of a list are allowed.</summary>
    public bool IsList => _values is not null;

    /// <summary>The least and the greatest value of a list, or null.</summary>
    public (Rational Least, Rational Most)? Ends => _values is { Length: > 0 } ? (_values[0], _values[^1]) : null;

    /// <summary>The lattice of a grid.</summary>
    public static Lattice From(Grid grid)
    {
        if (grid.Step is { } step)
        {
            return new(default, step, null);
        }

        var values = grid.Values!.ToArray();
        Rational common = default;
        foreach (var value in values)
        {
            common = CommonStep(common, value - values[0]);
        }

        return new(values[0], common.IsZero ? Rational.One : common, values);
    }

    /// <summary>The values that a form can take where all its unknowns have lattices; null where one has none.</summary>
    public static Lattice? OfForm(LinearForm form, Lattice?[] lattices)
    {
        var (offset, step) = (form.Constant, default(Rational));
        foreach (var unknown in form.Unknowns)
        {
            if (lattices[unknown] is null)
            {
                return null;
            }
        }

        for (var i = 0; i < form.Unknowns.Length; i++)
        {
            var lattice = lattices[form.Unknowns[i]]!;
            offset += form.Factors[i] * lattice.Offset;
            step = CommonStep(step, form.Factors[i] * lattice.Step);
        }

        return new(offset, step, null);
    }

    /// <summary>The greatest step of which both are whole multiples.</summary>
    public static Rational CommonStep(Rational a, Rational b)
    {
        // gcd(p/q, r/s) = gcd(p s, r q) / (q s).
        if (b.IsZero)
        {
            return a.Abs();
        }

        return Rational.From(
            BigInteger.GreatestCommonDivisor(a.Numerator * b.Denominator, b.Numerator * a.Denominator),
            a.Denominator * b.Denominator);
    }

    /// <summary>The lattice of x where factor x + constant lies on this one.</summary>
    public Lattice Through(Rational factor, Rational constant)
    {
        if (factor == Rational.One && constant.IsZero)
        {
            return this;
        }

        Rational[]? values = null;
        if (_values is not null)
        {
            values = Array.ConvertAll(_values, v => (v - constant) / factor);
            Array.Sort(values);
        }

        return new((Offset - constant) / factor, Step / factor.Abs(), values);
    }

    /// <summary>The part of this lattice that lies on every n-th of its points, counted from the k-th.</summary>
    public Lattice Thin(BigInteger n, BigInteger k)
    {
        var offset = Offset + (Step * Rational.From(k, BigInteger.One));
        var step = Step * Rational.From(n, BigInteger.One);
        return new(offset, step, _values is null ? null : Array.FindAll(_values, v => ((v - offset) / step).IsWhole));
    }

    /// <summary>Whether a value is allowed.</summary>
    public bool Holds(Rational value) =>
        _values is null ? ((value - Offset) / Step).IsWhole : Array.BinarySearch(_values, value) >= 0;

    /// <summary>The greatest allowed value that is not above, or null.</summary>
    public Rational? Below(Rational value)
    {
        if (_values is null)
        {
            return Offset + (Step * Rational.From(((value - Offset) / Step).Floor(), BigInteger.One));
        }

        var at = Array.BinarySearch(_values, value);
        at = at >= 0 ? at : ~at - 1;
        return at >= 0 ? _values[at] : null;
    }

    /// <summary>The least allowed value that is not below, or null.</summary>
    public Rational? Above(Rational value)
    {
        if (_values is null)
        {
            return Offset + (Step * Rational.From(((value - Offset) / Step).Ceiling(), BigInteger.One));
        }

        var at = Array.BinarySearch(_values, value);
        at = at >= 0 ? at : ~at;
        return at < _values.Length ? _values[at] : null;
    }

    /// <summary>The greatest allowed value below an allowed one, or null.</summary>
    public Rational? BelowNext(Rational value) => _values is null ? value - Step : Neighbour(value, -1);

    /// <summary>The least allowed value above an allowed one, or null.</summary>
    public Rational? AboveNext(Rational value) => _values is null ? value + Step : Neighbour(value, 1);

    /// <summary>The allowed value nearest to another, the lower of two; null when none is allowed.</summary>
    public Rational? Nearest(Rational value)
    {
        var (below, above) = (Below(value), Above(value));
        return below is { } low && above is { } high ? (value - low <= high - value ? low : high) : below ?? above;
    }

    private Rational? Neighbour(Rational value, int by)
    {
        var at = Array.BinarySearch(_values!, value) + by;
        return at >= 0 && at < _values!.Length ? _values[at] : null;
    }
}
