using System.Globalization;
using Trimwright.Cutting;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>
/// Orders the cuts of a plan. A cut comes after the one that gave its part. Of the settings that have cuts waiting, the next is the one with the
/// longest cut, so that a slip costs a strip and not a small piece that is nearly done; once set, the fence stays until no cut of that setting is
/// left to make. Sheets are trued first. Sheets made of windows come when all mats are cut.
/// </summary>
internal sealed class ScheduleMaker
{
    private readonly BatchPlan _plan;
    private readonly List<ScheduledSheet> _sheets = [];
    private readonly List<CutStep> _steps = [];
    private readonly Dictionary<CutNode, string> _marks = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _parts = new(StringComparer.Ordinal);
    private readonly List<(ScheduledSheet Sheet, CutInTwo Cut)> _waiting = [];

    public ScheduleMaker(BatchPlan plan)
    {
        _plan = plan;
        for (var i = 0; i < plan.Cutting.Sheets.Count; i++)
        {
            _sheets.Add(Lettered(i, plan.Cutting.Sheets[i]));
        }
    }

    public TrimSchedule Make()
    {
        // A window can be cut from another window's mat: those that come from sheets first, then those whose mats are cut by then.
        var done = new HashSet<string>(StringComparer.Ordinal);
        var open = _sheets.ToList();
        while (open.Count > 0)
        {
            var ready = open.FindAll(sheet => sheet.Window is null || IsCut(sheet.Window, open));
            open.RemoveAll(ready.Contains);
            Order(ready);
        }

        return new(_plan, _sheets, _steps, _marks);
    }

    private static bool IsCut(SalvageWindow window, List<ScheduledSheet> open)
    {
        var mat = window.Id["window ".Length..];
        return !open.Exists(sheet => sheet.Plan.Root.Walk().OfType<CutPiece>().Any(piece => piece.Ids.Contains(mat)));
    }

    private void Order(List<ScheduledSheet> sheets)
    {
        foreach (var sheet in sheets)
        {
            _marks[sheet.Plan.Root] = sheet.Letter;
            True(sheet);
            Wait(sheet, sheet.Plan.Root);
        }

        Length? setting = null;
        while (_waiting.Count > 0)
        {
            if (setting is not { } kept || !_waiting.Exists(entry => entry.Cut.Setting == kept))
            {
                var next = _waiting.MaxBy(entry => (LengthOf(entry.Cut).Nanometres, entry.Cut.Setting.Nanometres));
                setting = next.Cut.Setting;
            }

            var at = _waiting.FindIndex(entry => entry.Cut.Setting == setting);
            var (sheet, cut) = _waiting[at];
            _waiting.RemoveAt(at);
            Add(sheet, cut);
        }
    }

    /// <summary>Takes the margins off, held by the opposite edge, so that what stays is measured.</summary>
    private void True(ScheduledSheet sheet)
    {
        if (sheet.Stock is null || sheet.Stock.TrueOff.IsZero)
        {
            return;
        }

        var off = sheet.Stock.TrueOff;
        var root = sheet.Plan.Root;
        var (width, height) = (root.Width + off + off, root.Height + off + off);
        foreach (var (edge, isUpright) in new[] { (Edge.Right, true), (Edge.Left, true), (Edge.Bottom, false), (Edge.Top, false) })
        {
            (width, height) = isUpright ? (width - off, height) : (width, height - off);
            _steps.Add(new(
                _steps.Count + 1, isUpright ? width : height, sheet.Letter, sheet.Letter, edge, isUpright ? CutDirection.Upright : CutDirection.Level,
                isUpright ? height : width, sheet.Plan.Repeats, Strokes(sheet), true,
                new(YieldKind.Part, sheet.Letter, [], width, height),
                new(YieldKind.Sliver, null, [], isUpright ? off : width, isUpright ? height : off)));
        }
    }

    private void Wait(ScheduledSheet sheet, CutNode? node)
    {
        if (node is CutInTwo cut)
        {
            _waiting.Add((sheet, cut));
        }
    }

