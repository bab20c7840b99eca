using System.Globalization;
using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>The texts of all that can be wrong with a batch, one method per case. Each code has its section in docs/diagnostics.md.</summary>
internal static class BatchMessages
{
    // E06xx: the batch file itself.
    public static Diagnostic NoStock(SourcePlace place) => Error(
        "E0601", place, "there is no paper to cut from", "put the sheets and offcuts that you have into `stock`");

    public static Diagnostic NoCards(SourcePlace place) => Error("E0601", place, "`cards` is empty", "put at least one card into it");

    public static Diagnostic TooManyKinds(int most, SourcePlace place) => Error(
        "E0602", place, Invariant($"the batch has more than {most} kinds of sheets"), "split it into several batches");

    public static Diagnostic TooManyLayouts(int most, SourcePlace place) => Error(
        "E0602", place, Invariant($"the batch has more than {most} entries in `cards`"), "split it into several batches");

    public static Diagnostic BadCount(string key, string what, int most, Rational number, SourcePlace place) => Error(
        "E0603", place, Invariant($"`{key}` is {LengthText.WriteDecimal(number, LengthValues.LongestNumber)}, but {what} are counted in whole numbers from 1 to {most}"),
        number.IsZero ? "leave the entry out if there are none" : Invariant($"write a whole number from 1 to {most}"));

    public static Diagnostic NothingLeft(Length trueOff, (Length Width, Length Height) size, LengthUnit unit, SourcePlace place) => Error(
        "E0604", place,
        $"{LengthText.Write(trueOff, unit)} off each edge leaves nothing of a sheet of {LengthText.WriteSize(size.Width, size.Height, unit)}",
        "make `true-off` smaller, or leave it out where the edges are good");

    public static Diagnostic NoSide(SourcePlace place, bool hasB) => Error(
        "E0605", place, "the sheet does not say which paper it is",
        hasB ? "write `side-a` for the paper on the side that you look at" : "add `paper`, or `side-a` and `side-b` where the two sides differ");

    public static Diagnostic BadCost(SourcePlace place) => Error(
        "E0606", place, "`cost` must be from 0 to 1000, in whole coins or hundredths", "write it like `0.35`");

    public static Diagnostic CostMissing(string sheet, SourcePlace place) => Error(
        "E0606", place, $"`{sheet}` has no `cost`, but other sheets have one", "give every sheet that is not an offcut a cost, or none of them");

    public static Diagnostic NoLayout(SourcePlace place) => Error(
        "E0607", place, "`layout` names no file", "write the name of a layout file, as seen from the batch file");

    public static Diagnostic WorthOfFixed(SourcePlace place) => Error(
        "E0608", place, "`worth` says nothing where the count is fixed", "take it out, or write `\"count\": \"as-many-as-possible\"`");

    public static Diagnostic NoSuchStockFile(string file, SourcePlace place) => Error(
        "E0609", place, $"there is no stock file `{file}`", "write its name as seen from the folder of the batch file");

    public static Diagnostic OtherTop(Paper known, Paper other) => Error(
        "E0610", other.Place,
        $"`{other.Name}` {(other.OneWay ? "has a top" : "has no top")} here, but {(known.OneWay ? "has one" : "has none")} in `{known.Place.File}`",
        "write `one-way` in both files or in neither, or give one of the two papers another name") with
    {
        Related = [new(known.Place, "the paper of that name")],
    };

    public static Diagnostic OtherPaper(Paper known, Paper other, string key, string here, string there) => Error(
        "E0610", other.Place, $"the `{key}` of `{other.Name}` is {here} here, but {there} in `{known.Place.File}`",
        $"write the same `{key}` in both files or leave it out of one, or give one of the two papers another name") with
    {
        Related = [new(known.Place, "the paper of that name")],
    };

    public static Diagnostic TooLargeSheet((Length Width, Length Height) size, LengthUnit unit, SourcePlace place) => Error(
        "E0615", place,
        Invariant($"a sheet of {LengthText.WriteSize(size.Width, size.Height, unit)} is longer than {CuttingPlanner.LongestSide / 1000} m"), "check the number and its unit");

    // E061x: the batch and its layouts together.
    public static Diagnostic NoSuchLayout(string file, SourcePlace place) => Error(
        "E0611", place, $"there is no layout file `{file}`", "write its name as seen from the folder of the batch file");

    public static Diagnostic NoPaper(string paper, IReadOnlyList<string> from, string layout, IEnumerable<string> known, SourcePlace place)
    {
        var wanted = string.Join(" or ", from.Select(name => $"`{name}`"));
        return Error(
            "E0612", place,
            from.Count == 1 && from[0] == paper
                ? $"`{layout}` needs the paper `{paper}`, and no sheet in stock shows it"
                : $"`{layout}` needs {wanted} for `{paper}`, and no sheet in stock shows it",
            NearNames.Nearest(paper, known) is { } near && near != paper
                ? $"say what stands in for it: `\"cut-from\": {{ \"{paper}\": \"{near}\" }}`"
                : $"add a sheet of it to `stock`, or say what stands in for it with `cut-from`");
    }

