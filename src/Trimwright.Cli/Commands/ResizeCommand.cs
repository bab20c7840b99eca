using System.CommandLine;
using Trimwright.Variants;

namespace Trimwright.Cli.Commands;

/// <summary><c>resize</c>: one layout on several formats.</summary>
internal static class ResizeCommand
{
    private static readonly string[] UsualFormats = ["A2", "A7", "square 5 1/4 in"];

    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var to = new Option<string[]>("--to")
        {
            Description = "The formats, each in quotes if it has spaces, with `portrait` or `landscape` behind it if wished. Default: A2, A7 and square 5 1/4 in.",
            AllowMultipleArgumentsPerToken = true,
        };
        var command = new Command("resize", """
            Fit a layout to several formats, show them side by side to one scale, and tell what changed.

            Example: trimwright resize layouts/bean-row.json --to A7 "square 5 1/4 in" "A6 landscape" --out cut
            """)
        {
            options.Layout, to, options.Held, options.DrawerFile, options.Out, options.Png, options.Dpi, options.Dual, options.Json, options.Force,
        };
        command.SetAction(parsed => Run(parsed, options, to, screen));
        return command;
    }

    private static int Run(ParseResult parsed, CommonOptions options, Option<string[]> to, Screen screen)
    {
        options.DotsPerInch(parsed);
        var session = Session.Open(parsed, options, screen);
        if (!session.IsReady)
        {
            return session.Refuse();
        }

        var held = CommonOptions.Holding(parsed.GetValue(options.Held));
        var wanted = parsed.GetValue(to) is { Length: > 0 } named ? named : UsualFormats;
        var formats = wanted.Select(text => CommonOptions.ReadFormat(text, held, session.Layout)).Distinct().ToList();
        var fits = VariantFits.Resized(session.Layout, formats, session.Drawer);
        var file = parsed.GetValue(options.Layout)!;
        var stem = CommonOptions.Slug(Path.GetFileNameWithoutExtension(file));
        return SeveralFits.Write(
            parsed, options, session, screen, fits,
            fit => $"{stem}-{CommonOptions.Slug(fit.Name)}", $"{stem}-resized",
            $"{session.Layout.Title}, on {formats.Count} formats, to one scale");
    }
}
