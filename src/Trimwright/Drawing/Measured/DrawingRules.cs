using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>The measures of a dimensioned drawing, in millimetres.</summary>
/// <remarks>
/// From ISO 129-1 as restated in a school textbook (first line about 10 mm from the outline, later ones about 7 mm, extension lines
/// about 2 mm beyond the dimension line, figures about 1 mm above it) and ASME Y14.5, 1.7 (at least 10 mm and 6 mm; a visible gap
/// before an extension line). Arrowheads 3 : 1 and filled after ASME Y14.2; their length is the height of figures (ISO 129-1 as
/// restated). Figures of 2.5 mm are the least of the BS textbook for sheets up to A1.
/// </remarks>
internal static class DrawingRules
{
    /// <summary>From the outline to the first dimension line.</summary>
    public const double FirstLane = 10;

    /// <summary>From one dimension line to the next.</summary>
    public const double LanePitch = 7;

    /// <summary>From what is measured to the beginning of the extension line.</summary>
    public const double ExtensionGap = 1;

    /// <summary>How far the extension line goes beyond the dimension line.</summary>
    public const double Overrun = 2;

    /// <summary>Height of figures and capitals.</summary>
    public const double TextHeight = 2.5;

    /// <summary>From the dimension line to the foot of its figures.</summary>
    public const double TextGap = 1;

    /// <summary>How far letters such as g, and the fraction stroke, may reach below the line of writing.</summary>
    public const double Descent = 0.8;

    /// <summary>Air kept around words.</summary>
    public const double Air = 0.6;

    /// <summary>Length of an arrowhead; its width is a third.</summary>
    public const double Arrow = 2.5;

    /// <summary>How far a line runs on behind an arrowhead that stands outside.</summary>
    public const double ArrowTail = 2;

    /// <summary>Least distance that has room for both arrowheads inside and 3 mm between them.</summary>
    public const double RoomForArrows = 8;

    /// <summary>From one line of writing to the next.</summary>
    public const double LinePitch = 4.4;

    /// <summary>Air between two callouts.</summary>
    public const double CalloutGap = 3.4;

    /// <summary>The level part of a leader before its callout.</summary>
    public const double Shoulder = 3;

    /// <summary>From the end of the leader to the callout.</summary>
    public const double ShoulderGap = 1;

    /// <summary>Diameter of the dot that ends a leader on a surface (ISO 129-1: leaders that end inside an outline end with a dot).</summary>
    public const double Dot = 1;

    /// <summary>The height of figures as a length.</summary>
    public static Length Capital => Palette.Micrometres(2500);
}
