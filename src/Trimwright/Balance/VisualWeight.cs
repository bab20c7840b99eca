using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>How heavy a face looks and where: the two published measures of balance and what they are made of.</summary>
public sealed record VisualWeight
{
    private static readonly BigInteger Kept = 1_000_000;

    /// <summary>What it was weighed against.</summary>
    public required GroundTone Ground { get; init; }

    /// <summary>The mean weight, from 0 (nothing but ground tone) to 1.</summary>
    public required Rational Heaviness { get; init; }

    /// <summary>The centre of weight across, from 0 (left edge) to 1 (right edge).</summary>
    public required Rational CentreX { get; init; }

    /// <summary>The centre of weight down, from 0 (top edge) to 1 (bottom edge).</summary>
    public required Rational CentreY { get; init; }

    /// <summary>The terms of the Assessment of Preference for Balance, whose mean is the published score.</summary>
    public required BalanceTerms Terms { get; init; }

    /// <summary>
    /// The deviation across in hundredths of the width, as published: 0.5 less the centre, so it is positive where the left side is heavier.
    /// </summary>
    public Rational Dx => 50 - (100 * CentreX);

    /// <summary>The deviation down in hundredths of the height, as published: positive where the top is heavier.</summary>
    public Rational Dy => 50 - (100 * CentreY);

    /// <summary>The square of <see cref="Deviation"/>, exactly.</summary>
    public Rational DeviationSquared => (Dx * Dx) + (Dy * Dy);

    /// <summary>
    /// The Deviation of the Centre of Mass, 100 d with d the root of the squares of the two deviations: from 0 to 70.7. To the nearest
    /// millionth; a root is seldom a fraction.
    /// </summary>
    /// <remarks>
    /// "Comparison of Objective Measures for Predicting Perceptual Balance and Visual Aesthetic Preference", Frontiers in Psychology 7:335,
    /// 2016. Two other scalings are in print, 200 d and d in hundredths of its largest value; this one is a distance in hundredths of the side.
    /// </remarks>
    public Rational Deviation
    {
        get
        {
            // The nearest whole number to sqrt(v) is that to sqrt(floor(4 v)) / 2, rounded half up.
            var square = (DeviationSquared * Rational.From(4 * Kept * Kept, 1)).Floor();
            return Rational.From((Root(square) + 1) / 2, Kept);
        }
    }

    /// <summary>The Assessment of Preference for Balance: the mean of the eight terms, from 0 to 100.</summary>
    public Rational Preference => Terms.Mean;

    // The whole root, rounded down, by Newton's iteration from above.
    private static BigInteger Root(BigInteger value)
    {
        if (value.IsZero)
        {
            return value;
        }

        var root = BigInteger.One << (int)((value.GetBitLength() + 1) / 2);
        while (true)
        {
            var next = (root + (value / root)) >> 1;
            if (next >= root)
            {
                return root;
            }

            root = next;
        }
    }
}
