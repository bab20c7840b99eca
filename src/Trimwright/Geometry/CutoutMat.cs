using Trimwright.Measures;

namespace Trimwright.Geometry;

/// <summary>How a border around a cut-out picture is smoothed for a pair of scissors.</summary>
/// <param name="Closing">
/// Notches that a circle of this radius does not fit into are filled; their bottoms are rounded by it. Zero leaves every notch.
/// </param>
/// <param name="MostBeyond">How much wider than its reveal the border may become in a filled notch.</param>
public sealed record ScissorSmoothing(Length Closing, Length MostBeyond)
{
    /// <summary>A circle of 1/8 in radius, and at most 1/8 in more: common practice, no source.</summary>
    public static ScissorSmoothing Default { get; } = new(Length.FromInches(1, 8), Length.FromInches(1, 8));
}

/// <summary>A border of paper around a picture that is cut out along its edge.</summary>
/// <param name="Outlines">The outlines, the largest first; several only where the parts of the picture lie too far apart to be joined.</param>
/// <param name="Widest">
/// How wide the border becomes where a notch was filled, measured at the corners of the border; its reveal where none was.
/// </param>
public sealed record CutoutMat(IReadOnlyList<Outline> Outlines, Length Widest)
{
    /// <summary>How far, at most, the outline lies from the one that was asked for: the chords of its roundings, and whole micrometres.</summary>
    public static Length Tolerance { get; } = Length.FromNanometres(6_000);

    /// <summary>
    /// Makes the border: every point within the reveal of the picture, so that corners are rounded, with narrow notches filled. Holes in
    /// the picture are backed by it, and so is what the border encloses.
    /// </summary>
    /// <param name="parts">The outlines of the parts of the picture, of straight edges.</param>
    /// <param name="reveal">The width of the border; more than nothing.</param>
    /// <param name="smoothing">How it is smoothed.</param>
    /// <exception cref="ArgumentException">There is no part, or one that is not of straight edges.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The reveal is not positive, or a measure of the smoothing is negative.</exception>
    public static CutoutMat Around(IReadOnlyList<Outline> parts, Length reveal, ScissorSmoothing smoothing)
    {
        if (reveal <= Length.Zero)
        {
            throw new ArgumentOutOfRangeException(nameof(reveal), reveal, "a border is wider than nothing");
        }

        if (smoothing.Closing < Length.Zero || smoothing.MostBeyond < Length.Zero)
        {
            throw new ArgumentOutOfRangeException(nameof(smoothing), smoothing, "a smoothing is not negative");
        }

        if (parts.Count == 0 || parts.Any(part => part.Contours[0] is not PolygonContour))
        {
            throw new ArgumentException("a border is made around outlines of straight edges", nameof(parts));
        }

        var (contours, widest) = PolygonLibrary.GrowRounded(
            parts.Select(part => (PolygonContour)part.Contours[0]), reveal, smoothing.Closing, smoothing.MostBeyond);
        return new([.. contours.Select(contour => new Outline([contour]))], widest);
    }
}
