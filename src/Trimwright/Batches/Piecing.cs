using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Panels of one kind that are pieced from two strips of one paper.</summary>
/// <param name="Card">The cards.</param>
/// <param name="Panel">The panel.</param>
/// <param name="First">The left or upper strip.</param>
/// <param name="Second">The right or lower strip.</param>
/// <param name="Seam">Where they meet.</param>
/// <param name="Count">How many are pieced; the others are whole.</param>
public sealed record PiecedPanel(BatchCard Card, BatchPart Panel, BatchPart First, BatchPart Second, PanelSeam Seam, long Count);

/// <summary>
/// Finds which panels of a batch may be pieced, and adds their strips to the parts of their cards. Strips lie as the panel lies, so that its
/// pattern goes on across the seam.
/// </summary>
internal static class Piecing
{
    /// <summary>The batch with the strips of every panel that may be pieced; none of them is pieced yet.</summary>
    public static (FittedBatch Batch, IReadOnlyList<PiecedPanel> Panels) Prepare(FittedBatch fitted)
    {
        if (!fitted.Batch.MayPiece)
        {
            return (fitted, []);
        }

        var panels = new List<PiecedPanel>();
        var cards = new List<BatchCard>();
        foreach (var card in fitted.Cards)
        {
            var found = card.Parts.Select(part => Find(fitted, card, part)).OfType<PiecedPanel>().ToList();
            var whole = card with { Parts = [.. card.Parts, .. found.SelectMany(panel => new[] { panel.First, panel.Second })] };
            cards.Add(whole);
            panels.AddRange(found.Select(panel => panel with { Card = whole }));
        }

        return (fitted with { Cards = cards }, panels);
    }

    /// <summary>The panel on the card that a part is, if it is one that may be pieced at all.</summary>
    public static FittedPiece? PanelOf(BatchCard card, BatchPart part) =>
        part.Line is { Shape: "panel", Mat: 0, Count: 1, Cut: CutWay.Trimmer } && card.Card.Pieces.FirstOrDefault(piece => piece.Name == part.Line.Piece) is { } panel
        && panel.Source.Tilt == default
            ? panel
            : null;

    private static PiecedPanel? Find(FittedBatch fitted, BatchCard card, BatchPart part)
    {
        if (PanelOf(card, part) is not { } panel)
        {
            return null;
        }

        // Both strips from one paper: the first that the maker named of those that have sheets for them.
        foreach (var paper in part.Sources.OrderBy(source => source.Preference).Select(source => source.Paper).Distinct())
        {
            var sources = part.Sources.Where(source => source.Paper == paper).ToList();
            foreach (var seam in SeamFinder.Find(card.Card, panel, fitted.Batch.SeamOverlap))
            {
                if (Fits(fitted, seam.First, sources) && Fits(fitted, seam.Second, sources))
                {
                    var names = seam.Direction == Axis.UpDown ? ("left", "right") : ("upper", "lower");
                    return new(card, part, Strip(part, names.Item1, seam.First, sources), Strip(part, names.Item2, seam.Second, sources), seam, 0);
                }
            }
        }

        return null;
    }

    private static BatchPart Strip(BatchPart panel, string which, (Length Width, Length Height) size, IReadOnlyList<PartSource> sources) => new(
        panel.Line with { Name = $"{which} strip of {panel.Line.Name}", Width = size.Width, Height = size.Height, Blank = null },
        size.Width, size.Height, sources);

    private static bool Fits(FittedBatch fitted, (Length Width, Length Height) size, List<PartSource> sources) =>
        Length.Min(size.Width, size.Height) >= fitted.Drawer.SmallestPiece && sources.Exists(source =>
        {
            var sheet = fitted.Batch.Stock[source.Sheet];
            var (width, height) = (sheet.Width - (2 * sheet.TrueOff), sheet.Height - (2 * sheet.TrueOff));
            return (source.Upright && size.Width <= width && size.Height <= height) || (source.Turned && size.Height <= width && size.Width <= height);
        });
}
