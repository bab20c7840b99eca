using Trimwright.Drawing.Lettering;
using Trimwright.Geometry;
using Trimwright.Layouts;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>A dimension with its lane: the side of the face, and which line from the face outwards.</summary>
/// <param name="Dimension">What is said.</param>
/// <param name="Text">The words.</param>
/// <param name="Side">The side of the face.</param>
/// <param name="Lane">The lane, from 0 at the face outwards.</param>
/// <param name="LineAt">Where the dimension line lies, across.</param>
/// <param name="TextAt">Where the middle of the text lies, along the line.</param>
/// <param name="ArrowsOutside">Whether the arrowheads stand outside and point inwards.</param>
internal sealed record PlacedDimension(
    LinearDimension Dimension, string Text, Side Side, int Lane, double LineAt, double TextAt, bool ArrowsOutside)
{
    /// <summary>The lesser line, in millimetres.</summary>
    public double From { get; } = Plane.Roughly(Dimension.From.At);

    /// <summary>The greater line, in millimetres.</summary>
    public double To { get; } = Plane.Roughly(Dimension.To.At);

    /// <summary>The width of the text, in millimetres.</summary>
    public double TextWidth { get; } = Plane.Roughly(LetteringFont.Instance.Width(Text, Capital));

    /// <summary>Whether the text stands between the two lines.</summary>
    public bool TextInside => TextAt > From && TextAt < To;

    /// <summary>Whether the line runs from left to right.</summary>
    public bool IsAcross => Dimension.Axis == Axis.Across;

    /// <summary>Where the dimension line begins, tails of outer arrowheads and outer text included.</summary>
    public double LineStart => TextInside || TextAt > To ? ArrowsOutside ? From - Arrow - ArrowTail : From : TextAt - (TextWidth / 2) - Air;

    /// <summary>Where the dimension line ends.</summary>
    public double LineEnd => TextInside || TextAt < From ? ArrowsOutside ? To + Arrow + ArrowTail : To : TextAt + (TextWidth / 2) + Air;

    /// <summary>The area of the text. Upward text stands left of its line, level text above it: both at the lesser side.</summary>
    public Area TextArea
    {
        get
        {
            var (foot, head) = (LineAt - TextGap + Descent, LineAt - TextGap - TextHeight);
            var (start, end) = (TextAt - (TextWidth / 2), TextAt + (TextWidth / 2));
            return IsAcross ? new(start, head, end, foot) : new(head, start, foot, end);
        }
    }

    /// <summary>The area of everything but the extension lines.</summary>
    public Area LineArea
    {
        get
        {
            var (near, far) = (LineAt - (Arrow / 6), LineAt + (Arrow / 6));
            return (IsAcross ? new Area(LineStart, near, LineEnd, far) : new(near, LineStart, far, LineEnd)).Around(TextArea);
        }
    }

    /// <summary>Where the extension line from one of the two lines begins and ends, across.</summary>
    public (double Begin, double End) Extension(Witness witness) => Side is Side.Top or Side.Left
        ? (Plane.Roughly(witness.Start) - ExtensionGap, LineAt - Overrun)
        : (Plane.Roughly(witness.End) + ExtensionGap, LineAt + Overrun);
}
