using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Turns a batch into a job for the planner: rectangles, sheets with costs, and what the tools can do.</summary>
/// <param name="fitted">The batch, with the strips of panels that may be pieced.</param>
/// <param name="ways">The ways in which panels may be pieced.</param>
internal sealed class JobMaker(FittedBatch fitted, IReadOnlyList<PiecedPanel> ways)
{
    // An offcut costs 1: a window is more trouble than one of them, and never cut to save just that.
    private const long CostOfWindow = 2;

    private readonly Batch _batch = fitted.Batch;

    /// <summary>Whether all new sheets cost the same.</summary>
    public bool CountsSheets => NewCosts().Distinct().Count() <= 1;

    /// <summary>The job for so many of each card.</summary>
    /// <param name="counts">How many of each.</param>
    /// <param name="windows">Hidden middles to offer as stock.</param>
    /// <param name="given">How many of each part the windows have to give, if that is decided; then they give no more.</param>
    /// <param name="barred">Ways of piecing that are not to be used.</param>
    public CuttingJob Make(IReadOnlyList<int> counts, IReadOnlyList<SalvageWindow> windows, IReadOnlyDictionary<string, long>? given = null, params IReadOnlyList<PiecedPanel> barred)
    {
        var strips = ways.SelectMany(way => way.Strips).ToHashSet<BatchPart>(ReferenceEqualityComparer.Instance);
        var pieces = new List<WantedPiece>();
        for (var c = 0; c < fitted.Cards.Count; c++)
        {
            for (var p = 0; p < fitted.Cards[c].Parts.Count && counts[c] > 0; p++)
            {
                var part = fitted.Cards[c].Parts[p];
                var (id, count) = (BatchIds.Of(c, p), strips.Contains(part) ? 0 : (long)counts[c] * part.Line.Count);
                if (given is null)
                {
                    pieces.Add(Wanted(id, part, count, windows));
                    continue;
                }

                var inside = given.GetValueOrDefault(id);
                if (count > inside || strips.Contains(part))
                {
                    pieces.Add(Wanted(id, part, count - inside, []));
                }

                if (inside > 0)
                {
                    pieces.Add(StockUse.OutOf(Wanted(BatchIds.OutOfWindow(id), part, inside, windows), [.. windows.Select(window => window.Id)]));
                }
            }
        }

        // A strip that nothing can be made of is no part of the job.
        var joins = ways.Where(way => counts[IndexOf(way.Card)] > 0 && !barred.Contains(way)).Select(JoinOf).Where(join => pieces.Exists(piece => piece.Id == join.Piece)).ToList();
        var parts = joins.SelectMany(join => join.Parts).ToHashSet(StringComparer.Ordinal);
        pieces.RemoveAll(piece => piece.Count == 0 && !parts.Contains(piece.Id));
        var named = pieces.SelectMany(piece => piece.From!).ToHashSet(StringComparer.Ordinal);
        return new(pieces, [.. Stock(windows).Where(stock => named.Contains(stock.Id))], new()
        {
            LeastCut = fitted.Drawer.SmallestPiece,
            LeastTrim = fitted.Drawer.ThinnestShaving,
            OffcutWidth = _batch.LeastOffcut.Shorter,
            OffcutHeight = _batch.LeastOffcut.Longer,
            StackLimit = fitted.Drawer.StackLimit,
        })
        {
            Joins = joins,
            SmallCost = CostOfWindow,
        };
    }

    /// <summary>The job of cutting what fits the windows out of them, and out of nothing else.</summary>
    public CuttingJob OutOfWindows(IReadOnlyList<int> counts, IReadOnlyList<SalvageWindow> windows)
    {
        var whole = Make(counts, windows);
        var ids = windows.Select(window => window.Id).ToHashSet(StringComparer.Ordinal);
        var inside = StockUse.OutOf(whole with { Joins = [] }, [.. whole.Stock.Where(sheet => ids.Contains(sheet.Id))]);
        return inside with { Pieces = [.. inside.Pieces.Where(piece => piece.Count > 0 && piece.From!.Count > 0)] };
    }

    /// <summary>A way to piece a panel, as the planner knows it.</summary>
    public PieceJoin JoinOf(PiecedPanel way)
    {
        var (c, parts) = (IndexOf(way.Card), way.Card.Parts.ToList());
        string Id(BatchPart part) => BatchIds.Of(c, parts.FindIndex(other => ReferenceEquals(other, part)));
        return new(Id(way.Panel), [.. way.Strips.Select(Id)]);
    }

    private int IndexOf(BatchCard card) => Enumerable.Range(0, fitted.Cards.Count).First(c => ReferenceEquals(fitted.Cards[c], card));

