using System.Globalization;
using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>A trim schedule in words: what a person at the trimmer follows.</summary>
public static class ScheduleText
{
    /// <summary>The headings of the table of cuts.</summary>
    public static IReadOnlyList<string> Headings(LengthUnit unit) =>
        ["step", $"set to ({LengthText.Symbol(unit)})", "take", "how many", "edge at the fence", "cut", "between fence and blade", "comes off"];

    /// <summary>The rows of the table of cuts; the setting stands only where it changes.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> Rows(TrimSchedule schedule)
    {
        var unit = schedule.Plan.Batch.Batch.Unit;
        return
        [
            .. schedule.Steps.Select((step, i) => (IReadOnlyList<string>)
            [
                Text(step.Number),
                i > 0 && schedule.Steps[i - 1].Setting == step.Setting ? "same" : LengthText.WriteBare(step.Setting, unit),
                step.Mark,
                Text(step.Count),
                EdgeWord(step.AtFence),
                Times(step.Times),
                step.IsTrueing ? "the sheet, trued" : Told(step.Held, unit),
                step.IsTrueing ? $"a shaving of {LengthText.Write(Thickness(step), unit)}" : step.ComesOff is { } off ? Told(off, unit) : "nothing",
            ]),
        ];
    }

    /// <summary>How to follow the table of cuts, as sentences.</summary>
    public static IReadOnlyList<string> Hints { get; } =
    [
        "Set the fence, and leave it while the table says \"same\". Lay the edge that is named against it.",
        "Cut each sheet to the end before you take the next.",
        "Edges are named as the part lies on the map of its sheet, however you turn it on the trimmer.",
        "Where a cut is made several times, push what is left up to the fence again, the edge just cut against it.",
        "Pencil the mark of a part that is cut again lightly near its top left corner, so that it reads upright; parts with one mark are cut alike.",
        "Mark what you keep with the name of its paper; put finished pieces away at once.",
    ];

    /// <summary>The rows of the table of sheets: letter, what to take, how many, which face up, how to lay it.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> SheetRows(TrimSchedule schedule)
    {
        var unit = schedule.Plan.Batch.Batch.Unit;
        return
        [
            .. schedule.Sheets.Select(sheet => (IReadOnlyList<string>)
            [
                sheet.Letter,
                sheet.Words,
                Text(sheet.Plan.Repeats),
                LengthText.WriteSize(Untrued(sheet).Width, Untrued(sheet).Height, unit),
                sheet.FaceUp,
                Lay(schedule, sheet),
            ]),
        ];
    }

    /// <summary>The headings of the table of sheets.</summary>
    public static IReadOnlyList<string> SheetHeadings { get; } = ["sheet", "take", "how many", "width x height", "face up", "lay it"];

    /// <summary>What the plan comes to and how good it is known to be, how panels are pieced and windows cut, as sentences.</summary>
    public static IReadOnlyList<string> Summary(TrimSchedule schedule) =>
    [
        .. Known(schedule),
        .. schedule.Plan.Pieced.Select(panel => Seam(schedule, panel)),
        .. schedule.Plan.Salvage.Select(window => Window(schedule, window)),
    ];

