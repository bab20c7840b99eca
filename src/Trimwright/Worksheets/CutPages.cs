using System.Globalization;
using Trimwright.Batches;
using Trimwright.Drawing;
using Trimwright.Drawing.Measured;
using Trimwright.Measures;
using Trimwright.Worksheets.Pdf;

namespace Trimwright.Worksheets;

/// <summary>
/// The cuts of a schedule, shared out among pages in their order: each page begins with the maps of all sheets that are cut on it, so that nobody at
/// the trimmer has to turn a page to look at one. As few pages as possible, the first of them one that is begun already where there is room; then as few
/// maps as possible, and breaks where the fence is set anew.
/// </summary>
internal sealed class CutPages
{
    // Maps are half the size of the sheets where that leaves room for the cuts, else a third; a quarter where that saves pages; for very large sheets less.
    private const long LargestPart = 2;

    // What pages cost: small maps are worth it where six such pages stand for more than seven.
    private const int PageCost = 6;
    private const int SmallMapsCost = 1;

    private static readonly Rational MostOfPage = Rational.From(2, 5);

    private readonly TrimSchedule _schedule;
    private readonly PaperSize _paper;
    private readonly IReadOnlyList<IReadOnlyList<string>> _told;
    private readonly List<WorksheetRow> _rows;
    private readonly Dictionary<(string Letter, long Part), WorksheetFigure> _wholeMaps = [];
    private readonly Dictionary<(string Letters, long Part), double> _mapHeights = [];
    private readonly long _leastPart;
    private readonly long _smallPart;
    private readonly double _head;
    private readonly double _page;
    private readonly double _roomFirst;
    private readonly IReadOnlyList<double> _heights;
    private readonly double _printed;
    private readonly IReadOnlyList<double> _printedHeights;

    /// <param name="schedule">The schedule.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="roomFirst">The room on the page before the first, in millimetres.</param>
    public CutPages(TrimSchedule schedule, PaperSize paper, double roomFirst)
    {
        (_schedule, _paper, _told, _page, _roomFirst) = (schedule, paper, ScheduleText.Rows(schedule), WorksheetPdf.HeightOn(paper), roomFirst);
        _leastPart = PartFor(schedule, paper);
        _smallPart = _leastPart + 1;
        _rows = [.. schedule.Steps.Select((_, i) => Row(i))];
        (_head, _heights) = Heights(WorksheetPdf.WidthOn(paper));
        (_printed, (_, _printedHeights)) = (WorksheetHtml.HeightOn(paper), Heights(WorksheetPdf.WidthOn(paper) / WorksheetHtml.WidestLetters));

        (double, IReadOnlyList<double>) Heights(double width) =>
            new TableSetter(Table(0, _rows.Count), new("P", SheetFonts.Plain), new("B", SheetFonts.Bold), width).Heights();
    }

    /// <summary>A section for each page.</summary>
    public IEnumerable<WorksheetSection> Sections() => Stretches().Select(stretch =>
    {
        var (first, last) = (_schedule.Steps[stretch.From].Number, _schedule.Steps[stretch.To - 1].Number);
        return new WorksheetSection(
            first == last ? $"Step {Whole(first)}" : $"Steps {Whole(first)} to {Whole(last)}",
            [Maps(Letters(stretch.From, stretch.To), stretch.Part, (first, last)), .. Windows(stretch.From, stretch.To), Table(stretch.From, stretch.To)]) { StaysTogether = true };
    });

    /// <summary>A scale that lets the largest map be two fifths as high as a page, and no wider.</summary>
    private static long PartFor(TrimSchedule schedule, PaperSize paper)
    {
        var (wide, high) = (Plane.Exactly(WorksheetPdf.WidthOn(paper)), Plane.Exactly(WorksheetPdf.HeightOn(paper)) * MostOfPage);
        for (var part = LargestPart + 1; ; part++)
        {
            var scale = Rational.From(1, part);
            if (schedule.Sheets.All(sheet => Position.FromLength(sheet.Plan.Root.Width) * scale <= wide && Position.FromLength(sheet.Plan.Root.Height) * scale <= high))
            {
                return part;
            }
        }
    }

    /// <summary>Where to break, found from the best ways to set all the steps before each step.</summary>
    private List<(int From, int To, long Part)> Stretches()
    {
        var best = new (int Cost, int Begun, int Maps, int Splits, int From, long Part)[_rows.Count + 1];
        for (var to = 1; to <= _rows.Count; to++)
        {
            best[to].Cost = int.MaxValue;
            for (var from = to - 1; from >= 0 && (from == to - 1 || Fits(from, to, _smallPart, _page)); from--)
            {
                var isBegun = from == 0 && Fits(from, to, _smallPart, _roomFirst);
                var part = ((long[])[LargestPart, _leastPart]).Where(part => Fits(from, to, part, isBegun ? _roomFirst : _page)).Append(_smallPart).First();
                var way = (
                    Cost: best[from].Cost + (isBegun ? 0 : PageCost) + (part == _smallPart ? SmallMapsCost : 0), Begun: best[from].Begun + (from == 0 && !isBegun ? 1 : 0), Maps: best[from].Maps + Letters(from, to).Count,
                    Splits: best[from].Splits + (from > 0 && IsSame(from) ? 1 : 0), from, part);
                if ((way.Cost, way.Begun, way.Maps, way.Splits).CompareTo((best[to].Cost, best[to].Begun, best[to].Maps, best[to].Splits)) < 0)
                {
                    best[to] = way;
                }
            }
        }

        var stretches = new List<(int, int, long)>();
        for (var to = _rows.Count; to > 0; to = best[to].From)
        {
            stretches.Insert(0, (best[to].From, to, best[to].Part));
        }

        return stretches;
    }

