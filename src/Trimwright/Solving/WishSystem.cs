using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A system of linear wishes over abstract measures. Filled once, solved any number of times; solving changes nothing in it.
/// </summary>
public sealed class WishSystem
{
    private readonly List<Grid?> _grids = [];
    private readonly List<(Rational? Least, Rational? Most)> _bounds = [];
    private readonly List<Statement> _statements = [];

    /// <summary>How many measures were declared.</summary>
    public int MeasureCount => _grids.Count;

    /// <summary>The statements, in order of declaration.</summary>
    public IReadOnlyList<Statement> Statements => _statements;

    /// <summary>Declares a measure. Its bounds are structure.</summary>
    /// <param name="grid">The values it may take, or null for any.</param>
    /// <param name="least">The least value, or null. A measure on a step grid needs both bounds, so that the search ends.</param>
    /// <param name="most">The greatest value, or null.</param>
    public Measure AddMeasure(Grid? grid = null, Rational? least = null, Rational? most = null)
    {
        _grids.Add(grid);
        _bounds.Add((least, most));
        return new(_grids.Count - 1);
    }

    /// <summary>Adds a statement and returns its number in order of declaration, from 0.</summary>
    public int Add(IReadOnlyList<Term> terms, Relation relation, Rational right, Strength strength, bool isStructure = false)
    {
        ArgumentNullException.ThrowIfNull(terms);
        _statements.Add(new(terms, relation, right, strength, isStructure));
        return _statements.Count - 1;
    }

    /// <summary>The grid of a measure, or null.</summary>
    public Grid? GridOf(Measure measure) => _grids[measure.Index];

    /// <summary>The bounds of a measure.</summary>
    public (Rational? Least, Rational? Most) BoundsOf(Measure measure) => _bounds[measure.Index];
}
