using static Trimwright.Worksheets.Pdf.SheetStyle;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Sets a table as slabs: its caption, its headings, which stand again on every page, and its rows.</summary>
internal sealed class TableSetter
{
    private const double Size = 3.5;
    private const double Pitch = 4.7;
    private const double Pad = 1.5;
    private const double ColumnGap = 5;
    private const double BoxSide = 3.4;

    // The column that says what a row is about.
    private const int About = 1;

    private readonly WorksheetTable _table;
    private readonly EmbeddedFont _plain;
    private readonly EmbeddedFont _bold;
    private readonly double[] _lefts;
    private readonly double[] _widths;

    public TableSetter(WorksheetTable table, EmbeddedFont plain, EmbeddedFont bold, double width)
    {
        (_table, _plain, _bold) = (table, plain, bold);
        _widths = [.. table.Headings.Select((heading, i) => table.Rows
            .Select(row => (i == About ? bold : plain).Font.Width(row.Cells[i], Size)).Append(bold.Font.Width(heading, Size)).Max())];
        var spare = width - _widths.Sum() - (ColumnGap * (_widths.Length - 1));
        if (spare < 0)
        {
            Narrow(-spare);
        }

        // What is left over goes to what the rows are about, so that the table is as wide as the page.
        _widths[About] += width - _widths.Sum() - (ColumnGap * (_widths.Length - 1));
        _lefts = new double[_widths.Length];
        for (var i = 0; i < _lefts.Length; i++)
        {
            _lefts[i] = i == 0 ? Side : _lefts[i - 1] + _widths[i - 1] + ColumnGap;
        }
    }

    private double Right => _lefts[^1] + _widths[^1];

    /// <summary>The slabs; a table that fits a page stays on one.</summary>
    public IEnumerable<Slab> Slabs(Tag parent, double page)
    {
        var tag = parent.Add(new("Table"));
        var caption = tag.Add(new("Caption"));
        var lead = new Slab(HeadHeight, (ink, y) => ink.Aside(() => DrawHeadings(ink, y)));
        var rows = _table.Rows.Select(row => RowSlab(row, tag.Add(new("TR")))).ToList();
        var whole = SmallPitch + HeadHeight + rows.Sum(row => row.Height) <= page;
        yield return new(SmallPitch + 0.5, (ink, y) => ink.Under(caption, () => ink.Text(_plain, Small, Side, y + Small, _table.Caption, Quiet))) { KeepsNext = true };
        var head = tag.AddBehind(new("TR"), after: caption);
        var headings = _table.Headings.Select(_ => head.Add(new("TH") { Scope = "Column" })).ToList();
        yield return new(HeadHeight, (ink, y) => DrawHeadings(ink, y, headings)) { KeepsNext = true };
        for (var i = 0; i < rows.Count; i++)
        {
            yield return rows[i] with { KeepsNext = whole && i < rows.Count - 1, Lead = lead };
        }
    }

    private static double HeadHeight => Pitch + (2 * Pad) - 1;

    private static bool IsNumber(int column) => column is 0 or 2;

    // Numbers, sizes and boxes are never broken: the other columns give way, the widest most.
    private void Narrow(double by)
    {
        int[] soft = [About, 4, 5];
        while (by > 0.01)
        {
            var widest = soft.MaxBy(i => _widths[i]);
            var next = soft.Where(i => i != widest).Max(i => _widths[i]);
            var step = Math.Min(by, Math.Max(_widths[widest] - next, 1));
            _widths[widest] -= step;
            by -= step;
        }
    }

    private void DrawHeadings(PageInk ink, double y, IReadOnlyList<Tag>? tags = null)
    {
        for (var i = 0; i < _table.Headings.Count; i++)
        {
            var (heading, column) = (_table.Headings[i], i);
            var draw = () => Cell(ink, _bold, column, y + Pad + Size, heading, Accent);
            if (tags is null)
            {
                draw();
            }
            else
            {
                ink.Under(tags[i], draw);
            }
        }

        if (tags is null)
        {
            ink.Rule(Side, y + HeadHeight, Right - Side, 0.35, Accent);
        }
        else
        {
            ink.Aside(() => ink.Rule(Side, y + HeadHeight, Right - Side, 0.35, Accent));
        }
    }

    private Slab RowSlab(WorksheetRow row, Tag tag)
    {
        var cells = row.Cells.Select((cell, i) => TextSetter.Lines(i == About ? _bold.Font : _plain.Font, Size, cell, _widths[i] + 0.01)).ToList();
        var notes = row.Notes.SelectMany(note => TextSetter.Lines(_plain.Font, Small, note, _lefts[^1] - ColumnGap - _lefts[About])).ToList();
        var textHeight = cells.Max(lines => lines.Count) * Pitch;
        var tags = row.Cells.Select((_, i) => tag.Add(i == About ? new Tag("TH") { Scope = "Row" } : new Tag("TD"))).ToList();
        return new((2 * Pad) + textHeight + (notes.Count * SmallPitch), (ink, y) =>
        {
            for (var i = 0; i < cells.Count; i++)
            {
                var column = i;
                ink.Under(tags[i], () =>
                {
                    for (var line = 0; line < cells[column].Count; line++)
                    {
                        Cell(ink, column == About ? _bold : _plain, column, y + Pad + Size + (line * Pitch), cells[column][line], Ink);
                    }

                    for (var line = 0; column == About && line < notes.Count; line++)
                    {
                        ink.Text(_plain, Small, _lefts[About], y + Pad + textHeight + Small + (line * SmallPitch), notes[line], Quiet);
                    }
                });
            }

            ink.Aside(() =>
            {
                ink.Frame(_lefts[^1] + ((_widths[^1] - BoxSide) / 2), y + Pad + 0.5, BoxSide, BoxSide, 0.25, Quiet);
                ink.Rule(Side, y + (2 * Pad) + textHeight + (notes.Count * SmallPitch), Right - Side, 0.18, Hair);
            });
        });
    }

    private void Cell(PageInk ink, EmbeddedFont font, int column, double foot, string text, Layouts.Colour colour)
    {
        var width = font.Font.Width(text, Size);
        var x = IsNumber(column) ? _lefts[column] + _widths[column] - width : _lefts[column];
        ink.Text(font, Size, x, foot, text, colour);
    }
}
