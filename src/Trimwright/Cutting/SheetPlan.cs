namespace Trimwright.Cutting;

/// <summary>How one sheet is cut, and how many sheets are cut that way.</summary>
/// <param name="Stock">The id of the stock.</param>
/// <param name="Repeats">How many sheets are cut so; at least 1.</param>
/// <param name="Root">The trued sheet and its cuts.</param>
public sealed record SheetPlan(string Stock, long Repeats, CutNode Root)
{
    /// <summary>How many cuts one sheet takes, trueing cuts left out.</summary>
    public int Cuts => Root.Walk().Count(node => node is CutInTwo);
}
