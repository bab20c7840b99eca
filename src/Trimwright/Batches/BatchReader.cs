using Trimwright.Batches.Reading;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>What came of reading a batch file.</summary>
/// <param name="Batch">The batch; null if there is any error.</param>
/// <param name="Diagnostics">All errors and warnings, in file order.</param>
public sealed record BatchReading(Batch? Batch, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>
/// Reads batch files. The format is described in <c>docs/batch-file.md</c>. All problems of a file are found in one go; bad input never gives
/// an exception. The largest file read is that of <see cref="LayoutReader.MaxBytes"/>. Layouts are not read: see <c>BatchFitter</c>.
/// </summary>
public static class BatchReader
{
    /// <summary>The most cards of one layout.</summary>
    public const int MostCards = 10_000;

    private static readonly IReadOnlyList<(string Word, SalvageUse Value)> SalvageWords =
        [("if-it-saves", SalvageUse.IfItSaves), ("never", SalvageUse.Never), ("always", SalvageUse.Always)];

    /// <summary>Reads a batch.</summary>
    /// <param name="file">The name of the file, as the user gave it.</param>
    /// <param name="content">Its bytes: UTF-8, with or without a byte order mark.</param>
    /// <param name="open">
    /// Gives the content of a file of stock by the name in the batch and the name to show for it, or null when there is none; null when
    /// there are no other files at all.
    /// </param>
    public static BatchReading Read(string file, byte[] content, Func<string, (string Name, byte[] Content)?>? open = null)
    {
        var context = new ReadingContext(file);
        Batch? batch = null;
        switch (SyntaxReader.Read(file, content, context.Diagnostics))
        {
            case null:
                break;
            case SyntaxObject root:
                batch = Build(new(root, "a batch", BatchKeys.Batch, context), context, open ?? (_ => null));
                break;
            case var other:
                context.Add(LayoutMessages.WrongKind("a batch", "a group in braces", other));
                break;
        }

        var diagnostics = DiagnosticList.InFileOrder(context.Diagnostics);
        return new(diagnostics.HasErrors() ? null : batch, diagnostics);
    }

    private static Batch Build(ObjectView view, ReadingContext context, Func<string, (string Name, byte[] Content)?> open)
    {
        view.Text("$schema");
        var title = view.Text(view.Need("title"))?.Text ?? "";
        context.Unit = view.Word(view.Need("units"), Words.Units) ?? LengthUnit.Inch;
        // The files that `stock-from` names say which papers they are of.
        SyntaxMember? Needed(string key) => view.Has("stock-from") ? view.Find(key) : view.Need(key);
        var papers = HeadReader.ReadPapers(view, Needed("papers"), context);
        var stock = StockReader.Read(Needed("stock"), context);
        new StockFiles(papers, stock, context, open).Read(view);
        if (stock.Count == 0 && !context.Diagnostics.HasErrors())
        {
            context.Add(BatchMessages.NoStock((view.Find("stock") ?? view.Find("stock-from"))!.Value.Place));
        }

        StockReader.CheckCosts(stock, context);
        var cards = WantedReader.Read(view, context);
        Names.Check(context, new Dictionary<string, string?>(StringComparer.Ordinal));
        return new()
        {
            File = context.File,
            Title = title,
            Unit = context.Unit,
            Papers = papers,
            Stock = stock,
            Cards = cards,
            Salvage = view.Word("salvage", SalvageWords) ?? SalvageUse.IfItSaves,
            GlueMargin = NotNegative(view, "glue-margin", context) ?? Usual(context, Length.FromInches(1, 4), Length.FromMillimetres(6)),
            LeastOffcut = ReadLeastOffcut(view, context),
            MayPiece = view.Flag("piecing"),
            SeamOverlap = view.PlainLength("seam-overlap") ?? Usual(context, Length.FromInches(1, 8), Length.FromMillimetres(3)),
        };
    }

    private static Length Usual(ReadingContext context, Length inches, Length millimetres) =>
        context.Unit == LengthUnit.Inch ? inches : millimetres;

    private static Length? NotNegative(ObjectView view, string key, ReadingContext context) =>
        view.Length(key, LengthRange.NotNegative) is { } wish ? LengthValues.WithoutStrength(wish, key, context) : null;

    private static (Length Shorter, Length Longer) ReadLeastOffcut(ObjectView view, ReadingContext context)
    {
        if (view.As<SyntaxText>(view.Find("least-offcut"), "it in double quotes, like `\"1 x 2\"`") is not { } text)
        {
            var side = Usual(context, Length.FromInches(1), Length.FromMillimetres(25));
            return (side, side);
        }

        return BatchValues.Size(text, "leave it out, or write a small one like `1/4 x 1/4` to keep nearly everything", context) is var (width, height)
            ? (Length.Min(width, height), Length.Max(width, height))
            : default;
    }
}
