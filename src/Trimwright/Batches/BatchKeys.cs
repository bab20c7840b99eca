namespace Trimwright.Batches;

/// <summary>The keys that a batch file may hold, group by group, in the order in which the documentation lists them.</summary>
public static class BatchKeys
{
    /// <summary>The keys of a batch.</summary>
    public static IReadOnlyList<string> Batch { get; } =
        ["$schema", "title", "units", "papers", "stock", "stock-from", "cards", "salvage", "glue-margin", "least-offcut", "piecing", "seam-overlap"];

    /// <summary>The keys of a file of stock alone, such as the leftovers of another batch.</summary>
    public static IReadOnlyList<string> StockFile { get; } = ["$schema", "title", "units", "papers", "stock"];

    /// <summary>The keys of a kind of sheet.</summary>
    public static IReadOnlyList<string> Sheet { get; } =
        ["name", "size", "count", "paper", "side-a", "side-b", "grain", "true-off", "cost", "offcut"];

    /// <summary>The keys of a wanted card.</summary>
    public static IReadOnlyList<string> Card { get; } = ["layout", "format", "held", "variant", "count", "at-least", "worth", "cut-from"];
}
