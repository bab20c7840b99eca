using System.Globalization;
using Trimwright.Cutting;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>
/// Makes the schedule of a plan: letters for the sheets as they are cut, marks for the parts, and the steps in the order that <see cref="SheetOrder"/>
/// finds. A sheet is trued when its turn comes. Sheets made of windows come when all mats are cut.
/// </summary>
internal sealed class ScheduleMaker
{
    private readonly BatchPlan _plan;
    private readonly List<ScheduledSheet> _sheets = [];
    private readonly List<CutStep> _steps = [];
    private readonly Dictionary<CutInTwo, int> _numbers = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<string, int> _parts = new(StringComparer.Ordinal);
    private readonly Dictionary<CutKind, Queue<CutInTwo>> _ready = [];

    public ScheduleMaker(BatchPlan plan) => _plan = plan;

    public TrimSchedule Make()
    {
        // A window can be cut from another window's mat: those that come from sheets first, then those whose mats are cut by then.
        var open = _plan.Cutting.Sheets.ToList();
        while (open.Count > 0)
        {
            var ready = open.FindAll(plan => WindowOf(plan) is not { } window || IsCut(window, open));
            open.RemoveAll(ready.Contains);
            foreach (var (plan, cuts) in SheetOrder.Find(ready, _steps.Count > 0 ? _steps[^1].Setting : null))
            {
                Add(Lettered(plan), cuts);
            }
        }

        return new(_plan, _sheets, _steps, _numbers);
    }

    private static bool IsCut(SalvageWindow window, List<SheetPlan> open)
    {
        var mat = window.Id["window ".Length..];
        return !open.Exists(plan => plan.Root.Walk().OfType<CutPiece>().Any(piece => piece.Ids.Any(id => BatchIds.Anywhere(id) == mat)));
    }

