namespace Trimwright.Batches;

/// <summary>A sheet that is large enough for a piece, but does not let it lie as it would have to.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Paper">The paper it would be cut from.</param>
/// <param name="IsTurned">Whether it would have to be a quarter turned.</param>
/// <param name="Grain">Whether the grain of the sheet forbids that.</param>
/// <param name="Top">Whether the top of the paper forbids that.</param>
internal sealed record WrongWay(StockSheet Sheet, string Paper, bool IsTurned, bool Grain, bool Top);
