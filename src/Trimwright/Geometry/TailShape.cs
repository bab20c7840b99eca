namespace Trimwright.Geometry;

/// <summary>How the free end of a banner is cut.</summary>
public enum TailShape
{
    /// <summary>Square.</summary>
    Straight,

    /// <summary>With a notch on the centre line.</summary>
    Fishtail,

    /// <summary>To a point on the centre line.</summary>
    Pointed,
}
