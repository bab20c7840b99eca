using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Measures;
using Trimwright.Worksheets.Pdf;
using static Trimwright.Worksheets.Pdf.SheetStyle;

namespace Trimwright.Worksheets;

/// <summary>
/// Writes a worksheet as a PDF at true size, with check bars on every page, text that can be selected, and a structure that a reader
/// that speaks can follow. It needs no font and no graphics library of the machine.
/// </summary>
public sealed class WorksheetPdf
{
    private const string Language = "en";
    private const double CaptionGap = 3;
    private const double AfterPoint = 1;
    private const double AfterMaps = 2;

    private readonly Worksheet _sheet;
    private readonly PdfDocument _document;
    private readonly EmbeddedFont _plain = new("P", SheetFonts.Plain);
    private readonly EmbeddedFont _bold = new("B", SheetFonts.Bold);
    private readonly EmbeddedFont _lettering = new("L", SheetFonts.Lettering);
    private readonly double _width;
    private readonly double _pageHeight;

    private WorksheetPdf(Worksheet sheet)
    {
        _sheet = sheet;
        _document = new(sheet.Paper, sheet.Title, Language);
        _width = WidthOn(sheet.Paper);
        _pageHeight = HeightOn(sheet.Paper);
    }

    /// <summary>Writes it: the same worksheet gives the same bytes everywhere.</summary>
    public static byte[] Write(Worksheet sheet) => new WorksheetPdf(sheet).Write();

    /// <summary>How many pages it has.</summary>
    public static int CountPages(Worksheet sheet) => Slab.OnPages([.. new WorksheetPdf(sheet).Slabs()], 0, HeightOn(sheet.Paper)).Count;

    /// <summary>Room for text and tables across a page, in millimetres.</summary>
    internal static double WidthOn(PaperSize paper) => Plane.Roughly(paper.Width) - (2 * Side);

    /// <summary>Room on a page from top to bottom, in millimetres.</summary>
    internal static double HeightOn(PaperSize paper) => Plane.Roughly(paper.Height) - Top - Bottom;

    /// <summary>Room that is left on the last page of a worksheet, in millimetres, for a section with a heading.</summary>
    internal static double RoomBelow(Worksheet sheet)
    {
        var last = Slab.OnPages([.. new WorksheetPdf(sheet).Slabs()], 0, HeightOn(sheet.Paper))[^1];
        return HeightOn(sheet.Paper) - last[^1].At - last[^1].Slab.Height - BeforeHeading;
    }

    /// <summary>The height of drawings side by side, with their caption, in millimetres.</summary>
    internal static double HeightOf(WorksheetFigures figures, PaperSize paper) => SideBySide.Of(figures.Figures, WidthOn(paper)).Height + CaptionGap + SmallPitch + AfterMaps;

    /// <summary>The characters of the title and the summary that the fonts of the PDF lack and that are shown as empty boxes, each once; empty for most.</summary>
    public static string Lacking(Worksheet sheet) => string.Concat(
        (sheet.Title + sheet.Summary).EnumerateRunes().Where(rune => SheetFonts.Bold.GlyphOf(rune) == 0).Distinct().Select(rune => rune.ToString()));

    private byte[] Write()
    {
        var pages = Slab.OnPages([.. Slabs()], Top, Top + _pageHeight);
        for (var i = 0; i < pages.Count; i++)
        {
            var ink = _document.AddPage();
            foreach (var (slab, at) in pages[i])
            {
                slab.Draw(ink, at);
            }

            ink.Aside(() => DrawFoot(ink, i + 1, pages.Count));
        }

        return _document.Write([_plain, _bold, _lettering]);
    }

    private IEnumerable<Slab> Slabs()
    {
        var title = Lines("H1", _bold, Title, TitlePitch, Side, _width, Ink, _sheet.Title);
        var summary = Lines("P", _plain, Body, BodyPitch, Side, _width, Quiet, _sheet.Summary) with { Gap = 1 };
        yield return title with { KeepsNext = true };
        yield return summary;
        var taken = title.Height + 1 + summary.Height;
        foreach (var section in _sheet.Sections)
        {
            Slab? heading = section.Heading.Length == 0 ? null
                : Lines("H2", _bold, Heading, HeadingPitch, Side, _width, Accent, section.Heading) with { Gap = BeforeHeading, KeepsNext = true };
            if (heading is not null)
            {
                yield return heading;
                taken = heading.Height;
            }

            var gap = AfterHeading;
            foreach (var slab in section.Parts.SelectMany(part => Slabs(part, taken + AfterHeading)))
            {
                yield return gap > 0 ? slab with { Gap = gap } : slab;
                gap = 0;
            }
        }
    }

