using Trimwright.Measures;

namespace Trimwright.Images;

/// <summary>How heavy a picture looks, and where: dark is heavy, white weighs nothing, and so does its ground.</summary>
/// <param name="Darkness">The mean over what is cut out, from 0 (white) to 1 (black), in linear light.</param>
/// <param name="CentreX">The centre of weight across, from 0 (left edge of its box) to 1 (right edge).</param>
/// <param name="CentreY">The centre of weight down, from 0 (top edge of its box) to 1 (bottom edge).</param>
public sealed record VisualMass(Rational Darkness, Rational CentreX, Rational CentreY)
{
    /// <summary>Weighs the pixels by darkness and coverage. An all-white picture has its weight in the middle of its box.</summary>
    internal static VisualMass Of(Picture picture, byte[] coverage, PixelBox box)
    {
        Int128 mass = 0, across = 0, down = 0, covered = 0;
        for (var y = 0; y < picture.Height; y++)
        {
            var row = picture.Rgba.Slice(4 * y * picture.Width, 4 * picture.Width);
            long rowMass = 0, rowAcross = 0, rowCovered = 0;
            for (var x = 0; x < picture.Width; x++)
            {
                int weight = coverage[(y * picture.Width) + x];
                if (weight == 0)
                {
                    continue;
                }

                var at = 4 * x;
                var own = (long)weight * (LinearLight.White - LinearLight.GreyOf(row[at], row[at + 1], row[at + 2]));
                rowMass += own;
                rowAcross += own * ((2 * x) + 1);
                rowCovered += weight;
            }

            mass += rowMass;
            across += rowAcross;
            down += (Int128)rowMass * ((2 * y) + 1);
            covered += rowCovered;
        }

        if (mass == 0)
        {
            return new(Rational.Zero, Rational.From(1, 2), Rational.From(1, 2));
        }

        // Pixel centres are at halves: twice the place over twice the mass, in 256ths of a pixel like the box.
        var half = ContourTracer.Unit / 2;
        var x0 = Rational.From(across * half, mass);
        var y0 = Rational.From(down * half, mass);
        return new(
            Rational.From(mass, covered * LinearLight.White),
            (x0 - box.Left) / (box.Right - box.Left),
            (y0 - box.Top) / (box.Bottom - box.Top));
    }
}
