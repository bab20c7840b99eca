using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>The sign that stands for a picture: a seedling. It leans to the side that the picture faces.</summary>
internal static class PictureSign
{
    /// <summary>Draws the sign in the middle of a piece.</summary>
    public static DrawnGroup Draw(FittedPiece piece, Colour paper)
    {
        var box = piece.Box;
        var (centre, size) = (box.Centre, box.Width < box.Height ? box.Width : box.Height);
        var shade = Palette.IsLight(paper) ? Palette.Darker(paper, 28) : Palette.Lighter(paper, 35);
        var stroke = new Stroke(Palette.Micrometres(300), shade);
        var foot = At(0, 26);
        DrawnItem[] plant =
        [
            new DrawnLine([foot, At(0, -6)], stroke),
            Leaf(At(-12, 0), 13, 5, 35),
            Leaf(At(8, -7), 10, 4, -35),
            Leaf(At(0, -15), 5, 11, 0),
        ];

        // A lean of 14 degrees is seen at a glance and still stands on its ground.
        var lean = new Angle(piece.Source.Faces switch { Edge.Left => -14, Edge.Right => 14, _ => 0 });
        return new(
        [
            new DrawnLine([At(-22, 26), At(22, 26)], stroke),
            new DrawnGroup(plant) { Turn = new(lean, foot) },
        ])
        {
            Class = "picture",
            Turn = piece.Source.Flipped ? new(default, centre, Flipped: true) : null,
        };

        Position Share(int hundredths) => size * Rational.From(hundredths, 100);
        Point At(int right, int down) => new(centre.X + Share(right), centre.Y + Share(down));
        DrawnGroup Leaf(Point middle, int across, int up, int turn) => new(
            [new DrawnOutline(new([new EllipseContour(middle, Share(across), Share(up))]), new(shade), null)])
        { Turn = new(new(turn), middle) };
    }
}
