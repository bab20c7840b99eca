using Trimwright.Drawing.Lettering;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>The title block: a title, and a row of fields that each say what they are.</summary>
internal static class TitleBlock
{
    private const double TitleHeight = 3.5;
    private const double Pad = 2;
    private const double RowHeight = 10;

    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);

    /// <summary>Draws the block below everything else.</summary>
    /// <param name="card">The card.</param>
    /// <param name="left">Where the sheet may begin.</param>
    /// <param name="top">Where the block begins.</param>
    /// <param name="right">Where the sheet may end; fields that do not fit begin another row.</param>
    public static (IReadOnlyList<DrawnItem> Items, Area Area) Draw(FittedCard card, double left, double top, double right)
    {
        var title = new DrawnText(
            card.Layout.Title, new Spot(left + Pad, top + Pad + TitleHeight).ToPoint(), TextHold.Start, Palette.Micrometres(3500), Palette.Ink);
        var titleWidth = Plane.Roughly(LetteringFont.Instance.Width(title.Text, title.CapHeight)) + (2 * Pad);
        List<DrawnItem> items = [title];
        var (x, y) = (left, top + TitleHeight + (2 * Pad) + 1);
        var farthest = Math.Max(right, left + titleWidth);
        List<double> rows = [top, y];
        foreach (var (caption, value) in Fields(card))
        {
            var width = Math.Max(Width(caption), Width(value)) + (2 * Pad);
            if (x > left && x + width > farthest)
            {
                (x, y) = (left, y + RowHeight);
                rows.Add(y);
            }

            if (x > left)
            {
                items.Add(new DrawnLine([new Spot(x, y).ToPoint(), new Spot(x, y + RowHeight).ToPoint()], Thin));
            }

            items.Add(Text(caption, x + Pad, y + 1 + TextHeight, Palette.Quiet));
            items.Add(Text(value, x + Pad, y + 2.4 + (2 * TextHeight), Palette.Ink));
            x += width;
            farthest = Math.Max(farthest, x);
        }

        var area = new Area(left, top, farthest, y + RowHeight);
        items.AddRange(rows.Skip(1).Select(row => new DrawnLine([new Spot(left, row).ToPoint(), new Spot(farthest, row).ToPoint()], Thin)));
        items.Add(new DrawnOutline(Outline.FromBox(Plane.Exactly(area)), null, new(Palette.Wide, Palette.Ink)));
        return (items, area);
    }

    private static IEnumerable<(string Caption, string Value)> Fields(FittedCard card)
    {
        yield return ("format", CardWords.FormatHeld(card));
        yield return ("fold", card.Layout.Base.Fold == Edge.Left ? "left" : card.Layout.Base.Fold == Edge.Top ? "top"
            : card.Layout.Base.Fold == Edge.Right ? "right" : "bottom");
        yield return ("sizes", LengthText.Symbol(card.Unit) + ", width x height");
        yield return ("reveals", "per side");
        yield return ("trimmer step", LengthText.Write(card.Increment, card.Unit));
        yield return ("scale", "1:1");
    }

    private static double Width(string text) => Plane.Roughly(LetteringFont.Instance.Width(text, Capital));

    private static DrawnText Text(string text, double x, double y, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Capital, colour);
}
