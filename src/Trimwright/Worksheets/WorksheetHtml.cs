using System.Globalization;
using System.Net;
using System.Text;
using Trimwright.Drawing;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>
/// Writes a worksheet as one page of HTML that needs nothing outside itself and no script: it follows the window on a screen, and
/// printed at 100 % its drawings have their true size.
/// </summary>
public sealed class WorksheetHtml
{
    private const string StyleResource = "worksheet.css";

    // What a page has besides a drawing when printed: its margins, then a heading, the caption and the check bars.
    private static readonly Length MarginDown = Length.FromMillimetres(12);
    private static readonly Length MarginAcross = Length.FromMillimetres(8);
    private static readonly Length Beside = Length.FromMillimetres(30);

    // On a narrow screen a drawing with figures is moved sideways rather than made smaller than this.
    private static readonly Length LeastWithFigures = Length.FromMillimetres(140);
    private static readonly Length LeastPicture = Length.FromMillimetres(50);

    // What a page of cuts has besides its maps and rows, as the stylesheet sets it: heading, captions, bars, and headings of columns in two lines.
    internal const double BesideCuts = 40.5;

    // A paragraph of one line, with the air above it.
    internal const double LinePitch = 9;

    // How much narrower columns are taken to be than those of the PDF, since nobody knows the font of the reader. Printed in DejaVu Serif, which is a
    // quarter wider than that of the PDF, pages come out lower than reckoned so: a browser fits the columns of each page to its words.
    internal const double WidestLetters = 1.1;

    private readonly Worksheet _sheet;
    private readonly StringBuilder _html = new();

    private WorksheetHtml(Worksheet sheet) => _sheet = sheet;

    /// <summary>Writes it, with LF line ends, to be saved as UTF-8.</summary>
    public static string Write(Worksheet sheet) => new WorksheetHtml(sheet).Write();

    /// <summary>Room on a page that is printed from top to bottom, in millimetres.</summary>
    internal static double HeightOn(PaperSize paper) => Plane.Roughly(paper.Height - (2 * MarginDown));

    private string Write()
    {
        var named = _sheet.Sections.Where(section => section.Heading.Length > 0).ToList();
        _html.Append(CultureInfo.InvariantCulture, $"""
            <!doctype html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">
            <title>{Escaped(_sheet.Title)}: worksheet</title>
            <style>
            {Style()}</style>
            </head>
            <body>
            <a class="skip" href="#sheet">Skip to the worksheet</a>
            <header>
            <h1>{Escaped(_sheet.Title)}</h1>
            <p class="summary">{Escaped(_sheet.Summary)}</p>
            <p class="print-note on-screen">{Escaped(_sheet.ScreenNote)}</p>
            </header>
            <nav aria-label="On this page">
            <ul>

            """);
        foreach (var section in named)
        {
            Line($"""<li><a href="#{Id(section.Heading)}">{Escaped(section.Heading)}</a></li>""");
        }

        Line("</ul>\n</nav>\n<main id=\"sheet\" tabindex=\"-1\">");
        foreach (var section in _sheet.Sections)
        {
            Append(section);
        }

        Line("</main>\n</body>\n</html>");
        return _html.ToString().ReplaceLineEndings("\n");
    }

    private string Style()
    {
        var font = Convert.ToBase64String(LetteringFont.ReadResource());
        var (width, height) = (Millimetres(_sheet.Paper.Width), Millimetres(_sheet.Paper.Height));
        return $"@font-face {{ font-family: \"{LetteringFont.Family}\"; src: url(data:font/ttf;base64,{font}) format(\"truetype\"); }}\n"
            + $"@page {{ size: {width} {height}; margin: {Millimetres(MarginDown)} {Millimetres(MarginAcross)}; }}\n"
            + $"@page wide {{ size: {height} {width}; margin: {Millimetres(MarginDown)} {Millimetres(MarginAcross)}; }}\n"
            + Encoding.UTF8.GetString(SheetFiles.Read(StyleResource));
    }

