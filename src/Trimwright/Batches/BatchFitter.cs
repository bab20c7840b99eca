using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;
using Trimwright.Variants;

namespace Trimwright.Batches;

/// <summary>A batch whose cards are fitted: what has to be cut for each of them, and from what it may be cut.</summary>
/// <param name="Batch">The batch.</param>
/// <param name="Drawer">The tools.</param>
/// <param name="Cards">The cards, in file order.</param>
public sealed record FittedBatch(Batch Batch, Drawer Drawer, IReadOnlyList<BatchCard> Cards);

/// <summary>Cards of one layout, fitted.</summary>
/// <param name="Wanted">What the batch says about them.</param>
/// <param name="Card">The fitted card.</param>
/// <param name="Parts">What is cut for one card, in the order of assembly.</param>
public sealed record BatchCard(WantedCard Wanted, FittedCard Card, IReadOnlyList<BatchPart> Parts)
{
    /// <summary>Which of the cards of one name they are, from 2; 1 for the first, or where no other has it.</summary>
    public int Namesake { get; init; } = 1;

    /// <summary>What the cards are called, such as <c>Bean row, A2 portrait</c>; those of the same name after the first get a number.</summary>
    public string Words => Namesake == 1 ? Name : FormattableString.Invariant($"{Name} ({Namesake})");

    internal string Name =>
        $"{Card.Layout.Title}, {Fitter.FormatWords(Card.Format, Card.Holding)}{(Wanted.Variant is { } variant ? $", {NamedVariants.Plain(variant.Name)}" : "")}";
}

/// <summary>One line of the trim list of a card, as something to be cut out of stock.</summary>
/// <param name="Line">The line.</param>
/// <param name="Width">Width of the rectangle that comes off the trimmer, as the piece lies on the card.</param>
/// <param name="Height">Its height.</param>
/// <param name="Sources">Where it may come from, in the order of the stock.</param>
public sealed record BatchPart(TrimLine Line, Length Width, Length Height, IReadOnlyList<PartSource> Sources);

/// <summary>A side of a sheet that a part may be cut from.</summary>
/// <param name="Sheet">The place of the sheet in the stock.</param>
/// <param name="Paper">The paper it shows.</param>
/// <param name="IsSideB">Whether that is side B.</param>
/// <param name="Upright">Whether the part may lie as it lies on the card.</param>
/// <param name="Turned">Whether it may lie a quarter turned.</param>
/// <param name="Preference">0 for the paper that the maker named first, 1 for the next.</param>
public sealed record PartSource(int Sheet, string Paper, bool IsSideB, bool Upright, bool Turned, int Preference);

/// <summary>The result of fitting a batch.</summary>
/// <param name="Batch">The fitted batch, or null after an error.</param>
/// <param name="Diagnostics">Errors and warnings of the batch and of its layouts.</param>
/// <param name="Texts">The contents of the layout files that were read, by the names that diagnostics use, to show their lines.</param>
public sealed record BatchFitting(FittedBatch? Batch, IReadOnlyList<Diagnostic> Diagnostics, IReadOnlyDictionary<string, byte[]> Texts);

