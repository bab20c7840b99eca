using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>Where two strips of one paper meet to make a panel.</summary>
/// <param name="Panel">The panel on the card.</param>
/// <param name="Direction">Which way the seam runs.</param>
/// <param name="At">From the left (top) edge of the panel to the seam: the size of the first strip. On the trimmer's scale.</param>
/// <param name="Cover">The piece that hides it.</param>
/// <param name="CoverBox">What of the card the cover hides, its mats included.</param>
/// <param name="Overlap">How far the cover reaches beyond the seam, on the side where it reaches less.</param>
public sealed record PanelSeam(FittedPiece Panel, Axis Direction, Length At, FittedPiece Cover, Box CoverBox, Position Overlap)
{
    /// <summary>Width and height of the first strip: the left one, or the upper one.</summary>
    public (Length Width, Length Height) First => Direction == Axis.UpDown ? (At, Panel.Height) : (Panel.Width, At);

    /// <summary>Width and height of the second strip.</summary>
    public (Length Width, Length Height) Second => Direction == Axis.UpDown ? (Panel.Width - At, Panel.Height) : (Panel.Width, Panel.Height - At);
}

/// <summary>Finds where a panel may be pieced: under a piece that goes across it from edge to edge and reaches far enough on both sides.</summary>
internal static class SeamFinder
{
    /// <summary>All the seams of a panel, those in the middle of what covers them first, and covers in the order of the layout.</summary>
    /// <param name="card">The card.</param>
    /// <param name="panel">The panel.</param>
    /// <param name="overlap">How far a cover must reach beyond the seam on both sides.</param>
    public static IEnumerable<PanelSeam> Find(FittedCard card, FittedPiece panel, Length overlap)
    {
        foreach (var (cover, box) in Covers(card, panel))
        {
            foreach (var direction in (Axis[])[Axis.UpDown, Axis.Across])
            {
                foreach (var seam in Under(card, panel, overlap, cover, box, direction))
                {
                    yield return seam;
                }
            }
        }
    }

    /// <summary>The widest piece that goes across the panel from edge to edge, with its width across the seam; null if none does.</summary>
    public static (FittedPiece Cover, Length Width)? Widest(FittedCard card, FittedPiece panel) => Covers(card, panel)
        .SelectMany(entry => new[] { Axis.UpDown, Axis.Across }
            .Where(direction => Spans(entry.Box, panel.Box, direction))
            .Select(direction => (entry.Cover, Width: (direction == Axis.UpDown ? entry.Box.Width : entry.Box.Height).ToNearestNanometre())))
        .OrderByDescending(entry => entry.Width).Select(entry => ((FittedPiece, Length)?)entry).FirstOrDefault();

    private static IEnumerable<(FittedPiece Cover, Box Box)> Covers(FittedCard card, FittedPiece panel) =>
        card.Pieces.SkipWhile(piece => !ReferenceEquals(piece, panel)).Skip(1)
            .Where(piece => piece.Source.Tilt == default && piece.Source.Kind is PieceKind.Panel or PieceKind.Strip or PieceKind.Square or PieceKind.Label)
            .Select(piece => (piece, piece.Mats.Count == 0 ? piece.Box : piece.Mats[^1].Box));

    private static IEnumerable<PanelSeam> Under(FittedCard card, FittedPiece panel, Length overlap, FittedPiece cover, Box box, Axis direction)
    {
        if (!Spans(box, panel.Box, direction))
        {
            return [];
        }

        var (near, far, start, size) = direction == Axis.UpDown
            ? (box.Left, box.Right, panel.Box.Left, panel.Width)
            : (box.Top, box.Bottom, panel.Box.Top, panel.Height);
        var seams = new List<PanelSeam>();
        for (var at = card.Increment; at < size; at += card.Increment)
        {
            var (before, after) = (start + at - near, far - (start + at));
            var reach = before < after ? before : after;
            if (reach >= Position.FromLength(overlap))
            {
                seams.Add(new(panel, direction, at, cover, box, reach));
            }
        }

        // In the middle of the cover it reaches equally far on both sides.
        return seams.OrderByDescending(seam => seam.Overlap);
    }

    private static bool Spans(Box cover, Box panel, Axis direction) => direction == Axis.UpDown
        ? cover.Top <= panel.Top && cover.Bottom >= panel.Bottom && cover.Left < panel.Right && cover.Right > panel.Left
        : cover.Left <= panel.Left && cover.Right >= panel.Right && cover.Top < panel.Bottom && cover.Bottom > panel.Top;
}
