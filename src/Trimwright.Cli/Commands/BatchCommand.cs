using System.CommandLine;
using System.Text;
using Spectre.Console;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Drawing;
using Trimwright.Layouts;
using Trimwright.Trimming;
using Trimwright.Worksheets;

namespace Trimwright.Cli.Commands;

/// <summary><c>batch</c>: plans how to cut several cards out of the paper in stock.</summary>
internal static class BatchCommand
{
    /// <summary>The word for it on the command line.</summary>
    public const string Verb = "batch";

    // A screen or two; of a longer list only the beginning is shown, since nobody cuts from a terminal.
    private const int MostRows = 40;
    private const int FirstRows = 10;

    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var file = new Argument<string>("batch") { Description = "The batch file (JSON)." };
        var paper = WorksheetCommand.PaperOption("batches");
        var command = new Command(Verb, """
            Plan how to cut a batch of cards out of a pad of paper: a worksheet to print (PDF and HTML) with maps of the sheets, the cuts in order and
            what is left over.

            Example: trimwright batch layouts/batches/seed-swap.json --out cut
            """)
        {
            file, options.DrawerFile, paper, options.Out, options.Png, options.Dpi, options.Json, options.Force,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed, parsed.GetValue(file)!, options, paper, screen, cancel)));
        return command;
    }

    private static int Run(ParseResult parsed, string file, CommonOptions options, Option<string?> paper, Screen screen, CancellationToken cancel)
    {
        var dpi = options.DotsPerInch(parsed);
        var asked = WorksheetCommand.PaperAsked(parsed, paper);
        var inputs = new BatchInputs();
        var (planning, diagnostics) = inputs.Plan(file, parsed.GetValue(options.DrawerFile), screen, cancel);
        var asJson = parsed.GetValue(options.Json);
        if (planning is null)
        {
            if (asJson)
            {
                screen.WriteJson(json => CardJson.Write(json, "diagnostics", diagnostics));
            }
            else
            {
                screen.Complain(diagnostics, inputs.Sources);
            }

            return Program.BadLayout;
        }

        var schedule = TrimSchedule.FromPlan(planning);
        var folder = new OutputFolder(parsed.GetValue(options.Out)!);
        var stem = CommonOptions.Slug(Path.GetFileNameWithoutExtension(file));
        var files = new CardFiles(folder, parsed.GetValue(options.Png), dpi, bothUnits: false, screen);
        foreach (var sheet in schedule.Sheets)
        {
            files.AddDrawing($"{stem}-sheet-{CommonOptions.Slug(sheet.Letter)}", SheetMapDrawing.Draw(schedule, sheet));
        }

        for (var n = 0; n < planning.Pieced.Count; n++)
        {
            files.AddDrawing(FormattableString.Invariant($"{stem}-seam-{n + 1}"), SeamDrawing.Draw(schedule, planning.Pieced[n]));
        }

        var sheetToPrint = BatchWorksheet.Make(schedule, asked ?? PaperSize.For(schedule.Plan.Batch.Batch.Unit));
        folder.Add($"{stem}-schedule.pdf", WorksheetPdf.Write(sheetToPrint));
        folder.Add($"{stem}-schedule.html", WorksheetHtml.Write(sheetToPrint));
        folder.Add($"{stem}-schedule.md", ScheduleSheet.Write(schedule));
        folder.Add($"{stem}-schedule.csv", ScheduleCsv.Write(schedule));
        folder.Add($"{stem}-left-over.json", BatchJson.WriteLeftovers(schedule));
        folder.Write(parsed.GetValue(options.Force));
        if (asJson)
        {
            screen.WriteJson(json =>
            {
                json.WritePropertyName("schedule");
                BatchJson.Write(json, schedule);
                CardJson.WriteTexts(json, "files", folder.Paths);
                CardJson.Write(json, "diagnostics", diagnostics);
            });
            return Program.Done;
        }

        screen.Complain(diagnostics, inputs.Sources);
        Show(schedule, stem, screen);
        WorksheetCommand.TellOfPrinting(sheetToPrint, screen);
        screen.Lines("written", folder.Paths);
        screen.Lines("before you cut", TrimSheet.Cautions);
        return Program.Done;
    }

    private static void Show(TrimSchedule schedule, string stem, Screen screen)
    {
        var batch = schedule.Plan.Batch.Batch;
        screen.Line(batch.Title);
        screen.Lines("made", [.. schedule.Plan.Cards.Where(made => made.Count > 0).Select(made => FormattableString.Invariant($"{made.Count} of {made.Card.Words}"))]);
        screen.Lines("the plan", ScheduleText.Summary(schedule));
        screen.Lines("print first", ScheduleText.Prints(schedule));
        var isLong = schedule.Steps.Count > MostRows;
        ShowTable("sheet", ScheduleText.SheetHeadings, ScheduleText.SheetRows(schedule), isLong, stem, screen);
        ShowTable("step", ScheduleText.Headings(batch.Unit), ScheduleText.Rows(schedule), isLong, stem, screen);
        screen.Lines("how to follow it", ScheduleText.Hints);
        screen.Lines("keep", ScheduleText.Leftovers(schedule));
        screen.Lines("not touched", StockText.Untouched(schedule));
    }

    private static void ShowTable(
        string row, IReadOnlyList<string> headings, IReadOnlyList<IReadOnlyList<string>> rows, bool isLong, string stem, Screen screen)
    {
        // One row more takes no more room than the words that there is one.
        IReadOnlyList<IReadOnlyList<string>> shown = isLong && rows.Count > FirstRows + 1 ? [.. rows.Take(FirstRows)] : rows;
        screen.Line();
        screen.Table(headings, shown, TextTable.Plain(headings, shown));
        if (shown.Count < rows.Count)
        {
            screen.Line(FormattableString.Invariant($"... and {rows.Count - shown.Count} {row}s more: all {rows.Count} are in {stem}-schedule.pdf, .html and .md"));
        }
    }
}
