using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>Says where a piece goes, measured from the edges of what it is glued to, so that a ruler finds the place.</summary>
/// <param name="unit">The unit that lengths are written in.</param>
internal sealed class PlaceWords(LengthUnit unit)
{
    /// <summary>Where a box lies on another, such as <c>1/8 in from the left edge of the ground and 1 in from its top edge</c>.</summary>
    /// <param name="piece">The box of what is glued on, mats included.</param>
    /// <param name="under">The box of what it is glued to.</param>
    /// <param name="name">What that is called.</param>
    public string Of(Box piece, Box under, string name)
    {
        var (left, right) = (piece.Left - under.Left, under.Right - piece.Right);
        var (top, bottom) = (piece.Top - under.Top, under.Bottom - piece.Bottom);
        if (left == right && top == bottom)
        {
            return left != top ? $"in the middle of {name}: {Beside(left, "left and right")}, {Beside(top, "top and bottom")}"
                : left.Nanometres.IsZero ? $"edge to edge with {name}"
                : left > Position.Zero ? $"in the middle of {name}, {Text(left)} from every edge"
                : $"in the middle of {name}, {Text(-left)} beyond every edge";
        }

        var owned = false;
        var across = Axis(left, right, "left", "right", "from side to side");
        var down = Axis(top, bottom, "top", "bottom", "from top to bottom");
        return $"{across} and {down}";

        string Axis(Position near, Position far, string nearEdge, string farEdge, string way)
        {
            if (near == far)
            {
                return near.Nanometres.IsZero ? $"flush with {Edges($"{nearEdge} and {farEdge} edges")}" : $"centred {way} on {Owner()}";
            }

            // The edge that is nearer, unless only the other distance can be found on a ruler.
            var useNear = OnRuler(near) != OnRuler(far) ? OnRuler(near) : Size(near) <= Size(far);
            var (gap, edge) = useNear ? (near, nearEdge) : (far, farEdge);
            return gap.Nanometres.IsZero ? $"flush with {Edges($"{edge} edge")}"
                : gap > Position.Zero ? $"{Text(gap)} from {Edges($"{edge} edge")}"
                : $"{Text(-gap)} beyond {Edges($"{edge} edge")}";
        }

        string Edges(string edges)
        {
            var text = owned ? $"its {edges}" : $"the {edges} of {name}";
            owned = true;
            return text;
        }

        string Owner()
        {
            var text = owned ? "it" : name;
            owned = true;
            return text;
        }
    }

    /// <summary>Where the centre of a tilted piece goes.</summary>
    public string OfCentre(Point centre, Box under, string name)
    {
        var across = Nearer(centre.X - under.Left, under.Right - centre.X, "left", "right");
        var down = Nearer(centre.Y - under.Top, under.Bottom - centre.Y, "top", "bottom");
        return $"its centre {Text(across.Gap)} from the {across.Edge} edge of {name} and {Text(down.Gap)} from its {down.Edge} edge";
    }

    /// <summary>
    /// A length; what lies between the marks of a ruler is followed by the mark just below, such as <c>1/7 in (just over 9/64 in)</c>.
    /// </summary>
    public string Text(Position gap)
    {
        var exact = LengthText.Write(gap, unit);
        var natural = exact.EndsWith("mm", StringComparison.Ordinal) ? LengthUnit.Millimetre : LengthUnit.Inch;
        if (LengthText.IsOnRuler(gap.Nanometres, natural))
        {
            return exact;
        }

        var mark = natural == LengthUnit.Inch
            ? Rational.From(Length.NanometresPerInch, LengthText.FinestInchFraction)
            : Rational.From(Length.NanometresPerMillimetre, 10);
        var below = new Position(Rational.From((gap.Nanometres / mark).Floor(), 1) * mark);
        return $"{exact} (just over {LengthText.Write(below, natural)})";
    }

    private (Position Gap, string Edge) Nearer(Position near, Position far, string nearEdge, string farEdge)
    {
        var useNear = OnRuler(near) != OnRuler(far) ? OnRuler(near) : near <= far;
        return useNear ? (near, nearEdge) : (far, farEdge);
    }

    private string Beside(Position gap, string sides) => gap.Nanometres.IsZero ? $"flush {sides}"
        : gap > Position.Zero ? $"{Text(gap)} {sides}" : $"{Text(-gap)} beyond {sides}";

    private bool OnRuler(Position gap) => LengthText.IsOnRuler(gap.Nanometres, unit);

    private static Position Size(Position gap) => new(gap.Nanometres.Abs());
}
