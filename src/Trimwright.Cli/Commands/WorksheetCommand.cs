using System.CommandLine;
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
        var paper = new Option<string?>("--paper")
        {
            Description = "The paper in the printer: letter or a4. Default: letter for cards in inches, a4 for cards in millimetres.",
        };
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

    private static int Run(ParseResult parsed, CommonOptions options, Option<string?> paperOption, Screen screen)
    {
        var paperName = parsed.GetValue(paperOption);
        var asked = paperName is null ? null : PaperSize.Find(paperName) ?? throw new UsageException(
            $"there is no paper `{paperName}`; choose {string.Join(" or ", PaperSize.All.Select(size => $"`{size.Name.ToLowerInvariant()}`"))}");
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
        if (WorksheetPdf.Lacking(sheet) is { Length: > 0 } lacking)
        {
            screen.Warn($"the font of the PDF has no sign for {string.Join(' ', lacking.EnumerateRunes().Select(rune => $"`{rune}`"))}, so boxes stand there instead; the HTML shows it where a font of the machine has it");
        }

        screen.Line($"{sheet.Title}: {sheet.Summary}");
        screen.Line();
        screen.Line($"A worksheet on {sheet.Paper.Name} paper. Print the PDF at 100 %, and measure the bars at the foot of a page before you cut.");
        screen.Lines("written", folder.Paths);
        screen.Lines("before you cut", TrimSheet.Cautions);
        return Program.Done;
    }
}
