using System.Text;
using Trimwright.Balance;
using Trimwright.Batches;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Trimming;
using Trimwright.Variants;
using Trimwright.Worksheets;

namespace Trimwright.Gallery;

/// <summary>
/// The outputs of a demo layout as they stand in <c>renders/</c>: its drawings and list, its mirrored variants, and the same layout on
/// other formats. The gallery writer writes them and the tests compare them, through this one place.
/// </summary>
public static class GalleryFiles
{
    /// <summary>The resolution of the pictures.</summary>
    public const int DotsPerInch = 144;

    // Layers, pieces and base of a few demos are enough to see what changes.
    private static readonly string[] WithAllSheets = ["bean-row", "marrow-show", "scarecrow", "seed-packet"];

    // One with few variants, one with so many that they take two sheets and tie, and one with a picture that pulls to its side.
    private static readonly string[] WithBalance = ["garden-gate", "scarecrow", "watering-can"];

    private const int BalanceShown = 12;

    // One worksheet of a card shows how they look; it is the same whatever the machine, and so is every byte of it.
    private const string WithWorksheet = "bean-row";

    private static readonly string[] OtherFormats = ["A2", "A7", "square 5 1/4 in"];

    private static PictureFile OpenPicture(string layoutFile, string picture) =>
        new(File.ReadAllBytes(Path.Combine(Path.GetDirectoryName(layoutFile) ?? "", picture)));

    /// <summary>The outputs of a layout file: names below <c>renders/</c> and contents.</summary>
    /// <exception cref="InvalidOperationException">The layout does not fit its own format, or no picture can be made here.</exception>
    public static IReadOnlyList<(string Name, byte[] Content)> For(string layoutFile)
    {
        var stem = Path.GetFileNameWithoutExtension(layoutFile);
        var reading = LayoutReader.Read(Path.GetFileName(layoutFile), File.ReadAllBytes(layoutFile), picture => OpenPicture(layoutFile, picture));
        var layout = reading.Layout ?? throw new InvalidOperationException(
            string.Join("; ", reading.Diagnostics.Select(diagnostic => $"{diagnostic.Place}: {diagnostic.Message}")));
        var result = Fitter.Fit(layout, Drawer.Default);
        var card = result.Card ?? throw new InvalidOperationException(result.Diagnostics[0].Message);

        var files = new List<(string, byte[])>();
        foreach (var sheet in MeasuredDrawing.Sheets(card))
        {
            AddDrawing(files, sheet.Number == 1 ? $"{stem}/measured" : FormattableString.Invariant($"{stem}/measured-{sheet.Number}"), sheet.Drawing);
        }

        AddDrawing(files, $"{stem}/face", FaceDrawing.Draw(card));
        if (WithAllSheets.Contains(stem))
        {
            AddDrawing(files, $"{stem}/layers", LayersDrawing.Draw(card));
            AddDrawing(files, $"{stem}/pieces", PieceSheetDrawing.Draw(card));
            AddDrawing(files, $"{stem}/base", BaseDrawing.Draw(card));
        }

        if (stem == WithWorksheet)
        {
            AddWorksheet(files, $"{stem}/worksheet", WorksheetMaker.Make(card, PaperSize.For(card.Unit)));
        }

        var list = TrimList.FromCard(card);
        AddText(files, $"{stem}/trim-list.md", TrimSheet.Write(list));
        AddText(files, $"{stem}/trim-list.csv", TrimCsv.Write(list));
        AddText(files, $"{stem}/card.json", CardJson.Write(card));

        var mirrored = VariantFits.Mirrored(layout, layout.Format, layout.Holding, Drawer.Default);
        AddDrawing(files, $"{stem}/mirrored", SideBySideDrawing.Draw($"{layout.Title}, mirrored", Fitted(mirrored)));
        var formats = OtherFormats.Select(name => CardFormats.Find(name, layout.Unit)!)
            .SelectMany(format => format.IsSquare
                ? [(format, Holding.Portrait)]
                : new[] { (format, Holding.Portrait), (format, Holding.Landscape) });
        var resized = VariantFits.Resized(layout, formats, Drawer.Default);
        AddDrawing(files, $"{stem}/resized", SideBySideDrawing.Draw($"{layout.Title}, on other formats", Fitted(resized)));
        AddText(files, $"{stem}/resized.md", Told(resized));
        if (WithBalance.Contains(stem))
        {
            AddBalance(files, stem, layout);
        }

        return files;
    }