    private void Append(WorksheetSection section)
    {
        // A section that has its page held sideways holds one drawing.
        var isAlone = section.Parts.OfType<WorksheetFigure>().Count() == 1;
        var fit = section.Parts.OfType<WorksheetFigure>().Select(figure => Fit(figure, isAlone)).FirstOrDefault();
        var isFigure = section.Heading.Length > 0 && section.Parts.Any(part => part is WorksheetFigure);
        Line((section.Heading.Length, isFigure) switch
        {
            (0, _) => "<section aria-label=\"The finished card\">",
            (_, true) => $"""<section class="{(fit.IsTurned ? "figure wide" : "figure")}" aria-labelledby="{Id(section.Heading)}">""",
            _ => $"""<section{(section.StaysTogether ? " class=\"together\"" : "")} aria-labelledby="{Id(section.Heading)}">""",
        });
        if (section.Heading.Length > 0)
        {
            Line($"""<h2 id="{Id(section.Heading)}">{Escaped(section.Heading)}</h2>""");
        }

        foreach (var part in section.Parts)
        {
            Append(part, isAlone);
        }

        Line("</section>");
    }

    private void Append(WorksheetPart part, bool isAlone)
    {
        switch (part)
        {
            case WorksheetText text:
                Line($"<p>{Escaped(text.Text)}</p>");
                break;
            case WorksheetItems items:
                var kind = items.IsNumbered ? "ol" : "ul";
                Line($"""<{kind} class="{(items.IsNumbered ? "steps" : items.IsAside ? "points aside" : "points")}" role="list">""");
                foreach (var item in items.Items)
                {
                    Line($"<li>{Escaped(item)}</li>");
                }

                Line($"</{kind}>");
                break;
            case WorksheetTable table:
                Append(table);
                break;
            case WorksheetFigure figure:
                Append(figure, isAlone);
                break;
            case WorksheetFigures figures:
                Append(figures);
                break;
            default:
                throw new ArgumentException($"cannot write a {part.GetType().Name}", nameof(part));
        }
    }

    // The roles are written out, since browsers forget them where a narrow screen sets rows as grids.
    private void Append(WorksheetTable table)
    {
        var hasNotes = table.Rows.Any(row => row.Notes.Count > 0);
        Line($"<table role=\"table\" class=\"{table.Name}\">\n<caption>{Escaped(table.Caption)}</caption>\n<thead role=\"rowgroup\">\n<tr role=\"row\">");
        var last = table.Columns.Count - 1;
        for (var i = 0; i <= last; i++)
        {
            if (i == last && hasNotes)
            {
                Line("<th role=\"columnheader\" scope=\"col\">Notes</th>");
            }

            Line($"""<th role="columnheader" scope="col"{ClassOf(table.Columns[i])}>{Escaped(table.Columns[i].Heading)}</th>""");
        }

        Line("</tr>\n</thead>\n<tbody role=\"rowgroup\">");
        foreach (var row in table.Rows)
        {
            Line(row.IsNew ? "<tr role=\"row\" class=\"new\">" : "<tr role=\"row\">");
            for (var i = 0; i <= last; i++)
            {
                if (i == last && hasNotes)
                {
                    Line($"""<td role="cell" class="notes">{Escaped(string.Join("; ", row.Notes))}</td>""");
                }

                AppendCell(table, row, i);
            }

            Line("</tr>");
        }

        Line("</tbody>\n</table>");
    }

    private void AppendCell(WorksheetTable table, WorksheetRow row, int i)
    {
        if (table.Columns[i].Kind == ColumnKind.Ticks)
        {
            if (row.Tally.Length > 0)
            {
                Line($"""<td role="cell" class="ticks">{row.Tally} <input type="text" inputmode="numeric" class="tally" aria-label="{Escaped(row.Ticks.Meaning)}, how many of {row.Tally}"></td>""");
                return;
            }

            var boxes = Enumerable.Range(1, row.Boxes).Select(box =>
                $"""<input type="checkbox" aria-label="{Escaped(row.Ticks.Meaning)}{(row.Ticks.Count > 1 ? $", {box} of {row.Ticks.Count}" : "")}">""");
            Line($"""<td role="cell" class="ticks">{string.Concat(boxes)}</td>""");
            return;
        }

        var isAlone = i < table.About && table.Columns[i].Kind == ColumnKind.Number;
        Line(i == table.About
            ? $"""<th role="rowheader" scope="row">{Escaped(row.Cells[i])}</th>"""
            : $"""<td role="cell"{ClassOf(table.Columns[i])}{(!isAlone ? $" data-label=\"{Escaped(table.Columns[i].Heading)}\"" : "")}>{Escaped(row.Cells[i])}</td>""");
    }

