using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Trimwright.Batches;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Batches;
using Trimwright.Worksheets;

namespace Trimwright.Tests.Worksheets;

/// <summary>
/// The worksheets of batches, read back by Poppler, an independent reader, and held against the schedules, which are replayed before they come here.
/// </summary>
public partial class BatchWorksheetTests
{
    private const double MillimetresPerInch = 25.4;

    public static TheoryData<string, string> Sheets()
    {
        var data = new TheoryData<string, string>();
        foreach (var name in Names)
        {
            data.Add(name, "Letter");
            data.Add(name, "A4");
        }

        return data;
    }

    private static readonly string[] Names = [.. Repository.BatchNames(), "windows", "many kinds", "large sheets", "millimetres"];

    private static readonly Dictionary<string, TrimSchedule> Schedules = [];
    private static readonly Dictionary<(string Name, string Paper), byte[]> Pdfs = [];

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void Every_step_can_be_read_out_of_the_file_with_its_setting_mark_edge_and_what_it_gives(string name, string paper)
    {
        var schedule = Schedule(name);
        var unit = schedule.Plan.Batch.Batch.Unit;
        var rows = new List<List<string>>();
        var isCuts = false;
        foreach (var row in Rows(Pdf(name, paper)))
        {
            isCuts = row[0] == "Step" || (isCuts && row[0] is not ("Sheet" or "Layer"));
            if (isCuts && row[0] != "Step")
            {
                rows.Add(row);
            }
        }

        Assert.Equal(schedule.Steps.Count, rows.Count);
        string? setting = null;
        foreach (var (row, step) in rows.Zip(schedule.Steps))
        {
            Assert.Equal(step.Number.ToString(CultureInfo.InvariantCulture), row[0]);
            setting = row[1] == "same" ? setting : row[1];
            Assert.Equal(LengthText.WriteBare(step.Setting, unit), setting);
            Assert.Equal(step.Count == 1 ? step.Mark : FormattableString.Invariant($"{step.Count} of {step.Mark}"), row[2].Split($" {step.Sheet} is the ")[0]);
            Assert.StartsWith(ScheduleText.EdgeWord(step.AtFence), row[3], StringComparison.Ordinal);
            Assert.Equal(step.Times > 1, row[3].Contains("twice", StringComparison.Ordinal) || row[3].Contains("times", StringComparison.Ordinal));
            Assert.Equal(step.Strokes > step.Times, row[3].Contains("stacks", StringComparison.Ordinal));
            if (!step.IsTrueing)
            {
                AssertTells(row[4], step.Held, unit);
                AssertTells(row[5], step.ComesOff, unit);
            }
        }
    }

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void A_page_of_cuts_has_the_map_of_every_sheet_that_is_cut_on_it_and_no_other(string name, string paper)
    {
        var schedule = Schedule(name);
        var next = 1;
        foreach (var page in Poppler.Pages(Pdf(name, paper)).Where(page => Range().IsMatch(page)))
        {
            // A page that is begun may hold several: each has its own maps, and they follow one another.
            var shown = Title().Matches(page).Select(found => found.Groups[1].Value).ToHashSet();
            var cut = new HashSet<string>();
            foreach (Match range in Range().Matches(page))
            {
                Assert.Equal(next, int.Parse(range.Groups[1].Value, CultureInfo.InvariantCulture));
                var last = range.Groups[2].Success ? int.Parse(range.Groups[2].Value, CultureInfo.InvariantCulture) : next;
                cut.UnionWith(schedule.Steps.Where(step => step.Number >= next && step.Number <= last).Select(step => step.Sheet));
                Assert.Contains($"\n{last}\n", page.Replace("\r", "", StringComparison.Ordinal), StringComparison.Ordinal);
                next = last + 1;
            }

            Assert.Equal(cut.Order(), shown.Order());
            Assert.Equal(shown.Count, MapNote().Count(page));
            Assert.Contains("do not measure on it", page, StringComparison.Ordinal);
        }

        Assert.Equal(schedule.Steps.Count + 1, next);
    }

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void There_is_a_box_to_tick_for_every_stroke_of_the_blade_and_a_line_to_tally_on_where_there_are_many(string name, string paper)
    {
        var schedule = Schedule(name);
        var pdf = Pdf(name, paper);
        // More than twelve boxes would not be counted by anybody.
        var boxes = schedule.Steps.Where(step => step.Strokes <= 12).Sum(step => step.Strokes);
        Assert.Equal(boxes, Enumerable.Range(1, Poppler.Pages(pdf).Length).Sum(page => Boxes(Poppler.Picture(pdf, page, 300))));
        var html = WorksheetHtml.Write(BatchWorksheet.Make(schedule, PaperSize.Find(paper)!));
        Assert.Equal(boxes, html.Split("<input type=\"checkbox\"").Length - 1);
        var many = schedule.Steps.Where(step => step.Strokes > 12).ToList();
        Assert.Equal(many.Count, html.Split("class=\"tally\"").Length - 1);
        var text = string.Join(' ', Poppler.Pages(pdf));
        Assert.All(many, step => Assert.Contains(FormattableString.Invariant($"{step.Strokes} times"), text, StringComparison.Ordinal));
    }