    /// <summary>The outputs of a batch file: its schedule and worksheet, its leftovers, and the maps of its sheets.</summary>
    /// <exception cref="InvalidOperationException">The batch cannot be planned, or no picture can be made here.</exception>
    public static IReadOnlyList<(string Name, byte[] Content)> ForBatch(string batchFile)
    {
        var folder = Path.GetDirectoryName(batchFile)!;
        (string, byte[])? Open(string name) => File.Exists(Path.Combine(folder, name)) ? (name, File.ReadAllBytes(Path.Combine(folder, name))) : null;
        var reading = BatchReader.Read(Path.GetFileName(batchFile), File.ReadAllBytes(batchFile), Open);
        var fitting = reading.Batch is { } batch ? BatchFitter.Fit(batch, Drawer.Default, Open) : new(null, reading.Diagnostics, new Dictionary<string, byte[]>());
        var planning = fitting.Batch is { } fitted ? BatchPlanner.Plan(fitted) : new(null, fitting.Diagnostics);
        var plan = planning.Plan ?? throw new InvalidOperationException(
            string.Join("; ", planning.Diagnostics.Select(diagnostic => $"{diagnostic.Place}: {diagnostic.Message}")));

        var stem = $"batches/{Path.GetFileNameWithoutExtension(batchFile)}";
        var schedule = TrimSchedule.FromPlan(plan);
        var files = new List<(string, byte[])>();
        AddText(files, $"{stem}/schedule.md", ScheduleSheet.Write(schedule));
        AddText(files, $"{stem}/schedule.csv", ScheduleCsv.Write(schedule));
        AddWorksheet(files, $"{stem}/schedule", BatchWorksheet.Make(schedule, PaperSize.For(plan.Batch.Batch.Unit)));
        AddText(files, $"{stem}/left-over.json", BatchJson.WriteLeftovers(schedule));
        foreach (var sheet in schedule.Sheets)
        {
            AddDrawing(files, $"{stem}/sheet-{sheet.Letter.ToLowerInvariant()}", SheetMapDrawing.Draw(schedule, sheet));
        }

        for (var n = 0; n < plan.Pieced.Count; n++)
        {
            AddDrawing(files, $"{stem}/seam-{n + 1}", SeamDrawing.Draw(schedule, plan.Pieced[n]));
        }

        return files;
    }

    private static void AddBalance(List<(string Name, byte[] Content)> files, string stem, Layout layout)
    {
        var comparison = BalanceComparison.Of(VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default), FacePictures.Of(layout));
        foreach (var (index, sheet) in BalanceDrawing.Sheets(comparison, BalanceShown).Index())
        {
            AddDrawing(files, index == 0 ? $"{stem}/balance" : FormattableString.Invariant($"{stem}/balance-sheet-{index + 1}"), sheet);
        }

        AddText(files, $"{stem}/balance.md", BalancePage.Write(comparison));
        AddText(files, $"{stem}/balance.csv", BalanceCsv.Write(comparison));
        AddText(files, $"{stem}/balance.json", BalanceJson.Write(comparison));
    }

    private static List<(string Caption, FittedCard Card)> Fitted(IReadOnlyList<Variant> variants) =>
        [.. variants.Where(variant => variant.Card is not null).Select(variant => (variant.Name, variant.Card!))];

    private static string Told(IReadOnlyList<Variant> variants)
    {
        var comparison = SizeComparison.Of([.. variants.Select(variant => (variant.Name, variant.Card))]);
        var text = new StringBuilder("```text\n").Append(TextTable.Plain(comparison.Headings, comparison.Rows));
        foreach (var variant in variants)
        {
            text.Append('\n').Append(variant.Name).Append(variant.Card is null ? " cannot be done:\n" : ":\n");
            foreach (var diagnostic in variant.Diagnostics)
            {
                text.Append("  ").Append(diagnostic.Message).Append('\n');
            }

            foreach (var (heading, lines) in variant.Card is { } card ? FitReport.Of(card) : [])
            {
                text.Append("  ").Append(heading).Append(":\n");
                foreach (var line in lines)
                {
                    text.Append("    ").Append(line).Append('\n');
                }
            }
        }

        return text.Append("```\n").ToString();
    }

    private static void AddWorksheet(List<(string Name, byte[] Content)> files, string stem, Worksheet sheet)
    {
        files.Add((stem + ".pdf", WorksheetPdf.Write(sheet)));
        AddText(files, stem + ".html", WorksheetHtml.Write(sheet));
    }

    private static void AddText(List<(string Name, byte[] Content)> files, string name, string text) =>
        files.Add((name, Encoding.UTF8.GetBytes(text)));

    private static void AddDrawing(List<(string Name, byte[] Content)> files, string stem, DrawingList drawing)
    {
        var svg = SvgWriter.Write(drawing);
        AddText(files, stem + ".svg", svg);
        files.Add((stem + ".png", PngWriter.TryWrite(svg, DotsPerInch, out var png, out var problem)
            ? png
            : throw new InvalidOperationException(problem)));
    }
}
