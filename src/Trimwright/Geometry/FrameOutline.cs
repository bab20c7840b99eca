namespace Trimwright.Geometry;

/// <summary>The outline of a frame: a rectangle with a rectangular window.</summary>
public static class FrameOutline
{
    /// <summary>Makes the outline; the window is its second contour.</summary>
    /// <param name="outer">The box of the frame.</param>
    /// <param name="window">The box of the window.</param>
    /// <exception cref="ArgumentException">The window does not lie inside the frame.</exception>
    public static Outline Build(Box outer, Box window) =>
        window.Left > outer.Left && window.Right < outer.Right && window.Top > outer.Top && window.Bottom < outer.Bottom
            && window.Left < window.Right && window.Top < window.Bottom
            ? new([Outline.Rectangle(outer), Outline.Rectangle(window)])
            : throw new ArgumentException("the window must lie inside the frame", nameof(window));
}
