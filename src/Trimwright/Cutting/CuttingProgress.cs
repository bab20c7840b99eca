namespace Trimwright.Cutting;

/// <summary>How far a planning run is.</summary>
/// <param name="Lot">The lot being planned, from 1.</param>
/// <param name="Lots">How many lots there are.</param>
/// <param name="Rounds">Rounds of search spent on this lot.</param>
/// <param name="Sheets">Sheets in the best plan of this lot so far; 0 when there is none yet.</param>
/// <param name="Cost">What they cost.</param>
/// <param name="Bound">What they cost at least, as far as proved.</param>
public readonly record struct CuttingProgress(int Lot, int Lots, int Rounds, long Sheets, long Cost, long Bound);
