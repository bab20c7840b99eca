using System.Numerics;

namespace Trimwright.Images;

/// <summary>
/// How much light a colour of a picture sends back. The bytes of a picture are coded for the eye; half of 255 is about a fifth of the light.
/// </summary>
/// <remarks>
/// The curve is that of sRGB (IEC 61966-2-1): c / 12.92 up to 0.04045, ((c + 0.055) / 1.055)^2.4 above. The weights of red, green and
/// blue are those of its primaries (ITU-R BT.709: 0.2126, 0.7152, 0.0722). Levels are whole numbers, from whole-number roots, so that
/// every machine has the same.
/// </remarks>
public static class LinearLight
{
    /// <summary>The level of white; black is 0.</summary>
    public const int White = 65535;

    private static readonly ushort[] Levels = MakeLevels();

    /// <summary>The level of one channel, to the nearest of 65536.</summary>
    public static int LevelOf(byte channel) => Levels[channel];

    /// <summary>The grey of a colour: its relative luminance from 0 to <see cref="White"/>, to the nearest level.</summary>
    public static int GreyOf(byte red, byte green, byte blue) =>
        ((2126 * Levels[red]) + (7152 * Levels[green]) + (722 * Levels[blue]) + 5000) / 10_000;

    private static ushort[] MakeLevels()
    {
        var levels = new ushort[256];
        for (var value = 0; value < 256; value++)
        {
            levels[value] = value * 100_000 <= 4045 * 255 ? Nearest((BigInteger)value * White * 100, 255 * 1292) : Power(value);
        }

        return levels;
    }

    // ((v / 255 + 0.055) / 1.055) = (1000 v + 14025) / 269025; its power 12/5 is the fifth root of its power 12. The level is the largest
    // whole number L with (2 L - 1) / (2 White) not above it, that is (2 L - 1)^5 * 269025^12 <= (1000 v + 14025)^12 * (2 White)^5.
    private static ushort Power(int value)
    {
        var right = BigInteger.Pow((1000 * value) + 14_025, 12) * BigInteger.Pow(2 * White, 5);
        var unit = BigInteger.Pow(269_025, 12);
        var (low, high) = (0, White);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            (low, high) = BigInteger.Pow((2 * middle) - 1, 5) * unit <= right ? (middle, high) : (low, middle - 1);
        }

        return (ushort)low;
    }

    private static ushort Nearest(BigInteger numerator, int denominator) => (ushort)(((2 * numerator) + denominator) / (2 * denominator));
}
