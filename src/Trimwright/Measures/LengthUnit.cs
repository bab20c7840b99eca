namespace Trimwright.Measures;

/// <summary>The unit a maker writes and reads lengths in.</summary>
public enum LengthUnit
{
    /// <summary>The international inch, exactly 25.4 mm.</summary>
    Inch,

    /// <summary>The millimetre.</summary>
    Millimetre,
}
