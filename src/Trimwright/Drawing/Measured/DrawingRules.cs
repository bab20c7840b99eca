using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>The one style of dimensioned drawings: every figure with the standard it comes from. Millimetres.</summary>
/// <remarks>
/// The standards were not read themselves: the figures are those of textbooks and teaching pages that restate them. ISO 129-1 and
/// ASME Y14.5 agree on all that is used here but for the gap before an extension line, which ISO mechanical practice leaves out.
/// Line widths, 0.5 and 0.25 mm, are in <see cref="Palette"/>: ISO 128-2, a pair of 2 : 1.
/// </remarks>
internal static class DrawingRules
{
    /// <summary>From the outline to the first dimension line: ASME Y14.5, 1.7.1, at least 10 mm; ISO 129-1 as restated, about 10 mm.</summary>
    public const double FirstLane = 10;

    /// <summary>
    /// From one dimension line to the next: ASME Y14.5, 1.7.1, at least 6 mm; ISO 129-1 as restated, about 7 mm and at least twice the
    /// height of figures.
    /// </summary>
    public const double LanePitch = 7;

    /// <summary>
    /// From what is measured to the beginning of the extension line: ASME Y14.5, 1.7.2, a short visible gap; 0.8 to 1.6 mm as taught.
    /// </summary>
    public const double ExtensionGap = 1;

    /// <summary>How far the extension line goes beyond the dimension line: ISO 129-1 as restated, about 2 mm.</summary>
    public const double Overrun = 2;

    /// <summary>
    /// Height of figures and capitals: of the series of ISO 3098-1 (1.8, 2.5, 3.5, 5 ...) the least that a BS textbook allows for
    /// dimensions on sheets up to A1. The same for all dimensions, figures of fractions too (ISO 129-1:2018).
    /// </summary>
    public const double TextHeight = 2.5;

    /// <summary>Height of the title: the next but one of the series of ISO 3098-1, so that it is seen first.</summary>
    public const double TitleHeight = 5;

    /// <summary>From the dimension line to the foot of its figures: ISO 129-1 as restated, about 1 mm.</summary>
    public const double TextGap = 1;

    /// <summary>How far letters such as g reach below the line of writing; measured on the font, 0.3 of the height of capitals.</summary>
    public const double Descent = 0.8;

    /// <summary>How far a fraction reaches above and below its whole figure.</summary>
    public const double FractionReach = TextHeight * Lettering.TextRun.FractionShift / 100;

    /// <summary>Air kept around words; ISO 128 leaves at least 0.7 mm between parallel lines, and words are given as much.</summary>
    public const double Air = 0.7;

    /// <summary>Length of an arrowhead: the height of figures (ISO 129-1 as restated).</summary>
    public const double Arrow = TextHeight;

    /// <summary>Half the width of an arrowhead: ASME Y14.2, length to width 3 : 1, filled.</summary>
    public const double HalfArrow = Arrow / 6;

    /// <summary>How far a line runs on behind an arrowhead that stands outside; common practice, no source.</summary>
    public const double ArrowTail = 2;

    /// <summary>
    /// Least distance that has its arrowheads inside: ISO 129-1 as taught, below 10 mm they stand outside; ASME Y14.2, 2.9.1, inside
    /// where there is space. Two arrowheads and 3 mm between them are space enough.
    /// </summary>
    public const double RoomForArrows = (2 * Arrow) + 3;

    /// <summary>From one line of writing to the next, with room for a fraction in each.</summary>
    public const double LinePitch = TextHeight + (2 * FractionReach) + Air;

    /// <summary>From one line of writing to the next where there are no fractions: 1.7 heights; ISO 3098-1 asks for 1.5 at least, from memory.</summary>
    public const double PlainLinePitch = 1.7 * TextHeight;

    /// <summary>Air between two callouts: enough to see where one ends.</summary>
    public const double CalloutGap = 3.4;

    /// <summary>The level part of a leader before its callout.</summary>
    public const double Shoulder = 3;

    /// <summary>From the end of the leader to the callout.</summary>
    public const double ShoulderGap = 1;

    /// <summary>Diameter of the dot that ends a leader on a surface (ISO 129-1: leaders that end inside an outline end with a dot).</summary>
    public const double Dot = 1;

    /// <summary>Half the length of the strokes of a centre mark.</summary>
    public const double CentreArm = 1.5;

    /// <summary>Length of a dash of a hidden edge; line 02.1 of ISO 128-2, twelve line widths as the standard has it, from memory.</summary>
    public static Length Dash => Palette.Narrow * 12;

    /// <summary>The gap after a dash: three line widths, from memory.</summary>
    public static Length DashGap => Palette.Narrow * 3;

    /// <summary>The height of figures as a length.</summary>
    public static Length Capital => Palette.Micrometres(2500);

    /// <summary>The height of the title as a length.</summary>
    public static Length TitleCapital => Palette.Micrometres(5000);

    /// <summary>How far a text reaches above and below its line of writing.</summary>
    public static (double Above, double Below) Reach(string text) =>
        text.Contains(Lettering.LetteringFont.FractionSlash, StringComparison.Ordinal)
            ? (TextHeight + FractionReach, FractionReach) : (TextHeight, text.Any(c => c is 'g' or 'j' or 'p' or 'q' or 'y' or ',' or '[') ? Descent : 0.1);
}
