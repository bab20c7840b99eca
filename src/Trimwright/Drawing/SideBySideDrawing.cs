using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>Several cards to one scale on one sheet, each with a caption: for mirrored variants and for other formats.</summary>
public static class SideBySideDrawing
{
    // All in millimetres. A row of about 300 mm shows two A7 cards or three A2 cards and still prints on an A3 sheet.
    private const double RowWidth = 300;
    private const double Border = 10;
    private const double Between = 12;
    private const double CaptionGap = 4;
    private const double CaptionHeight = 3.5;
    private const double SizeHeight = 2.5;
    private const double LineGap = 2.2;
    private const double TitleHeight = 5;
    private const double Descent = 1.2;

    private sealed record Entry(string Caption, FittedCard Card, Area Face, IReadOnlyList<DrawnText> Words)
    {
        /// <summary>What it takes across: its face with all that hangs over, or its caption where that is wider.</summary>
        public double Width => Math.Max(Face.Right - Face.Left, Words.Max(words => WidthOf(words)));

        public double FaceHeight => Face.Bottom - Face.Top;
    }

    /// <summary>Draws the cards in rows, in their order, feet of the faces on one line.</summary>
    /// <param name="title">The title of the sheet.</param>
    /// <param name="cards">The cards with their captions; at least one.</param>
    /// <exception cref="ArgumentException">There is no card.</exception>
    public static DrawingList Draw(string title, IReadOnlyList<(string Caption, FittedCard Card)> cards)
    {
        if (cards.Count == 0)
        {
            throw new ArgumentException("there is no card to show", nameof(cards));
        }

        List<DrawnPattern> patterns = [];
        var heading = new DrawnText(
            title, new Spot(0, TitleHeight).ToPoint(), TextHold.Start, Length.FromMillimetres((long)TitleHeight), Palette.Ink);
        List<DrawnItem> items = [heading];
        var (right, y, number) = (WidthOf(heading), TitleHeight + Between, 0);
        foreach (var row in Rows(cards.Select(card => MakeEntry(card.Caption, card.Card))))
        {
            var (x, foot) = (0.0, y + row.Max(entry => entry.FaceHeight));
            foreach (var entry in row)
            {
                number++;
                var prefix = string.Create(CultureInfo.InvariantCulture, $"card-{number}-");
                items.Add(Place(entry, prefix, x, foot, patterns));
                x += entry.Width + Between;
            }

            right = Math.Max(right, x - Between);
            y = foot + CaptionGap + CaptionHeight + LineGap + SizeHeight + Descent + Between;
        }

        var unit = cards[0].Card.Unit;
        return new()
        {
            Title = title,
            Description = "Side by side, to one scale: " + string.Join("; ", cards.Select(card => $"{card.Caption}, {CardWords.Describe(card.Card)}")),
            Unit = unit,
            Sheet = Plane.Exactly(new Area(-Border, -Border, right + Border, y - Between + Border)).OutToStep(unit),
            Patterns = patterns,
            Items = items,
        };
    }

    private static Entry MakeEntry(string caption, FittedCard card)
    {
        var face = Plane.Roughly(Boxes.OfFace(card.Face, FaceLayer.Of(card)));
        return new(caption, card, face,
        [
            new(caption, default, TextHold.Middle, Palette.Micrometres(3500), Palette.Ink),
            new(CardWords.Describe(card), default, TextHold.Middle, Palette.Micrometres(2500), Palette.Quiet),
        ]);
    }

    private static IEnumerable<List<Entry>> Rows(IEnumerable<Entry> entries)
    {
        List<Entry> row = [];
        var width = 0.0;
        foreach (var entry in entries)
        {
            if (row.Count > 0 && width + Between + entry.Width > RowWidth)
            {
                yield return row;
                (row, width) = ([], 0);
            }

            width += (row.Count > 0 ? Between : 0) + entry.Width;
            row.Add(entry);
        }

        yield return row;
    }

    /// <summary>Places a face with its foot on a line, in the middle of its width, and its caption below.</summary>
    private static DrawnGroup Place(Entry entry, string prefix, double left, double foot, List<DrawnPattern> patterns)
    {
        var middle = left + (entry.Width / 2);
        var (right, down) = (Plane.Exactly(middle - ((entry.Face.Left + entry.Face.Right) / 2)), Plane.Exactly(foot - entry.Face.Bottom));
        var painter = new FacePainter(entry.Card, prefix);
        var face = new DrawnGroup(painter.Paint()) { Class = "face", Shift = new(right, down) };
        patterns.AddRange(painter.Patterns);
        var baseline = foot + CaptionGap + CaptionHeight;
        return new(
        [
            face,
            entry.Words[0] with { At = new Spot(middle, baseline).ToPoint(), Class = "caption" },
            entry.Words[1] with { At = new Spot(middle, baseline + LineGap + SizeHeight).ToPoint(), Class = "caption" },
        ])
        { Id = prefix.TrimEnd('-') };
    }

    private static double WidthOf(DrawnText text) => Plane.Roughly(LetteringFont.Instance.Width(text.Text, text.CapHeight));
}
