using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>Stock in words.</summary>
public static class StockText
{
    /// <summary>The sheets and old offcuts that a schedule does not touch, such as <c>6 of pad, 6 x 6 in</c>; not those of which there is always enough.</summary>
    public static IReadOnlyList<string> Untouched(TrimSchedule schedule) =>
    [
        .. LeftoverStock.Untouched(schedule).Where(sheet => sheet.Count is not null).Select(sheet =>
            FormattableString.Invariant($"{sheet.Count} of {sheet.Name}, {LengthText.WriteSize(sheet.Width, sheet.Height, schedule.Plan.Batch.Batch.Unit)}")),
    ];
}
