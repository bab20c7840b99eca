using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>
/// The patterns that patterned papers are shown with: quiet marks in a shade of the paper. A paper with a top shows marks that point
/// up; the others look the same in a mirror.
/// </summary>
internal static class PaperTile
{
    // The tile is eight parts wide and high. It measures 1/5 in, a whole number of pixels at 150 and at 300 dots per inch, since a
    // tile that is not is blurred or cut where tiles meet.
    private const int Parts = 8;
    private static readonly Length Part = Palette.Micrometres(635);

    /// <summary>Makes the pattern for a piece; it is centred on the piece, so that it moves with it.</summary>
    /// <param name="id">The id that the fill refers to.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="number">Which of the layout's papers of this sort it is, from 0; neighbours differ.</param>
    /// <param name="centre">The centre of the piece.</param>
    public static DrawnPattern Make(string id, Paper paper, int number, Point centre)
    {
        var ground = new DrawnOutline(Outline.FromBox(Box.FromSize(Part * Parts, Part * Parts)), new(paper.Colour), null);
        var shade = Palette.IsLight(paper.Colour) ? Palette.Darker(paper.Colour, 12) : Palette.Lighter(paper.Colour, 16);
        var stroke = new Stroke(Palette.Micrometres(200), shade);
        IEnumerable<DrawnItem> marks = (paper.OneWay, number % 3) switch
        {
            (true, 0) => [.. Sprout(2, 3, stroke), .. Sprout(6, 7, stroke)],
            (true, 1) => [Line(stroke, (1, 3), (2, 2), (3, 3)), Line(stroke, (5, 7), (6, 6), (7, 7))],
            (true, _) => [Line(stroke, (2, 1), (2, 3)), Dot(2, 1, shade), Line(stroke, (6, 5), (6, 7)), Dot(6, 5, shade)],
            (false, 0) => [Dot(2, 2, shade), Dot(6, 6, shade), Dot(2, 6, shade), Dot(6, 2, shade)],
            (false, 1) => Lattice(stroke),
            (false, _) => [Line(stroke, (3, 4), (5, 4)), Line(stroke, (4, 3), (4, 5)), Dot(0, 0, shade), Dot(8, 0, shade), Dot(0, 8, shade), Dot(8, 8, shade)],
        };

        var half = Position.FromLength(Part * (Parts / 2));
        return new(id, Box.FromCorner(centre.X - half, centre.Y - half, Part * Parts, Part * Parts), [ground, .. marks]);
    }

    private static Point At((int X, int Y) part) => new(Position.FromLength(Part * part.X), Position.FromLength(Part * part.Y));

    private static DrawnLine Line(Stroke stroke, params (int X, int Y)[] parts) => new([.. parts.Select(At)], stroke);

    private static DrawnOutline Dot(int x, int y, Colour colour)
    {
        var radius = Position.FromLength(Palette.Micrometres(250));
        return new(new([new EllipseContour(At((x, y)), radius, radius)]), new(colour), null);
    }

    /// <summary>Crossing lines; they go beyond the tile, and those of the next tiles reach in, so that no corner is nicked.</summary>
    private static IEnumerable<DrawnItem> Lattice(Stroke stroke) =>
    [
        Line(stroke, (-1, -1), (9, 9)), Line(stroke, (-1, 9), (9, -1)),
        Line(stroke, (-1, 1), (1, -1)), Line(stroke, (7, -1), (9, 1)), Line(stroke, (-1, 7), (1, 9)), Line(stroke, (7, 9), (9, 7)),
    ];

    private static IEnumerable<DrawnItem> Sprout(int x, int foot, Stroke stroke) =>
        [Line(stroke, (x, foot), (x, foot - 2)), Line(stroke, (x - 1, foot - 2), (x, foot - 1), (x + 1, foot - 2))];
}
