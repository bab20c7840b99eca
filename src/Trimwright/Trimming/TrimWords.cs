using Trimwright.Layouts;

namespace Trimwright.Trimming;

/// <summary>The words of a trim list.</summary>
internal static class TrimWords
{
    public static string Kind(PieceKind kind) => kind switch
    {
        PieceKind.Panel => "panel",
        PieceKind.Strip => "strip",
        PieceKind.Square => "square",
        PieceKind.Circle => "circle",
        PieceKind.Oval => "oval",
        PieceKind.Banner => "banner",
        PieceKind.Frame => "frame",
        PieceKind.Tag => "tag",
        PieceKind.Label => "label",
        _ => "image",
    };

    public static string Cut(CutWay cut) => cut switch
    {
        CutWay.Trimmer => "trimmer",
        CutWay.Die => "die",
        _ => "scissors",
    };

    /// <summary>What a piece placed on <paramref name="parent"/> is glued to.</summary>
    public static string On(Layout layout, string? parent) => layout.PieceUnder(parent) ?? "card";

    /// <summary>Joins the names of pieces cut alike: <c>seeds-1</c> and <c>seeds-2</c> make <c>seeds-1, seeds-2</c>.</summary>
    public static string Joined(string known, string added)
    {
        const string Mat = "mat of ";
        return added.StartsWith(Mat, StringComparison.Ordinal) ? $"{known}, {added[Mat.Length..]}" : $"{known}, {added}";
    }
}