    [PopplerTheory]
    [InlineData("seed-swap", "Letter")]
    [InlineData("large sheets", "A4")]
    [InlineData("millimetres", "A4")]
    public void A_map_has_the_size_that_it_says_of_its_sheet(string name, string paper)
    {
        const int Dpi = 600;
        const double Line = 0.5; // The outline is half a millimetre thick, half of it outside.
        var schedule = Schedule(name);
        var pdf = Pdf(name, paper);
        var pages = Poppler.Pages(pdf);
        for (var page = 0; page < pages.Length; page++)
        {
            if (MapNote().Match(pages[page]) is not { Success: true } note)
            {
                continue;
            }

            var part = int.Parse(note.Groups[1].Value, CultureInfo.InvariantCulture);
            var picture = Poppler.Picture(pdf, page + 1, Dpi);
            var runs = Enumerable.Range(0, picture.Height).SelectMany(y => picture.DarkIn(y).Select(run => run.Length)).ToHashSet();
            foreach (Match title in Title().Matches(pages[page]))
            {
                var sheet = schedule.Sheets.Single(sheet => sheet.Letter == title.Groups[1].Value);
                var off = sheet.Stock?.TrueOff ?? Length.Zero;
                var width = (((sheet.Plan.Root.Width + off + off).Nanometres / 1e6 / part) + Line) / MillimetresPerInch * Dpi;
                Assert.Contains(runs, run => Math.Abs(run - width) <= 1.5);
            }
        }
    }

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void No_heading_stands_last_on_a_page_and_each_page_says_which_it_is(string name, string paper)
    {
        var sheet = BatchWorksheet.Make(Schedule(name), PaperSize.Find(paper)!);
        var headings = sheet.Sections.Select(section => section.Heading).ToHashSet();
        var pages = Poppler.Pages(Pdf(name, paper));
        for (var page = 0; page < pages.Length; page++)
        {
            var lines = pages[page].Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Trim()).ToList();
            Assert.Contains(lines, line => line.EndsWith(FormattableString.Invariant($"page {page + 1} of {pages.Length}"), StringComparison.Ordinal));
            var last = lines.FindLastIndex(line => headings.Contains(line));
            Assert.True(last < 0 || lines.Count - last > 5, $"page {page + 1} ends with the heading {lines[Math.Max(last, 0)]}");
        }
    }

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void Everything_else_that_a_maker_needs_stands_in_it(string name, string paper)
    {
        var schedule = Schedule(name);
        var text = Flat(string.Join(' ', Rows(Pdf(name, paper)).SelectMany(row => row)) + ' ' + string.Join(' ', Poppler.Pages(Pdf(name, paper))));
        Assert.All(ScheduleText.SheetRows(schedule), row => Assert.Contains(Flat(string.Join(' ', row)), text, StringComparison.Ordinal));
        Assert.All(
            ScheduleText.Leftovers(schedule).Concat(TakeCare.Lines).Concat(ScheduleText.Known(schedule).Select(Tail)),
            line => Assert.Contains(Flat(line), text, StringComparison.Ordinal));
        Assert.All(schedule.Plan.Cards.Where(made => made.Count > 0), made => Assert.Contains(
            FormattableString.Invariant($"{made.Count} of {made.Card.Words}"), text, StringComparison.Ordinal));
        Assert.All(schedule.Plan.Pieced, panel => Assert.Contains(Flat(Tail(ScheduleText.Seam(schedule, panel))), text, StringComparison.Ordinal));
        Assert.All(schedule.Plan.Salvage, window => Assert.Contains(Flat(Tail(ScheduleText.Window(schedule, window))), text, StringComparison.Ordinal));

        // The first letter may have become a capital.
        static string Tail(string sentence) => sentence[1..];
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void The_pieces_are_sorted_into_as_many_as_the_cards_need(string name, string paper)
    {
        var schedule = Schedule(name);
        var tables = BatchWorksheet.Make(schedule, PaperSize.Find(paper)!).Sections.Single(section => section.Heading == "Sort the pieces").Parts.OfType<WorksheetTable>().ToList();
        var made = schedule.Plan.Cards.Where(cards => cards.Count > 0).ToList();
        Assert.Equal(made.Count, tables.Count);
        foreach (var (table, cards) in tables.Zip(made))
        {
            // Strips stand for a pieced panel, on its layer; every other line of the trim list is there once.
            var pieced = schedule.Plan.Pieced.Where(panel => panel.Card.Wanted == cards.Card.Wanted).ToList();
            Assert.All(table.Rows.Where(row => !row.Cells[1].Contains("strip of", StringComparison.Ordinal)), row =>
            {
                var whole = cards.Count - pieced.Where(panel => panel.Panel.Line.Name == row.Cells[1]).Sum(panel => panel.Count);
                Assert.Equal(whole * int.Parse(row.Cells[2], CultureInfo.InvariantCulture), int.Parse(row.Cells[3], CultureInfo.InvariantCulture));
            });
            Assert.All(pieced.GroupBy(panel => panel.Panel.Line.Name), panels => Assert.Equal(
                panels.Sum(panel => panel.Count * panel.Strips.Count),
                table.Rows.Where(row => row.Cells[1].Contains($"strip of {panels.Key}", StringComparison.Ordinal)).Sum(row => long.Parse(row.Cells[3], CultureInfo.InvariantCulture))));
            Assert.Equal(
                cards.Card.Card.Pieces.Sum(piece => 1 + piece.Mats.Count) + 1,
                table.Rows.DistinctBy(row => row.Cells[0]).Sum(row => int.Parse(row.Cells[2], CultureInfo.InvariantCulture)));
        }
    }

    [PopplerFact]
    public void A_reader_that_speaks_finds_headings_tables_and_figures_and_every_map_has_words()
    {
        var schedule = Schedule("from-strips");
        var sheet = BatchWorksheet.Make(schedule, PaperSize.Letter);
        var pdf = WorksheetPdf.Write(sheet);
        Assert.Contains("Tagged:          yes", Poppler.Info(pdf), StringComparison.Ordinal);
        var kinds = Poppler.Info(pdf, "-struct-text").Split('\n').Select(line => line.Trim().Split(' ')[0].TrimEnd(':')).ToList();
        Assert.Equal(1, kinds.Count(kind => kind == "H1"));
        Assert.Equal(sheet.Sections.Count, kinds.Count(kind => kind == "H2"));
        Assert.Equal(sheet.Sections.SelectMany(section => section.Parts).OfType<WorksheetTable>().Count(), kinds.Count(kind => kind == "Table"));
        var figures = sheet.Sections.SelectMany(section => section.Parts).OfType<WorksheetFigures>().SelectMany(figures => figures.Figures).ToList();
        Assert.Equal(figures.Count, kinds.Count(kind => kind == "Figure"));
        Assert.Equal(figures.Count, Encoding.Latin1.GetString(pdf).Split("/Alt <FEFF").Length - 1);
        Assert.Contains(figures, figure => figure.Drawing.Title == "ground, pieced");
    }

    [PopplerFact]
    public void Windows_are_named_where_they_are_first_wanted_and_have_a_section_of_their_own()
    {
        var text = Flat(string.Join(' ', Poppler.Pages(Pdf("windows", "Letter"))));
        Assert.Contains("is the window of the mat of front: cut it out with a knife first", text, StringComparison.Ordinal);
        Assert.Contains("Windows to cut with a knife", text, StringComparison.Ordinal);
        Assert.Contains("Before gluing, cut a window of 3 x 3 in with a knife", text, StringComparison.Ordinal);
    }

    [PopplerTheory]
    [MemberData(nameof(Sheets))]
    public void Nothing_is_drawn_where_printers_do_not_reach(string name, string paper)
    {
        const int Dpi = 72;
        const int Reach = 17; // 6 mm
        var pdf = Pdf(name, paper);
        for (var page = 1; page <= Poppler.Pages(pdf).Length; page++)
        {
            var picture = Poppler.Picture(pdf, page, Dpi);
            for (var y = 0; y < picture.Height; y++)
            {
                foreach (var (from, length) in picture.DarkIn(y, darkerThan: 255))
                {
                    Assert.True(y >= Reach && y < picture.Height - Reach && from >= Reach && from + length <= picture.Width - Reach, $"ink on page {page} at {from}, {y}");
                }
            }
        }
    }

    [Theory]
    [InlineData("seed-swap")]
    [InlineData("from-strips")]
    public void The_same_batch_is_the_same_bytes_in_any_culture(string name)
    {
        var kept = CultureInfo.CurrentCulture;
        var sheet = BatchWorksheet.Make(Schedule(name), PaperSize.A4);
        var (pdf, html) = (WorksheetPdf.Write(sheet), WorksheetHtml.Write(sheet));
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var again = BatchWorksheet.Make(Schedule(name), PaperSize.A4);
            Assert.Equal(pdf, WorksheetPdf.Write(again));
            Assert.Equal(html, WorksheetHtml.Write(again));
        }
        finally
        {
            CultureInfo.CurrentCulture = kept;
        }
    }

    private static byte[] Pdf(string name, string paper)
    {
        lock (Pdfs)
        {
            return Pdfs.TryGetValue((name, paper), out var known)
                ? known : Pdfs[(name, paper)] = WorksheetPdf.Write(BatchWorksheet.Make(Schedule(name), PaperSize.Find(paper)!));
        }
    }

    private static TrimSchedule Schedule(string name)
    {
        lock (Schedules)
        {
            return Schedules.TryGetValue(name, out var known) ? known : Schedules[name] = BatchSamples.Schedule(name);
        }
    }

    private static void AssertTells(string cell, CutYield? yield, LengthUnit unit)
    {
        if (yield is null)
        {
            Assert.Equal("nothing", cell);
            return;
        }

        Assert.EndsWith($": {LengthText.WriteBare(yield.Width, unit)} x {LengthText.WriteBare(yield.Height, unit)}", cell, StringComparison.Ordinal);
        Assert.Contains(yield.Kind switch
        {
            YieldKind.Piece => string.Join(", ", yield.ShortNames),
            YieldKind.Part => yield.Mark!,
            YieldKind.Offcut => "keep",
            _ => "scrap",
        }, cell, StringComparison.Ordinal);
    }

    /// <summary>The rows of the tables of a file as its structure tells them: the texts of their cells.</summary>
    private static List<List<string>> Rows(byte[] pdf)
    {
        var rows = new List<List<string>>();
        foreach (var line in Poppler.Info(pdf, "-struct-text").Split('\n').Select(line => line.Trim()))
        {
            switch (line.Split(' ')[0].TrimEnd(':'))
            {
                case "TR":
                    rows.Add([]);
                    break;
                case "TD" or "TH":
                    rows[^1].Add("");
                    break;
                case var word when word.StartsWith('"') && rows is [.., { Count: > 0 } row]:
                    row[^1] += line.Trim('"').Replace('\u00a0', ' ');
                    break;
            }
        }

        return rows;
    }

    /// <summary>Counts the boxes to tick: squares of 3.4 mm, lined a quarter of a millimetre thick, with nothing in them.</summary>
    private static int Boxes(GreyPicture picture)
    {
        const double PixelsPerMillimetre = 300 / MillimetresPerInch;
        var (least, most) = ((int)Math.Floor(3.4 * PixelsPerMillimetre), (int)Math.Ceiling((3.4 + 0.25) * PixelsPerMillimetre) + 1);
        var edges = Enumerable.Range(0, picture.Height)
            .SelectMany(y => picture.DarkIn(y, darkerThan: 190).Where(run => run.Length >= least && run.Length <= most).Select(run => (Y: y, run.From))).ToList();

        // The first row of each level edge; a box is two of them, one below the other, as far apart as they are long, with both sides dark and white between.
        var tops = edges.Where(edge => !edges.Exists(other => other.Y == edge.Y - 1 && Math.Abs(other.From - edge.From) <= 1)).ToList();
        return tops.Count(top => tops.Exists(bottom => Math.Abs(bottom.From - top.From) <= 1 && Math.Abs(bottom.Y - top.Y - (3.4 * PixelsPerMillimetre)) <= 2)
            && Enumerable.Range(top.Y + 6, least - 12).All(y => picture[top.From + (least / 2), y] > 250
                && picture.DarkIn(y, darkerThan: 190).Count(run => run.Length <= 4 && (Math.Abs(run.From - top.From) <= 2 || Math.Abs(run.From - top.From - least) <= 3)) == 2));
    }

    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [GeneratedRegex(@"^Steps? (\d+)(?: to (\d+))?\s*$", RegexOptions.Multiline)]
    private static partial Regex Range();

    [GeneratedRegex(@"Sheet ([A-Z]+): ")]
    private static partial Regex Title();

    [GeneratedRegex(@"1/(\d+) of its size: do not measure\s*$", RegexOptions.Multiline)]
    private static partial Regex MapNote();
}
