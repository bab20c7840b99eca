using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>The colours and line widths of our drawings.</summary>
internal static class Palette
{
    /// <summary>Lines and lettering: a soft black.</summary>
    public static readonly Colour Ink = new(0x24, 0x22, 0x20);

    /// <summary>What is said beside the drawing and matters less.</summary>
    public static readonly Colour Quiet = new(0x6b, 0x66, 0x60);

    private static readonly Colour White = new(0xff, 0xff, 0xff);
    private static readonly Colour Black = new(0, 0, 0);

    /// <summary>Width of visible outlines: 0.5 mm, from the pair 0.5/0.25 of ISO 128 (restated in textbooks).</summary>
    public static Length Wide => Micrometres(500);

    /// <summary>Width of dimension, extension, leader and hidden lines: 0.25 mm, half the wide one.</summary>
    public static Length Narrow => Micrometres(250);

    /// <summary>A colour mixed with white.</summary>
    public static Colour Lighter(Colour colour, int percent) => Mix(colour, White, percent);

    /// <summary>A colour mixed with black.</summary>
    public static Colour Darker(Colour colour, int percent) => Mix(colour, Black, percent);

    /// <summary>
    /// Whether dark lettering reads better on it: luma by the weights of ITU-R BT.601, against the middle.
    /// </summary>
    public static bool IsLight(Colour colour) => (299 * colour.Red) + (587 * colour.Green) + (114 * colour.Blue) > 127_500;

    /// <summary>A length in micrometres.</summary>
    public static Length Micrometres(long micrometres) => Length.FromNanometres(micrometres * 1000);

    private static Colour Mix(Colour a, Colour b, int percent) =>
        new(Mix(a.Red, b.Red, percent), Mix(a.Green, b.Green, percent), Mix(a.Blue, b.Blue, percent));

    private static byte Mix(byte a, byte b, int percent) => (byte)(((a * (100 - percent)) + (b * percent) + 50) / 100);
}
