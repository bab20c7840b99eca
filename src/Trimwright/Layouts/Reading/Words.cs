namespace Trimwright.Layouts.Reading;

/// <summary>The words of the file format for the values of enumerations. Words of one's own language stay here and in the documentation.</summary>
internal static class Words
{
    public static readonly IReadOnlyList<(string Word, PieceKind Value)> Kinds =
    [
        ("panel", PieceKind.Panel), ("strip", PieceKind.Strip), ("square", PieceKind.Square), ("circle", PieceKind.Circle),
        ("oval", PieceKind.Oval), ("banner", PieceKind.Banner), ("frame", PieceKind.Frame), ("tag", PieceKind.Tag),
        ("label", PieceKind.Label), ("image", PieceKind.Image),
    ];

    public static readonly IReadOnlyList<(string Word, Axis Value)> Axes = [("across", Axis.Across), ("up-and-down", Axis.UpDown)];

    public static readonly IReadOnlyList<(string Word, Axes Value)> Centres =
        [("both", Reading.Axes.Both), ("across", Reading.Axes.Across), ("up-and-down", Reading.Axes.UpDown)];

    public static readonly IReadOnlyList<(string Word, Edge Value)> Edges =
        [("left", Edge.Left), ("right", Edge.Right), ("top", Edge.Top), ("bottom", Edge.Bottom)];

    public static readonly IReadOnlyList<(string Word, (Edge Down, Edge Across) Value)> Corners =
    [
        ("top left", (Edge.Top, Edge.Left)), ("top right", (Edge.Top, Edge.Right)),
        ("bottom left", (Edge.Bottom, Edge.Left)), ("bottom right", (Edge.Bottom, Edge.Right)),
    ];

    public static readonly IReadOnlyList<(string Word, Edge Value)> Sides = [("left", Edge.Left), ("right", Edge.Right)];

    public static readonly IReadOnlyList<(string Word, bool IsTurned)> StartsAcross = [("left", false), ("right", true)];

    public static readonly IReadOnlyList<(string Word, bool IsTurned)> StartsUpDown = [("top", false), ("bottom", true)];

    public static readonly IReadOnlyList<(string Word, Edge Value)> Folds = [("left", Edge.Left), ("top", Edge.Top)];

    public static readonly IReadOnlyList<(string Word, CutWay Value)> Cuts =
        [("trimmer", CutWay.Trimmer), ("die", CutWay.Die), ("scissors", CutWay.Scissors)];

    public static readonly IReadOnlyList<(string Word, TailKind Value)> Tails =
        [("straight", TailKind.Straight), ("fishtail", TailKind.Fishtail), ("pointed", TailKind.Pointed)];

    public static readonly IReadOnlyList<(string Word, PaperKind Value)> PaperKinds =
        [("cardstock", PaperKind.Cardstock), ("patterned", PaperKind.Patterned)];

    public static readonly IReadOnlyList<(string Word, Holding Value)> Holdings =
        [("portrait", Holding.Portrait), ("landscape", Holding.Landscape)];

    public static readonly IReadOnlyList<(string Word, Measures.LengthUnit Value)> Units =
        [("in", Measures.LengthUnit.Inch), ("mm", Measures.LengthUnit.Millimetre)];

    public static readonly IReadOnlyList<(string Word, MeasureKind Value)> Measured =
    [
        ("left", MeasureKind.Left), ("right", MeasureKind.Right), ("top", MeasureKind.Top), ("bottom", MeasureKind.Bottom),
        ("width", MeasureKind.Width), ("height", MeasureKind.Height), ("center-x", MeasureKind.CenterX), ("center-y", MeasureKind.CenterY),
    ];

    /// <summary>The word for a value.</summary>
    public static string Of<T>(IReadOnlyList<(string Word, T Value)> words, T value) =>
        words.First(entry => EqualityComparer<T>.Default.Equals(entry.Value, value)).Word;
}

/// <summary>One direction or both.</summary>
internal enum Axes
{
    /// <summary>Both.</summary>
    Both,

    /// <summary>From left to right.</summary>
    Across,

    /// <summary>From top to bottom.</summary>
    UpDown,
}
