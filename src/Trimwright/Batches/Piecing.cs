using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Panels of one kind that are pieced in one way, from strips of one paper.</summary>
/// <param name="Card">The cards.</param>
/// <param name="Panel">The panel.</param>
/// <param name="Piece">The panel on the card.</param>
/// <param name="Paper">The paper in stock.</param>
/// <param name="Strips">The strips from the left (top) on; equal strips are one part that stands here more than once.</param>
/// <param name="Seams">Where they meet, from the left (top) on: one fewer.</param>
/// <param name="Count">How many are pieced so; the others are whole, or pieced in another way.</param>
public sealed record PiecedPanel(
    BatchCard Card, BatchPart Panel, FittedPiece Piece, string Paper, IReadOnlyList<BatchPart> Strips, IReadOnlyList<PanelSeam> Seams, long Count)
{
    /// <summary>Which way the seams run.</summary>
    public Axis Direction => Seams[0].Direction;
}

/// <summary>
/// Finds the ways in which the panels of a batch may be pieced, and adds their strips to the parts of their cards. Strips lie as the panel lies, so
/// that its pattern goes on across the seams.
/// </summary>
internal static class Piecing
{
    /// <summary>The batch with the strips of every way in which a panel may be pieced, and those ways, the best of each panel first; none is pieced yet.</summary>
    public static (FittedBatch Batch, IReadOnlyList<PiecedPanel> Ways) Prepare(FittedBatch fitted)
    {
        if (!fitted.Batch.MayPiece)
        {
            return (fitted, []);
        }

        var ways = new List<PiecedPanel>();
        var cards = new List<BatchCard>();
        foreach (var card in fitted.Cards)
        {
            var found = card.Parts.SelectMany(part => Ways(fitted, card, part)).ToList();
            var whole = card with { Parts = [.. card.Parts, .. found.SelectMany(way => way.Strips).Distinct<BatchPart>(ReferenceEqualityComparer.Instance)] };
            cards.Add(whole);
            ways.AddRange(found.Select(way => way with { Card = whole }));
        }

        return (fitted with { Cards = cards }, ways);
    }

    /// <summary>The panel on the card that a part is, if it is one that may be pieced at all.</summary>
    public static FittedPiece? PanelOf(BatchCard card, BatchPart part) =>
        part.Line is { Shape: "panel", Mat: 0, Count: 1, Cut: CutWay.Trimmer } && card.Card.Pieces.FirstOrDefault(piece => piece.Name == part.Line.Piece) is { } panel
        && panel.Source.Tilt == default
            ? panel
            : null;

    /// <summary>
    /// A planned batch with its strips named: the left and the right one where there is no doubt, else by what they measure. Strips that nothing is made
    /// of keep their place, since the plan knows parts by it.
    /// </summary>
    public static (FittedBatch Batch, IReadOnlyList<PiecedPanel> Pieced) Named(FittedBatch fitted, IReadOnlyList<PiecedPanel> pieced)
    {
        var cards = new List<BatchCard>();
        var named = new List<PiecedPanel>();
        foreach (var card in fitted.Cards)
        {
            var names = new Dictionary<BatchPart, BatchPart>(ReferenceEqualityComparer.Instance);
            var mine = pieced.Where(way => ReferenceEquals(way.Card, card)).ToList();
            foreach (var panel in mine.GroupBy(way => way.Panel.Line.Name, StringComparer.Ordinal))
            {
                var ways = panel.ToList();
                foreach (var way in ways)
                {
                    for (var n = 0; n < way.Strips.Count; n++)
                    {
                        var strip = way.Strips[n];
                        names.TryAdd(strip, strip with { Line = strip.Line with { Name = NameOf(fitted, ways, way, n) } });
                    }
                }
            }

            var whole = card with { Parts = [.. card.Parts.Select(part => names.GetValueOrDefault(part, part))] };
            cards.Add(whole);
            named.AddRange(mine.Select(way => way with { Card = whole, Strips = [.. way.Strips.Select(strip => names[strip])] }));
        }

        return (fitted with { Cards = cards }, named);
    }

    private static string NameOf(FittedBatch fitted, List<PiecedPanel> ways, PiecedPanel way, int place)
    {
        var (upright, panel) = (way.Direction == Axis.UpDown, way.Panel.Line.Name);
        var distinct = way.Strips.Distinct<BatchPart>(ReferenceEqualityComparer.Instance).Count() == way.Strips.Count;
        if (ways.Count == 1 && distinct && way.Strips.Count <= 3)
        {
            var names = upright ? new[] { "left", "middle", "right" } : ["upper", "middle", "lower"];
            return $"{(place == 0 ? names[0] : place == way.Strips.Count - 1 ? names[2] : names[1])} strip of {panel}";
        }

        var size = LengthText.Write(upright ? way.Strips[place].Width : way.Strips[place].Height, fitted.Batch.Unit);
        var paper = ways.Exists(other => other.Paper != way.Paper) ? $" ({way.Paper})" : "";
        return $"strip of {panel}, {size} {(upright ? "wide" : "high")}{paper}";
    }

    private static IEnumerable<PiecedPanel> Ways(FittedBatch fitted, BatchCard card, BatchPart part)
    {
        if (PanelOf(card, part) is not { } panel)
        {
            yield break;
        }

        // All strips of a panel from one paper, the one that the maker named first before the others.
        foreach (var paper in part.Sources.OrderBy(source => source.Preference).Select(source => source.Paper).Distinct().ToList())
        {
            var sources = part.Sources.Where(source => source.Paper == paper).ToList();
            var strips = new Dictionary<(Length, Length), BatchPart>();
            foreach (var seams in new SeamChoice(fitted, card.Card, panel, sources).Find())
            {
                var parts = SeamChoice.Strips(panel, seams).Select(size => strips.TryGetValue(size, out var known) ? known : strips[size] = new(
                    part.Line with { Name = $"strip of {part.Line.Name}", Width = size.Width, Height = size.Height, Blank = null }, size.Width, size.Height, sources)).ToList();
                yield return new(card, part, panel, paper, parts, seams, 0);
            }
        }
    }
}
