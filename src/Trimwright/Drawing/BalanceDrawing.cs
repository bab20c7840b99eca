using System.Globalization;
using Trimwright.Balance;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>
/// Variants of a card in order of balance, small and to one scale: each with its number, what was changed and its scores, and on it an
/// arrow from the middle of the card to where its weight lies. As many sheets as it takes; each prints on Letter and on A4.
/// </summary>
public static class BalanceDrawing
{
    // All in millimetres. With its border a sheet is 206 x 277: Letter is 216 x 279, A4 210 x 297.
    private const double RowWidth = 190;
    private const double MostHeight = 261;
    private const double Border = 8;
    private const double Between = 6;
    private const double CaptionGap = 4;
    private const double Pitch = DrawingRules.PlainLinePitch;

    // A fifth caption in a row would be too narrow for a line of scores.
    private const int MostColumns = 4;

    // At least three faces in a row, and three rows on a sheet: larger faces are drawn smaller.
    private const double MostFaceWidth = (RowWidth - (2 * Between)) / 3;
    private const double MostFaceHeight = 72;

    private static readonly Length Capital = DrawingRules.Capital;

    // The least of the series of ISO 3098-1.
    private static readonly Length Small = Palette.Micrometres(1800);
    private const double SmallHeight = 1.8;
    private const double SmallPitch = 1.7 * SmallHeight;
    private const double KeyIndent = 14;

    private sealed record Entry(ComparedVariant Variant, IReadOnlyList<DrawnText> Caption);

    /// <summary>Draws the best so many, and the layout as drawn wherever it stands.</summary>
    /// <param name="comparison">The variants.</param>
    /// <param name="show">How many of the best; at least one.</param>
    /// <returns>The sheets; at least one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">None is to be shown.</exception>
    public static IReadOnlyList<DrawingList> Sheets(BalanceComparison comparison, int show)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(show, 1);
        var shown = comparison.Shown(show);

        // Every face has the same room around it, so that the cards stand in line even where a piece hangs over an edge.
        var room = shown.Select(variant => Plane.Roughly(Boxes.OfFace(variant.Card.Face, FaceLayer.Of(variant.Card)))).Aggregate((a, b) => a.Around(b));
        var (width, height) = (room.Right - room.Left, room.Bottom - room.Top);
        var part = 2;
        while (width / part > MostFaceWidth || height / part > MostFaceHeight)
        {
            part++;
        }

