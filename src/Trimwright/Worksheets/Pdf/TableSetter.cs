using static Trimwright.Worksheets.Pdf.SheetStyle;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Sets a table as slabs: its caption, its headings, which stand again on every page, and its rows.</summary>
internal sealed class TableSetter
{
    private const double Size = 3.5;
    private const double Pitch = 4.7;
    private const double UsualPad = 1.5;
    private const double TightPad = 0.9;
    private const double HeadPad = 1.5;
    private const double UsualColumnGap = 5;
    private const double TightColumnGap = 3.8;
    private const double BoxSide = 3.4;
    private const double BoxPitch = 4.7;
    private const int MostBoxesAcross = 4;

    private readonly WorksheetTable _table;
    private readonly EmbeddedFont _plain;
    private readonly EmbeddedFont _bold;
    private readonly int _about;
    private readonly bool _hasSeveralBoxes;
    private readonly double _pad;
    private readonly double _columnGap;
    private readonly double[] _lefts;
    private readonly double[] _widths;

    public TableSetter(WorksheetTable table, EmbeddedFont plain, EmbeddedFont bold, double width)
    {
        (_table, _plain, _bold, _about) = (table, plain, bold, table.About);
        (_pad, _columnGap) = table.IsTight ? (TightPad, TightColumnGap) : (UsualPad, UsualColumnGap);
        var rows = table.SizedBy ?? table.Rows;
        _hasSeveralBoxes = rows.Any(row => row.Ticks.Count > 1);
        _widths = [.. table.Columns.Select((column, i) => rows
            .Select(row => column.Kind == ColumnKind.Ticks ? Math.Max(BoxesAcross(row), plain.Font.Width(row.Tally, Size)) : FontOf(i, row.IsNew).Font.Width(row.Cells[i], Size)).Append(bold.Font.Width(column.Heading, Size)).Max())];
        var spare = width - _widths.Sum() - (_columnGap * (_widths.Length - 1));
        if (spare < 0)
        {
            Narrow(-spare);
        }

        // What is left over goes to what the rows are about, or to the widest words, so that the table is as wide as the page.
        var takes = table.Columns[_about].Kind == ColumnKind.About ? _about : Soft().MaxBy(i => _widths[i]);
        _widths[takes] += width - _widths.Sum() - (_columnGap * (_widths.Length - 1));
        _lefts = new double[_widths.Length];
        for (var i = 0; i < _lefts.Length; i++)
        {
            _lefts[i] = i == 0 ? Side : _lefts[i - 1] + _widths[i - 1] + _columnGap;
        }
    }

    private double Right => _lefts[^1] + _widths[^1];

    /// <summary>The slabs; a table that fits a page stays on one, but if it may break.</summary>
    public IEnumerable<Slab> Slabs(Tag parent, double page)
    {
        var tag = parent.Add(new("Table"));
        var caption = tag.Add(new("Caption"));
        var lead = new Slab(HeadHeight, (ink, y) => ink.Aside(() => DrawHeadings(ink, y)));
        var rows = _table.Rows.Select(row => RowSlab(row, tag.Add(new("TR")))).ToList();
        var whole = !_table.MayBreak && SmallPitch + HeadHeight + rows.Sum(row => row.Height) <= page;
        yield return new(SmallPitch + 0.5, (ink, y) => ink.Under(caption, () => ink.Text(_plain, Small, Side, y + Small, _table.Caption, Quiet))) { KeepsNext = true };
        var head = tag.AddBehind(new("TR"), after: caption);
        var headings = _table.Columns.Select(_ => head.Add(new("TH") { Scope = "Column" })).ToList();
        yield return new(HeadHeight, (ink, y) => DrawHeadings(ink, y, headings)) { KeepsNext = true };
        for (var i = 0; i < rows.Count; i++)
        {
            yield return rows[i] with { KeepsNext = whole && i < rows.Count - 1, Lead = lead };
        }
    }

    /// <summary>The height of the caption with the headings, and of each row.</summary>
    public (double Head, IReadOnlyList<double> Rows) Heights() =>
        (SmallPitch + 0.5 + HeadHeight, [.. _table.Rows.Select(row => RowSlab(row, new("TR")).Height)]);

    private static double HeadHeight => Pitch + (2 * HeadPad) - 1;

