using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Drawing;

/// <summary>The open base of a card at true size, seen from outside: where to score, which way the grain runs, which part is the front.</summary>
public static class BaseDrawing
{
    private const double Border = 8;
    private const double BlockGap = 8;

    // Of line 05.1 of ISO 128-2, a long dash, a short one, a long one: twenty-four, three and six line widths, from memory.
    private static readonly Stroke Score = new(Palette.Narrow, Palette.Ink, Palette.Narrow * 24, Palette.Narrow * 6);
    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);
    private static readonly Stroke Wide = new(Palette.Wide, Palette.Ink);

    /// <summary>Draws the base; the origin is the upper left corner of the open blank.</summary>
    public static DrawingList Draw(FittedCard card, bool bothUnits = false)
    {
        var fold = card.Layout.Base.Fold;
        var (width, height, scoreAt) = BaseLine.Blank(card.Width, card.Height, fold);
        var blank = Box.FromSize(width, height);
        var isAcross = fold != Edge.Top;
        var text = new DimensionText(card.Unit, bothUnits);
        var lanes = new LanePlacer(Plane.Roughly(blank), text);
        var placed = lanes.Place([.. Dimensions(blank, scoreAt, isAcross)]);
        var (start, end) = isAcross
            ? (new Point(Position.FromLength(scoreAt), default), new Point(Position.FromLength(scoreAt), blank.Bottom))
            : (new Point(default, Position.FromLength(scoreAt)), new Point(blank.Right, Position.FromLength(scoreAt)));
        var used = placed.Aggregate(Plane.Roughly(blank), (area, one) => area.Around(one.LineArea));
        var (block, blockArea) = TitleBlock.Draw(card, text, new(1, 1, "open base, seen from outside"), used, used.Bottom + BlockGap);
        var paper = card.Layout.PaperNamed(card.Layout.Base.Paper).Colour;
        return new()
        {
            Title = $"{card.Layout.Title}: base",
            Description = $"The open base of {CardWords.Describe(card)}: where to score it, its grain, its front",
            Unit = card.Unit,
            Sheet = Plane.Exactly(used.Around(blockArea).Grown(Border)).OutToStep(card.Unit),
            Patterns = [],
            Items =
            [
                new DrawnOutline(Outline.FromBox(blank), new(Palette.Lighter(paper, 72)), Wide) { Id = "base" },
                new DrawnGroup([new DrawnLine([start, end], Score) { Class = "score" }]) { Id = "score" },
                .. Words(Plane.Roughly(blank), isAcross),
                .. new DimensionInk(placed, []).Dimensions(),
                new DrawnGroup(block) { Id = "title-block", Class = "title-block" },
            ],
        };
    }

    private static IEnumerable<LinearDimension> Dimensions(Box blank, Length scoreAt, bool isAcross)
    {
        var score = Position.FromLength(scoreAt);
        yield return new(Axis.Across, new(blank.Left, blank.Top, blank.Bottom), new(blank.Right, blank.Top, blank.Bottom), "card", "width");
        yield return new(Axis.UpDown, new(blank.Top, blank.Left, blank.Right), new(blank.Bottom, blank.Left, blank.Right), "card", "height");
        yield return isAcross
            ? new(Axis.Across, new(blank.Left, blank.Top, blank.Bottom), new(score, blank.Top, blank.Bottom), "score", "left")
            : new(Axis.UpDown, new(blank.Top, blank.Left, blank.Right), new(score, blank.Left, blank.Right), "score", "top");
    }

    // Opened out with the outside up, the front lies right of the fold, or below it.
    private static IEnumerable<DrawnItem> Words(Area blank, bool isAcross)
    {
        var (x, y) = ((blank.Left + blank.Right) / 2, (blank.Top + blank.Bottom) / 2);
        var (halfX, halfY) = ((blank.Right - blank.Left) / 4, (blank.Bottom - blank.Top) / 4);
        var (back, front) = isAcross ? (new Spot(x - halfX, y), new Spot(x + halfX, y)) : (new Spot(x, y - halfY), new Spot(x, y + halfY));
        yield return Said("back", back.X, back.Y);
        yield return Said("front", front.X, front.Y);
        yield return isAcross
            ? Said("score here", x - 2, y + halfY) with { Upwards = true }
            : Said("score here", x - halfX, y - 1.6);

        // The grain runs along the fold.
        var (gx, gy) = (back.X + (isAcross ? 10 : 0), back.Y + (isAcross ? 0 : 8));
        var (from, to) = isAcross ? (new Spot(gx + 6, gy - 12), new Spot(gx + 6, gy + 12)) : (new Spot(gx - 12, gy + 6), new Spot(gx + 12, gy + 6));
        List<DrawnItem> arrow = [new DrawnLine([from.ToPoint(), to.ToPoint()], Thin), Head(from, to), Head(to, from)];
        yield return new DrawnGroup(arrow) { Class = "grain" };
        yield return isAcross ? Said("grain", gx + 4.4, gy) with { Upwards = true } : Said("grain", gx, gy + 4.4);
    }

    private static DrawnText Said(string words, double x, double y) =>
        new(words, new Spot(x, y).ToPoint(), TextHold.Middle, DrawingRules.Capital, Palette.Ink) { Class = "note" };

    private static DrawnOutline Head(Spot tip, Spot from)
    {
        var length = tip.To(from);
        var (ux, uy) = ((from.X - tip.X) / length, (from.Y - tip.Y) / length);
        Spot At(double along, double aside) => new(tip.X + (ux * along) - (uy * aside), tip.Y + (uy * along) + (ux * aside));
        return new(
            new([new PolygonContour([tip.ToPoint(), At(DrawingRules.Arrow, DrawingRules.HalfArrow).ToPoint(), At(DrawingRules.Arrow, -DrawingRules.HalfArrow).ToPoint()])]),
            new(Palette.Ink), null);
    }
}
