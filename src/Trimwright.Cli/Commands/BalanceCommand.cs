using System.CommandLine;
using Trimwright.Balance;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Trimming;
using Trimwright.Variants;

namespace Trimwright.Cli.Commands;

/// <summary><c>balance</c>: variants of a layout, weighed and put in order.</summary>
internal static class BalanceCommand
{
    private sealed record Choices(Option<int> Most, Option<int> Show, Option<int[]> Write, Option<string> By, Option<string?> Paper);

    public static Command Create(Screen screen)
    {
        var options = new CommonOptions();
        var choices = new Choices(
            new("--most")
            {
                Description = $"The most combinations to try, the layout as drawn among them, 1 to {VariantSearch.Most}.",
                DefaultValueFactory = _ => VariantSearch.UsualMost,
            },
            new("--show")
            {
                Description = "How many of the best to show; the layout as drawn is always shown.",
                DefaultValueFactory = _ => 12,
            },
            new("--write")
            {
                Description = "The numbers of variants to write out: drawings, trim list, a worksheet to print and a layout file to go on with. Several stand one after another: --write 2 3.",
                AllowMultipleArgumentsPerToken = true,
            },
            new("--by")
            {
                Description = "What to order by: dcm (how far the weight lies from the middle) or apb (how unevenly it is spread).",
                DefaultValueFactory = _ => "dcm",
            },
            WorksheetCommand.PaperOption("cards"));
        choices.By.AcceptOnlyFromAmong("dcm", "apb");
        var command = new Command("balance", """
            Try variants of a layout, mirrored and with accents moved, weigh each, and show which are best balanced, and why.

            Example: trimwright balance layouts/watering-can.json --write 1 --out cut
            """)
        {
            options.Layout, options.Format, options.Held, options.DrawerFile, choices.Most, choices.Show, choices.Write, choices.By,
            choices.Paper, options.Out, options.Png, options.Dpi, options.Dual, options.Json, options.Force,
        };
        command.SetAction((parsed, cancel) => Task.FromResult(Run(parsed, options, choices, screen, cancel)));
        return command;
    }

    private static int Run(ParseResult parsed, CommonOptions options, Choices choices, Screen screen, CancellationToken cancel)
    {
        var dpi = options.DotsPerInch(parsed);
        var most = parsed.GetValue(choices.Most) is var tried and >= 1 and <= VariantSearch.Most
            ? tried
            : throw new UsageException($"--most takes a whole number from 1 to {VariantSearch.Most}");
        var show = parsed.GetValue(choices.Show) is var count and >= 1
            ? count
            : throw new UsageException("--show takes a whole number from 1");
        var paper = WorksheetCommand.PaperAsked(parsed, choices.Paper);
        var session = Session.Open(parsed, options, screen);
        if (!session.IsReady)
        {
            return session.Refuse();
        }

        var (format, holding) = options.FormatFor(parsed, session.Layout);
        var found = VariantSearch.Find(session.Layout, format, holding, session.Drawer, most, cancel);
        session.Report(found.Found[0].Diagnostics);
        if (found.Found[0].Card is null)
        {
            return session.Refuse();
        }

        var measure = parsed.GetValue(choices.By) == "apb" ? BalanceMeasure.Preference : BalanceMeasure.Deviation;
        var comparison = BalanceComparison.Of(found, session.Pictures, measure, cancel);
        var chosen = Chosen(parsed.GetValue(choices.Write) ?? [], comparison);
        var stem = CommonOptions.Stem(parsed.GetValue(options.Layout)!, format, holding);
        var folder = new OutputFolder(parsed.GetValue(options.Out)!);
        var files = new CardFiles(folder, parsed.GetValue(options.Png), dpi, parsed.GetValue(options.Dual), screen);
        foreach (var (index, sheet) in BalanceDrawing.Sheets(comparison, show).Index())
        {
            files.AddDrawing(index == 0 ? $"{stem}-balance" : FormattableString.Invariant($"{stem}-balance-sheet-{index + 1}"), sheet);
        }

        folder.Add($"{stem}-balance.md", BalancePage.Write(comparison));
        folder.Add($"{stem}-balance.csv", BalanceCsv.Write(comparison));
        var variants = new VariantFiles(
            session, parsed.GetValue(options.Layout)!, parsed.GetValue(options.Out)!, FittedWith(parsed, options), folder, files);
        foreach (var variant in chosen)
        {
            variants.Add(FormattableString.Invariant($"{stem}-variant-{variant.Number}"), variant, paper, cancel);
        }

        folder.Write(parsed.GetValue(options.Force));
        if (session.AsJson)
        {
            session.WriteJson(json =>
            {
                json.WritePropertyName("balance");
                BalanceJson.Write(json, comparison);
                CardJson.WriteTexts(json, "files", folder.Paths);
                CardJson.WriteTexts(json, "withoutLayoutFile", variants.WithoutLayoutFile);
            });
            return Program.Done;
        }

        session.Complain();
        Show(comparison, show, screen);
        foreach (var variant in chosen)
        {
            screen.Line();
            session.WriteTrimList(FormattableString.Invariant($"No. {variant.Number}, {variant.Name}"), variant.Card);
        }

        screen.Lines("written", folder.Paths);
        variants.Tell(screen);
        if (chosen.Count == 0)
        {
            screen.Lines("to make one of them", [FormattableString.Invariant($"add its number, such as `--write {comparison.Best.Number}`: its drawings, its trim list, a worksheet to print and a layout file are written")]);
        }

        return Program.Done;
    }

    private static List<ComparedVariant> Chosen(int[] numbers, BalanceComparison comparison) =>
    [
        .. numbers.Distinct().Select(number => comparison.Variants.FirstOrDefault(variant => variant.Number == number) ?? throw new UsageException(
            comparison.Variants.Count == 1
                ? $"there is no variant {number}: only the layout as drawn fits, as number 1"
                : FormattableString.Invariant($"there is no variant {number}; --write takes numbers from 1 to {comparison.Variants.Count}"))),
    ];

    // The words of the call that a fit of the variant needs as well.
    private static string FittedWith(ParseResult parsed, CommonOptions options) => string.Concat(
        new[] { options.Format, options.Held, options.DrawerFile }.Select(option => parsed.GetValue(option) is { } value ? $" {option.Name} {VariantFiles.Word(value)}" : ""));

    private static void Show(BalanceComparison comparison, int show, Screen screen)
    {
        screen.Line($"{comparison.AsDrawn.Card.Layout.Title}, {BalanceReport.Headline(comparison)}");
        screen.Line();
        Show(BalanceTable.OfVariants(comparison.Shown(show)), screen);
        if (comparison.Shown(show).Count < comparison.Variants.Count)
        {
            screen.Line(FormattableString.Invariant($"(all {comparison.Variants.Count} stand in the page and in the table that are written)"));
        }

        screen.Lines("the columns", BalanceReport.Key);
        foreach (var (heading, lines) in BalanceReport.Of(comparison))
        {
            screen.Lines(heading, lines);
        }

        if (BalanceTable.OfPulls(comparison) is { Rows.Count: > 0 } pulls)
        {
            screen.Line();
            Show(pulls, screen);
        }

        screen.Lines(BalanceReport.WorthHeading, BalanceReport.Worth);
    }

    private static void Show(BalanceTable table, Screen screen) => screen.Table(table.Headings, table.Rows, table.ToPlainText());
}
