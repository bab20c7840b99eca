using Trimwright.Measures;

namespace Trimwright.Images;

/// <summary>How a picture is cut out.</summary>
public sealed record TraceOptions
{
    /// <summary>Half a pixel off at most, and no holes where the ground is a plain one.</summary>
    public static TraceOptions Default { get; } = new();

    /// <summary>
    /// How far, in pixels of the traced picture, the outline may lie from the edge that was traced; from nothing to 16.
    /// </summary>
    public Rational Tolerance { get; init; } = Rational.From(1, 2);

    /// <summary>
    /// How much a channel (0 to 255) may differ from a plain ground and still belong to it. JPEG blurs edges: common practice, no source.
    /// </summary>
    public int GroundTolerance { get; init; } = 24;

    /// <summary>
    /// Whether parts of a plain ground that the picture encloses are holes. Without it they stay, since the white of an eye is no hole.
    /// A clear ground (alpha) always makes holes.
    /// </summary>
    public bool EnclosedGroundIsHole { get; init; }
}
