using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>Says where a piece goes, measured from the edges of what it is glued to, so that a ruler finds the place.</summary>
/// <param name="unit">The unit that lengths are written in.</param>
internal sealed class PlaceWords(LengthUnit unit)
{
    /// <summary>Where a box lies on another, such as <c>1/8 in from its left edge, 1 in from its top edge</c>.</summary>
    /// <param name="piece">The box of what is glued on, mats included.</param>
    /// <param name="under">The box that it is measured from.</param>
    /// <param name="owner">Whose edges those are, such as <c>its</c> or <c>the card's</c>.</param>
    public string Of(Box piece, Box under, string owner)
    {
        var (left, right) = (piece.Left - under.Left, under.Right - piece.Right);
        var (top, bottom) = (piece.Top - under.Top, under.Bottom - piece.Bottom);
        if (left == right && top == bottom && left == top)
        {
            return left.Nanometres.IsZero ? "edge to edge"
                : left > Position.Zero ? $"in the middle, {Text(left)} from each of {owner} edges"
                : $"in the middle, {Text(-left)} beyond each of {owner} edges";
        }

        var (across, down) = (Across(piece, under, owner), Down(piece, under, owner));
        const string Flush = "flush with ";
        return across.StartsWith(Flush, StringComparison.Ordinal) && down.StartsWith(Flush, StringComparison.Ordinal)
            ? $"{across} and {down[Flush.Length..]}" : $"{across}, {down}";
    }

    /// <summary>Where a box lies on another from left to right.</summary>
    public string Across(Box piece, Box under, string owner) =>
        Axis(piece.Left - under.Left, under.Right - piece.Right, owner, "left", "right", "side to side");

    /// <summary>Where a box lies on another from top to bottom.</summary>
    public string Down(Box piece, Box under, string owner) =>
        Axis(piece.Top - under.Top, under.Bottom - piece.Bottom, owner, "top", "bottom", "top to bottom");

    private string Axis(Position near, Position far, string owner, string nearEdge, string farEdge, string way)
    {
        if (near == far)
        {
            return near.Nanometres.IsZero ? $"flush with {owner} {nearEdge} and {farEdge} edges"
                : near > Position.Zero ? $"in the middle from {way} ({Text(near)} from {owner} {nearEdge} and {farEdge} edges)"
                : $"in the middle from {way} ({Text(-near)} beyond {owner} {nearEdge} and {farEdge} edges)";
        }

        var (gap, edge) = Nearer(near, far, nearEdge, farEdge);
        return gap.Nanometres.IsZero ? $"flush with {owner} {edge} edge"
            : gap > Position.Zero ? $"{Text(gap)} from {owner} {edge} edge"
            : $"{Text(-gap)} beyond {owner} {edge} edge";
    }

    /// <summary>Where the centre of a tilted piece goes.</summary>
    /// <param name="centre">The centre.</param>
    /// <param name="under">The box that it is measured from.</param>
    /// <param name="owner">Whose edges those are.</param>
    public string OfCentre(Point centre, Box under, string owner)
    {
        var across = Nearer(centre.X - under.Left, under.Right - centre.X, "left", "right");
        var down = Nearer(centre.Y - under.Top, under.Bottom - centre.Y, "top", "bottom");
        return $"with the middle {Text(across.Gap)} from {owner} {across.Edge} edge and {Text(down.Gap)} from {owner} {down.Edge} edge";
    }

    /// <summary>A length; for what lies between the marks of a ruler the mark just below, such as <c>just over 9/64 in</c> for 1/7 in.</summary>
    public string Text(Position gap)
    {
        var exact = LengthText.Write(gap, unit);
        var natural = exact.EndsWith("mm", StringComparison.Ordinal) ? LengthUnit.Millimetre : LengthUnit.Inch;
        if (LengthText.IsOnRuler(gap.Nanometres, natural))
        {
            return exact;
        }

        var mark = unit == LengthUnit.Inch
            ? Rational.From(Length.NanometresPerInch, LengthText.FinestInchFraction)
            : Rational.From(Length.NanometresPerMillimetre, 10);
        var below = new Position(Rational.From((gap.Nanometres / mark).Floor(), 1) * mark);
        return below.Nanometres.IsZero ? $"less than {LengthText.Write(new Position(mark), unit)}" : $"just over {LengthText.Write(below, unit)}";
    }

    /// <summary>The edge that is nearer, unless only the other distance can be found on a ruler.</summary>
    private (Position Gap, string Edge) Nearer(Position near, Position far, string nearEdge, string farEdge)
    {
        var useNear = OnRuler(near) != OnRuler(far) ? OnRuler(near) : Size(near) <= Size(far);
        return useNear ? (near, nearEdge) : (far, farEdge);
    }

    private bool OnRuler(Position gap) => LengthText.IsOnRuler(gap.Nanometres, unit);

    private static Position Size(Position gap) => new(gap.Nanometres.Abs());
}
