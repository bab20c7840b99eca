using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>What a batch leaves over, as stock for the next one: offcuts of sheets, and whole sheets that were not touched.</summary>
public static class LeftoverStock
{
    /// <summary>The leftovers worth keeping, equal ones together, largest first.</summary>
    public static IReadOnlyList<StockSheet> Of(TrimSchedule schedule)
    {
        var left = new List<StockSheet>();
        foreach (var sheet in schedule.Sheets)
        {
            foreach (var offcut in sheet.Plan.Root.Walk().OfType<CutOffcut>())
            {
                var (width, height) = (offcut.Width, offcut.Height);
                var (sideA, sideB) = sheet.Stock is { } stock ? (stock.SideA, stock.SideB) : (sheet.Window!.Paper, null);
                var known = left.FindIndex(other => other.Width == width && other.Height == height && other.SideA == sideA && other.SideB == sideB && other.Grain == sheet.Stock?.Grain);
                if (known >= 0)
                {
                    left[known] = left[known] with { Count = left[known].Count + (int)sheet.Plan.Repeats };
                    continue;
                }

                left.Add(new()
                {
                    Name = "",
                    Width = width,
                    Height = height,
                    Count = (int)sheet.Plan.Repeats,
                    SideA = sideA,
                    SideB = sideB,
                    Grain = sheet.Stock?.Grain,
                    TrueOff = Length.Zero,
                    IsOffcut = true,
                    Place = sheet.Stock?.Place ?? sheet.Window!.Card.Wanted.Place,
                });
            }
        }

        var numbers = new Dictionary<string, int>(StringComparer.Ordinal);
        return [.. left.OrderByDescending(sheet => (Int128)sheet.Width.Nanometres * sheet.Height.Nanometres).Select(sheet => sheet with
        {
            Name = FormattableString.Invariant($"{Stem(sheet.SideA)}-offcut-{numbers[sheet.SideA] = numbers.GetValueOrDefault(sheet.SideA) + 1}"),
        })];
    }

    // A name may be no longer than 60 letters.
    private static string Stem(string paper) => paper.Length <= 45 ? paper : paper[..45].TrimEnd('-');
}
