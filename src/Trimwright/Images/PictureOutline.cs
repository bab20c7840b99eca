using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Images;

/// <summary>A picture cut out along its edge: its outline at any size, its aspect and its visual mass.</summary>
public sealed class PictureOutline
{
    private readonly IReadOnlyList<IReadOnlyList<GridPoint[]>> _parts;
    private readonly PixelBox _box;
    private readonly (int Width, int Height) _traced;
    private readonly int _tolerance;

    internal PictureOutline(
        IReadOnlyList<IReadOnlyList<GridPoint[]>> parts, PixelBox box, (int Width, int Height) traced, int tolerance, VisualMass mass)
    {
        (_parts, _box, _traced, _tolerance, Mass) = (parts, box, traced, tolerance, mass);
    }

    /// <summary>Into how many parts the picture falls.</summary>
    public int Parts => _parts.Count;

    /// <summary>How many corners the outline has in all.</summary>
    public int Corners => _parts.Sum(part => part.Sum(loop => loop.Length));

    /// <summary>The width of the box around the outline, divided by its height.</summary>
    public Rational Aspect => Rational.From(_box.Width, _box.Height);

    /// <summary>How heavy it looks, and where.</summary>
    public VisualMass Mass { get; }

    /// <summary>The height that keeps the aspect at a width, to the nearest nanometre, halves up.</summary>
    public Length HeightAt(Length width) => new Position(width.Nanometres / Aspect).ToNearestNanometre();

    /// <summary>How far, at most, the outline lies from the edge that was traced when it is that wide.</summary>
    public Position ToleranceAt(Length width) => new(Rational.From(_tolerance, _box.Width) * width.Nanometres);

    /// <summary>
    /// The outline stretched over a box, a part each, the largest first; holes follow the outer contour of their part. The furthest
    /// corners lie on the box exactly, the others on the nearest nanometre.
    /// </summary>
    /// <exception cref="ArgumentException">The box has no area.</exception>
    public IReadOnlyList<Outline> In(Box box)
    {
        if (box.Width <= default(Position) || box.Height <= default(Position))
        {
            throw new ArgumentException("an outline needs a box with an area", nameof(box));
        }

        return [.. _parts.Select(part => new Outline([.. part.Select(loop =>
            new PolygonContour([.. loop.Select(point => new Point(
                Place(point.X, _box.Left, _box.Right, box.Left, box.Right),
                Place(point.Y, _box.Top, _box.Bottom, box.Top, box.Bottom)))]))]))];
    }

    /// <summary>The box that the whole picture, ground and all, takes when its outline fills a box.</summary>
    public Box PictureBoxFor(Box box)
    {
        var (across, down) = (box.Width * Rational.From(1, _box.Width), box.Height * Rational.From(1, _box.Height));
        var (left, top) = (box.Left - (across * _box.Left), box.Top - (down * _box.Top));
        return new(
            left, top, left + (across * ((long)_traced.Width * ContourTracer.Unit)), top + (down * ((long)_traced.Height * ContourTracer.Unit)));
    }

    private static Position Place(int at, int from, int to, Position start, Position end) =>
        at == from ? start
        : at == to ? end
        : Position.FromLength((start + ((end - start) * Rational.From(at - from, to - from))).ToNearestNanometre());
}
