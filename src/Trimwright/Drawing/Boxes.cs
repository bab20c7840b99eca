using System.Numerics;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>Boxes of drawings.</summary>
internal static class Boxes
{
    /// <summary>The least box around both.</summary>
    public static Box Around(this Box a, Box b) => new(
        a.Left < b.Left ? a.Left : b.Left, a.Top < b.Top ? a.Top : b.Top,
        a.Right > b.Right ? a.Right : b.Right, a.Bottom > b.Bottom ? a.Bottom : b.Bottom);

    /// <summary>The box of the card with all that hangs over it.</summary>
    public static Box OfFace(Box card, IEnumerable<FaceLayer> layers) =>
        layers.Aggregate(card, (box, layer) => box.Around(layer.BoundsAsLaid()));

    /// <summary>
    /// The box moved out to whole steps from the origin, so that at a resolution that divides them the edges of the card lie between
    /// pixels: 1/8 in, or 1 mm.
    /// </summary>
    public static Box OutToStep(this Box box, LengthUnit unit)
    {
        var step = unit == LengthUnit.Inch ? Length.FromInches(1, 8) : Length.FromMillimetres(1);
        return new(Down(box.Left), Down(box.Top), Up(box.Right), Up(box.Bottom));

        Position Down(Position at) => Steps((at.Nanometres / step.Nanometres).Floor());
        Position Up(Position at) => Steps((at.Nanometres / step.Nanometres).Ceiling());
        Position Steps(BigInteger count) => new(Rational.From(count, 1) * step.Nanometres);
    }
}
