using System.Globalization;
using Trimwright.Batches;
using Trimwright.Drawing;

namespace Trimwright.Worksheets;

/// <summary>Makes the worksheet of a batch: what to take, the cuts with their maps, how to sort what was cut, and what to keep.</summary>
public static class BatchWorksheet
{
    /// <summary>Makes it.</summary>
    /// <param name="schedule">The trim schedule.</param>
    /// <param name="paper">The paper that it is to be printed on.</param>
    public static Worksheet Make(TrimSchedule schedule, PaperSize paper)
    {
        var plan = schedule.Plan;
        var batch = plan.Batch.Batch;
        var sheet = new Worksheet
        {
            Title = batch.Title,
            Summary = Summary(schedule),
            Paper = paper,
            ScreenNote = "The maps are smaller than the paper: go by the sizes that are written, and never measure on a map.",
            Sections =
            [
                new("What is made", [new WorksheetItems([.. Made(schedule)], IsNumbered: false)]),
                .. ScheduleText.Prints(schedule) is { Count: > 0 } prints ? [new("Print first", [Sentences(prints)])] : Array.Empty<WorksheetSection>(),
                new("Paper to take", [Paper(schedule)]),
                new("How to follow the steps", [new WorksheetItems(Hints(schedule), IsNumbered: false, IsAside: true)]),
                new("Before you cut", [new WorksheetItems(TakeCare.Lines, IsNumbered: false, IsAside: true)]),
            ],
        };
        List<WorksheetSection> sections = [.. sheet.Sections, .. new CutPages(schedule, paper, WorksheetPdf.RoomBelow(sheet)).Sections()];
        if (ScheduleText.Leftovers(schedule) is { Count: > 0 } left)
        {
            sections.Add(new("Keep for another day", [new WorksheetItems(left, IsNumbered: false)]));
        }

        if (plan.Salvage.Count > 0)
        {
            sections.Add(new("Windows to cut with a knife", [Sentences(plan.Salvage.Select(window => Window(schedule, window)))]));
        }

        if (plan.Pieced.Count > 0)
        {
            sections.Add(new("Panels pieced from strips",
            [
                new WorksheetFigures(
                    [.. plan.Pieced.Select((panel, n) => WorksheetFigures.Figure($"seam-{Whole(n + 1)}", SeamDrawing.Draw(schedule, panel)))],
                    "Half their size: do not measure on them. The seam is dashed, what covers it is pale."),
                Sentences(plan.Pieced.Select(panel => ScheduleText.Seam(schedule, panel))),
            ]) { StaysTogether = true });
        }

        sections.Add(new("What is known of the plan", [Known(schedule)]));
        sections.Add(new(
            "Sort the pieces",
            [
                new WorksheetText("How a card goes together is drawn, step by step, on the worksheet of its layout (trimwright worksheet; for a variant, trimwright balance --write)."),
                .. BatchSorting.Of(schedule),
            ]));
        return sheet with { Sections = sections };
    }

    private static string Summary(TrimSchedule schedule)
    {
        var plan = schedule.Plan;
        string[] paper =
        [
            .. plan.NewSheets > 0 ? [ScheduleText.Count(plan.NewSheets, "new sheet")] : Array.Empty<string>(),
            .. plan.OffcutsUsed > 0 ? [ScheduleText.Count(plan.OffcutsUsed, "offcut")] : Array.Empty<string>(),
        ];
        return $"{ScheduleText.Count(plan.Cards.Sum(made => made.Count), "card")} out of {string.Join(" and ", paper)}, "
            + $"in {ScheduleText.Count(schedule.Steps.Count, "step")} with {ScheduleText.Count(schedule.Cuts, "cut")}. Sizes are width before height."
            + (plan.IsStoppedEarly ? " Planning was stopped early: this is the best plan found until then." : "");
    }

    private static IEnumerable<string> Made(TrimSchedule schedule) => schedule.Plan.Cards.Where(made => made.Count > 0)
        .Select(made => Made(schedule, made.Card, made.Count));

    /// <summary>How many of some cards are made, with the number by which the tables and the maps name them where there are several kinds.</summary>
    internal static string Made(TrimSchedule schedule, BatchCard card, int count)
    {
        var number = schedule.Plan.Cards.Count(made => made.Count > 0) == 1 ? "" : $"{WorksheetMaker.Capital(ScheduleMaker.CardNumber(schedule.Plan, card))}: ";
        return $"{number}{Whole(count)} of {card.Words}";
    }

    private static WorksheetTable Paper(TrimSchedule schedule) => new(
        "sheets", "Each letter is one way to cut a sheet; its map stands with its cuts",
        [
            new("Sheet", ColumnKind.Mark), new("Take", ColumnKind.Words), new("How many", ColumnKind.Number), new("Width x height", ColumnKind.Size),
            new("Face up", ColumnKind.Words), new("Lay it", ColumnKind.Words),
        ],
        [.. ScheduleText.SheetRows(schedule).Select(row => new WorksheetRow(row, []))]) { IsTight = true, MayBreak = true };

    private static IReadOnlyList<string> Hints(TrimSchedule schedule)
    {
        var stack = schedule.Plan.Batch.Drawer.StackLimit;
        return
        [
            "Set the fence where a bold figure stands, and leave it while the list says “same”. Lay the edge that is named against it.",
            .. ScheduleText.Hints.Skip(1),
            .. schedule.Strokes > schedule.Cuts ? [$"Up to {Whole(stack)} equal parts make a stack and are cut in one stroke: lay them exactly one on the other."] : Array.Empty<string>(),
        ];
    }

    private static string Window(TrimSchedule schedule, SalvageWindow window)
    {
        var letters = schedule.Sheets.Where(sheet => sheet.Window == window).Select(sheet => sheet.Letter).ToList();
        return $"{ScheduleText.Window(schedule, window)}, as sheet {string.Join(" and ", letters)}";
    }

    // The names of sheets keep their small letters.
    private static WorksheetItems Known(TrimSchedule schedule) => new(
        [
            .. ScheduleText.Known(schedule).Select(sentence =>
                schedule.Plan.Batch.Batch.Stock.Any(sheet => sentence.StartsWith(sheet.Name + ":", StringComparison.Ordinal)) ? $"{sentence}." : Sentence(sentence)),
        ],
        IsNumbered: false, IsAside: true);

    private static WorksheetItems Sentences(IEnumerable<string> sentences) => new([.. sentences.Select(Sentence)], IsNumbered: false);

    private static string Sentence(string text) => WorksheetMaker.WithQuotes($"{WorksheetMaker.Capital(text)}.");

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
