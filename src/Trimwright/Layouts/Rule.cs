using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>
/// A measure that rules may name. Places are taken from the left and from the top edge of the card, so y grows downwards.
/// </summary>
public enum MeasureKind
{
    /// <summary>The place of the left edge.</summary>
    Left,

    /// <summary>The place of the right edge.</summary>
    Right,

    /// <summary>The place of the top edge.</summary>
    Top,

    /// <summary>The place of the bottom edge.</summary>
    Bottom,

    /// <summary>The width.</summary>
    Width,

    /// <summary>The height.</summary>
    Height,

    /// <summary>The place of the centre across.</summary>
    CenterX,

    /// <summary>The place of the centre up and down.</summary>
    CenterY,
}

/// <summary>How the two sides of a rule relate.</summary>
public enum RuleRelation
{
    /// <summary>Equal.</summary>
    Equal,

    /// <summary>Left at most right.</summary>
    AtMost,

    /// <summary>Left at least right.</summary>
    AtLeast,
}

/// <summary>A term of a rule: a factor times a measure of a piece, a row or the card.</summary>
/// <param name="Factor">The factor.</param>
/// <param name="Of">The piece or row, or null for the card.</param>
/// <param name="Measure">The measure.</param>
public sealed record RuleTerm(Rational Factor, string? Of, MeasureKind Measure);

/// <summary>
/// A linear relation between measures: sum of terms, relation, constant. The term that the maker wrote first keeps the factor it was
/// written with, so that a miss is in the unit of what was named.
/// </summary>
public sealed record Rule
{
    /// <summary>The terms, all brought to the left side, in the order written.</summary>
    public required IReadOnlyList<RuleTerm> Terms { get; init; }

    /// <summary>The relation.</summary>
    public required RuleRelation Relation { get; init; }

    /// <summary>The constant, brought to the right side. It is carried to other formats only if <see cref="Scales"/> says so.</summary>
    public required Length Constant { get; init; }

    /// <summary>
    /// Whether the constant is carried in proportion to another format: true for a plain or <c>about</c> length, false for
    /// <c>exactly</c>.
    /// </summary>
    public bool Scales { get; init; }

    /// <summary>The strength.</summary>
    public required Strength Strength { get; init; }

    /// <summary>The maker's reason, repeated in explanations, or null.</summary>
    public string? Because { get; init; }

    /// <summary>The rule as written.</summary>
    public required string Text { get; init; }

    /// <summary>Where it stands.</summary>
    public required SourcePlace Source { get; init; }
}
