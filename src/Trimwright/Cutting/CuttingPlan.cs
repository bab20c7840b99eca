namespace Trimwright.Cutting;

/// <summary>How good a plan is known to be.</summary>
public enum PlanState
{
    /// <summary>Proved: no plan costs less. Nothing is claimed for leftovers, cuts and settings.</summary>
    ProvedCheapest,

    /// <summary>The plan makes everything; a cheaper one may exist, but none below <see cref="CuttingPlan.Bound"/>.</summary>
    WithinBound,

    /// <summary>Some pieces are missing: proved that the stock cannot give them all.</summary>
    ProvedIncomplete,

    /// <summary>Some pieces are missing: no plan was found that gives them all, and none excluded.</summary>
    Incomplete,
}

/// <summary>Pieces that the plan does not make, because the stock ran out.</summary>
/// <param name="Piece">The id of the piece.</param>
/// <param name="Count">How many are missing.</param>
public sealed record MissingPieces(string Piece, long Count);

/// <summary>Pieces and stock that have to be planned together, because pieces may come from several kinds of stock.</summary>
/// <param name="Pieces">The ids of the pieces, in the order of the job.</param>
/// <param name="Stock">The ids of the stock, in the order of the job.</param>
/// <param name="State">What is known of this lot.</param>
/// <param name="Sheets">How many sheets it takes.</param>
/// <param name="Cost">What they cost.</param>
/// <param name="Proof">Why it cannot cost less; its bound is the largest found.</param>
public sealed record CuttingLot(
    IReadOnlyList<string> Pieces, IReadOnlyList<string> Stock, PlanState State, long Sheets, long Cost, BoundProof Proof)
{
    /// <summary>
    /// For <see cref="PlanState.ProvedIncomplete"/>: worths of which the pieces hold more than all the sheets together can give. Null otherwise.
    /// </summary>
    public BoundProof? ShortProof { get; init; }
}

/// <summary>A plan: how each sheet is cut, and how good that is known to be.</summary>
public sealed record CuttingPlan
{
    /// <summary>What is known: the weakest state of the lots.</summary>
    public required PlanState State { get; init; }

    /// <summary>The lots; what is in one has nothing to do with the others.</summary>
    public required IReadOnlyList<CuttingLot> Lots { get; init; }

    /// <summary>The different sheets, by stock in the order of the job, those cut most often first.</summary>
    public required IReadOnlyList<SheetPlan> Sheets { get; init; }

    /// <summary>What is missing, in the order of the job; empty when everything is made.</summary>
    public IReadOnlyList<MissingPieces> Missing { get; init; } = [];

    /// <summary>
    /// What is joined from other pieces, in the order of the job. The sheets make so many fewer of those pieces, and so many more of their parts.
    /// </summary>
    public IReadOnlyList<JoinedPieces> Joined { get; init; } = [];

    /// <summary>Whether planning was cancelled. The plan is the best found until then.</summary>
    public bool Cancelled { get; init; }

    /// <summary>What all sheets cost.</summary>
    public long Cost => Lots.Sum(lot => lot.Cost);

    /// <summary>What any plan costs at least.</summary>
    public long Bound => Lots.Sum(lot => lot.Proof.Bound);

    /// <summary>How many sheets are used.</summary>
    public long SheetCount => Sheets.Sum(sheet => sheet.Repeats);

    /// <summary>The leftovers worth keeping with how often each comes, largest first.</summary>
    public IReadOnlyList<(CutOffcut Offcut, string Stock, long Count)> Offcuts =>
        [.. Sheets.SelectMany(sheet => sheet.Root.Walk().OfType<CutOffcut>().Select(offcut => (offcut, sheet.Stock, sheet.Repeats)))
            .OrderByDescending(item => (Int128)item.offcut.Width.Nanometres * item.offcut.Height.Nanometres)];

    /// <summary>How many times the blade comes down when equal sheets are stacked up to the limit, trueing cuts left out.</summary>
    /// <param name="stackLimit">How many sheets can be cut at once.</param>
    public long StackedCuts(int stackLimit) => Sheets.Sum(sheet => (sheet.Repeats + stackLimit - 1) / stackLimit * sheet.Cuts);

    /// <summary>How many different distances of the fence are used, whatever the direction of the cut.</summary>
    public int SettingCount => Sheets.SelectMany(sheet => sheet.Root.Walk().OfType<CutInTwo>()).Select(cut => cut.Setting).Distinct().Count();
}

/// <summary>A plan, or all the reasons why there is none.</summary>
public sealed record CuttingResult
{
    /// <summary>The plan; null when the job was refused.</summary>
    public CuttingPlan? Plan { get; init; }

    /// <summary>Why the job was refused, in the order of the job; empty when there is a plan.</summary>
    public IReadOnlyList<CuttingRefusal> Refusals { get; init; } = [];
}
