using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

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

    /// <summary>What a statement says, with the maker's reason for it.</summary>
    public static string Said(Saying saying) => saying.Because is null ? saying.Text : $"{saying.Text} (because {saying.Because})";

    /// <summary>
    /// What the grids of some measures say, such as <c>the width of `ground` is a whole number of steps on the trimmer's scale (1/16 in)</c>.
    /// </summary>
    public static IEnumerable<string> OnGrids(IEnumerable<Measure> grids, SystemBuilder builder, LengthUnit unit)
    {
        foreach (var kind in grids.GroupBy(grid => builder.System.GridOf(grid)!.Step is not null).OrderByDescending(kind => kind.Key))
        {
            var named = kind.Select(grid => builder.Unknowns[grid.Index].Text).Distinct().ToList();
            var list = WordList.Of(named);
            yield return kind.Key
                ? $"{list} {(named.Count == 1 ? "has" : "have")} to be whole steps of the trimmer's scale ({LengthText.Write(builder.Increment, unit)})"
                : $"{list} {(named.Count == 1 ? "has" : "have")} to be cut with a die from the drawer";
        }
    }
}