    /// <param name="part">What is set.</param>
    /// <param name="taken">The height that is taken by what it is kept with.</param>
    private IEnumerable<Slab> Slabs(WorksheetPart part, double taken) => part switch
    {
        WorksheetText text => [Lines("P", _plain, Body, BodyPitch, Side, Measure, Ink, text.Text)],
        WorksheetItems { IsAside: true } items => Columns(items),
        WorksheetItems items => Items(items),
        WorksheetTable table => new TableSetter(table, _plain, _bold, _width).Slabs(_document.Root, _pageHeight - taken),
        WorksheetFigure figure => [FigureSlab(figure, taken)],
        WorksheetFigures figures => [FiguresSlab(figures)],
        _ => throw new ArgumentException($"cannot set a {part.GetType().Name}", nameof(part)),
    };

    private Slab Lines(
        string kind, EmbeddedFont font, double size, double pitch, double left, double width, Layouts.Colour colour, string text)
    {
        var tag = _document.Root.Add(new(kind));
        var lines = TextSetter.Lines(font.Font, size, text, width);
        return new(lines.Count * pitch, (ink, y) => ink.Under(tag, () =>
        {
            for (var i = 0; i < lines.Count; i++)
            {
                ink.Text(font, size, left, y + (pitch * i) + ((pitch + (size * 0.65)) / 2), lines[i], colour);
            }
        }));
    }

    private IEnumerable<Slab> Items(WorksheetItems items)
    {
        var list = _document.Root.Add(new("L"));
        for (var i = 0; i < items.Items.Count; i++)
        {
            var item = list.Add(new("LI"));
            var (label, body) = (item.Add(new("Lbl")), item.Add(new("LBody")));
            var lines = TextSetter.Lines(_plain.Font, Body, items.Items[i], Measure - Indent);
            var number = items.IsNumbered ? (i + 1).ToString(CultureInfo.InvariantCulture) : "•";
            var keepsNext = i == 0 && items.Items.Count > 1;
            yield return new((lines.Count * BodyPitch) + 1.6, (ink, y) =>
            {
                var foot = y + ((BodyPitch + (Body * 0.65)) / 2);
                ink.Under(label, () => ink.Text(_bold, Body, Side, foot, number, Accent));
                ink.Under(body, () =>
                {
                    for (var line = 0; line < lines.Count; line++)
                    {
                        ink.Text(_plain, Body, Side + Indent, foot + (BodyPitch * line), lines[line], Ink);
                    }
                });
            })
            { KeepsNext = keepsNext };
        }
    }

    /// <summary>Short points in two columns of small letters; in one of usual letters where those would be more than a page.</summary>
    private IEnumerable<Slab> Columns(WorksheetItems items)
    {
        const double Between = 8;
        const double In = 4;
        var width = (_width - Between) / 2;
        var lines = items.Items.Select(item => TextSetter.Lines(_plain.Font, Small, item, width - In)).ToList();

        // The left column is as long as half of the lines, or one point longer.
        var first = 0;
        for (var taken = 0; 2 * taken < lines.Sum(text => text.Count); first++)
        {
            taken += lines[first].Count;
        }

        var height = Math.Max(HeightOf(lines.Take(first)), HeightOf(lines.Skip(first)));
        if (height > _pageHeight / 2)
        {
            return Items(items);
        }

        var list = _document.Root.Add(new("L"));
        var tags = lines.ConvertAll(_ => list.Add(new("LI"))).ConvertAll(item => (Label: item.Add(new("Lbl")), Body: item.Add(new("LBody"))));
        return [new(height, (ink, y) =>
        {
            var at = y;
            for (var i = 0; i < lines.Count; i++)
            {
                var text = lines[i];
                at = i == first ? y : at;
                var (left, foot) = (Side + (i < first ? 0 : width + Between), at + Small);
                ink.Under(tags[i].Label, () => ink.Text(_bold, Small, left, foot, "•", Accent));
                ink.Under(tags[i].Body, () =>
                {
                    for (var line = 0; line < text.Count; line++)
                    {
                        ink.Text(_plain, Small, left + In, foot + (line * SmallPitch), text[line], Ink);
                    }
                });
                at += (text.Count * SmallPitch) + AfterPoint;
            }
        })];

        static double HeightOf(IEnumerable<IReadOnlyList<string>> column) => column.Sum(text => (text.Count * SmallPitch) + AfterPoint);
    }