    private void Add(ScheduledSheet sheet, CutInTwo cut)
    {
        foreach (var part in (CutNode?[])[cut.First, cut.Second])
        {
            if (part is CutInTwo)
            {
                var number = _parts[sheet.Letter] = _parts.GetValueOrDefault(sheet.Letter) + 1;
                _marks[part] = string.Create(CultureInfo.InvariantCulture, $"{sheet.Letter}{number}");
            }
        }

        var (held, off) = cut.FromFarEdge ? (cut.Second!, cut.First) : (cut.First, cut.Second);
        var edge = cut.Direction == CutDirection.Upright
            ? (cut.FromFarEdge ? Edge.Right : Edge.Left)
            : (cut.FromFarEdge ? Edge.Bottom : Edge.Top);
        _steps.Add(new(
            _steps.Count + 1, cut.Setting, sheet.Letter, _marks[cut], edge, cut.Direction, LengthOf(cut), sheet.Plan.Repeats, Strokes(sheet), false,
            Yield(held), off is null ? null : Yield(off)));
        Wait(sheet, cut.First);
        Wait(sheet, cut.Second);
    }

    private CutYield Yield(CutNode node) => node switch
    {
        CutPiece piece => new(YieldKind.Piece, null, PieceNames(_plan, piece), node.Width, node.Height),
        CutInTwo => new(YieldKind.Part, _marks[node], [], node.Width, node.Height),
        CutOffcut => new(YieldKind.Offcut, null, [], node.Width, node.Height),
        _ => new(YieldKind.Sliver, null, [], node.Width, node.Height),
    };

    /// <summary>What a piece is, counted over the copies of its sheet, such as <c>3 ground (Bean row, A2 portrait)</c>.</summary>
    public static IReadOnlyList<string> PieceNames(BatchPlan plan, CutPiece piece) =>
    [
        .. piece.Ids.GroupBy(id => id).Select(group =>
        {
            var (card, part) = plan.PartOf(group.Key);
            var name = plan.Cards.Count(made => made.Count > 0) == 1 ? part.Line.Name : $"{part.Line.Name} ({card.Words})";
            return string.Create(CultureInfo.InvariantCulture, $"{group.Count()} {name}");
        }),
    ];

    private static Length LengthOf(CutInTwo cut) => cut.Direction == CutDirection.Upright ? cut.Height : cut.Width;

    private long Strokes(ScheduledSheet sheet)
    {
        var stack = _plan.Batch.Drawer.StackLimit;
        return (sheet.Plan.Repeats + stack - 1) / stack;
    }

    private ScheduledSheet Lettered(int index, SheetPlan plan)
    {
        var window = _plan.Salvage.FirstOrDefault(window => window.Id == plan.Stock);
        var stock = _plan.SheetOf(plan.Stock);
        return new(
            Letter(index), plan, stock, window, stock is null ? window!.Paper : FaceUp(stock, plan),
            stock is not null && JobMaker.IsTurned(_plan.Batch.Batch, stock));
    }

    /// <summary>The paper that most of the pieces show; side A where that is even.</summary>
    private string FaceUp(StockSheet stock, SheetPlan plan)
    {
        if (stock.SideB is not { } other || other == stock.SideA)
        {
            return stock.SideA;
        }

        var papers = plan.Root.Walk().OfType<CutPiece>().Select(piece => PaperOf(_plan, stock, piece.Ids[0])).ToList();
        return papers.Count(paper => paper == other) > papers.Count(paper => paper == stock.SideA) ? other : stock.SideA;
    }

    /// <summary>The paper that a piece shows when it is cut from a sheet: the one the maker named first of those the sheet shows.</summary>
    public static string PaperOf(BatchPlan plan, StockSheet stock, string id) => plan.PartOf(id).Part.Sources
        .Where(source => plan.Batch.Batch.Stock[source.Sheet].Name == stock.Name).MinBy(source => source.Preference)!.Paper;

    // A to Z, then AA to AZ and so on.
    private static string Letter(int index) =>
        index < 26 ? ((char)('A' + index)).ToString() : Letter((index / 26) - 1) + (char)('A' + (index % 26));
}
