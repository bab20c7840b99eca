using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>How the two sides of a statement relate.</summary>
public enum Relation
{
    /// <summary>Left equals right.</summary>
    Equal,

    /// <summary>Left is at most right.</summary>
    AtMost,

    /// <summary>Left is at least right.</summary>
    AtLeast,
}

/// <summary>A measure of a <see cref="WishSystem"/>: an unknown number. Made by <see cref="WishSystem.AddMeasure"/>.</summary>
/// <param name="Index">Its number in order of declaration, from 0.</param>
public readonly record struct Measure(int Index);

/// <summary>A term of a linear form.</summary>
public readonly record struct Term(Measure Measure, Rational Factor);

/// <summary>A statement about measures: sum of terms, relation, right-hand side, with a strength.</summary>
/// <param name="Terms">The terms; a measure may stand in several.</param>
/// <param name="Relation">The relation.</param>
/// <param name="Right">The constant on the right.</param>
/// <param name="Strength">
/// Must, should or may. The miss of a wish is |left - right| (or the excess over the bound) as the statement is written, so a caller
/// scales the statement such that this is in the unit of the quantity that was named.
/// </param>
/// <param name="IsStructure">
/// Structure (a mat surrounds its piece) takes part in a clash but is never blamed alone: a clash lists it apart.
/// </param>
public sealed record Statement(IReadOnlyList<Term> Terms, Relation Relation, Rational Right, Strength Strength, bool IsStructure);
