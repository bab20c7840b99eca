using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Sheets of one kind to cut from: a pad, or offcuts and salvage of one size.</summary>
/// <param name="Id">The name it is found by; unique in a job.</param>
/// <param name="Width">The whole width, before the edges are trued; positive.</param>
/// <param name="Height">The whole height; positive.</param>
/// <param name="Count">How many there are, at least 1; null for as many as are needed.</param>
/// <param name="Cost">
/// What one costs, in any whole unit common to the job. New sheets of one size may all cost 1; an offcut a little above nothing next to a
/// new sheet, so that it is taken when it saves something and only then. At least 0, and at least 1 when there is no limit to the count.
/// </param>
public sealed record StockSheet(string Id, Length Width, Length Height, long? Count, long Cost)
{
    /// <summary>What is cut off each edge to true it before anything else is cut.</summary>
    public SheetMargins Margins { get; init; }
}
