using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Measures;
using Trimwright.Trimming;

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

    /// <summary>The sheets that card bases are cut from though nobody has said which way their grain runs, in a sentence; nothing where there are none.</summary>
    public static IEnumerable<string> UnknownGrain(TrimSchedule schedule)
    {
        var names = schedule.Sheets
            .Where(sheet => sheet.Stock is { Grain: null } && sheet.Plan.Root.Walk().OfType<CutPiece>().Any(piece => piece.Ids.Any(id => schedule.Plan.PartOf(id).Part.Line.Shape == BaseLine.Shape)))
            .Select(sheet => sheet.Words).Distinct().ToList();
        if (names.Count > 0)
        {
            yield return $"the grain of {WordList.Of(names)} is not known, and card bases may come to be folded against it: say with \"grain\", in the file that lists them, how it runs, and they are cut to fold along it";
        }
    }
}