    /// <summary>What the plan comes to and how good it is known to be, as sentences.</summary>
    public static IReadOnlyList<string> Known(TrimSchedule schedule)
    {
        var plan = schedule.Plan;
        var lines = ProofText.Of(plan).ToList();
        if (plan.IsStoppedEarly)
        {
            lines.Insert(0, "stopped early: this is the best plan that was found until then");
        }

        lines.Add(
            $"{Count(schedule.Steps.Count, "step")}: {Count(schedule.Cuts, "cut")}, {Count(schedule.Strokes, "stroke")} of the blade with up to {Text(plan.Batch.Drawer.StackLimit)} in a stack; the fence is set {Times(schedule.Settings)}, to {Count(schedule.DifferentSettings, "different distance")}");
        foreach (var stop in plan.Stops)
        {
            var made = plan.Cards.First(made => ReferenceEquals(made.Card, stop.Card)).Count;
            var parts = WordList.Of([.. stop.Parts.Select(part => $"the {LengthText.WriteSize(part.Width, part.Height, plan.Batch.Batch.Unit)} {part.Line.Name} in {BatchMessages.Papers(part).Replace("`", "", StringComparison.Ordinal)}").Distinct()]);
            lines.Add($"{Count(made, "card")} of {stop.Card.Words} come out of it: {parts} would run out with one more{(stop.IsProved ? "" : " (none was found that makes more; it is not proved that none exists)")}");
        }

        foreach (var made in plan.Cards.Where(made => made.Card.Wanted.AsManyAsPossible && made.Count == BatchReader.MostCards))
        {
            lines.Add($"{Count(made.Count, "card")} of {made.Card.Words} come out of it: one entry of `cards` can have no more");
        }

        if (plan.IsBestMix)
        {
            var weighed = plan.Cards.Any(made => made.Card.Wanted.Worth > 1);
            lines.Add(weighed ? "no other mix of the cards is worth more" : "no other mix gives more cards");
        }

        if (plan.Job.Joins.Count is > 0 and var ways)
        {
            lines.Add($"{Count(ways, "way")} to lay the seams of panels {(ways == 1 ? "was" : "were")} tried; what is said of the fewest sheets and the most cards holds for {(ways == 1 ? "it" : "them")}");
        }

        lines.AddRange(StockText.UnknownGrain(schedule));
        return lines;
    }

    /// <summary>How a panel is pieced, in a sentence.</summary>
    public static string Seam(TrimSchedule schedule, PiecedPanel panel)
    {
        var unit = schedule.Plan.Batch.Batch.Unit;
        var (edge, names) = (panel.Direction == Axis.UpDown ? "left" : "top", panel.Strips.Select(strip => strip.Line.Name).ToList());
        var strips = names.Exists(name => name.Contains(',', StringComparison.Ordinal))
            ? $"strips of {WordList.Of([.. panel.Strips.Select(strip => LengthText.WriteSize(strip.Width, strip.Height, unit))])}, from the {edge} on"
            : string.Join(", and ", panel.Strips.Select(strip => $"the {strip.Line.Name}, {LengthText.WriteSize(strip.Width, strip.Height, unit)}"));
        var seams = panel.Seams.Select(seam =>
            $"{LengthText.Write(seam.At, unit)} from the {edge} edge, under {Covers(seam)}, which {(seam.Covers.Count == 1 ? "reaches" : "reach")} {LengthText.Write(seam.Overlap, unit)} or more beyond it on both sides");
        return $"{Text(panel.Count)} of the {panel.Panel.Line.Name} ({panel.Card.Words}) {(panel.Count == 1 ? "is" : "are")} pieced in {panel.Paper}: butt {strips}; {(panel.Seams.Count == 1 ? "the seam is" : "the seams are")} {string.Join(", and ", seams)}";
    }

    /// <summary>What hides a seam, such as <c>the path and the sign</c>.</summary>
    public static string Covers(PanelSeam seam) => WordList.Of([.. seam.Covers.Select(cover => $"the {cover.Name}")]);

    /// <summary>
    /// The pictures to print before anything is cut, as sentences. A piece is cut out of the sheet that its map shows, so the print has to lie there, or is
    /// glued on.
    /// </summary>
    public static IReadOnlyList<string> Prints(TrimSchedule schedule) =>
    [
        .. from made in schedule.Plan.Cards
           where made.Count > 0
           from print in PicturePrint.Of(made.Card.Card)
           let card = schedule.Plan.Cards.Count(other => other.Count > 0) == 1 ? "" : $" ({made.Card.Words})"
           select $"print {print.File} {Count(made.Count, "time")}{card}, the whole picture {print.Size}: on the paper that the {print.Piece} is cut from, where the maps show it, or on other paper to glue onto the {print.Piece}",
    ];

    /// <summary>Which window is cut out of which mats, in a sentence.</summary>
    public static string Window(TrimSchedule schedule, SalvageWindow window) =>
        $"before gluing, cut a window of {LengthText.WriteSize(window.Width, window.Height, schedule.Plan.Batch.Batch.Unit)} with a knife out of the middle of {Count(window.Used, $"{window.Mat.Line.Name}", $"of the {window.Mat.Line.Name}")}: it is hidden, and is used again";


    /// <summary>The leftovers worth keeping, such as <c>17 of 2 x 6 in, radish-dots (pattern up and down)</c>.</summary>
    public static IReadOnlyList<string> Leftovers(TrimSchedule schedule) =>
    [
        .. LeftoverStock.Of(schedule).Select(left =>
            $"{Text(left.Count!.Value)} of {LengthText.WriteSize(left.Width, left.Height, schedule.Plan.Batch.Batch.Unit)}, {left.SideA}{(left.SideB is { } other && other != left.SideA ? $" on one side and {other} on the other" : "")}"),
    ];

    /// <summary>A part that a cut gives, in words.</summary>
    /// <param name="yield">The part.</param>
    /// <param name="unit">The unit of its size.</param>
    /// <param name="isBare">Whether the unit and the words of the cards are left out, since they are said elsewhere: cards are then named by their numbers.</param>
    public static string Told(CutYield yield, LengthUnit unit, bool isBare = false)
    {
        var size = isBare ? $"{LengthText.WriteBare(yield.Width, unit)} x {LengthText.WriteBare(yield.Height, unit)}" : LengthText.WriteSize(yield.Width, yield.Height, unit);
        return yield.Kind switch
        {
            YieldKind.Piece => $"{string.Join(", ", isBare ? yield.ShortNames : yield.Names)}: {size}",
            YieldKind.Part => $"{Several(yield.Count)}{yield.Mark}: {size}",
            YieldKind.Offcut => $"keep {(yield.Count == 1 ? "" : Text(yield.Count))}: {size}".Replace(" :", ":", StringComparison.Ordinal),
            _ => $"scrap: {size}",
        };
    }

    private static string Several(long count) => count == 1 ? "" : $"{Text(count)} of ";

    /// <summary>An edge in a word.</summary>
    public static string EdgeWord(Edge edge) => FitWords.Edge(edge);

    private static string Lay(TrimSchedule schedule, ScheduledSheet sheet)
    {
        var (width, height) = Untrued(sheet);
        var unit = schedule.Plan.Batch.Batch.Unit;
        var papers = schedule.Plan.Batch.Batch.Papers.Where(paper => sheet.Stock?.Shows(paper.Name) ?? paper.Name == sheet.FaceUp);
        return sheet.Plan.Root is CutPiece whole ? $"no cut is needed: it is {string.Join(", ", ScheduleMaker.PieceNames(schedule.Plan, sheet, [whole]))}"
            : papers.Any(paper => paper.OneWay && paper.Name == sheet.FaceUp) ? "pattern the right way up"
            : papers.FirstOrDefault(paper => paper.OneWay) is { } back ? $"{back.Name} on the back, its top at the top"
            : sheet.Stock?.Grain is { } grain ? $"{LengthText.Write(width, unit)} along the top, so that the grain runs {(grain == Axis.Across ? "across" : "up and down")}"
            : width == height ? "any way"
            : $"{LengthText.Write(width, unit)} along the top";
    }

    private static (Length Width, Length Height) Untrued(ScheduledSheet sheet)
    {
        var off = sheet.Stock?.TrueOff ?? Length.Zero;
        return (sheet.Plan.Root.Width + off + off, sheet.Plan.Root.Height + off + off);
    }

    private static Length Thickness(CutStep step) => step.Direction == CutDirection.Upright ? step.ComesOff!.Width : step.ComesOff!.Height;

    internal static string Count(long count, string one, string? several = null) =>
        several is null ? $"{Text(count)} {one}{(count == 1 ? "" : "s")}" : $"{Text(count)} {(count == 1 ? one : several)}";

    private static string Times(int count) => count switch { 1 => "once", 2 => "twice", _ => $"{Text(count)} times" };

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
