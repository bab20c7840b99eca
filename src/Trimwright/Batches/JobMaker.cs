using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Turns a batch into a job for the planner: rectangles, sheets with costs, and what the tools can do.</summary>
internal sealed class JobMaker(FittedBatch fitted)
{
    private readonly Batch _batch = fitted.Batch;

    /// <summary>Whether all new sheets cost the same.</summary>
    public bool CountsSheets => NewCosts().Distinct().Count() <= 1;

    /// <summary>The job for so many of each card.</summary>
    /// <param name="counts">How many of each.</param>
    /// <param name="windows">Hidden middles to offer as stock.</param>
    /// <param name="pieced">Panels and how many of them are pieced from strips.</param>
    public CuttingJob Make(IReadOnlyList<int> counts, IReadOnlyList<SalvageWindow> windows, IReadOnlyList<PiecedPanel> pieced)
    {
        var pieces = new List<WantedPiece>();
        for (var c = 0; c < fitted.Cards.Count; c++)
        {
            for (var p = 0; p < fitted.Cards[c].Parts.Count && counts[c] > 0; p++)
            {
                var part = fitted.Cards[c].Parts[p];
                if (CountOf(part, counts[c], pieced) is > 0 and var count)
                {
                    pieces.Add(Wanted(BatchIds.Of(c, p), part, count, windows));
                }
            }
        }

        var named = pieces.SelectMany(piece => piece.From!).ToHashSet(StringComparer.Ordinal);
        return new(pieces, [.. Stock(windows).Where(stock => named.Contains(stock.Id))], new()
        {
            LeastCut = fitted.Drawer.SmallestPiece,
            LeastTrim = fitted.Drawer.ThinnestShaving,
            OffcutWidth = _batch.LeastOffcut.Shorter,
            OffcutHeight = _batch.LeastOffcut.Longer,
            StackLimit = fitted.Drawer.StackLimit,
        });
    }

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

    /// <summary>How many of a part are cut: all that the cards take, but a pieced panel as two strips and not whole.</summary>
    private static long CountOf(BatchPart part, int cards, IReadOnlyList<PiecedPanel> pieced)
    {
        foreach (var panel in pieced)
        {
            if (ReferenceEquals(panel.First, part) || ReferenceEquals(panel.Second, part))
            {
                return panel.Count;
            }

            if (ReferenceEquals(panel.Panel, part))
            {
                return cards - panel.Count;
            }
        }

        return (long)cards * part.Line.Count;
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
        var small = _batch.Stock.Where(sheet => sheet.IsOffcut).Sum(sheet => (long)(sheet.Count ?? 1)) + windows.Sum(window => (long)window.Available);
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
            yield return new(window.Id, window.Width, window.Height, window.Available, 1);
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
