using System.CommandLine;
using Trimwright.Fitting;
using Trimwright.Variants;

namespace Trimwright.Cli.Commands;

/// <summary><c>mirror</c>: the mirrored variants.</summary>
internal static class MirrorCommand
{
    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var command = new Command("mirror", """
            Mirror a layout left-right, top-bottom, by a half-turn, and its accents alone; fit each and show them side by side.

            Example: trimwright mirror layouts/bean-row.json --out cut
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
        options.DotsPerInch(parsed);
        var session = Session.Open(parsed, options, screen);
        if (!session.IsReady)
        {
            return session.Refuse();
        }

        var (format, holding) = options.FormatFor(parsed, session.Layout);
        var fits = VariantFits.Mirrored(session.Layout, format, holding, session.Drawer);
        var stem = CommonOptions.Stem(parsed.GetValue(options.Layout)!, format, holding);
        if (!Mirroring.HasAccents(session.Layout))
        {
            screen.Warn("no piece is marked `\"accent\": true`, so there is no variant with the accents alone mirrored");
        }

        return SeveralFits.Write(
            parsed, options, session, screen, fits,
            fit => $"{stem}-{CommonOptions.Slug(fit.Name)}", $"{stem}-mirrored",
            $"{session.Layout.Title}, {Fitter.FormatWords(format, holding)}, mirrored",
            balance: !parsed.GetValue(options.NoBalance));
    }
}