/// <summary>Fits the cards of a batch and finds what each of their parts may be cut from.</summary>
public static class BatchFitter
{
    /// <summary>Fits a batch. All problems of all its layouts are found in one go.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="drawer">The tools.</param>
    /// <param name="open">
    /// Gives the content of a layout file by the name in the batch and the name to show for it, or null when there is none.
    /// </param>
    /// <param name="openPicture">Opens a picture, given the name shown for the layout and what that calls the picture; without it images have no picture.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static BatchFitting Fit(
        Batch batch, Drawer drawer, Func<string, (string Name, byte[] Content)?> open, Func<string, string, PictureFile>? openPicture = null,
        CancellationToken cancel = default)
    {
        var diagnostics = new List<Diagnostic>();
        var texts = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        var layouts = new Dictionary<string, Layout?>(StringComparer.Ordinal);
        var cards = new List<BatchCard>();
        foreach (var wanted in batch.Cards)
        {
            if (!layouts.TryGetValue(wanted.LayoutFile, out var layout))
            {
                layout = layouts[wanted.LayoutFile] = Read(wanted, open, openPicture, diagnostics, texts);
            }

            if (layout is null)
            {
                continue;
            }

            if (FitCard(layout, wanted, drawer, diagnostics, cancel) is { } card)
            {
                var made = new BatchCard(wanted, card, Parts(batch, wanted, card, diagnostics));
                cards.Add(made with { Namesake = 1 + cards.Count(other => other.Name == made.Name) });
            }
        }

        if (!diagnostics.HasErrors() && UnusedStock(batch, cards) is { Count: > 0 } unused)
        {
            diagnostics.Add(BatchMessages.UnusedSheets(unused));
        }

        return new(diagnostics.HasErrors() ? null : new(batch, drawer, cards), diagnostics, texts);
    }

    private static FittedCard? FitCard(Layout layout, WantedCard wanted, Drawer drawer, List<Diagnostic> diagnostics, CancellationToken cancel)
    {
        var (format, holding) = (wanted.Format ?? layout.Format, wanted.Holding ?? layout.Holding);
        var drawn = layout;
        if (wanted.Variant is { } wish)
        {
            if (NamedVariants.Find(layout, wish.Name) is not { } found)
            {
                var name = NamedVariants.Plain(wish.Name);
                diagnostics.Add(BatchMessages.NoSuchVariant(name, layout, NearNames.Nearest(name, NamedVariants.Names(layout)), Fits(), wish.Place));
                return null;
            }

            drawn = found;
        }

        var result = Fitter.Fit(drawn, format, holding, drawer, cancel);
        diagnostics.AddRange(result.Diagnostics.Where(found => !diagnostics.Contains(found)));
        if (result.Card is null && wanted.Variant is { } named)
        {
            diagnostics.Add(BatchMessages.VariantDoesNotFit(NamedVariants.Plain(named.Name), layout, Fits(), named.Place));
        }

        return result.Card;

        // The layout as drawn is found first, whether it fits or not.
        (bool AsDrawn, IReadOnlyList<string> Others) Fits()
        {
            var variants = VariantSearch.Find(layout, format, holding, drawer, cancel: cancel).Found;
            return (variants[0].Card is not null, [.. variants.Skip(1).Select(variant => NamedVariants.Plain(variant.Name))]);
        }
    }

    private static Layout? Read(
        WantedCard wanted, Func<string, (string Name, byte[] Content)?> open, Func<string, string, PictureFile>? openPicture,
        List<Diagnostic> diagnostics, SortedDictionary<string, byte[]> texts)
    {
        if (open(wanted.LayoutFile) is not var (name, content))
        {
            diagnostics.Add(BatchMessages.NoSuchLayout(wanted.LayoutFile, wanted.LayoutPlace));
            return null;
        }

        if (content.Length > LayoutReader.MaxBytes)
        {
            diagnostics.Add(LayoutReader.TooLarge(name));
            return null;
        }

        texts[name] = content;
        var reading = LayoutReader.Read(name, content, openPicture is null ? null : picture => openPicture(name, picture));
        diagnostics.AddRange(reading.Diagnostics);
        return reading.Layout;
    }

    private static List<BatchPart> Parts(Batch batch, WantedCard wanted, FittedCard card, List<Diagnostic> diagnostics)
    {
        var missing = new HashSet<string>(StringComparer.Ordinal);
        CheckStandIns(wanted, card, diagnostics);
        var parts = new List<BatchPart>();
        foreach (var line in TrimList.FromCard(card).Lines)
        {
            var standIn = wanted.StandIns.FirstOrDefault(entry => entry.Paper == line.Paper);
            IReadOnlyList<string> papers = standIn?.From ?? [line.Paper];
            var sources = Sources(batch, card, line, papers);
            if (sources.Count == 0 && missing.Add(line.Paper))
            {
                diagnostics.Add(
                    batch.Stock.Any(sheet => papers.Any(sheet.Shows))
                        ? BatchMessages.GrainForbids(line.Name, card.Layout.File, papers, wanted.Place)
                        : BatchMessages.NoPaper(line.Paper, papers, card.Layout.File, batch.Papers.Select(paper => paper.Name), standIn?.Place ?? wanted.Place));
            }

            var (width, height) = line.Blank ?? (line.Width, line.Height);
            parts.Add(new(line, width, height, sources));
        }

        return parts;
    }

    /// <summary>
    /// A pattern with a top keeps a part upright. The grain of a base must run along its fold: on a sheet whose grain is known, that settles
    /// which way the base lies.
    /// </summary>
    private static List<PartSource> Sources(Batch batch, FittedCard card, TrimLine line, IReadOnlyList<string> papers)
    {
        var sources = new List<PartSource>();
        var alongFold = card.Layout.Base.Fold == Edge.Top ? Axis.Across : Axis.UpDown;
        for (var s = 0; s < batch.Stock.Count; s++)
        {
            var sheet = batch.Stock[s];
            for (var preference = 0; preference < papers.Count; preference++)
            {
                var paper = papers[preference];
                if (!sheet.Shows(paper))
                {
                    continue;
                }

                var oneWay = batch.PaperNamed(paper).OneWay;
                var grainBinds = line.Shape == BaseLine.Shape && sheet.Grain is not null;
                var upright = !grainBinds || sheet.Grain == alongFold;
                var turned = !oneWay && (!grainBinds || sheet.Grain != alongFold);
                if (upright || turned)
                {
                    sources.Add(new(s, paper, sheet.SideA != paper, upright, turned, preference));
                }
            }
        }

        return sources;
    }

    private static void CheckStandIns(WantedCard wanted, FittedCard card, List<Diagnostic> diagnostics)
    {
        foreach (var standIn in wanted.StandIns)
        {
            if (card.Layout.Papers.All(paper => paper.Name != standIn.Paper))
            {
                diagnostics.Add(BatchMessages.NotInLayout(standIn, card.Layout));
            }
        }
    }

    /// <summary>The stock of the batch's own file that nothing can be cut from. What another file holds is all that was left: nobody needs all of it.</summary>
    private static List<StockSheet> UnusedStock(Batch batch, List<BatchCard> cards)
    {
        var used = cards.SelectMany(card => card.Parts).SelectMany(part => part.Sources).Select(source => source.Sheet).ToHashSet();
        return [.. batch.Stock.Where((sheet, s) => sheet.Place.File == batch.File && !used.Contains(s))];
    }
}
