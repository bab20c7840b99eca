using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>Where two strips of one paper meet to make a panel.</summary>
/// <param name="Direction">Which way the seam runs.</param>
/// <param name="At">From the left (top) edge of the panel to the seam. On the trimmer's scale.</param>
/// <param name="Covers">
/// The pieces that hide it: one that hides all of it, or several that take turns and lap over one another by at least the overlap.
/// </param>
/// <param name="Overlap">
/// How far the covers reach beyond the seam on both sides, along the whole of it; at least the overlap asked for. Rounded down to half a step of
/// the trimmer, unless that is less than was asked for.
/// </param>
public sealed record PanelSeam(Axis Direction, Length At, IReadOnlyList<FittedPiece> Covers, Length Overlap);

/// <summary>
/// What hides the seams of a panel that run one way. A place of a seam is hidden where one piece, mats included, lies over it and reaches far enough
/// beyond it on both sides, straight across; pieces may take turns along the seam if they lap. Exact: rectangles and other straight outlines by
/// fractions, ellipses and tilted pieces rounded to what is hidden for certain, by a nanometre at most.
/// </summary>
internal sealed class SeamCovers
{
    private readonly List<(FittedPiece Piece, FlatShape Shape)> _shapes;
    private readonly FittedPiece _panel;
    private readonly Length _overlap;
    private readonly Length _step;
    private readonly Axis _direction;
    private readonly Length _size;
    private readonly Rational _start;
    private readonly Rational _from;
    private readonly Rational _to;

    public SeamCovers(FittedCard card, FittedPiece panel, Axis direction, Length overlap)
    {
        (_panel, _direction, _overlap, _step) = (panel, direction, overlap, card.Increment);
        var upright = direction == Axis.UpDown;
        _size = upright ? panel.Width : panel.Height;
        _start = (upright ? panel.Box.Left : panel.Box.Top).Nanometres;
        (_from, _to) = upright ? (panel.Box.Top.Nanometres, panel.Box.Bottom.Nanometres) : (panel.Box.Left.Nanometres, panel.Box.Right.Nanometres);

        // A picture cut out with scissors is smaller than its box, and nobody knows where.
        _shapes =
        [
            .. card.Pieces.SkipWhile(piece => !ReferenceEquals(piece, panel)).Skip(1)
                .Where(piece => piece.Source.Kind != PieceKind.Image || piece.Source.Cut == CutWay.Trimmer)
                .SelectMany(piece => piece.Mats.Select(mat => mat.Outline).Prepend(piece.Outline)
                    .Select(outline => (piece, FlatShape.Of(outline, piece.Source.Tilt, piece.Box.Centre, direction)))),
        ];
    }

    /// <summary>The places for a seam, from the left (top) edge on.</summary>
    public IEnumerable<PanelSeam> All()
    {
        for (var at = _step; at < _size; at += _step)
        {
            if (Under(at) is { } seam)
            {
                yield return seam;
            }
        }
    }

    /// <summary>The seam at a place; null where it would show.</summary>
    public PanelSeam? Under(Length at)
    {
        // The cover lies on both strips, so neither is narrower than the overlap.
        if (at < _overlap || _size - at < _overlap || Hide(at, Whole(_overlap)) is null)
        {
            return null;
        }

        // The further a cover has to reach the less it hides, so halving finds the most.
        var half = Rational.From(_step.Nanometres, 2);
        var (low, high) = ((long)(Whole(_overlap) / half).Floor(), (2 * (_size.Nanometres / _step.Nanometres)) + 2);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = Hide(at, half * middle) is null ? (low, middle) : (middle, high);
        }

        var reach = Rational.FromWhole((long)(half * low).Floor());
        reach = reach < Whole(_overlap) ? Whole(_overlap) : reach;
        return new(_direction, at, Hide(at, reach)!, Length.FromNanometres((long)reach.Numerator));
    }

    /// <summary>
    /// The widest upright rectangle that goes along the whole seam, with its middle between two places of the panel, measured across the seam; null if
    /// none does.
    /// </summary>
    public (FittedPiece Cover, Length Width)? Widest(Length near, Length far)
    {
        (FittedPiece, Length)? widest = null;
        foreach (var (piece, shape) in _shapes)
        {
            if (shape.Along(_from, _to) is var (left, right) && (left + right) / 2 is var middle && middle >= _start + Whole(near) && middle <= _start + Whole(far)
                && Length.FromNanometres((long)(right - left).Floor()) is var width && (widest is null || width > widest.Value.Item2))
            {
                widest = (piece, width);
            }
        }

        return widest;
    }

    /// <summary>The fewest pieces that hide the band of that reach around a seam; null if they do not.</summary>
    private List<FittedPiece>? Hide(Length at, Rational reach)
    {
        var middle = _start + Whole(at);
        var hidden = _shapes.SelectMany(entry => entry.Shape.Across(middle - reach, middle + reach).Select(part => (entry.Piece, part.From, part.To))).ToList();
        var covers = new List<FittedPiece>();
        for (var (reached, lap) = (_from, Rational.Zero); reached < _to; lap = Whole(_overlap))
        {
            (FittedPiece Piece, Rational To)? best = null;
            foreach (var (piece, from, to) in hidden)
            {
                if (from <= reached - lap && to > reached && (best is null || to > best.Value.To))
                {
                    best = (piece, to);
                }
            }

            if (best is not var (next, end))
            {
                return null;
            }

            covers.Add(next);
            reached = end;
        }

        return [.. covers.Distinct()];
    }

    private static Rational Whole(Length length) => Rational.FromWhole(length.Nanometres);
}
