using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>
/// A circle as 256 chords, so little larger than the circle that it has its area: on a raster of 256 cells no chord lies a hundredth of
/// a cell off.
/// </summary>
internal static class UnitCircle
{
    /// <summary>What the radius 1 is in the numbers below.</summary>
    public const long One = 1 << 30;

    private const int Chords = 256;

    // sqrt(a / sin a) with a = 2 pi / 256.
    private static readonly Rational EqualArea = Rational.From(10_000_502_017, 10_000_000_000);

    /// <summary>The corners, clockwise with y downwards, symmetrical about both axes.</summary>
    public static IReadOnlyList<(long X, long Y)> Corners { get; } = Make();

    private static (long X, long Y)[] Make()
    {
        var corners = new (long X, long Y)[Chords];
        for (var i = 0; i < Chords / 4; i++)
        {
            var angle = new Angle(Rational.From(360 * ((2 * i) + 1), 2 * Chords));
            var (x, y) = (Scaled(angle.Cos()), Scaled(angle.Sin()));
            corners[i] = (x, y);
            corners[(Chords / 2) - 1 - i] = (-x, y);
            corners[(Chords / 2) + i] = (-x, -y);
            corners[Chords - 1 - i] = (x, -y);
        }

        return corners;
    }

    private static long Scaled(Rational value) => (long)((value * EqualArea * One) + Rational.From(1, 2)).Floor();
}