        var plan = new Plan(room, part, WithoutLettering(shown, part));
        var entries = shown.Select(variant => new Entry(variant, Caption(variant, plan.CellWidth))).ToList();
        var heading = Heading(comparison, show, part);
        var key = Key();
        var sheets = Paged(entries, plan, MostHeight - heading.Height - key.Height).ToList();
        return [.. sheets.Select((rows, i) => Draw(comparison, plan, rows, heading, key, i + 1, sheets.Count))];
    }

    /// <summary>How faces are drawn.</summary>
    private sealed record Plan(Area Room, int Part, IReadOnlySet<string> WithoutLettering)
    {
        public double FaceHeight => (Room.Bottom - Room.Top) / Part;

        public int Columns => Math.Min(MostColumns, (int)((RowWidth + Between) / (((Room.Right - Room.Left) / Part) + Between)));

        public double CellWidth => (RowWidth - (Between * (Columns - 1))) / Columns;

        public double HeightOf(IReadOnlyList<Entry> row) => FaceHeight + CaptionGap + (Pitch * row.Max(entry => entry.Caption.Count)) + Between;
    }

    private sealed record Block(IReadOnlyList<DrawnItem> Items, double Height);

    private static IEnumerable<List<Entry[]>> Paged(List<Entry> entries, Plan plan, double mostHeight)
    {
        List<Entry[]> sheet = [];
        var used = 0.0;
        foreach (var row in entries.Chunk(plan.Columns))
        {
            var height = plan.HeightOf(row);
            if (sheet.Count > 0 && used + height > mostHeight)
            {
                yield return sheet;
                (sheet, used) = ([], 0);
            }

            sheet.Add(row);
            used += height;
        }

        yield return sheet;
    }

    private static DrawingList Draw(BalanceComparison comparison, Plan plan, List<Entry[]> rows, Block heading, Block key, int number, int count)
    {
        List<DrawnPattern> patterns = [];
        List<DrawnItem> items = [.. heading.Items];
        if (count > 1)
        {
            items.Add(Text(
                string.Create(CultureInfo.InvariantCulture, $"sheet {number} of {count}"), RowWidth, heading.Height - Between, Small, TextHold.End));
        }

        var y = heading.Height;
        foreach (var row in rows)
        {
            for (var column = 0; column < row.Length; column++)
            {
                items.Add(Place(row[column], plan, column * (plan.CellWidth + Between), y, patterns));
            }

            y += plan.HeightOf(row);
        }

        items.Add(new DrawnGroup(key.Items) { Class = "key", Shift = new Spot(0, y).ToPoint() });
        var title = comparison.AsDrawn.Card.Layout.Title;
        var unit = comparison.AsDrawn.Card.Unit;
        return new()
        {
            Title = $"{title}: balance",
            Description = "Variants in order of balance, to one scale, each with an arrow from the middle of the card to where its weight lies: "
                + string.Join("; ", rows.SelectMany(row => row).Select(entry => Describe(entry.Variant))),
            Unit = unit,
            Sheet = Plane.Exactly(new Area(-Border, -Border, RowWidth + Border, y + key.Height + Border)).OutToStep(unit),
            Patterns = patterns,
            Items = items,
        };
    }

    private static DrawnGroup Place(Entry entry, Plan plan, double left, double top, List<DrawnPattern> patterns)
    {
        var prefix = string.Create(CultureInfo.InvariantCulture, $"variant-{entry.Variant.Number}-");
        var scale = Rational.From(1, plan.Part);
        var middle = left + (plan.CellWidth / 2);
        var corner = new Point(
            Plane.Exactly(middle - ((plan.Room.Left + plan.Room.Right) / 2 / plan.Part)), Plane.Exactly(top - (plan.Room.Top / plan.Part)));
        var painter = new FacePainter(entry.Variant.Card, prefix, plan.WithoutLettering);
        List<DrawnItem> items = [new DrawnGroup(painter.Paint()) { Class = "face", Scale = scale, Shift = corner }];
        patterns.AddRange(painter.Patterns);
        if (entry.Variant.Weight is { } weight)
        {
            items.Add(BalanceArrow.Draw(On(weight.From), On(weight.To)));
        }

        var foot = top + plan.FaceHeight + CaptionGap;
        items.AddRange(entry.Caption.Select((line, i) => line with { At = new Spot(middle, foot + DrawingRules.TextHeight + (Pitch * i)).ToPoint() }));
        return new(items)
        {
            Id = prefix.TrimEnd('-'),
            Class = "variant",
            Data = [("number", Whole(entry.Variant.Number)), ("place", Whole(entry.Variant.Ranked.Place)), ("changed", entry.Variant.Name)],
        };

        Point On(Point place) => new(corner.X + (place.X * scale), corner.Y + (place.Y * scale));
    }

    /// <summary>The lettering that an arrow would cross on any of the cards is left out on all of them, so that they differ in nothing else.</summary>
    private static HashSet<string> WithoutLettering(IReadOnlyList<ComparedVariant> shown, int part) =>
    [
        .. from variant in shown
           where variant.Weight is not null
           let line = ArrowOn(variant.Weight!, part)
           from layer in FaceLayer.Of(variant.Card)
           where layer.MatNumber == 0 && layer.Piece.Source.Text is not null
               && Plane.Roughly(layer.BoundsAsLaid()).Grown(BalanceArrow.Reach * part).Meets(line.From, line.To)
           select layer.Piece.Name,
    ];

    // On the card in full size: the sign does not grow with it.
    private static (Spot From, Spot To) ArrowOn(FaceWeight weight, int part)
    {
        var (from, to) = (Plane.Roughly(weight.From), Plane.Roughly(weight.To));
        var far = from.To(to);
        var times = far > 0 ? BalanceArrow.Length(far / part) * part / far : 0;
        return (from, new(from.X + ((to.X - from.X) * times), from.Y + ((to.Y - from.Y) * times)));
    }

    private static DrawnText[] Caption(ComparedVariant variant, double width)
    {
        // Backquotes mark names in messages; beside a picture they are only in the way.
        var name = variant.Name.Replace("`", "", StringComparison.Ordinal);
        List<(string Text, Layouts.Colour Colour)> lines =
            [.. BrokenText.Lines($"{Whole(variant.Number)}: {name}", Capital, width).Select(line => (line, Palette.Ink))];
        if (BalanceText.Tie(variant) is { } tie)
        {
            lines.AddRange(BrokenText.Lines(tie, Capital, width).Select(line => (line, Palette.Quiet)));
        }

        lines.AddRange(variant.Weight is { Whole: var whole }
            ?
            [
                ($"DCM {BalanceText.Score(whole.Deviation)}, APB {BalanceText.Score(whole.Preference)}", Palette.Ink),
                ($"dx {BalanceText.Score(whole.Dx)}, dy {BalanceText.Score(whole.Dy)}", Palette.Ink),
            ]
            : [("no weight", Palette.Ink)]);
        foreach (var note in new[] { variant.LooksOff.Count > 0 ? "looks off the card" : null, variant.NewOverlaps.Count > 0 ? "pieces overlap anew" : null }.OfType<string>())
        {
            lines.AddRange(BrokenText.Lines(note, Capital, width).Select(line => (line, Palette.Quiet)));
        }

        return [.. lines.Select(line => new DrawnText(line.Text, default, TextHold.Middle, Capital, line.Colour) { Class = "caption" })];
    }

    private static Block Heading(BalanceComparison comparison, int show, int part)
    {
        const double TitlePitch = 1.7 * DrawingRules.TitleHeight;
        List<DrawnItem> items = [];
        var y = 0.0;
        foreach (var line in BrokenText.Lines($"{comparison.AsDrawn.Card.Layout.Title}: balance", DrawingRules.TitleCapital, RowWidth))
        {
            items.Add(Text(line, 0, y + DrawingRules.TitleHeight, DrawingRules.TitleCapital));
            y += TitlePitch;
        }

        var which = show >= comparison.Variants.Count ? "all are shown"
            : string.Create(CultureInfo.InvariantCulture, $"the best {show}{(comparison.AsDrawn.Number > show ? " and the layout as drawn" : "")} are shown");
        var told = string.Create(CultureInfo.InvariantCulture, $"{BalanceReport.Headline(comparison)}; {which}, at {Part(part)} their size.");
        foreach (var line in BrokenText.Lines(told, Capital, RowWidth))
        {
            items.Add(Text(line, 0, y + DrawingRules.TextHeight, Capital));
            y += Pitch;
        }

        // One line more for the number of the sheet, and air.
        return new(items, y + SmallPitch + Between);
    }

    private static Block Key()
    {
        List<DrawnItem> items = [BalanceArrow.Draw(new Spot(2, 2).ToPoint(), new Spot(9.5, 2).ToPoint())];
        var y = 2 - (SmallHeight / 2);
        foreach (var sentence in (string[])
            ["Ring: the middle of the card. Dot: where its weight lies, and an arrowhead that way; the ring alone: in the middle.", .. BalanceReport.Key, BalanceReport.Advice])
        {
            foreach (var line in BrokenText.Lines(sentence, Small, RowWidth - KeyIndent))
            {
                items.Add(Text(line, KeyIndent, y + SmallHeight, Small));
                y += SmallPitch;
            }
        }

        return new(items, y);
    }

    private static string Describe(ComparedVariant variant) => string.Create(
        CultureInfo.InvariantCulture,
        $"number {variant.Number}, {variant.Name.Replace("`", "", StringComparison.Ordinal)}, {(variant.Weight is { Whole: var whole } ? $"DCM {BalanceText.Score(whole.Deviation)}, dx {BalanceText.Score(whole.Dx)}, dy {BalanceText.Score(whole.Dy)}, APB {BalanceText.Score(whole.Preference)}" : "without weight")}");

    private static DrawnText Text(string text, double x, double y, Length capital, TextHold hold = TextHold.Start) =>
        new(text, new Spot(x, y).ToPoint(), hold, capital, capital == Small ? Palette.Quiet : Palette.Ink) { Class = "caption" };

    private static string Part(int part) => part switch
    {
        2 => "half",
        3 => "a third of",
        4 => "a quarter of",
        _ => string.Create(CultureInfo.InvariantCulture, $"1/{part} of"),
    };

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);
}
