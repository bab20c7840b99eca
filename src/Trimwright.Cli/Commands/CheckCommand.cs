using System.CommandLine;
using Trimwright.Fitting;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary><c>check</c>: reads and fits, writes nothing.</summary>
internal static class CheckCommand
{
    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var command = new Command("check", """
            Check a layout without writing anything: errors, what gave way, what nothing pins.

            Example: trimwright check layouts/bean-row.json
            """)
        {
            options.Layout, options.Format, options.Held, options.DrawerFile, options.Json,
        };
        command.SetAction(parsed => Run(parsed, options, screen));
        return command;
    }

    private static int Run(ParseResult parsed, CommonOptions options, Screen screen)
    {
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

        if (session.AsJson)
        {
            session.WriteJson(json =>
            {
                json.WritePropertyName("card");
                CardJson.Write(json, card);
            });
            return Program.Done;
        }

        session.Complain();
        screen.Line($"{card.Layout.Title}: {TrimSheet.Headline(TrimList.FromCard(card))}");
        if (card.GaveWay.Count == 0 && card.Loose.Count == 0 && card.Carried.Count == 0)
        {
            screen.Line("Every wish is met, and every measure is pinned.");
        }

        session.WriteReport(card);
        return Program.Done;
    }
}
