using System.CommandLine;
using System.Globalization;
using System.Text;
using Trimwright.Fitting;
using Trimwright.Trimming;
using Trimwright.Worksheets;

namespace Trimwright.Cli.Commands;

/// <summary><c>worksheet</c>: a PDF to print and a page to read on a phone.</summary>
internal static class WorksheetCommand
{
    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var paper = PaperOption("cards");
        var command = new Command("worksheet", """
            Write a worksheet to print: drawings at their true size, what to cut, and how to put it together (PDF and HTML).

            Example: trimwright worksheet layouts/bean-row.json --paper letter --out cut
            """)
        {
            options.Layout, options.Format, options.Held, options.DrawerFile, paper, options.Out, options.Json, options.Force,
        };
        command.SetAction(parsed => Run(parsed, options, paper, screen));
        return command;
    }

    /// <summary>The option that names the paper in the printer.</summary>
    public static Option<string?> PaperOption(string what) => new("--paper")
    {
        Description = $"The paper in the printer: letter or a4. Default: letter for {what} in inches, a4 for {what} in millimetres.",
    };

    /// <summary>The paper that was named; null if none was.</summary>
    /// <exception cref="UsageException">There is no such paper.</exception>
    public static PaperSize? PaperAsked(ParseResult parsed, Option<string?> option) => parsed.GetValue(option) is not { } name ? null
        : PaperSize.Find(name) ?? throw new UsageException(
            $"there is no paper `{name}`; choose {string.Join(" or ", PaperSize.All.Select(size => $"`{size.Name.ToLowerInvariant()}`"))}");

    /// <summary>Says how to print a worksheet, and what its fonts cannot show.</summary>
    public static void TellOfPrinting(Worksheet sheet, Screen screen) => TellOfPrinting([sheet], screen);

    /// <summary>Says how to print worksheets on one paper, and what their fonts cannot show.</summary>
    public static void TellOfPrinting(IReadOnlyList<Worksheet> sheets, Screen screen)
    {
        List<Rune> lacking = [.. sheets.SelectMany(sheet => WorksheetPdf.Lacking(sheet).EnumerateRunes()).Distinct()];
        if (lacking.Count > 0)
        {
            screen.Warn($"the font of the PDF has no sign for {string.Join(' ', lacking.Select(rune => $"`{rune}`"))}, so boxes stand there instead; the HTML shows it where a font of the machine has it");
        }

        var (what, pdf) = sheets.Count == 1 ? ("A worksheet", "PDF") : ("Worksheets", "PDFs");
        screen.Line();
        var pages = sheets.Sum(WorksheetPdf.CountPages);
        screen.Line($"{what} on {sheets[0].Paper.Name} paper, {pages.ToString(CultureInfo.InvariantCulture)} {(pages == 1 ? "page" : "pages")}. Print the {pdf} at 100 %, and measure the bars at the foot of a page before you cut.");
    }

    private static int Run(ParseResult parsed, CommonOptions options, Option<string?> paperOption, Screen screen)
    {
        var asked = PaperAsked(parsed, paperOption);
        var session = Session.Open(parsed, options, screen);
        if (!session.IsReady)
        {
            return session.Refuse();
        }

        var (format, holding) = options.FormatFor(parsed, session.Layout);
        var result = Fitter.Fit(session.Layout, format, holding, session.Drawer);
        session.Report(result.Diagnostics);
        if (result.Card is not { } card)
        {
            return session.Refuse();
        }

        var sheet = WorksheetMaker.Make(card, asked ?? PaperSize.For(card.Unit));
        var stem = CommonOptions.Stem(parsed.GetValue(options.Layout)!, format, holding);
        var folder = new OutputFolder(parsed.GetValue(options.Out)!);
        folder.Add($"{stem}-worksheet.pdf", WorksheetPdf.Write(sheet));
        folder.Add($"{stem}-worksheet.html", WorksheetHtml.Write(sheet));
        folder.Write(parsed.GetValue(options.Force));
        if (session.AsJson)
        {
            session.WriteJson(json =>
            {
                json.WritePropertyName("card");
                CardJson.Write(json, card);
                CardJson.WriteTexts(json, "files", folder.Paths);
            });
            return Program.Done;
        }

        session.Complain();
        screen.Line($"{sheet.Title}: {sheet.Summary}");
        TellOfPrinting(sheet, screen);
        screen.Lines("written", folder.Paths);
        screen.Lines("before you cut", TrimSheet.Cautions);
        return Program.Done;
    }
}
