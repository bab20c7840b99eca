using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>The values that a measure may take: any, the multiples of a step, or the values of a list.</summary>
public sealed record Grid
{
    private Grid(Rational? step, IReadOnlyList<Rational>? values)
    {
        Step = step;
        Values = values;
    }

    /// <summary>The step whose whole multiples are allowed, or null.</summary>
    public Rational? Step { get; }

    /// <summary>The allowed values, ascending and without repeats, or null.</summary>
    public IReadOnlyList<Rational>? Values { get; }

    /// <summary>The whole multiples of a step.</summary>
    /// <exception cref="ArgumentException">The step is not positive.</exception>
    public static Grid FromStep(Rational step) => step.Sign > 0
        ? new(step, null)
        : throw new ArgumentException("a grid needs a step above zero", nameof(step));

    /// <summary>The values of a list, in any order.</summary>
    /// <exception cref="ArgumentException">The list is empty.</exception>
    public static Grid FromValues(IEnumerable<Rational> values)
    {
        var sorted = values.Distinct().Order().ToArray();
        return sorted.Length > 0 ? new(null, sorted) : throw new ArgumentException("a grid needs a value", nameof(values));
    }

    /// <summary>Whether a value is on the grid.</summary>
    public bool Holds(Rational value) => Step is { } step ? (value / step).IsWhole : Values!.Contains(value);
}
