using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>How a drawing is brought onto a page: as it is, turned a quarter, or, where it is larger than the page, smaller.</summary>
/// <remarks>
/// A drawing that is too large is not spread over several pages: a page put together from sheets that a printer fed is no longer true,
/// and the sizes are written on it. It says instead how much smaller it is.
/// </remarks>
/// <param name="IsTurned">Whether it is turned a quarter, to be read from the right.</param>
/// <param name="Scale">How large it is; 1 for its true size.</param>
internal readonly record struct FigureFit(bool IsTurned, Rational Scale)
{
    private static readonly Rational[] Scales = [Rational.One, Rational.From(3, 4), Rational.From(1, 2), Rational.From(1, 3), Rational.From(1, 4)];

    /// <summary>Whether it has its true size.</summary>
    public bool IsTrue => Scale == Rational.One;

    /// <summary>The largest way that fits, upright rather than turned.</summary>
    /// <param name="width">Its width.</param>
    /// <param name="height">Its height.</param>
    /// <param name="roomAcross">The width of the room.</param>
    /// <param name="roomDown">The height of the room.</param>
    /// <param name="mayTurn">Whether it may be turned; a picture is rather made smaller.</param>
    public static FigureFit Choose(Position width, Position height, Position roomAcross, Position roomDown, bool mayTurn)
    {
        foreach (var scale in Scales)
        {
            if (Fits(width, height, scale))
            {
                return new(false, scale);
            }

            if (mayTurn && Fits(height, width, scale))
            {
                return new(true, scale);
            }
        }

        // Smaller than a quarter by whole steps: 1/5, 1/6 and so on.
        for (var part = 5L; ; part++)
        {
            if (Fits(width, height, Rational.From(1, part)))
            {
                return new(false, Rational.From(1, part));
            }
        }

        bool Fits(Position across, Position down, Rational scale) => across * scale <= roomAcross && down * scale <= roomDown;
    }

    /// <summary>A caption with the longest of what may be said of the size, for finding the room it needs.</summary>
    public static string LongestWords(string caption) => $"{caption} {new FigureFit(true, Rational.From(3, 4)).Words}";

    /// <summary>What is to be said of the size of a drawing.</summary>
    public string Words => IsTrue ? "True to size." : $"Too large for the page: drawn at {ScaleWords} its size, so do not measure on it.";

    private string ScaleWords => Scale.Denominator == 2 ? "half" : Scale.Numerator == 3 ? "three quarters of"
        : Scale.Denominator == 3 ? "a third of" : Scale.Denominator == 4 ? "a quarter of" : $"1/{Scale.Denominator} of";
}
