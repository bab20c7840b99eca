using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>What becomes of a part that a cut gives.</summary>
public enum YieldKind
{
    /// <summary>A finished rectangle.</summary>
    Piece,

    /// <summary>Cut again later.</summary>
    Part,

    /// <summary>Kept for another day.</summary>
    Offcut,

    /// <summary>Too small to keep.</summary>
    Sliver,
}

/// <summary>A part that a cut gives.</summary>
/// <param name="Kind">What becomes of it.</param>
/// <param name="Mark">What to pencil on its back: the mark of a part, such as <c>B2</c>; null where it needs none.</param>
/// <param name="Names">For a piece: what it is and how many of each, such as <c>3 ground (Bean row)</c>.</param>
/// <param name="Count">How many of them the step gives.</param>
/// <param name="Width">The width of one, as the sheet lies on the map.</param>
/// <param name="Height">Its height.</param>
public sealed record CutYield(YieldKind Kind, string? Mark, IReadOnlyList<string> Names, long Count, Length Width, Length Height)
{
    /// <summary>The names with the numbers of the cards in place of their words, such as <c>3 ground (card 2)</c>, for where the numbers are explained.</summary>
    public IReadOnlyList<string> ShortNames { get; init; } = Names;
}

/// <summary>A cut, or equal cuts one after the other, through parts that are alike: copies of a sheet, and equal parts of one sheet.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Setting">From the fence to the blade.</param>
/// <param name="Sheet">The letter of the sheet.</param>
/// <param name="Mark">The mark of what is cut: the letter of the sheet, or that with a number.</param>
/// <param name="AtFence">The edge, as the sheet lies on the map, that is held against the fence.</param>
/// <param name="Direction">Which way the cut runs on the map.</param>
/// <param name="Length">How long the cut is.</param>
/// <param name="Count">How many parts are cut alike.</param>
/// <param name="Times">
/// How many times each is cut: what is left beyond the blade is pushed up to the fence again, the edge just cut against it.
/// </param>
/// <param name="Strokes">How many times the blade comes down, with parts stacked.</param>
/// <param name="IsTrueing">Whether it only makes an edge true.</param>
/// <param name="Held">What lies between fence and blade, cut after cut.</param>
/// <param name="ComesOff">What is beyond the blade after the last cut; null when nothing is.</param>
public sealed record CutStep(
    int Number, Length Setting, string Sheet, string Mark, Edge AtFence, CutDirection Direction, Length Length, long Count, int Times, long Strokes,
    bool IsTrueing, CutYield Held, CutYield? ComesOff);

/// <summary>A different way to cut a sheet, with its letter.</summary>
/// <param name="Letter">A, B, C and so on, in the order in which they are cut.</param>
/// <param name="Plan">How it is cut.</param>
/// <param name="Stock">The sheet; null for a window cut out of a mat.</param>
/// <param name="Window">The window; null for a sheet.</param>
/// <param name="FaceUp">The paper that looks up.</param>
public sealed record ScheduledSheet(string Letter, SheetPlan Plan, StockSheet? Stock, SalvageWindow? Window, string FaceUp)
{
    /// <summary>What it is called, such as <c>pad</c> or <c>window of the mat of ground</c>.</summary>
    public string Words => Stock?.Name ?? $"window of the {Window!.Mat.Line.Name}";
}

/// <summary>The cuts of a plan in the order in which they are made: one sheet after the other, and on each one setting after the other.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Sheets">The different sheets.</param>
/// <param name="Steps">The cuts.</param>
/// <param name="Numbers">The number of the step that makes each cut of the plan; nodes are told apart by reference.</param>
public sealed record TrimSchedule(
    BatchPlan Plan, IReadOnlyList<ScheduledSheet> Sheets, IReadOnlyList<CutStep> Steps, IReadOnlyDictionary<CutInTwo, int> Numbers)
{
    /// <summary>How many times the fence is set.</summary>
    public int Settings => Steps.Select((step, i) => i == 0 || Steps[i - 1].Setting != step.Setting).Count(changes => changes);

    /// <summary>How many different settings there are.</summary>
    public int DifferentSettings => Steps.Select(step => step.Setting).Distinct().Count();

    /// <summary>How many cuts there are, those through parts that are alike counted once.</summary>
    public int Cuts => Steps.Sum(step => step.Times);

    /// <summary>How many times the blade comes down.</summary>
    public long Strokes => Steps.Sum(step => step.Strokes);

    /// <summary>Puts the cuts of a plan into order.</summary>
    public static TrimSchedule FromPlan(BatchPlan plan) => new ScheduleMaker(plan).Make();
}
