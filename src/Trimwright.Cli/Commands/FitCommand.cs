using System.CommandLine;
using Trimwright.Fitting;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary><c>fit</c>: the main job.</summary>
internal static class FitCommand
{
    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var command = new Command("fit", """
            Fit a layout to a card format: write the drawings and the trim list.

            Example: trimwright fit layouts/bean-row.json --format "A7 landscape" --out cut
            """)
        {
            options.Layout, options.Format, options.Held, options.DrawerFile, options.Out, options.Png, options.Dpi, options.Dual, options.NoBalance,
            options.Json, options.Force,
        };
        command.SetAction(parsed => Run(parsed, options, screen));
        return command;
    }

    private static int Run(ParseResult parsed, CommonOptions options, Screen screen)
    {
        var dpi = options.DotsPerInch(parsed);
        var file = parsed.GetValue(options.Layout)!;
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

        var folder = new OutputFolder(parsed.GetValue(options.Out)!);
        new CardFiles(folder, parsed.GetValue(options.Png), dpi, parsed.GetValue(options.Dual), screen).Add(CommonOptions.Stem(file, format, holding), card);
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
        session.WriteTrimList(card.Layout.Title, card);

        // Where there is a picture, balance is asked after; elsewhere it would only make every fit wait for it.
        session.WriteBalance(card, !parsed.GetValue(options.NoBalance) && card.Layout.Pieces.Any(piece => piece.Picture is not null));
        screen.Lines("written", folder.Paths);
        screen.Lines("before you cut", TrimSheet.Cautions);
        return Program.Done;
    }
}
