namespace Trimwright.Layouts;

/// <summary>
/// The keys that layout and drawer files may hold, group by group, in the order in which the documentation lists them. Whatever is not here is
/// refused.
/// </summary>
public static class LayoutKeys
{
    /// <summary>The keys of a layout.</summary>
    public static IReadOnlyList<string> Layout { get; } =
        ["$schema", "title", "format", "held", "units", "reveal", "base", "papers", "pieces", "rules"];

    /// <summary>The keys of the card base.</summary>
    public static IReadOnlyList<string> Base { get; } = ["paper", "fold"];

    /// <summary>The keys of a paper.</summary>
    public static IReadOnlyList<string> Paper { get; } = ["kind", "tone", "one-way", "grammage", "caliper"];

    /// <summary>The keys of a piece of any kind.</summary>
    public static IReadOnlyList<string> PieceOfAnyKind { get; } =
        ["name", "kind", "paper", "on", "place", "mats", "tilt", "lift", "cut", "hangs-over", "accent"];

    /// <summary>The keys of pieces that only some kinds take, with those kinds.</summary>
    public static IReadOnlyList<(string Key, IReadOnlyList<PieceKind> Kinds)> PieceOfSomeKinds { get; } =
    [
        ("width", Boxes),
        ("height", Boxes),
        ("side", [PieceKind.Square]),
        ("diameter", [PieceKind.Circle]),
        ("runs", [PieceKind.Strip]),
        ("tail", [PieceKind.Banner]),
        ("tail-depth", [PieceKind.Banner]),
        ("taper", [PieceKind.Banner]),
        ("hangs-from", [PieceKind.Banner, PieceKind.Tag]),
        ("bar", [PieceKind.Frame]),
        ("text", [PieceKind.Label]),
        ("faces", [PieceKind.Image]),
        ("flipped", [PieceKind.Image]),
        ("picture", [PieceKind.Image]),
    ];

    /// <summary>The keys of a piece.</summary>
    public static IReadOnlyList<string> Piece { get; } = [.. PieceOfAnyKind, .. PieceOfSomeKinds.Select(entry => entry.Key)];

    /// <summary>The keys of a picture that is more than the name of its file.</summary>
    public static IReadOnlyList<string> Picture { get; } = ["file", "outline-within", "ground-within", "cut-enclosed-ground"];

    /// <summary>The keys of a mat.</summary>
    public static IReadOnlyList<string> Mat { get; } = ["paper", "reveal"];

    /// <summary>The keys of a row.</summary>
    public static IReadOnlyList<string> Row { get; } =
        ["row", "runs", "starts-at", "on", "of", "copies", "gap", "overlap", "ends-like-gaps", "place"];

    /// <summary>The keys that say where a piece or a row goes.</summary>
    public static IReadOnlyList<string> Place { get; } =
    [
        "fill", "span", "short-by", "from-left", "from-right", "from-top", "from-bottom", "center", "center-on", "corner", "inset",
        "inset-across", "inset-down", "hang-from", "beside",
    ];

    /// <summary>The keys that say what a piece lies beside.</summary>
    public static IReadOnlyList<string> Beside { get; } = ["piece", "side", "gap", "overlap"];

    /// <summary>The keys of a rule.</summary>
    public static IReadOnlyList<string> Rule { get; } = ["must", "should", "may", "because"];

    /// <summary>The keys of a drawer.</summary>
    public static IReadOnlyList<string> Drawer { get; } =
        ["$schema", "units", "inch-increment", "metric-increment", "dies", "foam", "die-margin", "smallest-piece", "thinnest-shaving", "stack"];

    /// <summary>The keys of a kind of die.</summary>
    public static IReadOnlyList<string> Die { get; } = ["kind", "sizes"];

    private static IReadOnlyList<PieceKind> Boxes =>
    [
        PieceKind.Panel, PieceKind.Strip, PieceKind.Oval, PieceKind.Banner, PieceKind.Frame, PieceKind.Tag, PieceKind.Label, PieceKind.Image,
    ];

    /// <summary>The kinds that take a key, or null if every kind does.</summary>
    public static IReadOnlyList<PieceKind>? KindsThatTake(string key) =>
        PieceOfSomeKinds.FirstOrDefault(entry => entry.Key == key).Kinds;
}
