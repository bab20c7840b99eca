using System.Numerics;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>Weighs a grey picture by the published measures of balance.</summary>
/// <remarks>
/// Every cell of the raster counts as evenly grey all over, and areas that cut through cells get their exact share, so the result is
/// that of the picture the cells show, to the last digit; only k = 1 - 1/sqrt 2 is taken to within 2^-25.
/// </remarks>
public static class Weighing
{
    /// <summary>
    /// Whether more of it is lighter or darker than the middle grey (byte 128 of 255 in sRGB, which is 21.6 % of the light of white). As
    /// the toolbox of the authors does it: a light ground where at most half of the cells are darker.
    /// </summary>
    public static GroundTone GroundOf(GreyRaster raster)
    {
        var middle = (long)LinearLight.LevelOf(128) * raster.White;
        var darker = 0;
        foreach (var level in raster.Levels)
        {
            darker += (long)level * LinearLight.White < middle ? 1 : 0;
        }

        return 2 * darker <= raster.Levels.Length ? GroundTone.Light : GroundTone.Dark;
    }

    /// <summary>The weight of a raster against its own ground; null where it is all ground and has no centre.</summary>
    public static VisualWeight? Of(GreyRaster raster) => Of(raster, GroundOf(raster));

    /// <summary>The weight of a raster; null where nothing has weight, since nothing has no centre.</summary>
    public static VisualWeight? Of(GreyRaster raster, GroundTone ground)
    {
        var columns = new long[raster.Width];
        var rows = new long[raster.Height];
        var diagonals = new DiagonalSums(raster.Width, raster.Height);
        var masses = new long[raster.Width];
        var levels = raster.Levels;
        for (var y = 0; y < raster.Height; y++)
        {
            var row = levels.Slice(y * raster.Width, raster.Width);
            var sum = 0L;
            for (var x = 0; x < row.Length; x++)
            {
                long mass = ground == GroundTone.Light ? raster.White - row[x] : row[x];
                masses[x] = mass;
                columns[x] += mass;
                sum += mass;
            }

            rows[y] = sum;
            diagonals.Add(y, masses);
        }

        var total = rows.Sum();
        if (total == 0)
        {
            return null;
        }

        var (halfX, quarterX, threeX) = Cuts(columns);
        var (halfY, quarterY, threeY) = Cuts(rows);
        return new()
        {
            Ground = ground,
            Heaviness = Rational.From(total, (long)raster.White * levels.Length),
            CentreX = Centre(columns, total),
            CentreY = Centre(rows, total),
            Terms = new(
                Difference(halfX, total),
                Difference(threeX - quarterX, total),
                Difference(halfY, total),
                Difference(threeY - quarterY, total),
                Difference(diagonals.Falling, total),
                Difference(diagonals.FallingBand, total),
                Difference(diagonals.Rising, total),
                Difference(diagonals.RisingBand, total)),
        };
    }

    // The part and the rest differ by |2 part - total|.
    private static Rational Difference(Rational part, long total) => ((2 * part) - total).Abs() * 100 / total;

    private static Rational Centre(long[] sums, long total)
    {
        Int128 moment = 0;
        for (var i = 0; i < sums.Length; i++)
        {
            moment += (Int128)sums[i] * ((2 * i) + 1);
        }

        return Rational.From((BigInteger)moment, (BigInteger)total * 2 * sums.Length);
    }

    private static (Rational Half, Rational Quarter, Rational ThreeQuarters) Cuts(long[] sums) => (Before(sums, 2), Before(sums, 1), Before(sums, 3));

    // The sum before so many quarters of the way.
    private static Rational Before(long[] sums, int quarters)
    {
        var (whole, rest) = Math.DivRem(sums.Length * quarters, 4);
        return Rational.FromWhole(sums.AsSpan(0, whole).ToArray().Sum()) + (rest == 0 ? Rational.Zero : Rational.From(sums[whole] * rest, 4));
    }
}
