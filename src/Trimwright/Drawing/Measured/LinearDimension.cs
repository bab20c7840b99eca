using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>A line that is measured to: its exact place along the measured axis, and the stretch across it in which it can be seen.</summary>
internal readonly record struct Witness(Position At, Position Start, Position End);

/// <summary>A distance between two parallel lines, to be said once.</summary>
/// <param name="Axis">The axis along which it is measured.</param>
/// <param name="From">The lesser line.</param>
/// <param name="To">The greater line.</param>
/// <param name="Of">The piece, the row, or <c>card</c>.</param>
/// <param name="Measure">What is measured: width, height, an edge that is offset, center-x, center-y, gap, overlap or pitch.</param>
/// <param name="Count">How often it occurs; the lines are those of the first.</param>
internal sealed record LinearDimension(Axis Axis, Witness From, Witness To, string Of, string Measure, int Count = 1)
{
    /// <summary>The exact distance: the text is made from it and from nothing else.</summary>
    public Position Value => To.At - From.At;
}

/// <summary>A line of a callout.</summary>
/// <param name="Text">The text.</param>
/// <param name="Measure">What its lengths are: size, reveal, mat-1, tail, taper, window, bars, corners; null for words alone.</param>
/// <param name="Values">The exact lengths in the text, in order.</param>
internal sealed record CalloutLine(string Text, string? Measure, IReadOnlyList<Position> Values);

/// <summary>What is said of a piece, or of equal pieces, beside the face, with a leader.</summary>
/// <param name="Of">The name.</param>
/// <param name="Lines">The lines; the first is the name.</param>
/// <param name="Targets">The layers that the leader may end on, as indices into the layers of the sheet.</param>
internal sealed record Callout(string Of, IReadOnlyList<CalloutLine> Lines, IReadOnlyList<int> Targets);

/// <summary>A tilted piece whose size may be said along its own edges, if there is room on it.</summary>
/// <param name="Callout">The index of its callout, which says the size if there is none.</param>
/// <param name="WithoutSize">The lines of the callout where the size is said on the piece.</param>
/// <param name="Of">The name.</param>
/// <param name="Candidates">The pieces it may be said on: any of several alike.</param>
internal sealed record TiltedSize(
    int Callout, IReadOnlyList<CalloutLine> WithoutSize, string Of, IReadOnlyList<FittedPiece> Candidates);

/// <summary>All that has to be said on a sheet.</summary>
/// <param name="Dimensions">Distances, each once.</param>
/// <param name="Callouts">What is said with leaders.</param>
/// <param name="Centres">Centres that distances refer to, to be marked.</param>
/// <param name="Tilted">Sizes that may be said on tilted pieces.</param>
internal sealed record Sayings(
    IReadOnlyList<LinearDimension> Dimensions, IReadOnlyList<Callout> Callouts, IReadOnlyList<Point> Centres,
    IReadOnlyList<TiltedSize> Tilted);
