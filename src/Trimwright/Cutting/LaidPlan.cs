namespace Trimwright.Cutting;

/// <summary>The sheets of a lot with what tells one plan from another: cost, leftovers, cuts when equal sheets are stacked, different sheets.</summary>
internal sealed class LaidPlan : IComparable<LaidPlan>
{
    private readonly long _cost;
    private readonly List<(long Area, long Count)> _offcuts;
    private readonly long _stackedCuts;
    private readonly int _different;

    public LaidPlan(Lot lot, List<(Pattern Pattern, long Repeats)> sheets)
    {
        Sheets = sheets;
        var kinds = sheets.GroupBy(sheet => sheet.Pattern.Key(), StringComparer.Ordinal)
            .Select(same => (same.First().Pattern, Repeats: same.Sum(sheet => sheet.Repeats))).ToList();
        _cost = kinds.Sum(kind => kind.Repeats * lot.Stocks[kind.Pattern.Stock].Cost);
        _different = kinds.Count;
        _stackedCuts = kinds.Sum(kind => (kind.Repeats + lot.StackLimit - 1) / lot.StackLimit * (kind.Pattern.Leaves.Count - 1));
        _offcuts = [.. kinds
            .SelectMany(kind => kind.Pattern.Leaves.Where(leaf => leaf.IsWaste && lot.IsOffcut(leaf.Width, leaf.Height))
                .Select(leaf => (Area: lot.TrueArea(leaf.Width, leaf.Height), kind.Repeats)))
            .GroupBy(offcut => offcut.Area).Select(same => (same.Key, same.Sum(offcut => offcut.Repeats))).OrderByDescending(offcut => offcut.Key)];
    }

    public List<(Pattern Pattern, long Repeats)> Sheets { get; }

    /// <summary>Better is greater.</summary>
    public int CompareTo(LaidPlan? other)
    {
        if (other is null || _cost != other._cost)
        {
            return other is null ? 1 : other._cost.CompareTo(_cost);
        }

        for (var n = 0; n < Math.Min(_offcuts.Count, other._offcuts.Count); n++)
        {
            if (_offcuts[n] != other._offcuts[n])
            {
                return _offcuts[n].CompareTo(other._offcuts[n]);
            }
        }

        return _offcuts.Count != other._offcuts.Count ? _offcuts.Count.CompareTo(other._offcuts.Count)
            : _stackedCuts != other._stackedCuts ? other._stackedCuts.CompareTo(_stackedCuts)
            : other._different.CompareTo(_different);
    }
}
