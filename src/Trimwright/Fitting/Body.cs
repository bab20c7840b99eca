using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>The four edges of a box as linear forms.</summary>
internal sealed record Edges(LinearForm Left, LinearForm Top, LinearForm Right, LinearForm Bottom)
{
    private static readonly Rational Half = Rational.From(1, 2);

    public LinearForm this[Edge edge] => edge switch
    {
        Edge.Left => Left,
        Edge.Right => Right,
        Edge.Top => Top,
        _ => Bottom,
    };

    public LinearForm Start(Axis axis) => axis == Axis.Across ? Left : Top;

    public LinearForm End(Axis axis) => axis == Axis.Across ? Right : Bottom;

    public LinearForm Size(Axis axis) => End(axis) - Start(axis);

    public LinearForm Centre(Axis axis) => (Start(axis) + End(axis)).Times(Half);

    public LinearForm Of(MeasureKind measure) => measure switch
    {
        MeasureKind.Left => Left,
        MeasureKind.Right => Right,
        MeasureKind.Top => Top,
        MeasureKind.Bottom => Bottom,
        MeasureKind.Width => Right - Left,
        MeasureKind.Height => Bottom - Top,
        MeasureKind.CenterX => Centre(Axis.Across),
        _ => Centre(Axis.UpDown),
    };

    /// <summary>The same box larger on every side.</summary>
    public Edges Grown(LinearForm by) => new(Left - by, Top - by, Right + by, Bottom + by);
}

/// <summary>Anything with a box: the card, a row or a piece.</summary>
/// <param name="Name">Its name, or null for the card.</param>
/// <param name="Own">Its own box.</param>
/// <param name="Outer">The box of its outermost mat, which its own placements refer to.</param>
internal sealed record Body(string? Name, Edges Own, Edges Outer);

/// <summary>A piece with the unknowns it brought into the system.</summary>
internal sealed record PieceBody(Piece Piece, Body Body, IReadOnlyList<LinearForm> Reveals, IReadOnlyList<Edges> Mats)
{
    /// <summary>The reveal left on the parent, when the piece fills it.</summary>
    public LinearForm? FillReveal { get; set; }

    /// <summary>The die chosen, for a piece whose die has two sizes.</summary>
    public Die? Die { get; init; }

    /// <summary>The dies of its mats, where such a die has two sizes.</summary>
    public IReadOnlyList<Die?> MatDies { get; init; } = [];
}

/// <summary>What a statement says, for reports.</summary>
internal sealed record Saying
{
    /// <summary>The statement as a sentence without its end, such as <c>`band` is exactly 2 in high</c>.</summary>
    public required string Text { get; init; }

    /// <summary>The quantity wished, such as <c>the height of `band`</c>; null where the statement is no wish for a quantity.</summary>
    public string? What { get; init; }

    /// <summary>The quantity, for the report of what it is.</summary>
    public LinearForm? Quantity { get; init; }

    /// <summary>1 when the statement counts the quantity as it is, -1 when it counts it the other way.</summary>
    public int Sense { get; init; } = 1;

    /// <summary>Whether it is a rule, which relates a quantity to others and gives it no size of its own.</summary>
    public bool IsRule { get; init; }

    /// <summary>Where it stands.</summary>
    public required Diagnostics.SourcePlace Source { get; init; }

    /// <summary>The maker's reason.</summary>
    public string? Because { get; init; }
}
