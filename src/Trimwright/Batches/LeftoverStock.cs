using Trimwright.Batches.Reading;
using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>What a batch leaves over, as stock for the next one: offcuts of the sheets that are cut, and the stock that is not touched.</summary>
public static class LeftoverStock
{
    /// <summary>The new leftovers worth keeping, equal ones together, largest first. None has the name of a sheet in stock.</summary>
    public static IReadOnlyList<StockSheet> Of(TrimSchedule schedule)
    {
        var left = new List<StockSheet>();
        foreach (var sheet in schedule.Sheets)
        {
            foreach (var offcut in sheet.Plan.Root.Walk().OfType<CutOffcut>())
            {
                var (sideA, sideB) = sheet.Stock is { } stock ? (stock.SideA, stock.SideB) : (sheet.Window!.Paper, null);
                Add(left, new()
                {
                    Name = "",
                    Width = offcut.Width,
                    Height = offcut.Height,
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

        var taken = schedule.Plan.Batch.Batch.Stock.Select(sheet => sheet.Name).ToHashSet(StringComparer.Ordinal);
        var named = new List<StockSheet>();
        foreach (var sheet in left.OrderByDescending(sheet => (Int128)sheet.Width.Nanometres * sheet.Height.Nanometres))
        {
            var name = StockNames.Numbered(sheet.SideA + "-offcut", 1, taken.Contains);
            taken.Add(name);
            named.Add(sheet with { Name = name });
        }

        return named;
    }

    /// <summary>The stock that is not touched, as the batch describes it, in its order; kinds that are used up are left out. What there is enough of stays enough.</summary>
    public static IReadOnlyList<StockSheet> Untouched(TrimSchedule schedule)
    {
        var left = new List<StockSheet>();
        foreach (var sheet in schedule.Plan.Batch.Batch.Stock)
        {
            var used = schedule.Sheets.Where(taken => taken.Stock?.Name == sheet.Name).Sum(taken => taken.Plan.Repeats);
            if (sheet.Count is not { } count)
            {
                left.Add(sheet);
            }
            else if (count > used)
            {
                left.Add(sheet with { Count = count - (int)used });
            }
        }

        return left;
    }

    /// <summary>
    /// Everything that is there when the batch is cut: what was not touched, then the new offcuts. New offcuts that are like old ones are counted with them,
    /// and no kind counts more than a batch file may say.
    /// </summary>
    public static IReadOnlyList<StockSheet> After(TrimSchedule schedule)
    {
        var left = Untouched(schedule).ToList();
        foreach (var offcut in Of(schedule))
        {
            Add(left, offcut);
        }

        for (var i = 0; i < left.Count; i++)
        {
            if (left[i].Count is > StockReader.MostSheets and var count)
            {
                left.Insert(i + 1, left[i] with
                {
                    Name = StockNames.Free(left[i].Name, name => left.Exists(sheet => sheet.Name == name)),
                    Count = count - StockReader.MostSheets,
                });
                left[i] = left[i] with { Count = StockReader.MostSheets };
            }
        }

        return left;
    }

    // Whoever keeps the new ones has no need to keep them apart from those already there.
    private static void Add(List<StockSheet> left, StockSheet offcut)
    {
        var known = left.FindIndex(other => other.Count is not null && other with { Name = offcut.Name, Count = offcut.Count, Place = offcut.Place } == offcut);
        if (known < 0)
        {
            left.Add(offcut);
            return;
        }

        left[known] = left[known] with { Count = left[known].Count + offcut.Count };
    }
}
