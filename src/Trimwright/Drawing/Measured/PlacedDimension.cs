using Trimwright.Drawing.Lettering;
using Trimwright.Geometry;
using Trimwright.Layouts;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>A dimension with its words, before it has a lane.</summary>
internal sealed class WordedDimension
{
    /// <summary>Words a dimension.</summary>
    public WordedDimension(LinearDimension dimension, DimensionText text)
    {
        Dimension = dimension;
        Text = text.Write(dimension.Value, dimension.Count);
        Width = Plane.Roughly(LetteringFont.Instance.Width(Text, Capital));
        (Above, Below) = Reach(Text);
        From = Plane.Roughly(dimension.From.At);
        To = Plane.Roughly(dimension.To.At);
        Begins = (Plane.Roughly(dimension.From.Start), Plane.Roughly(dimension.To.Start));
        Ends = (Plane.Roughly(dimension.From.End), Plane.Roughly(dimension.To.End));
    }

    /// <summary>What is said.</summary>
    public LinearDimension Dimension { get; }

    /// <summary>The words.</summary>
    public string Text { get; }

    /// <summary>The width of the text.</summary>
    public double Width { get; }

    /// <summary>How far the text reaches above its line of writing.</summary>
    public double Above { get; }

    /// <summary>How far the text reaches below its line of writing.</summary>
    public double Below { get; }

    /// <summary>The lesser line.</summary>
    public double From { get; }

    /// <summary>The greater line.</summary>
    public double To { get; }

    /// <summary>Where what is measured begins, across, at either line.</summary>
    public (double AtFrom, double AtTo) Begins { get; }

    /// <summary>Where what is measured ends, across, at either line.</summary>
    public (double AtFrom, double AtTo) Ends { get; }

    /// <summary>Whether the line runs from left to right.</summary>
    public bool IsAcross => Dimension.Axis == Axis.Across;
}

/// <summary>A dimension with its lane: the side of the face, and which line from the face outwards.</summary>
internal sealed class PlacedDimension
{
    /// <summary>Places a dimension.</summary>
    /// <param name="words">What is said.</param>
    /// <param name="side">The side of the face.</param>
    /// <param name="lane">The lane, from 0 at the face outwards.</param>
    /// <param name="lineAt">Where the dimension line lies, across.</param>
    /// <param name="textAt">Where the middle of the text lies, along the line.</param>
    /// <param name="arrowsOutside">Whether the arrowheads stand outside and point inwards.</param>
    public PlacedDimension(WordedDimension words, Side side, int lane, double lineAt, double textAt, bool arrowsOutside)
    {
        (Words, Side, Lane, LineAt, TextAt, ArrowsOutside) = (words, side, lane, lineAt, textAt, arrowsOutside);
        TextInside = textAt > words.From && textAt < words.To;
        (LineStart, LineEnd) = Reach(words, textAt, arrowsOutside);
        var half = words.Width / 2;

        // Upward text stands left of its line, level text above it: both at the lesser side.
        FootAt = lineAt - TextGap - words.Below;
        var (head, foot) = (FootAt - words.Above, FootAt + words.Below);
        TextArea = words.IsAcross ? new(textAt - half, head, textAt + half, foot) : new(head, textAt - half, foot, textAt + half);
        var (near, far) = (lineAt - HalfArrow, lineAt + HalfArrow);
        LineArea = (words.IsAcross ? new Area(LineStart, near, LineEnd, far) : new(near, LineStart, far, LineEnd)).Around(TextArea);
    }

    /// <summary>What is said, in words.</summary>
    public WordedDimension Words { get; }

    /// <summary>What is said.</summary>
    public LinearDimension Dimension => Words.Dimension;

    /// <summary>The side of the face.</summary>
    public Side Side { get; }

    /// <summary>The lane.</summary>
    public int Lane { get; }

    /// <summary>Where the dimension line lies, across.</summary>
    public double LineAt { get; }

    /// <summary>Where the middle of the text lies, along the line.</summary>
    public double TextAt { get; }

    /// <summary>Where the line of writing lies, across.</summary>
    public double FootAt { get; }

    /// <summary>Whether the arrowheads stand outside and point inwards.</summary>
    public bool ArrowsOutside { get; }

    /// <summary>Whether the text stands between the two lines.</summary>
    public bool TextInside { get; }

    /// <summary>Where the dimension line begins, tails of outer arrowheads and outer text included.</summary>
    public double LineStart { get; }

    /// <summary>Where the dimension line ends.</summary>
    public double LineEnd { get; }

    /// <summary>The area of the text.</summary>
    public Area TextArea { get; }

    /// <summary>The area of everything but the extension lines.</summary>
    public Area LineArea { get; }

    /// <summary>Where a dimension line begins and ends, tails of outer arrowheads and outer text included.</summary>
    public static (double Start, double End) Reach(WordedDimension words, double textAt, bool arrowsOutside)
    {
        var (from, to, half) = (words.From, words.To, words.Width / 2);
        return (
            textAt >= from ? arrowsOutside ? from - Arrow - ArrowTail : from : textAt - half - Air,
            textAt <= to ? arrowsOutside ? to + Arrow + ArrowTail : to : textAt + half + Air);
    }

    /// <summary>Where the extension line from the lesser or the greater line begins and ends, across.</summary>
    public (double Begin, double End) Extension(bool ofTo) => Side is Side.Top or Side.Left
        ? ((ofTo ? Words.Begins.AtTo : Words.Begins.AtFrom) - ExtensionGap, LineAt - Overrun)
        : ((ofTo ? Words.Ends.AtTo : Words.Ends.AtFrom) + ExtensionGap, LineAt + Overrun);

    /// <summary>The two extension lines as straight lines.</summary>
    public IEnumerable<(Spot Start, Spot End)> ExtensionLines()
    {
        foreach (var ofTo in (bool[])[false, true])
        {
            var (begin, end) = Extension(ofTo);
            var (low, high, at) = (Math.Min(begin, end), Math.Max(begin, end), ofTo ? Words.To : Words.From);
            yield return Words.IsAcross ? (new(at, low), new(at, high)) : (new(low, at), new(high, at));
        }
    }
}