    private static double BoxesAcross(WorksheetRow row) => row.Boxes == 0 ? 0 : (Math.Min(row.Boxes, MostBoxesAcross) * BoxPitch) - (BoxPitch - BoxSide);

    private bool IsNumber(int column) => _table.Columns[column].Kind == ColumnKind.Number;

    private EmbeddedFont FontOf(int column, bool isNew) => column == _about || (isNew && _table.Columns[column].Kind == ColumnKind.Lead) ? _bold : _plain;

    private int[] Soft() => [.. Enumerable.Range(0, _table.Columns.Count).Where(i => _table.Columns[i].Kind is ColumnKind.About or ColumnKind.Words)];

    // Numbers, sizes and boxes are never broken: the other columns give way, the widest most.
    private void Narrow(double by)
    {
        var soft = Soft();
        while (by > 0.01)
        {
            var widest = soft.MaxBy(i => _widths[i]);
            var next = soft.Where(i => i != widest).Select(i => _widths[i]).DefaultIfEmpty(0).Max();
            var step = Math.Min(by, Math.Max(_widths[widest] - next, 1));
            _widths[widest] -= step;
            by -= step;
        }
    }

    private void DrawHeadings(PageInk ink, double y, IReadOnlyList<Tag>? tags = null)
    {
        for (var i = 0; i < _table.Columns.Count; i++)
        {
            var (heading, column) = (_table.Columns[i].Heading, i);
            var draw = () => Cell(ink, _bold, column, y + HeadPad + Size, heading, Accent);
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
        List<IReadOnlyList<string>> cells =
        [
            .. row.Cells.Select((cell, i) => TextSetter.Lines(
                FontOf(i, row.IsNew).Font, Size, row.Tally.Length > 0 && _table.Columns[i].Kind == ColumnKind.Ticks ? row.Tally : cell, _widths[i] + 0.01)),
        ];
        var notes = row.Notes.Select(note => TextSetter.Lines(_plain.Font, Small, note, _lefts[^1] - _columnGap - _lefts[_about]))
            .SelectMany(lines => lines.SkipLast(1).Append(lines[^1] + " ")).ToList();
        if (notes.Count > 0)
        {
            // Words are apart where the text is copied or read aloud.
            cells[_about] = [.. cells[_about].SkipLast(1), cells[_about][^1] + " "];
        }

        // A tally has its number on one line, and room to write above a rule on the next.
        var boxLines = row.Tally.Length > 0 ? 2 : (row.Boxes + MostBoxesAcross - 1) / MostBoxesAcross;
        var textHeight = Math.Max(cells.Max(lines => lines.Count), boxLines) * Pitch;
        var tags = row.Cells.Select((_, i) => tag.Add(i == _about ? new Tag("TH") { Scope = "Row" } : new Tag("TD"))).ToList();
        return new((2 * _pad) + textHeight + (notes.Count * SmallPitch), (ink, y) =>
        {
            for (var i = 0; i < cells.Count; i++)
            {
                var column = i;
                ink.Under(tags[i], () =>
                {
                    for (var line = 0; line < cells[column].Count; line++)
                    {
                        Cell(ink, FontOf(column, row.IsNew), column, y + _pad + Size + (line * Pitch), cells[column][line], Ink);
                    }

                    for (var line = 0; column == _about && line < notes.Count; line++)
                    {
                        ink.Text(_plain, Small, _lefts[_about], y + _pad + textHeight + Small + (line * SmallPitch), notes[line], Quiet);
                    }
                });
            }

            ink.Aside(() =>
            {
                if (row.Tally.Length > 0)
                {
                    ink.Rule(_lefts[^1], y + _pad + (2 * Pitch) - 0.6, _widths[^1], 0.25, Quiet);
                }

                for (var box = 0; box < row.Boxes; box++)
                {
                    var left = _hasSeveralBoxes ? _lefts[^1] : _lefts[^1] + ((_widths[^1] - BoxSide) / 2);
                    ink.Frame(left + (box % MostBoxesAcross * BoxPitch), y + _pad + 0.5 + (box / MostBoxesAcross * Pitch), BoxSide, BoxSide, 0.25, Quiet);
                }

                if (row.IsNew)
                {
                    ink.Rule(Side, y, Right - Side, 0.3, Quiet);
                }

                ink.Rule(Side, y + (2 * _pad) + textHeight + (notes.Count * SmallPitch), Right - Side, 0.18, Hair);
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
