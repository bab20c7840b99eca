using System.Globalization;
using Trimwright.Batches;
using Trimwright.Drawing;
using Trimwright.Drawing.Measured;
using Trimwright.Measures;
using Trimwright.Worksheets.Pdf;

namespace Trimwright.Worksheets;

/// <summary>
/// The cuts of a schedule, shared out among pages in their order: each page begins with the maps of all sheets that are cut on it, so that nobody at
/// the trimmer has to turn a page to look at one. As few pages as possible; of those, as few maps as possible, and breaks where the fence is set anew.
/// </summary>
internal sealed class CutPages
{
    private const int LargestPart = 3;

    private static readonly Rational MostOfPage = Rational.From(1, 2);

    private readonly TrimSchedule _schedule;
    private readonly PaperSize _paper;
    private readonly IReadOnlyList<IReadOnlyList<string>> _told;
    private readonly List<WorksheetRow> _rows;
    private readonly Dictionary<string, DrawingList> _maps = new(StringComparer.Ordinal);
    private readonly Dictionary<string, double> _mapHeights = new(StringComparer.Ordinal);
    private readonly long _part;
    private readonly double _head;
    private readonly IReadOnlyList<double> _heights;

    public CutPages(TrimSchedule schedule, PaperSize paper)
    {
        (_schedule, _paper, _told) = (schedule, paper, ScheduleText.Rows(schedule));
        _part = PartFor(schedule, paper);
        _rows = [.. schedule.Steps.Select((_, i) => Row(i))];
        (_head, _heights) = new TableSetter(Table(0, _rows.Count), new("P", SheetFonts.Plain), new("B", SheetFonts.Bold), WorksheetPdf.WidthOn(paper)).Heights();
    }

    /// <summary>A section for each page.</summary>
    public IEnumerable<WorksheetSection> Sections() => Stretches().Select(stretch =>
    {
        var (first, last) = (_schedule.Steps[stretch.From].Number, _schedule.Steps[stretch.To - 1].Number);
        return new WorksheetSection(
            first == last ? $"Step {Whole(first)}" : $"Steps {Whole(first)} to {Whole(last)}",
            [Maps(Letters(stretch.From, stretch.To), $"steps-{Whole(first)}"), Table(stretch.From, stretch.To)]) { StaysTogether = true };
    });

    /// <summary>The scale that all maps share: one that lets the largest be half as high as a page, and no wider.</summary>
    private static long PartFor(TrimSchedule schedule, PaperSize paper)
    {
        var (wide, high) = (Plane.Exactly(WorksheetPdf.WidthOn(paper)), Plane.Exactly(WorksheetPdf.HeightOn(paper)) * MostOfPage);
        for (long part = LargestPart; ; part++)
        {
            var scale = Rational.From(1, part);
            if (schedule.Sheets.All(sheet => Position.FromLength(sheet.Plan.Root.Width) * scale <= wide && Position.FromLength(sheet.Plan.Root.Height) * scale <= high))
            {
                return part;
            }
        }
    }

    /// <summary>Where to break: from the last page to the first, by the best way to set all the steps before it.</summary>
    private List<(int From, int To)> Stretches()
    {
        var best = new (int Pages, int Maps, int Splits, int From)[_rows.Count + 1];
        for (var to = 1; to <= _rows.Count; to++)
        {
            best[to] = (int.MaxValue, 0, 0, 0);
            for (var from = to - 1; from >= 0 && (from == to - 1 || HeightOf(from, to) <= WorksheetPdf.HeightOn(_paper)); from--)
            {
                var way = (
                    Pages: best[from].Pages + 1, Maps: best[from].Maps + Letters(from, to).Count, Splits: best[from].Splits + (from > 0 && IsSame(from) ? 1 : 0), From: from);
                if ((way.Pages, way.Maps, way.Splits).CompareTo((best[to].Pages, best[to].Maps, best[to].Splits)) < 0)
                {
                    best[to] = way;
                }
            }
        }

        var stretches = new List<(int, int)>();
        for (var to = _rows.Count; to > 0; to = best[to].From)
        {
            stretches.Insert(0, (best[to].From, to));
        }

        return stretches;
    }

