using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>The cards of one kind that a plan makes.</summary>
/// <param name="Card">The cards.</param>
/// <param name="Count">How many.</param>
public sealed record MadeCards(BatchCard Card, int Count);

/// <summary>A hidden middle of mats that is cut out and used again.</summary>
/// <param name="Id">The stock that it makes.</param>
/// <param name="Card">The cards that the mats are for.</param>
/// <param name="Mat">The mats.</param>
/// <param name="Width">Width of the window, as the mat lies on the card.</param>
/// <param name="Height">Height of the window.</param>
/// <param name="Paper">The paper in stock that the mats are cut from.</param>
/// <param name="Available">How many mats there are.</param>
/// <param name="Used">How many windows are cut.</param>
public sealed record SalvageWindow(
    string Id, BatchCard Card, BatchPart Mat, Length Width, Length Height, string Paper, int Available, int Used);

/// <summary>Why no more cards can be made.</summary>
/// <param name="Card">The cards of which one more was tried.</param>
/// <param name="Parts">The parts that could not be cut any more.</param>
/// <param name="IsProved">Whether it is proved that no plan makes one more; otherwise none was found.</param>
public sealed record StopReason(BatchCard Card, IReadOnlyList<BatchPart> Parts, bool IsProved);

/// <summary>How a batch is cut out of its stock.</summary>
public sealed record BatchPlan
{
    /// <summary>The fitted batch.</summary>
    public required FittedBatch Batch { get; init; }

    /// <summary>The cards made, in file order.</summary>
    public required IReadOnlyList<MadeCards> Cards { get; init; }

    /// <summary>What was planned, with the ids that the plan uses.</summary>
    public required CuttingJob Job { get; init; }

    /// <summary>The plan.</summary>
    public required CuttingPlan Cutting { get; init; }

    /// <summary>The windows cut out of mats, in the order of the cards.</summary>
    public required IReadOnlyList<SalvageWindow> Salvage { get; init; }

    /// <summary>The panels pieced from strips, in the order of the cards.</summary>
    public IReadOnlyList<PiecedPanel> Pieced { get; init; } = [];

    /// <summary>Why no more cards can be made, for each card of which as many as possible are wanted.</summary>
    public required IReadOnlyList<StopReason> Stops { get; init; }

    /// <summary>
    /// Whether as many as possible are wanted of several cards, and it is proved that no other mix of them is worth more.
    /// </summary>
    public bool IsBestMix { get; init; }

    /// <summary>Whether all new sheets cost the same, so that the cheapest plan is the one with the fewest.</summary>
    public required bool CountsSheets { get; init; }

    /// <summary>Whether planning was ended before it was done: the plan is the best found until then.</summary>
    public bool IsStoppedEarly => Cutting.Cancelled;

    /// <summary>The part that an id of the plan stands for.</summary>
    public (BatchCard Card, BatchPart Part) PartOf(string id) => BatchIds.PartOf(Batch, id);

    /// <summary>The sheet that an id of the plan stands for; null for a window.</summary>
    public StockSheet? SheetOf(string id) => Batch.Batch.Stock.FirstOrDefault(sheet => sheet.Name == id);

    /// <summary>How many new sheets are used.</summary>
    public long NewSheets => Cutting.Sheets.Where(sheet => SheetOf(sheet.Stock) is { IsOffcut: false }).Sum(sheet => sheet.Repeats);

    /// <summary>How many offcuts of the stock are used.</summary>
    public long OffcutsUsed => Cutting.Sheets.Where(sheet => SheetOf(sheet.Stock) is { IsOffcut: true }).Sum(sheet => sheet.Repeats);
}