    private void Append(WorksheetFigures figures)
    {
        var side = SideBySide.Of(figures.Figures, WorksheetPdf.WidthOn(_sheet.Paper));
        Line($"<div class=\"maps\" style=\"--print-high:{Millimetres(Plane.Exactly(side.Height))}\">");
        for (var i = 0; i < figures.Figures.Count; i++)
        {
            var sheet = figures.Figures[i].Drawing.Sheet;
            var style = $"--wide:{Millimetres(sheet.Width)};--high:{Millimetres(sheet.Height)};--x:{Millimetres(Plane.Exactly(side.Places[i].X))};--y:{Millimetres(Plane.Exactly(side.Places[i].Y))}";
            Line($"""<div class="map" style="{style}">{InlineSvg.Write(figures.Figures[i].Drawing, figures.Figures[i].Name, "")}</div>""");
        }

        Line($"</div>\n<p class=\"maps-note\">{Escaped(figures.Caption)}</p>");
        Line($"""<div class="bars" aria-hidden="true">{Bars()}<span>1 in and 5 cm. {CheckBar.Advice}</span></div>""");
    }

    private void Append(WorksheetFigure figure, bool isAlone)
    {
        var (fit, sheet) = (Fit(figure, isAlone), figure.Drawing.Sheet);
        var least = figure.IsMeasuredOn ? LeastWithFigures : LeastPicture;
        var style = $"--wide:{Millimetres(sheet.Width)};--least:{Millimetres(least)};"
            + $"--print-wide:{Millimetres(sheet.Width * fit.Scale)};--print-high:{Millimetres(sheet.Height * fit.Scale)}";
        Line("<figure>");
        Line($"""<div class="drawing" role="region" tabindex="0" aria-label="{Escaped(figure.Drawing.Title)}: drawing {Escaped(figure.Name)}">""");
        Line(InlineSvg.Write(figure.Drawing, figure.Name, style) + "</div>");
        Line($"<figcaption>{Escaped(figure.Caption)} {(fit.IsTrue ? "True to size when printed." : $"When printed: {fit.Words(figure.IsMeasuredOn)}")}</figcaption>");
        if (fit.IsTrue)
        {
            Line($"""<div class="bars" aria-hidden="true">{Bars()}<span>1 in and 5 cm. {CheckBar.Advice}</span></div>""");
        }

        Line("</figure>");
    }

    private FigureFit Fit(WorksheetFigure figure, bool isAlone)
    {
        var (paper, sheet) = (_sheet.Paper, figure.Drawing.Sheet);
        var upright = Choose(paper.Width, paper.Height);
        if (upright.IsTrue || !figure.IsMeasuredOn || !isAlone)
        {
            return upright;
        }

        // Turned means that the page is: the drawing stays upright on a page held sideways.
        var sideways = Choose(paper.Height, paper.Width);
        return sideways.Scale > upright.Scale ? sideways with { IsTurned = true } : upright;

        FigureFit Choose(Length width, Length height) => FigureFit.Choose(
            sheet.Width, sheet.Height, Position.FromLength(width - (2 * MarginAcross)), Position.FromLength(height - (2 * MarginDown) - Beside), mayTurn: false, figure.MostScale);
    }

    private static string Bars()
    {
        var (inch, gap, five) = (CheckBar.Inch, CheckBar.Gap, CheckBar.FiveCentimetres);
        var whole = inch + gap + five;
        return $"<svg viewBox=\"0 0 {Bare(whole)} {Bare(CheckBar.Thickness)}\" width=\"{Millimetres(whole)}\" height=\"{Millimetres(CheckBar.Thickness)}\" focusable=\"false\">"
            + $"<path d=\"M0 0H{Bare(inch)}V{Bare(CheckBar.Thickness)}H0ZM{Bare(inch + gap)} 0H{Bare(whole)}V{Bare(CheckBar.Thickness)}H{Bare(inch + gap)}Z\" fill=\"currentColor\"/></svg>";
    }

    private static string ClassOf(WorksheetColumn column) => column.Kind switch
    {
        ColumnKind.Number => " class=\"number\"",
        ColumnKind.Lead => " class=\"lead\"",
        ColumnKind.Size => " class=\"size\"",
        ColumnKind.Ticks => " class=\"ticks\"",
        _ => "",
    };

    private static string Bare(Length length) => SvgWriter.Millimetres(Position.FromLength(length));

    private static string Millimetres(Length length) => Bare(length) + "mm";

    private static string Millimetres(Position length) => SvgWriter.Millimetres(length) + "mm";

    private static string Id(string heading) => string.Join('-', new string([.. heading.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : ' ')])
        .Split(' ', StringSplitOptions.RemoveEmptyEntries));

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);

    private void Line(string text) => _html.Append(text).Append('\n');
}