    /// <summary>The hidden middles of the mats of so many cards.</summary>
    public IReadOnlyList<SalvageWindow> Windows(IReadOnlyList<int> counts)
    {
        var windows = new List<SalvageWindow>();
        for (var c = 0; c < fitted.Cards.Count; c++)
        {
            var card = fitted.Cards[c];
            for (var p = 0; p < card.Parts.Count && counts[c] > 0; p++)
            {
                if (Window(card, card.Parts[p]) is var (width, height, paper))
                {
                    windows.Add(new(BatchIds.OfWindow(c, p), card, card.Parts[p], width, height, paper, counts[c] * card.Parts[p].Line.Count, 0));
                }
            }
        }

        return windows;
    }


    private WantedPiece Wanted(string id, BatchPart part, long count, IReadOnlyList<SalvageWindow> windows)
    {
        // A sheet may show two papers that the part may be cut from: what one of them does not allow the other may.
        var lies = part.Sources.GroupBy(source => source.Sheet)
            .Select(same => new StockLie(_batch.Stock[same.Key].Name, LieOf(same.Any(source => source.Upright), same.Any(source => source.Turned)))).ToList();
        lies.AddRange(windows
            .Where(window => part.Sources.Any(source => source.Paper == window.Paper) && !ReferenceEquals(window.Mat, part) && Fits(part, window))
            .Select(window => new StockLie(window.Id, LieOf(upright: true, MayTurn(window)))));
        return new(id, part.Width, part.Height, count) { Lies = lies, From = [.. lies.Select(lie => lie.Stock)] };
    }

    private static PieceLie LieOf(bool upright, bool turned) => (upright, turned) switch
    {
        (true, true) => PieceLie.Either,
        (true, false) => PieceLie.Upright,
        _ => PieceLie.Turned,
    };

    // A base is never cut out of a window: it is larger than anything on the card.
    private bool Fits(BatchPart part, SalvageWindow window) =>
        part.Line.Shape != BaseLine.Shape
        && ((part.Width <= window.Width && part.Height <= window.Height) || (MayTurn(window) && part.Height <= window.Width && part.Width <= window.Height));

    // The mat of a paper with a top is cut upright, and so is its window.
    private bool MayTurn(SalvageWindow window) => !_batch.PaperNamed(window.Paper).OneWay;

    private IEnumerable<Cutting.StockSheet> Stock(IReadOnlyList<SalvageWindow> windows)
    {
        // An offcut costs so little that all of them together cost less than one new sheet: they are taken where they save one.
        var small = _batch.Stock.Where(sheet => sheet.IsOffcut).Sum(sheet => (long)(sheet.Count ?? 1)) + (CostOfWindow * windows.Sum(window => (long)window.Available));
        var dearest = Math.Max(1, NewCosts().DefaultIfEmpty(1).Max());
        var scale = Math.Clamp(small + 1, 1, Math.Max(1, CuttingPlanner.GreatestCost / dearest));
        foreach (var sheet in _batch.Stock)
        {
            yield return new(sheet.Name, sheet.Width, sheet.Height, sheet.Count, sheet.IsOffcut ? 1 : Math.Max(1, CostOf(sheet) * scale))
            {
                Margins = SheetMargins.FromEqual(sheet.TrueOff),
            };
        }

        foreach (var window in windows)
        {
            yield return new(window.Id, window.Width, window.Height, window.Available, CostOfWindow);
        }
    }

    private IEnumerable<long> NewCosts() => _batch.Stock.Where(sheet => !sheet.IsOffcut).Select(CostOf);

    /// <summary>In hundredths of a coin; without prices a sheet counts by its area, in square centimetres.</summary>
    public static long CostOf(StockSheet sheet) => sheet.Cost is { } cost
        ? (long)(cost * 100).Numerator
        : Math.Max(1, (long)((Int128)sheet.Width.Nanometres * sheet.Height.Nanometres / 100_000_000_000_000));

    /// <summary>What can be cut out of the middle of a mat, or null: what lies on it, less the margin for glue.</summary>
    private (Length Width, Length Height, string Paper)? Window(BatchCard card, BatchPart mat)
    {
        var line = mat.Line;
        var papers = mat.Sources.Select(source => source.Paper).Distinct().ToList();
        if (line.Mat == 0 || line.Cut != CutWay.Trimmer || papers.Count != 1 || !IsRectangle(line.Shape))
        {
            return null;
        }

        var above = card.Parts.FirstOrDefault(part => part.Line.Piece == line.Piece && part.Line.Mat == line.Mat - 1);
        if (above is null)
        {
            return null;
        }

        var (width, height) = (above.Line.Width - (2 * _batch.GlueMargin), above.Line.Height - (2 * _batch.GlueMargin));
        return width > Length.Zero && height > Length.Zero ? (width, height, papers[0]) : null;
    }

    private static bool IsRectangle(string shape) => shape is "panel" or "strip" or "square" or "label" or "image";
}