    private double HeightOf(int from, int to)
    {
        var rows = Enumerable.Range(from, to - from).Sum(i => _heights[i]);
        return SheetStyle.HeadingPitch + SheetStyle.AfterHeading + MapHeight(Letters(from, to)) + _head + rows + (IsSame(from) ? TableSetter.HeightAbove : 0);
    }

    private double MapHeight(IReadOnlyList<string> letters)
    {
        var key = string.Join(' ', letters);
        return _mapHeights.TryGetValue(key, out var height) ? height : _mapHeights[key] = WorksheetPdf.HeightOf(Maps(letters, ""), _paper);
    }

    private bool IsSame(int step) => step > 0 && _schedule.Steps[step - 1].Setting == _schedule.Steps[step].Setting;

    private List<string> Letters(int from, int to) =>
        [.. _schedule.Sheets.Select(sheet => sheet.Letter).Where(letter => Enumerable.Range(from, to - from).Any(i => _schedule.Steps[i].Sheet == letter))];

    private WorksheetFigures Maps(IReadOnlyList<string> letters, string name)
    {
        var style = MapStyle.OnWorksheet(_part);
        return new(
            [.. letters.Select(letter => new WorksheetFigure($"{name}-sheet-{letter.ToLowerInvariant()}", MapOf(letter, style), "", IsMeasuredOn: false))],
            $"What is cut here, at {style.ScaleWords}: do not measure on a map. Ringed: the step that makes the cut. Dashed: keep it. Grey: scrap.");
    }

    private DrawingList MapOf(string letter, MapStyle style) => _maps.TryGetValue(letter, out var map)
        ? map : _maps[letter] = SheetMapDrawing.Draw(_schedule, _schedule.Sheets.First(sheet => sheet.Letter == letter), style);

    private WorksheetTable Table(int from, int to)
    {
        var rows = _rows.GetRange(from, to - from);
        if (IsSame(from))
        {
            rows[0] = rows[0] with { Above = $"The fence stays at {Setting(from)}" };
        }

        return new(
            "cuts", "Edges are named as the part lies on its map. A tick for each cut.",
            [
                new("Step", ColumnKind.Number), new("Take", ColumnKind.Mark), new("Edge at fence", ColumnKind.Size), new("Cut", ColumnKind.Words),
                new("Between fence and blade", ColumnKind.Words), new("Comes off", ColumnKind.Words), new("Done", ColumnKind.Ticks),
            ],
            rows) { SizedBy = _rows };
    }

    private WorksheetRow Row(int i)
    {
        var (step, told) = (_schedule.Steps[i], _told[i]);
        var stacks = step.Strokes / step.Times;
        var sheet = _schedule.Sheets.First(sheet => sheet.Letter == step.Sheet);
        var isFirstOfWindow = sheet.Window is not null && _schedule.Steps.First(other => other.Sheet == step.Sheet) == step;
        return new(
            [
                told[0], step.Count == 1 ? step.Mark : $"{told[3]} of {step.Mark}", told[4],
                stacks == 1 ? told[5] : $"{told[5]}, in {Whole(stacks)} stacks", told[6], told[7], "",
            ],
            isFirstOfWindow ? [$"{step.Sheet} is the {sheet.Words}: cut it out with a knife first"] : [])
        {
            Above = IsSame(i) ? null : $"Set the fence to {Setting(i)}",
            Ticks = (step.Times, $"step {told[0]} is cut"),
        };
    }

    private string Setting(int step) => LengthText.Write(_schedule.Steps[step].Setting, _schedule.Plan.Batch.Batch.Unit);

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