    /// <summary>Whether steps find room on a page of the PDF, and on one that a browser prints, where words may be wider.</summary>
    private bool Fits(int from, int to, long part, double room)
    {
        var (maps, steps) = (MapHeight(Letters(from, to), part), Enumerable.Range(from, to - from).ToList());
        maps += Windows(from, to).Count() * WorksheetHtml.LinePitch;
        return SheetStyle.HeadingPitch + SheetStyle.AfterHeading + maps + _head + steps.Sum(i => _heights[i]) <= room
            && maps + WorksheetHtml.BesideCuts + steps.Sum(i => _printedHeights[i]) <= _printed;
    }

    private double MapHeight(IReadOnlyList<string> letters, long part)
    {
        var key = (string.Join(' ', letters), part);
        return _mapHeights.TryGetValue(key, out var height)
            ? height
            : _mapHeights[key] = WorksheetPdf.HeightOf(new WorksheetFigures([.. letters.Select(letter => WholeMap(letter, part))], ""), _paper);
    }

    // A map with the numbers of all its cuts is at least as large as one with some of them.
    private WorksheetFigure WholeMap(string letter, long part) => _wholeMaps.TryGetValue((letter, part), out var map)
        ? map : _wholeMaps[(letter, part)] = Map(letter, part, (1, _rows.Count));

    private bool IsSame(int step) => step > 0 && _schedule.Steps[step - 1].Setting == _schedule.Steps[step].Setting;

    private List<string> Letters(int from, int to) =>
        [.. _schedule.Sheets.Select(sheet => sheet.Letter).Where(letter => Enumerable.Range(from, to - from).Any(i => _schedule.Steps[i].Sheet == letter))];

    private WorksheetFigures Maps(IReadOnlyList<string> letters, long part, (int First, int Last) steps) => new(
        [.. letters.Select(letter => Map(letter, part, steps))],
        $"What is cut here, at 1/{Whole(part)} of its size: do not measure on it. Thick and ringed: a cut and its step. Grey: scrap. Map or key say what to keep.");

    private WorksheetFigure Map(string letter, long part, (int First, int Last) steps) => WorksheetFigures.Figure(
        $"steps-{Whole(steps.First)}-sheet-{letter.ToLowerInvariant()}",
        SheetMapDrawing.Draw(_schedule, _schedule.Sheets.First(sheet => sheet.Letter == letter), MapStyle.OnWorksheet(part), steps));

    /// <summary>What to cut with a knife before sheets that are windows are begun, a line for each.</summary>
    private IEnumerable<WorksheetText> Windows(int from, int to) => _schedule.Sheets
        .Where(sheet => sheet.Window is not null && Enumerable.Range(from, to - from).Contains(_schedule.Steps.Index().First(step => step.Item.Sheet == sheet.Letter).Index))
        .Select(sheet => new WorksheetText($"{sheet.Letter} is the {sheet.Words}: cut it out with a knife first."));

    private WorksheetTable Table(int from, int to)
    {
        var rows = _rows.GetRange(from, to - from);
        if (IsSame(from))
        {
            rows[0] = rows[0] with { Cells = [rows[0].Cells[0], Setting(from), .. rows[0].Cells.Skip(2)] };
        }

        var unit = _schedule.Plan.Batch.Batch.Unit;
        return new(
            "cuts", $"Sizes in {(unit == LengthUnit.Inch ? "inches" : "millimetres")}. Edges are named as the part lies on its map. A box to tick for each stroke of the blade.",
            [
                new("Step", ColumnKind.Number), new("Fence", ColumnKind.Lead), new("Take", ColumnKind.Mark),
                new("Edge at fence", ColumnKind.Words), new("Between fence and blade", ColumnKind.Words), new("Comes off", ColumnKind.Words), new("Done", ColumnKind.Ticks),
            ],
            rows) { SizedBy = _rows, IsTight = true };
    }

    private WorksheetRow Row(int i)
    {
        var (step, told, unit) = (_schedule.Steps[i], _told[i], _schedule.Plan.Batch.Batch.Unit);
        var stacks = step.Strokes / step.Times;
        return new(
            [
                told[0], IsSame(i) ? "same" : Setting(i), step.Count == 1 ? step.Mark : $"{told[3]} of {step.Mark}",
                $"{told[4]}{(step.Times == 1 ? "" : $", {told[5]}")}{(stacks == 1 ? "" : $", {Whole(stacks)} stacks")}",
                step.IsTrueing ? told[6] : Unbroken(step.Held, unit),
                step.IsTrueing || step.ComesOff is not { } off ? told[7] : Unbroken(off, unit), "",
            ],
            [])
        {
            IsNew = !IsSame(i),
            Ticks = (step.Strokes, $"step {told[0]} is cut"),
        };
    }

    // A size is not broken at the end of a line.
    private static string Unbroken(CutYield yield, LengthUnit unit)
    {
        var told = ScheduleText.Told(yield, unit, isBare: true);
        var size = told.LastIndexOf(": ", StringComparison.Ordinal) + 2;
        return told[..size] + told[size..].Replace(' ', '\u00a0');
    }

    private string Setting(int step) => LengthText.WriteBare(_schedule.Steps[step].Setting, _schedule.Plan.Batch.Batch.Unit);

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
