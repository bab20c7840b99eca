using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>
/// Orders sheets and their cuts. One sheet is cut to the end before the next is begun, so that the parts of one sheet only lie about, and one map is looked
/// at. The next sheet is one that begins with the setting at which the last one ended, where there is one (decision 9).
/// </summary>
internal sealed class SheetOrder
{
    private readonly List<Orders> _open;

    private SheetOrder(IEnumerable<SheetPlan> plans) => _open = [.. plans.Select(plan => new Orders(plan))];

    /// <summary>A sheet with the orders in which it can be cut as well as in any other; none where it needs no cut.</summary>
    private sealed class Orders(SheetPlan plan)
    {
        public SheetPlan Plan { get; } = plan;

        public IReadOnlyList<IReadOnlyList<OrderedCut>> Ways { get; } = CutKind.Of(plan) is { Count: > 0 } kinds ? CutOrder.Best(kinds) : [];

        public bool CanBeginAt(Length setting) => Ways.Any(way => way[0].Setting == setting);

        public bool CanEndAt(Length setting) => Ways.Any(way => way[^1].Setting == setting);
    }

    /// <summary>The sheets in the order found, each with its cuts; last those that need none.</summary>
    /// <param name="plans">The different ways to cut sheets.</param>
    /// <param name="setting">How the fence stands, or null.</param>
    public static IEnumerable<(SheetPlan Plan, IReadOnlyList<OrderedCut> Cuts)> Find(IEnumerable<SheetPlan> plans, Length? setting)
    {
        var order = new SheetOrder(plans);
        while (order._open.Exists(sheet => sheet.Ways.Count > 0))
        {
            var (sheet, cuts) = order.Next(setting);
            order._open.Remove(sheet);
            setting = cuts[^1].Setting;
            yield return (sheet.Plan, cuts);
        }

        foreach (var sheet in order._open)
        {
            yield return (sheet.Plan, []);
        }
    }

    /// <summary>
    /// A sheet that the fence is set for already; of these, and where there is none, one that ends where another begins, and that no other leads to, since
    /// it would not come for nothing later either; then the first.
    /// </summary>
    private (Orders Sheet, IReadOnlyList<OrderedCut> Cuts) Next(Length? setting) => _open.SelectMany(sheet => sheet.Ways.Select(way => (Sheet: sheet, Cuts: way)))
        .OrderByDescending(next => next.Cuts[0].Setting == setting)
        .ThenByDescending(next => Others(next.Sheet).Any(other => other.CanBeginAt(next.Cuts[^1].Setting)))
        .ThenBy(next => Others(next.Sheet).Count(other => other.CanEndAt(next.Cuts[0].Setting)))
        .First();

    private IEnumerable<Orders> Others(Orders sheet) => _open.Where(other => other != sheet && other.Ways.Count > 0);
}