    /// <summary>Adds the steps of a sheet, which is trued first.</summary>
    private void Add(ScheduledSheet sheet, IReadOnlyList<OrderedCut> cuts)
    {
        _sheets.Add(sheet);
        True(sheet);
        if (cuts.Count == 0)
        {
            return;
        }

        cuts[0].Kind.Mark = sheet.Letter;
        _ready[cuts[0].Kind] = new(cuts[0].Kind.Nodes);
        for (var (from, to) = (0, 1); from < cuts.Count; (from, to) = (to, to + 1))
        {
            while (to < cuts.Count && cuts[to - 1].GoesOnWith(cuts[to]))
            {
                to++;
            }

            Add(sheet, cuts, from, to);
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
                isUpright ? height : width, sheet.Plan.Repeats, 1, Strokes(sheet.Plan.Repeats), true,
                new(YieldKind.Part, sheet.Letter, [], sheet.Plan.Repeats, width, height),
                new(YieldKind.Sliver, null, [], sheet.Plan.Repeats, isUpright ? off : width, isUpright ? height : off)));
        }
    }

    /// <summary>Adds one step for cuts that take one part after another off what is left.</summary>
    private void Add(ScheduledSheet sheet, IReadOnlyList<OrderedCut> cuts, int from, int to)
    {
        var (kind, last) = (cuts[from].Kind, cuts[to - 1]);
        var far = last.FromFarEdge;
        var number = _steps.Count + 1;
        var (held, beyond) = (new List<CutNode>(), new List<CutNode>());
        for (var n = from; n < to; n++)
        {
            beyond.Clear();
            for (var copy = 0; copy < cuts[n].Count; copy++)
            {
                var node = _ready[cuts[n].Kind].Dequeue();
                _numbers[node] = number;
                held.Add(far ? node.Second! : node.First);
                beyond.AddRange((far ? node.First : node.Second) is { } off ? [off] : []);
                Ready(cuts[n].Kind.First, node.First);
                Ready(cuts[n].Kind.Second, node.Second);
            }
        }

        var (heldAgain, rest) = far ? (kind.Second, last.Kind.First) : (kind.First, last.Kind.Second);
        var count = sheet.Plan.Repeats * last.Count;
        var edge = kind.Cut.Direction == CutDirection.Upright ? (far ? Edge.Right : Edge.Left) : (far ? Edge.Bottom : Edge.Top);
        _steps.Add(new(
            number, last.Setting, sheet.Letter, kind.Mark!, edge, kind.Cut.Direction, kind.Length, count, to - from, (to - from) * Strokes(count), false,
            Yield(sheet, heldAgain, held), beyond.Count == 0 ? null : Yield(sheet, rest, beyond)));
    }

    private void Ready(CutKind? kind, CutNode? node)
    {
        if (kind is null)
        {
            return;
        }

        if (!_ready.TryGetValue(kind, out var waiting))
        {
            _ready[kind] = waiting = new();
        }

        waiting.Enqueue((CutInTwo)node!);
    }

    private string MarkOf(ScheduledSheet sheet, CutKind kind)
    {
        if (kind.Mark is null)
        {
            var number = _parts[sheet.Letter] = _parts.GetValueOrDefault(sheet.Letter) + 1;
            kind.Mark = string.Create(CultureInfo.InvariantCulture, $"{sheet.Letter}{number}");
        }

        return kind.Mark;
    }

    private CutYield Yield(ScheduledSheet sheet, CutKind? again, IReadOnlyList<CutNode> nodes)
    {
        var (count, width, height) = (sheet.Plan.Repeats * nodes.Count, nodes[0].Width, nodes[0].Height);
        return nodes[0] switch
        {
            CutPiece => new(YieldKind.Piece, null, PieceNames(_plan, sheet, [.. nodes.Cast<CutPiece>()]), count, width, height)
            {
                ShortNames = PieceNames(_plan, sheet, [.. nodes.Cast<CutPiece>()], byNumber: true),
            },
            CutInTwo => new(YieldKind.Part, MarkOf(sheet, again!), [], count, width, height),
            CutOffcut => new(YieldKind.Offcut, null, [], count, width, height),
            _ => new(YieldKind.Sliver, null, [], count, width, height),
        };
    }

    /// <summary>
    /// What some pieces are, counted over the copies of their sheet, such as <c>3 ground (Bean row, A2 portrait)</c>; on a sheet with two
    /// faces with the paper that the piece shows.
    /// </summary>
    /// <param name="plan">The plan.</param>
    /// <param name="sheet">The sheet that they are cut from.</param>
    /// <param name="pieces">The pieces.</param>
    /// <param name="byNumber">Whether a card is named by its number, as <see cref="CardNumber"/> tells it, rather than in words.</param>
    public static IReadOnlyList<string> PieceNames(BatchPlan plan, ScheduledSheet sheet, IReadOnlyList<CutPiece> pieces, bool byNumber = false) =>
    [
        .. pieces.SelectMany(piece => piece.Ids.Select(id => (Id: id, Paper: sheet.Stock is { } stock ? PaperOf(plan, stock, piece, id) : ""))).GroupBy(made => made).Select(group =>
        {
            var (card, part) = plan.PartOf(group.Key.Id);
            var name = plan.Cards.Count(made => made.Count > 0) == 1 ? part.Line.Name : $"{part.Line.Name} ({(byNumber ? CardNumber(plan, card) : card.Words)})";
            var face = sheet.Stock is { SideB: { } other } stock && other != stock.SideA ? $" in {group.Key.Paper}" : "";
            return string.Create(CultureInfo.InvariantCulture, $"{group.Count()} {(part.Line.Name.Contains(',', StringComparison.Ordinal) ? "of " : "")}{name}{face}");
        }),
    ];

    /// <summary>A short name for cards that are made, such as <c>card 2</c>: they are counted in the order of the file.</summary>
    public static string CardNumber(BatchPlan plan, BatchCard card)
    {
        var made = plan.Cards.Where(made => made.Count > 0).ToList();
        return string.Create(CultureInfo.InvariantCulture, $"card {made.FindIndex(made => made.Card.Wanted == card.Wanted) + 1}");
    }

    private long Strokes(long count)
    {
        var stack = _plan.Batch.Drawer.StackLimit;
        return (count + stack - 1) / stack;
    }

    private SalvageWindow? WindowOf(SheetPlan plan) => _plan.Salvage.FirstOrDefault(window => window.Id == plan.Stock);

    private ScheduledSheet Lettered(SheetPlan plan)
    {
        var (window, stock) = (WindowOf(plan), _plan.SheetOf(plan.Stock));
        return new(Letter(_sheets.Count), plan, stock, window, stock is null ? window!.Paper : FaceUp(stock, plan));
    }

    /// <summary>The paper that most of the pieces show; side A where that is even.</summary>
    private string FaceUp(StockSheet stock, SheetPlan plan)
    {
        if (stock.SideB is not { } other || other == stock.SideA)
        {
            return stock.SideA;
        }

        var papers = plan.Root.Walk().OfType<CutPiece>().Select(piece => PaperOf(_plan, stock, piece, piece.Ids[0])).ToList();
        return papers.Count(paper => paper == other) > papers.Count(paper => paper == stock.SideA) ? other : stock.SideA;
    }

    /// <summary>
    /// The paper that a piece shows when it is cut from a sheet: of those that the sheet shows, and that let it lie as it does, the one that the maker
    /// named first. A square lies as it must whichever way that is.
    /// </summary>
    public static string PaperOf(BatchPlan plan, StockSheet stock, CutPiece piece, string id) => plan.PartOf(id).Part.Sources
        .Where(source => plan.Batch.Batch.Stock[source.Sheet].Name == stock.Name && (piece.Width == piece.Height || (piece.Turned ? source.Turned : source.Upright)))
        .MinBy(source => source.Preference)!.Paper;

    // A to Z, then AA to AZ and so on; I and O are left out, since they pass for figures.
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

    private static string Letter(int index) =>
        index < Letters.Length ? Letters[index].ToString() : Letter((index / Letters.Length) - 1) + Letters[index % Letters.Length];
}