    private Slab FigureSlab(WorksheetFigure figure, double taken)
    {
        var (tag, caption) = (FigureTag(figure), _document.Root.Add(new("Caption")));
        var sheet = figure.Drawing.Sheet;
        var longest = FigureFit.LongestWords(figure.Caption);
        var room = _pageHeight - taken - (Words(longest).Count * SmallPitch) - CaptionGap;
        var fit = FigureFit.Choose(sheet.Width, sheet.Height, Plane.Exactly(_width + (2 * (Side - FigureSide))), Plane.Exactly(room), figure.IsMeasuredOn, figure.MostScale);
        var words = Words($"{figure.Caption} {fit.Words(figure.IsMeasuredOn)}");
        var scale = Plane.Roughly(fit.Scale);
        var (width, height) = (Plane.Roughly(sheet.Width) * scale, Plane.Roughly(sheet.Height) * scale);
        var (across, down) = fit.IsTurned ? (height, width) : (width, height);
        return new(down + CaptionGap + (words.Count * SmallPitch), (ink, y) =>
        {
            var left = Side + ((_width - across) / 2);
            tag.Box = _document.Box(left, y, across, down);
            // Turned a quarter, what was up is on the left, and its writing is read from the right.
            Draw(figure, tag, ink, fit.IsTurned
                ? $"0 {PageInk.Ratio(-scale)} {PageInk.Ratio(scale)} 0 {PageInk.Number(left)} {PageInk.Number(y + down)} cm"
                : $"{PageInk.Ratio(scale)} 0 0 {PageInk.Ratio(scale)} {PageInk.Number(left)} {PageInk.Number(y)} cm");
            ink.Under(caption, () =>
            {
                for (var i = 0; i < words.Count; i++)
                {
                    var middle = Side + ((_width - _plain.Font.Width(words[i], Small)) / 2);
                    ink.Text(_plain, Small, middle, y + down + CaptionGap + Small + (i * SmallPitch), words[i], Quiet);
                }
            });
        });

        IReadOnlyList<string> Words(string text) => TextSetter.Lines(_plain.Font, Small, text, _width);
    }

    private Tag FigureTag(WorksheetFigure figure) =>
        _document.Root.Add(new("Figure") { Alt = $"{figure.Drawing.Title}: {figure.Drawing.Description}." });

    private void Draw(WorksheetFigure figure, Tag tag, PageInk ink, string axes) => ink.Under(tag, () =>
    {
        ink.Raw("q");
        ink.Raw(axes);
        ink.Raw($"1 0 0 1 {PageInk.Number(-Plane.Roughly(figure.Drawing.Sheet.Left))} {PageInk.Number(-Plane.Roughly(figure.Drawing.Sheet.Top))} cm");
        new DrawingPainter(_document, ink, _lettering).Draw(figure.Drawing);
        ink.Raw("Q");
    });

    private Slab FiguresSlab(WorksheetFigures figures)
    {
        var tags = figures.Figures.Select(FigureTag).ToList();
        var caption = _document.Root.Add(new("Caption"));
        var side = SideBySide.Of(figures.Figures, _width);
        return new(side.Height + CaptionGap + SmallPitch + AfterMaps, (ink, y) =>
        {
            for (var i = 0; i < tags.Count; i++)
            {
                var (left, top, sheet) = (Side + side.Places[i].X, y + side.Places[i].Y, figures.Figures[i].Drawing.Sheet);
                tags[i].Box = _document.Box(left, top, Plane.Roughly(sheet.Width), Plane.Roughly(sheet.Height));
                Draw(figures.Figures[i], tags[i], ink, $"1 0 0 1 {PageInk.Number(left)} {PageInk.Number(top)} cm");
            }

            ink.Under(caption, () => ink.Text(_plain, Small, Side, y + side.Height + CaptionGap + Small, figures.Caption, Quiet));
        }) { KeepsNext = true };
    }

    /// <summary>The foot of a page: the bars, what to do with them, and which page it is.</summary>
    private void DrawFoot(PageInk ink, int page, int pages)
    {
        var y = Plane.Roughly(_sheet.Paper.Height) - Bars;
        var x = Side;
        foreach (var (length, name) in (ReadOnlySpan<(Length, string)>)[(CheckBar.Inch, "1 in"), (CheckBar.FiveCentimetres, "5 cm")])
        {
            var (long_, thick) = (Plane.Roughly(length), Plane.Roughly(CheckBar.Thickness));
            ink.Fill(x, y, long_, thick, Ink);
            ink.Text(_plain, Small, x, y + thick + 0.8 + Small, name, Ink);
            x += long_ + Plane.Roughly(CheckBar.Gap);
        }

        ink.Text(_plain, Small, x, y + (Small * 0.45), CheckBar.Advice, Ink);
        var where = string.Create(CultureInfo.InvariantCulture, $"page {page} of {pages}");
        ink.Text(_plain, Small, x, y + 1.8 + Small, $"{Short(_sheet.Title)}, {where}", Quiet);
    }

    private string Short(string title)
    {
        const double Room = 70;
        var lines = TextSetter.Lines(_plain.Font, Small, title, Room);
        return lines.Count == 1 ? lines[0] : lines[0] + "…";
    }
}
