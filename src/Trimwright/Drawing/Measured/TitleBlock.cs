using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>Which sheet of how many, and what it shows.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Of">How many there are.</param>
/// <param name="Shows">What it shows, in words; empty where one sheet shows all.</param>
internal sealed record SheetPlace(int Number, int Of, string Shows);

/// <summary>The title block: a title, and a row of fields that each say what they are, in the lower right corner.</summary>
internal static class TitleBlock
{
    private const double Pad = 2;
    private const double RowHeight = 10.5;
    // A block of the usual width, ISO 7200, from memory, whatever the width of the drawing.
    private const double LeastWidth = 180;

    private static readonly Stroke Thin = new(Palette.Narrow, Palette.Ink);

    /// <summary>Draws the block below everything else.</summary>
    /// <param name="card">The card.</param>
    /// <param name="text">How lengths are written.</param>
    /// <param name="place">Which sheet it is.</param>
    /// <param name="used">The area of everything else.</param>
    /// <param name="top">Where the block begins.</param>
    public static (IReadOnlyList<DrawnItem> Items, Area Area) Draw(
        FittedCard card, DimensionText text, SheetPlace place, Area used, double top)
    {
        var fields = Fields(card, text, place).Select(field => (field.Caption, field.Value, Width: Math.Max(Width(field.Caption), Width(field.Value)) + (2 * Pad))).ToArray();
        var titleWidth = Plane.Roughly(LetteringFont.Instance.Width(card.Layout.Title, TitleCapital)) + (2 * Pad);

        // Fields fill rows of at most the width of the drawing, and the block is as wide as its widest row.
        var most = Math.Max(Math.Max(used.Right - used.Left, LeastWidth), Math.Max(titleWidth, fields.Max(field => field.Width)));
        List<List<(string Caption, string Value, double Width)>> rows = [[]];
        foreach (var field in fields)
        {
            if (rows[^1].Sum(one => one.Width) + field.Width > most)
            {
                rows.Add([]);
            }

            rows[^1].Add(field);
        }

        var width = Math.Max(titleWidth, rows.Max(row => row.Sum(field => field.Width)));
        var left = Math.Max(used.Left, used.Right - width);
        var right = left + width;
        List<DrawnItem> items =
        [
            new DrawnText(card.Layout.Title, new Spot(left + Pad, top + Pad + TitleHeight).ToPoint(), TextHold.Start, TitleCapital, Palette.Ink)
            {
                Class = "title",
            },
        ];
        var y = top + TitleHeight + (2 * Pad) + 1.5;
        foreach (var row in rows)
        {
            items.Add(new DrawnLine([new Spot(left, y).ToPoint(), new Spot(right, y).ToPoint()], Thin));
            var x = left;
            foreach (var (caption, value, wide) in row)
            {
                if (x > left)
                {
                    items.Add(new DrawnLine([new Spot(x, y).ToPoint(), new Spot(x, y + RowHeight).ToPoint()], Thin));
                }

                items.Add(Text(caption, x + Pad, y + 1.2 + TextHeight, Palette.Quiet));
                items.Add(Text(value, x + Pad, y + 3.2 + (2 * TextHeight), Palette.Ink));
                x += wide;
            }

            y += RowHeight;
        }

        var area = new Area(left, top, right, y);
        items.Add(new DrawnOutline(Outline.FromBox(Plane.Exactly(area)), null, new(Palette.Wide, Palette.Ink)));
        return (items, area);
    }

    private static IEnumerable<(string Caption, string Value)> Fields(FittedCard card, DimensionText text, SheetPlace place)
    {
        if (place.Of > 1)
        {
            yield return ("sheet", string.Create(CultureInfo.InvariantCulture, $"{place.Number} of {place.Of}"));
            yield return ("shows", place.Shows);
        }

        var inch = card.Unit == LengthUnit.Inch;
        yield return ("format", CardWords.FormatHeld(card).Replace('/', LetteringFont.FractionSlash));
        yield return ("fold", card.Layout.Base.Fold == Edge.Left ? "left" : card.Layout.Base.Fold == Edge.Top ? "top"
            : card.Layout.Base.Fold == Edge.Right ? "right" : "bottom");
        yield return ("sizes", LengthText.Symbol(card.Unit)
            + (!text.BothUnits ? "" : inch ? " [mm to the nearest 0.1]" : " [in to the nearest 1⁄64]") + ", width x height");
        if (text.HasRounded)
        {
            yield return (DimensionText.About, inch ? "not exact, to the nearest 1⁄64 in" : "not exact, to the nearest 0.1 mm");
        }

        yield return ("reveals", "per side");
        yield return ("trimmer step", LengthText.Write(card.Increment, card.Unit).Replace('/', LetteringFont.FractionSlash));
        yield return ("scale", "1:1");
    }

    private static double Width(string text) => Plane.Roughly(LetteringFont.Instance.Width(text, Capital));

    private static DrawnText Text(string text, double x, double y, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Capital, colour);
}
