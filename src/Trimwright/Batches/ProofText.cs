using System.Globalization;
using Trimwright.Cutting;

namespace Trimwright.Batches;

/// <summary>
/// What is known of a plan, lot by lot: papers that have nothing to do with one another are planned, and proved, by themselves. Only the cost of what
/// is used is ever proved; of leftovers, cuts and settings nothing is claimed.
/// </summary>
internal static class ProofText
{
    /// <summary>A line for each lot, such as <c>pad: 12 sheets; no plan uses fewer</c>.</summary>
    public static IEnumerable<string> Of(BatchPlan plan) => plan.Cutting.Lots.Select(lot => Of(plan, lot));

    private static string Of(BatchPlan plan, CuttingLot lot)
    {
        var used = lot.Stock.Select(id => (Id: id, Count: plan.Cutting.Sheets.Where(sheet => sheet.Stock == id).Sum(sheet => sheet.Repeats)))
            .Where(entry => entry.Count > 0).ToList();
        var sheets = string.Join(" and ", used.Select(entry => $"{Words(plan, entry.Id)}: {ScheduleText.Count(entry.Count, Kind(plan, entry.Id))}"));
        return $"{sheets}; {Quality(plan, lot)}";
    }

    private static string Words(BatchPlan plan, string id) => plan.SheetOf(id)?.Name ?? $"windows of the {plan.Salvage.First(window => window.Id == id).Mat.Line.Name}";

    private static string Kind(BatchPlan plan, string id) => plan.SheetOf(id) switch
    {
        null => "window",
        { IsOffcut: true } => "offcut",
        _ => "sheet",
    };

    // An offcut costs little next to a new sheet, all of them together less than one, unless there are very many.
    private static string Quality(BatchPlan plan, CuttingLot lot)
    {
        var stock = plan.Job.Stock.Where(sheet => lot.Stock.Contains(sheet.Id)).ToList();
        var bought = stock.FindAll(sheet => plan.SheetOf(sheet.Id) is { IsOffcut: false });
        var small = stock.Except(bought).Sum(sheet => sheet.Cost * (sheet.Count ?? CuttingPlanner.MostPieces));
        if (bought.Count == 0)
        {
            return lot.State == PlanState.ProvedCheapest ? "no plan uses fewer" : $"any plan uses at least {Text(lot.Proof.Bound)}";
        }

        var one = bought[0].Cost;
        if (bought.Exists(sheet => sheet.Cost != one) || small >= one)
        {
            var priced = bought.Exists(sheet => plan.SheetOf(sheet.Id)!.Cost is not null);
            return lot.State == PlanState.ProvedCheapest
                ? (priced ? "no plan costs less" : "no plan takes less new paper")
                : $"{(priced ? "no plan costs" : "no plan takes")} less than {Text(lot.Proof.Bound * 100 / lot.Cost)} % of this";
        }

        // With n new sheets a plan costs n times one and less than one more: so n is at least the bound divided by one, rounded down.
        var sheets = plan.Cutting.Sheets.Where(sheet => bought.Exists(known => known.Id == sheet.Stock)).Sum(sheet => sheet.Repeats);
        var least = lot.State == PlanState.ProvedCheapest ? sheets : lot.Proof.Bound / one;
        return least >= sheets
            ? (stock.Count > bought.Count ? "no plan uses fewer new sheets" : "no plan uses fewer")
            : $"no plan uses fewer than {Text(least)}";
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
