using Trimwright.Layouts;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Measures, in millimetres, and colours of a printed worksheet.</summary>
internal static class SheetStyle
{
    /// <summary>Left and right of everything. Few printers reach farther than 6 mm to the edge (common practice, no source).</summary>
    public const double Side = 13;

    /// <summary>Left and right of a drawing, which may reach farther out than text to keep its true size.</summary>
    public const double FigureSide = 8;

    public const double Top = 13;

    /// <summary>From the bottom edge to where the last line may end; the foot of the page is below.</summary>
    public const double Bottom = 22;

    /// <summary>From the bottom edge to the upper side of the check bars.</summary>
    public const double Bars = 16;

    /// <summary>The widest line of running text: about 80 letters, which are read easily (common practice, no source).</summary>
    public const double Measure = 150;

    public const double Body = 3.7;

    public const double BodyPitch = 5.2;

    public const double Small = 3;

    public const double SmallPitch = 4.1;

    public const double Title = 8.4;

    public const double TitlePitch = 9.6;

    public const double Heading = 5.1;

    public const double HeadingPitch = 6.2;

    public const double BeforeHeading = 8;

    public const double AfterHeading = 2;

    /// <summary>How far the text of a list is set in behind its numbers.</summary>
    public const double Indent = 8;

    public static readonly Colour Ink = new(0x24, 0x22, 0x20);

    public static readonly Colour Quiet = new(0x5c, 0x57, 0x51);

    public static readonly Colour Accent = new(0x3c, 0x5a, 0x46);

    public static readonly Colour Hair = new(0xc9, 0xc2, 0xb4);
}