    public static Diagnostic GrainForbids(string piece, string layout, IReadOnlyList<string> from, SourcePlace place) => Error(
        "E0613", place,
        $"the {piece} of `{layout}` must be folded along the grain, and {string.Join(" or ", from.Select(name => $"`{name}`"))} has a top that does not let it turn that way",
        "use a paper without a top for the base, or take `grain` out to fold against it");

    public static Diagnostic NotInLayout(StandIn standIn, Layout layout) => Error(
        "E0614", standIn.Place, $"`{layout.File}` has no paper `{standIn.Paper}`",
        NearNames.Nearest(standIn.Paper, layout.Papers.Select(paper => paper.Name)) is { } near
            ? $"did you mean `{near}`?"
            : $"its papers are {string.Join(", ", layout.Papers.Select(paper => $"`{paper.Name}`"))}");

    public static Diagnostic NoVariant(SourcePlace place) => Error(
        "E0616", place, "`variant` names nothing", "take it out for the layout as drawn, or write a name that `trimwright balance` shows");

    /// <summary>A name that no variant has.</summary>
    /// <param name="name">The name.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="near">The variant that was meant, where it can be told.</param>
    /// <param name="fits">What fits of the layout.</param>
    /// <param name="place">Where the name stands.</param>
    public static Diagnostic NoSuchVariant(string name, Layout layout, string? near, (bool AsDrawn, IReadOnlyList<string> Others) fits, SourcePlace place) => Error(
        "E0616", place, $"`{layout.File}` has no variant `{name}`", near is not null ? $"did you mean `{near}`?"
            : name.All(char.IsAsciiDigit) && fits.Others.Count > 0 ? $"write the name that stands beside the number, such as `{fits.Others[0]}`"
            : OtherVariant(fits)) with
    {
        Notes = fits.Others.Count <= MostNamed ? [] : [$"`trimwright balance {layout.File}` shows them all"],
    };

    public static Diagnostic VariantDoesNotFit(string name, Layout layout, (bool AsDrawn, IReadOnlyList<string> Others) fits, SourcePlace place) => Error(
        "E0617", place, $"`{layout.File}` does not fit as `{name}`: what cannot hold together then is told as well", OtherVariant(fits));

    // Where the layout as drawn does not fit either, it helps nobody to take the variant out.
    private static string OtherVariant((bool AsDrawn, IReadOnlyList<string> Others) fits) => (fits.AsDrawn, fits.Others.Count) switch
    {
        (false, 0) => "mend the layout",
        (false, _) => $"write {Several(fits.Others, "or")}",
        (true, 0) => "take `variant` out for the layout as drawn",
        (true, _) => $"write {Several(fits.Others, "or")}, or take `variant` out for the layout as drawn",
    };

    // E062x: there is no plan.
    public static Diagnostic TooLarge(BatchCard card, BatchPart part, (Length Width, Length Height) sheet, Axis? grain, LengthUnit unit) => Error(
        "E0621", card.Wanted.Place,
        $"the {part.Line.Name} of `{card.Card.Layout.File}`, {LengthText.WriteSize(part.Width, part.Height, unit)}, is larger than every sheet it may be cut from",
        $"add {SheetAtLeast(sheet, grain, unit)} to `stock`");

    /// <summary>A piece that a sheet would give if its grain, or the top of its paper, did not forbid how it would have to lie.</summary>
    public static Diagnostic FitsTheWrongWay(
        BatchCard card, BatchPart part, WrongWay wrong, (Length Width, Length Height) sheet, Axis? grain, LengthUnit unit)
    {
        var why = (wrong.Grain, wrong.Top) switch
        {
            (true, true) => $"its fold would run across the grain and `{wrong.Paper}` has a top",
            (true, false) => "its fold would run across the grain",
            _ => $"`{wrong.Paper}` has a top",
        };
        var mend = (wrong.Grain, wrong.Top) switch
        {
            (true, true) => $"take `grain` out of `{wrong.Sheet.Name}` and `one-way` out of `{wrong.Paper}` if neither matters to you",
            (true, false) => $"take `grain` out of `{wrong.Sheet.Name}` to fold against it",
            _ => $"take `one-way` out of `{wrong.Paper}` if its pattern may lie on its side",
        };
        return Error(
            "E0621", card.Wanted.Place,
            $"the {part.Line.Name} of `{card.Card.Layout.File}`, {LengthText.WriteSize(part.Width, part.Height, unit)}, would fit `{wrong.Sheet.Name}`{(wrong.IsTurned ? " turned" : "")}, but {why}",
            $"add {SheetAtLeast(sheet, grain, unit)} to `stock`, or {mend}");
    }

