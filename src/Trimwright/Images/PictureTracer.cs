using Trimwright.Diagnostics;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Images;

/// <summary>The result of tracing: an outline, or why there is none; warnings in either case.</summary>
/// <param name="Outline">The outline, or null after an error.</param>
/// <param name="Diagnostics">Errors and warnings.</param>
public sealed record PictureTracing(PictureOutline? Outline, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>Traces the edge of a picture: where its alpha passes a half, or where it stands out from a plain ground.</summary>
public static class PictureTracer
{
    /// <summary>
    /// The most pixels along a side that are traced; a larger picture is made smaller first. On a card 5 in wide that is 600 a inch.
    /// </summary>
    public const int MostTracedSide = 3000;

    /// <summary>Parts and holes smaller than this many thousandths of the largest part are specks and left out.</summary>
    public const int SpeckThousandths = 1;

    // Nor is anything smaller than 4 x 4 pixels a part: a pair of scissors could not follow it.
    private const long LeastPixels = 16;

    /// <summary>Traces a picture.</summary>
    /// <param name="name">The file as the maker named it.</param>
    /// <param name="picture">The picture.</param>
    /// <param name="options">How to cut it out.</param>
    /// <param name="place">Where a layout names it; diagnostics point there.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tolerance is negative or more than 16 pixels.</exception>
    public static PictureTracing Trace(string name, Picture picture, TraceOptions options, SourcePlace place)
    {
        if (options.Tolerance < Rational.Zero || options.Tolerance > 16)
        {
            throw new ArgumentOutOfRangeException(nameof(options), options.Tolerance, "the tolerance is at most 16 pixels");
        }

        var traced = PictureShrinking.ToAtMost(picture, MostTracedSide);
        if (Coverage.Of(traced, options) is not { } coverage)
        {
            return new(null, [PictureMessages.GroundNotPlain(name, place)]);
        }

        var loops = WithoutSpecks(new ContourTracer(coverage, traced.Width, traced.Height).Trace());
        if (loops.Count == 0)
        {
            return new(null, [PictureMessages.NothingLeft(name, place)]);
        }

        var tolerance = (int)(options.Tolerance * ContourTracer.Unit).Floor();
        var parts = Nested(loops).ConvertAll(part => Simplified(part, tolerance));
        var box = PixelBox.Around(parts.SelectMany(part => part[0]));
        var outline = new PictureOutline(parts, box, (traced.Width, traced.Height), tolerance, VisualMass.Of(traced, coverage, box));
        return new(outline, parts.Count > 1 ? [PictureMessages.SeveralParts(name, parts.Count, place)] : []);
    }

    private sealed record Loop(GridPoint[] Points, long TwiceArea, PixelBox Box);

    private static List<Loop> WithoutSpecks(List<GridPoint[]> traced)
    {
        var loops = traced.ConvertAll(points => new Loop(points, TwiceArea(points), PixelBox.Around(points)));
        var largest = loops.Count == 0 ? 0 : loops.Max(loop => loop.TwiceArea);
        var least = Math.Max(2 * LeastPixels * ContourTracer.Unit * ContourTracer.Unit, largest / 1000 * SpeckThousandths);
        return loops.FindAll(loop => Math.Abs(loop.TwiceArea) >= least);
    }

    // Outer lines run clockwise and have a positive area here, holes a negative one. A hole belongs to the smallest outer line around it.
    private static List<List<GridPoint[]>> Nested(List<Loop> loops)
    {
        var outer = loops.FindAll(loop => loop.TwiceArea > 0);
        outer.Sort((a, b) => b.TwiceArea.CompareTo(a.TwiceArea) is var byArea and not 0 ? byArea
            : a.Box.Top != b.Box.Top ? a.Box.Top.CompareTo(b.Box.Top) : a.Box.Left.CompareTo(b.Box.Left));
        var parts = outer.ConvertAll(loop => new List<GridPoint[]> { loop.Points });
        foreach (var hole in loops.Where(loop => loop.TwiceArea < 0))
        {
            var around = outer.FindLastIndex(loop => Surrounds(loop, hole.Points[0]));
            if (around >= 0)
            {
                parts[around].Add(hole.Points);
            }
        }

        return parts;
    }

    // Fewer corners may make a thin part touch itself; then a finer tolerance is taken, down to every corner, which cannot.
    private static IReadOnlyList<GridPoint[]> Simplified(List<GridPoint[]> part, int tolerance)
    {
        while (true)
        {
            var simple = part.ConvertAll(loop => ContourSimplifier.Simplify(loop, tolerance));
            if (tolerance == 0 || (simple[0].Length > 2
                && PolygonLibrary.IsSimple(simple.Where(loop => loop.Length > 2).Select(loop => Array.ConvertAll(loop, point => ((long)point.X, (long)point.Y))))))
            {
                return simple.FindAll(loop => loop.Length > 2);
            }

            tolerance /= 2;
        }
    }

    private static bool Surrounds(Loop loop, GridPoint point)
    {
        if (point.X <= loop.Box.Left || point.X >= loop.Box.Right || point.Y <= loop.Box.Top || point.Y >= loop.Box.Bottom)
        {
            return false;
        }

        var inside = false;
        var before = loop.Points[^1];
        foreach (var here in loop.Points)
        {
            if ((here.Y > point.Y) != (before.Y > point.Y))
            {
                // Left of the edge, without a division: the sign of the cross product, turned by the way the edge goes.
                var cross = ((long)(here.X - before.X) * (point.Y - before.Y)) - ((long)(here.Y - before.Y) * (point.X - before.X));
                inside ^= here.Y > before.Y ? cross > 0 : cross < 0;
            }

            before = here;
        }

        return inside;
    }

    private static long TwiceArea(GridPoint[] points)
    {
        var sum = 0L;
        var before = points[^1];
        foreach (var here in points)
        {
            sum += ((long)before.X * here.Y) - ((long)here.X * before.Y);
            before = here;
        }

        return sum;
    }
}
