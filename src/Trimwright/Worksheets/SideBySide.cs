using Trimwright.Drawing.Measured;

namespace Trimwright.Worksheets;

/// <summary>Places drawings of different sizes side by side so that they are not high, smaller ones one below the other beside larger ones.</summary>
/// <param name="Places">The upper left corner of each, in millimetres from that of all.</param>
/// <param name="Height">The height of all.</param>
internal sealed record SideBySide(IReadOnlyList<Spot> Places, double Height)
{
    private const double Gap = 5;
    private const double MuchLower = 6;

    /// <summary>The places of drawings in room of a width.</summary>
    public static SideBySide Of(IReadOnlyList<WorksheetFigure> figures, double width)
    {
        var sizes = figures.Select(figure => new Spot(Plane.Roughly(figure.Drawing.Sheet.Width), Plane.Roughly(figure.Drawing.Sheet.Height))).ToList();

        // In their own order, in which they are found soonest, but the highest first where that is much lower.
        var inOrder = Place(sizes, [.. Enumerable.Range(0, sizes.Count)], width);
        var highestFirst = Place(sizes, [.. Enumerable.Range(0, sizes.Count).OrderByDescending(i => sizes[i].Y)], width);
        return highestFirst.Height < inOrder.Height - MuchLower ? highestFirst : inOrder;
    }

    // Each one as high up as it goes, and there as far left, starting at the left edge or right beside one that is placed.
    private static SideBySide Place(List<Spot> sizes, int[] order, double width)
    {
        var placed = new List<Area>();
        var places = new Spot[sizes.Count];
        foreach (var i in order)
        {
            var (wide, high) = (sizes[i].X, sizes[i].Y);
            places[i] = placed.Select(other => other.Right + Gap).Where(left => left + wide <= width + 0.01).Prepend(0)
                .Select(left => new Spot(left, placed.Where(other => other.Left < left + wide + Gap && left < other.Right + Gap)
                    .Select(other => other.Bottom + Gap).DefaultIfEmpty(0).Max()))
                .OrderBy(spot => spot.Y).ThenBy(spot => spot.X).First();
            placed.Add(new(places[i].X, places[i].Y, places[i].X + wide, places[i].Y + high));
        }

        return new(places, placed.Select(area => area.Bottom).DefaultIfEmpty(0).Max());
    }
}
