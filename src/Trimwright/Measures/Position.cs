using System.Globalization;

namespace Trimwright.Measures;

/// <summary>
/// An exact place or gap along one axis: any rational number of nanometres. Sizes that are cut are <see cref="Length"/>s; a place
/// may fall between them, since a row of equal gaps can need sevenths of an inch. The <c>default</c> value is zero.
/// </summary>
public readonly record struct Position(Rational Nanometres) : IComparable<Position>
{
    /// <summary>The place zero.</summary>
    public static Position Zero => default;

    /// <summary>A length is a place measured from zero.</summary>
    public static Position FromLength(Length length) => new(length.Nanometres);

    /// <summary>The sum.</summary>
    public static Position operator +(Position a, Position b) => new(a.Nanometres + b.Nanometres);

    /// <summary>The place further on by a length.</summary>
    public static Position operator +(Position a, Length b) => new(a.Nanometres + b.Nanometres);

    /// <summary>The difference.</summary>
    public static Position operator -(Position a, Position b) => new(a.Nanometres - b.Nanometres);

    /// <summary>The place further back by a length.</summary>
    public static Position operator -(Position a, Length b) => new(a.Nanometres - b.Nanometres);

    /// <summary>The place on the other side of zero.</summary>
    public static Position operator -(Position a) => new(-a.Nanometres);

    /// <summary>A multiple.</summary>
    public static Position operator *(Position a, Rational times) => new(a.Nanometres * times);

    /// <summary>Whether the first is less.</summary>
    public static bool operator <(Position a, Position b) => a.Nanometres < b.Nanometres;

    /// <summary>Whether the first is greater.</summary>
    public static bool operator >(Position a, Position b) => a.Nanometres > b.Nanometres;

    /// <summary>Whether the first is less or equal.</summary>
    public static bool operator <=(Position a, Position b) => a.Nanometres <= b.Nanometres;

    /// <summary>Whether the first is greater or equal.</summary>
    public static bool operator >=(Position a, Position b) => a.Nanometres >= b.Nanometres;

    /// <summary>The place half-way between two.</summary>
    public static Position Midway(Position a, Position b) => new((a.Nanometres + b.Nanometres) / 2);

    /// <summary>Whether the place is a whole number of nanometres, and that length.</summary>
    public bool TryToLength(out Length length) => Length.TryFromNanometres(Nanometres, out length);

    /// <summary>The nearest whole nanometre, halves up. For drawing alone: nothing that is cut or listed passes through here.</summary>
    public Length ToNearestNanometre() =>
        Length.FromNanometres((long)(Nanometres + Rational.From(1, 2)).Floor());

    /// <inheritdoc/>
    public int CompareTo(Position other) => Nanometres.CompareTo(other.Nanometres);

    /// <summary>The place in nanometres, for debugging; a maker reads <see cref="LengthText"/>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Nanometres} nm");
}
