using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>When the hidden middle of a mat is cut out and used again.</summary>
public enum SalvageUse
{
    /// <summary>Where that saves a sheet.</summary>
    IfItSaves,

    /// <summary>Never.</summary>
    Never,

    /// <summary>Before new sheets are touched, wherever a smaller piece fits.</summary>
    Always,
}

/// <summary>A checked batch: the cards that are to be made and the paper there is to make them of.</summary>
public sealed record Batch
{
    /// <summary>The file it was read from, as the user named it.</summary>
    public required string File { get; init; }

    /// <summary>The title.</summary>
    public required string Title { get; init; }

    /// <summary>The unit of plain numbers, and of what is written out.</summary>
    public required LengthUnit Unit { get; init; }

    /// <summary>The papers in stock by name, in file order.</summary>
    public required IReadOnlyList<Paper> Papers { get; init; }

    /// <summary>The sheets and offcuts, in file order.</summary>
    public required IReadOnlyList<StockSheet> Stock { get; init; }

    /// <summary>The cards wanted, in file order.</summary>
    public required IReadOnlyList<WantedCard> Cards { get; init; }

    /// <summary>When hidden middles are used again.</summary>
    public required SalvageUse Salvage { get; init; }

    /// <summary>How much of a mat must stay behind the edge of what lies on it, on every side, so that it can be glued.</summary>
    public required Length GlueMargin { get; init; }

    /// <summary>The shorter and the longer side of the smallest offcut worth keeping.</summary>
    public required (Length Shorter, Length Longer) LeastOffcut { get; init; }

    /// <summary>Whether panels may be pieced from strips where a cover hides the seam.</summary>
    public required bool MayPiece { get; init; }

    /// <summary>How far the cover of a seam must reach beyond it on both sides.</summary>
    public required Length SeamOverlap { get; init; }

    /// <summary>The paper of that name.</summary>
    public Paper PaperNamed(string name) => Papers.First(paper => paper.Name == name);
}

/// <summary>Sheets of one kind, or offcuts of one size, as they lie with the pattern of side A the right way up.</summary>
public sealed record StockSheet
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Width of a sheet.</summary>
    public required Length Width { get; init; }

    /// <summary>Height of a sheet.</summary>
    public required Length Height { get; init; }

    /// <summary>How many there are, or null for as many as are needed.</summary>
    public required int? Count { get; init; }

    /// <summary>The paper that side A shows.</summary>
    public required string SideA { get; init; }

    /// <summary>The paper that side B shows, or null where that side is not used.</summary>
    public string? SideB { get; init; }

    /// <summary>The way the grain runs, or null if it is not known.</summary>
    public Axis? Grain { get; init; }

    /// <summary>How much is cut off each edge first to make it true; zero where the edges are good.</summary>
    public required Length TrueOff { get; init; }

    /// <summary>What a sheet costs, in the maker's own coin; null where none of the stock has a price.</summary>
    public Rational? Cost { get; init; }

    /// <summary>Whether it is an offcut: used first, where it saves something.</summary>
    public required bool IsOffcut { get; init; }

    /// <summary>Where it stands in the file.</summary>
    public required SourcePlace Place { get; init; }

    /// <summary>Whether one of its sides shows a paper.</summary>
    public bool Shows(string paper) => SideA == paper || SideB == paper;
}

/// <summary>Cards of one layout.</summary>
public sealed record WantedCard
{
    /// <summary>The layout file, as the batch names it: relative to the batch file.</summary>
    public required string LayoutFile { get; init; }

    /// <summary>Where that name stands.</summary>
    public required SourcePlace LayoutPlace { get; init; }

    /// <summary>The format, or null for that of the layout.</summary>
    public CardFormat? Format { get; init; }

    /// <summary>The holding, or null for that of the layout.</summary>
    public Holding? Holding { get; init; }

    /// <summary>The variant of the layout that is made, by its name, and where that stands; null for the layout as drawn.</summary>
    public (string Name, SourcePlace Place)? Variant { get; init; }

    /// <summary>How many; with <see cref="AsManyAsPossible"/> at least so many.</summary>
    public required int Count { get; init; }

    /// <summary>Whether as many are wanted as the stock gives.</summary>
    public required bool AsManyAsPossible { get; init; }

    /// <summary>
    /// How much one card is worth beside the others when as many as possible are wanted of several layouts; a whole number, usually 1.
    /// </summary>
    public required int Worth { get; init; }

    /// <summary>For papers of the layout: the papers in stock that any one of may stand in, the dearest to the maker first.</summary>
    public required IReadOnlyList<StandIn> StandIns { get; init; }

    /// <summary>Where it stands in the file.</summary>
    public required SourcePlace Place { get; init; }
}

/// <summary>What a paper of a layout is cut from.</summary>
/// <param name="Paper">The paper as the layout names it.</param>
/// <param name="From">Papers in stock, any one of which will do; the first is the one preferred.</param>
/// <param name="Place">Where the paper of the layout is named.</param>
public sealed record StandIn(string Paper, IReadOnlyList<string> From, SourcePlace Place);