    private static string SheetAtLeast((Length Width, Length Height) sheet, Axis? grain, LengthUnit unit) =>
        $"a sheet of at least {LengthText.WriteSize(sheet.Width, sheet.Height, unit)}{(grain is { } runs ? $", with the grain {(runs == Axis.Across ? "across" : "up and down")}," : "")}";

    /// <summary>Pieces of a card that the trimmer cannot hold, all for the same reason.</summary>
    /// <param name="card">The card.</param>
    /// <param name="parts">The pieces.</param>
    /// <param name="reason">What is in the way of them.</param>
    /// <param name="limits">What the drawer would have to say for everything in the batch.</param>
    /// <param name="drawer">What it says.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static Diagnostic CannotBeHeld(
        BatchCard card, IReadOnlyList<BatchPart> parts, (bool Cut, bool Trim) reason, (Length? Cut, Length? Trim) limits, Drawer drawer, LengthUnit unit)
    {
        // The least of them is the hardest to hold.
        var named = parts.OrderBy(part => (Int128)part.Width.Nanometres * part.Height.Nanometres).Take(parts.Count <= MostNamed ? MostNamed : MostNamed - 1);
        var names = named.Select(part => $"the {part.Line.Name}, {LengthText.WriteSize(part.Width, part.Height, unit)},").ToList();
        if (parts.Count > names.Count)
        {
            names.Add(Invariant($"{parts.Count - names.Count} other pieces"));
        }

        var (across, off) = (
            $"cutting across a strip narrower than {LengthText.Write(drawer.SmallestPiece, unit)}", $"shaving off less than {LengthText.Write(drawer.ThinnestShaving, unit)}");
        var mend = new List<string>();
        if (limits.Cut is { } cut)
        {
            mend.Add($"`smallest-piece` in the drawer at most {LengthText.Write(cut, unit)}");
        }

        if (limits.Trim is { } trim)
        {
            mend.Add($"`thinnest-shaving` in the drawer at most {LengthText.Write(trim, unit)}");
        }

        return Error(
            "E0622", card.Wanted.Place,
            $"{(names.Count == 1 ? names[0] : $"{string.Join(" ", names.SkipLast(1))} and {names[^1]}")} of `{card.Card.Layout.File}` cannot be cut from {(names.Count == 1 ? "its" : "their")} sheets without {(reason.Trim ? reason.Cut ? $"{across} and {off}" : off : across)}",
            $"make {string.Join(" and ", mend)}, if your trimmer can do that, or add sheets of another size to `stock`");
    }

    public static Diagnostic TooManyPieces(BatchCard card) => Error(
        "E0623", card.Wanted.Place, Invariant($"the batch has more than {Cutting.CuttingPlanner.MostPieces} pieces to cut"), "split it into several batches");

    public static Diagnostic TooLittle(BatchCard card, IReadOnlyList<(BatchPart Part, long Count)> missing, bool isProved) => Error(
        "E0624", card.Wanted.Place,
        $"the stock runs out: for `{card.Card.Layout.File}` there is no {MissingParts(missing)}{(isProved ? "" : NotProved)}",
        "add sheets of that paper to `stock`, make fewer cards, or write `\"count\": \"as-many-as-possible\"`");

    /// <summary>How many of the cards wanted the stock gives, and what runs out first.</summary>
    /// <param name="stop">The cards, and why there are no more.</param>
    /// <param name="made">How many there are.</param>
    /// <param name="before">Whether other cards come before them, and are made first.</param>
    /// <param name="others">Whether cards are left to be made without these.</param>
    /// <param name="missing">What is missing for all of them.</param>
    public static Diagnostic Fewer(StopReason stop, int made, bool before, bool others, IReadOnlyList<(BatchPart Part, long Count)> missing)
    {
        var (wanted, file) = (stop.Card.Wanted, stop.Card.Card.Layout.File);
        var enough = made == 0 ? $"not enough for one card of `{file}`" : Invariant($"enough for {made} of the {wanted.Count} cards of `{file}`");
        var parts = string.Join(" and ", stop.Parts.Select(part => $"the {part.Line.Name} in {Papers(part)}"));
        var papers = string.Join(" and of ", (missing.Count > 0 ? missing.Select(entry => entry.Part) : stop.Parts).Select(Papers).Distinct());
        var fewer = (made, wanted.AsManyAsPossible) switch
        {
            (0, true) => "leave `at-least` out, or ",
            (0, false) => others ? "take the entry out, or " : "",
            (_, true) => Invariant($"write `\"at-least\": {made}`, or "),
            _ => Invariant($"write `\"count\": {made}`, or "),
        };
        return Error(
            "E0624", wanted.Place,
            $"{(before ? "beside the cards before it, the stock is" : "the stock is")} {enough}: {(made == 0 ? "" : "with one more ")}{parts} {(stop.Parts.Count == 1 ? "runs" : "run")} out{(stop.IsProved ? "" : NotProved)}",
            $"{fewer}add sheets of {papers} to `stock`") with
        {
            Notes = missing.Count == 0 ? [] : [Invariant($"for {wanted.Count} there is no {MissingParts(missing)}")],
        };
    }

    private const string NotProved = " (no plan was found that makes more, and none excluded)";

    private static string MissingParts(IReadOnlyList<(BatchPart Part, long Count)> missing) =>
        string.Join(", and no ", missing.Select(entry => Invariant($"paper for {entry.Count} of the {entry.Part.Line.Name} in {Papers(entry.Part)}")));

    public static Diagnostic NotOne(StopReason stop, Batch batch) => Error(
        "E0625", stop.Card.Wanted.Place,
        $"the stock does not give a single card of `{stop.Card.Card.Layout.File}`: {string.Join(", ", stop.Parts.Select(part => $"the {part.Line.Name} in {Papers(part)}"))} cannot be cut",
        $"add sheets of that paper to the stock of `{batch.File}`");

    public static Diagnostic NarrowCover(BatchCard card, BatchPart part, (FittedPiece Cover, Length Width) widest, Length least, Batch batch) => Error(
        "E0626", card.Wanted.Place,
        $"{LargerThanAll(card, part, batch)}, and `{widest.Cover.Name}`, {LengthText.Write(widest.Width, batch.Unit)} wide, is too narrow to hide a seam with {Reach(batch)}",
        $"make `{widest.Cover.Name}` at least {LengthText.Write(least, batch.Unit)} wide");

    public static Diagnostic NoCover(BatchCard card, BatchPart part, IReadOnlyList<CoverWanted> wanted, CoverWanted best, Batch batch) => Error(
        "E0626", card.Wanted.Place,
        $"{LargerThanAll(card, part, batch)}, and no piece goes {(wanted.Count > 1 ? "across it from edge to edge" : best.Direction == Axis.UpDown ? "over it from top to bottom" : "over it from side to side")} to hide a seam with {Reach(batch)}",
        best.Remedy(batch.Unit));

    public static Diagnostic NoStrip(BatchCard card, BatchPart part, PanelSeam seam, CoverWanted wanted, CoverWanted best, Batch batch) => Error(
        "E0626", card.Wanted.Place,
        $"{LargerThanAll(card, part, batch)}, and so is a strip that is left where `{seam.Covers[0].Name}` hides a seam: the stock gives strips at most {LengthText.Write(wanted.Widest, batch.Unit)} {(wanted.Direction == Axis.UpDown ? "wide" : "high")}",
        best.Remedy(batch.Unit));

    private static string LargerThanAll(BatchCard card, BatchPart part, Batch batch) =>
        $"the {part.Line.Name} of `{card.Card.Layout.File}`, {LengthText.WriteSize(part.Width, part.Height, batch.Unit)}, is larger than every sheet it may be cut from";

    private static string Reach(Batch batch) => $"{LengthText.Write(batch.SeamOverlap, batch.Unit)} on both sides of it";

    /// <summary>The papers in stock that a part may be cut from, such as <c>`moss` or `fern`</c>.</summary>
    public static string Papers(BatchPart part) => string.Join(" or ", part.Sources.Select(source => source.Paper).Distinct().Select(paper => $"`{paper}`"));

    // W06xx: there is a batch, but look at this.
    public static Diagnostic UnusedSheets(IReadOnlyList<StockSheet> sheets) => new(
        "W0601", Severity.Warning,
        sheets.Count == 1
            ? $"nothing is cut from `{sheets[0].Name}`"
            : Invariant($"nothing is cut from {sheets.Count} kinds of sheets: {Several([.. sheets.Select(sheet => sheet.Name)])}"),
        sheets[0].Place)
    {
        Remedy = $"take {(sheets.Count == 1 ? "it" : "them")} out of `stock`, or say with `cut-from` what {(sheets.Count == 1 ? "its" : "their")} papers stand in for",
    };

    /// <summary>A few of them by name, the others by their number.</summary>
    private static string Several(IReadOnlyList<string> names, string last = "and") => names.Count <= MostNamed
        ? WordList.Quoted(names, last)
        : WordList.Of([.. names.Take(MostNamed - 1).Select(name => $"`{name}`"), Invariant($"{(last == "or" ? "one of " : "")}{names.Count - MostNamed + 1} more")], last);

    // More names than that nobody reads.
    private const int MostNamed = 4;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static Diagnostic Error(string code, SourcePlace place, string message, string remedy) =>
        new(code, Severity.Error, message, place) { Remedy = remedy };
}
