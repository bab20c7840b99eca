using Trimwright.Layouts;

namespace Trimwright.Fitting;

/// <summary>How measures, edges and pieces are named in reports.</summary>
internal static class FitWords
{
    public static string Name(string? name) => name is null ? "the card" : $"`{name}`";

    public static string Edge(Edge edge) => edge switch
    {
        Layouts.Edge.Left => "left",
        Layouts.Edge.Right => "right",
        Layouts.Edge.Top => "top",
        _ => "bottom",
    };

    public static string Along(Axis axis) => axis == Axis.Across ? "across" : "up and down";

    public static string Measure(MeasureKind measure, string? of) => measure switch
    {
        MeasureKind.Width => "the width",
        MeasureKind.Height => "the height",
        MeasureKind.Left => "the left edge",
        MeasureKind.Right => "the right edge",
        MeasureKind.Top => "the top edge",
        MeasureKind.Bottom => "the bottom edge",
        MeasureKind.CenterX => "the centre across",
        _ => "the centre up and down",
    } + $" of {Name(of)}";

    /// <summary>The name of what has one size for all: a piece, or the copies of a row.</summary>
    public static string SizeName(Piece piece, bool isCopy) => isCopy ? $"the pieces of `{piece.Row}`" : $"`{piece.Name}`";

    public static string SizeOf(Piece piece, bool isCopy, Axis axis) => piece.Kind switch
    {
        PieceKind.Circle => "the diameter",
        PieceKind.Square => "the side",
        _ when axis == Axis.Across => "the width",
        _ => "the height",
    } + $" of {SizeName(piece, isCopy)}";
}
