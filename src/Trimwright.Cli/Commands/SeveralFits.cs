using System.CommandLine;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Trimming;
using Trimwright.Variants;

namespace Trimwright.Cli.Commands;

/// <summary>Writes and shows several fits of one layout: each with its drawings and list, and one sheet with all of them.</summary>
internal static class SeveralFits
{
    /// <param name="parsed">The call.</param>
    /// <param name="options">Its options.</param>
    /// <param name="session">What was read.</param>
    /// <param name="screen">Where to.</param>
    /// <param name="fits">The fits.</param>
    /// <param name="stemOf">The stem of the file names of a fit.</param>
    /// <param name="sheetStem">The stem of the file name of the sheet with all of them.</param>
    /// <param name="sheetTitle">The title of that sheet.</param>
    /// <param name="balance">Whether to say how the first is balanced.</param>
    public static int Write(
        ParseResult parsed, CommonOptions options, Session session, Screen screen, IReadOnlyList<Variant> fits,
        Func<Variant, string> stemOf, string sheetStem, string sheetTitle, bool balance = false)
    {
        var fitted = fits.Where(fit => fit.Card is not null).Select(fit => (fit.Name, Card: fit.Card!)).ToList();
        if (fitted.Count == 0)
        {
            session.Report(fits.SelectMany(fit => fit.Diagnostics));
            return session.Refuse();
        }

        var folder = new OutputFolder(parsed.GetValue(options.Out)!);
        var files = new CardFiles(folder, parsed.GetValue(options.Png), options.DotsPerInch(parsed), parsed.GetValue(options.Dual), screen);
        files.AddDrawing(sheetStem, SideBySideDrawing.Draw(sheetTitle, fitted));
        foreach (var fit in fits)
        {
            if (fit.Card is { } card)
            {
                files.Add(stemOf(fit), card);
            }
        }

        folder.Write(parsed.GetValue(options.Force));
        if (session.AsJson)
        {
            session.WriteJson(json =>
            {
                json.WriteStartArray("fits");
                foreach (var fit in fits)
                {
                    json.WriteStartObject();
                    json.WriteString("name", fit.Name);
                    if (fit.Card is { } card)
                    {
                        json.WritePropertyName("card");
                        CardJson.Write(json, card);
                    }

                    CardJson.Write(json, "diagnostics", fit.Diagnostics);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                CardJson.WriteTexts(json, "files", folder.Paths);
            });
            return Program.Done;
        }

        Show(session, screen, fits);
        if (fits[0].Card is { } first)
        {
            session.WriteBalance(first, balance);
        }

        screen.Lines("written", folder.Paths);
        return Program.Done;
    }

    private static void Show(Session session, Screen screen, IReadOnlyList<Variant> fits)
    {
        session.Complain();
        screen.Line($"{session.Layout.Title}: sizes, width first");
        screen.Line();
        var comparison = SizeComparison.Of([.. fits.Select(fit => (fit.Name, fit.Card))]);
        screen.Table(comparison.Headings, comparison.Rows, TextTable.Plain(comparison.Headings, comparison.Rows));
        foreach (var fit in fits)
        {
            var lines = fit.Card is { } card
                ? [.. FitReport.Of(card).SelectMany(section => section.Lines.Select(line => $"  {line}").Prepend($"{section.Heading}:"))]
                : fit.Diagnostics.SelectMany(Told).ToList();
            screen.Lines(fit.Card is null ? $"{fit.Name} cannot be done" : fit.Name, lines);
        }
    }

    private static IEnumerable<string> Told(Diagnostics.Diagnostic diagnostic) =>
        (string[])[$"{diagnostic.Place}: {diagnostic.Message}", .. diagnostic.Remedy is { } remedy ? new[] { $"help: {remedy}" } : []];
}
