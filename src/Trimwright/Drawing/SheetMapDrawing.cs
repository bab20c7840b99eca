using System.Globalization;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>
/// The map of one way to cut a sheet, at half size: pieces with their names and sizes, the cuts numbered as in the schedule, leftovers
/// dashed, scrap grey. What is too small for its words has a letter, and a line in the key below.
/// </summary>
public static class SheetMapDrawing
{
    private const double Border = 8;
    private const double TitleHeight = 4;
    private const double TextHeight = 2.2;
    private const double LinePitch = 3.8;
    private const double Pad = 1.4;
    private const double BadgeRadius = 2.1;
    private const int PalePercent = 55;

    private static readonly Rational Half = Rational.From(1, 2);
    private static readonly Stroke CutLine = new(Palette.Narrow, Palette.Ink);
    private static readonly Stroke EdgeLine = new(Palette.Wide, Palette.Ink);
    private static readonly Stroke KeptLine = new(Palette.Narrow, Palette.Ink, Palette.Micrometres(2000), Palette.Micrometres(1000));

    /// <summary>Draws the map of one sheet of a schedule.</summary>
    public static DrawingList Draw(TrimSchedule schedule, ScheduledSheet sheet)
    {
        var unit = schedule.Plan.Batch.Batch.Unit;
        var root = sheet.Plan.Root;
        var off = sheet.Stock?.TrueOff ?? Length.Zero;
        var whole = Scaled(root.Left - off, root.Top - off, root.Width + off + off, root.Height + off + off);
        var labels = new Labels();
        List<DrawnItem> ground = [new DrawnOutline(Outline.FromBox(whole), new(Palette.Lighter(Palette.Quiet, 85)), null)];
        List<DrawnItem> words = [];
        foreach (var node in root.Walk().Where(node => node is not CutInTwo))
        {
            var box = Scaled(node.Left, node.Top, node.Width, node.Height);
            ground.Add(new DrawnOutline(
                Outline.FromBox(box), node switch
                {
                    CutPiece => new(Palette.Lighter(ToneOf(schedule, sheet, node), PalePercent)),
                    CutOffcut => new(White),
                    _ => new(Palette.Lighter(Palette.Quiet, 75)),
                },
                node is CutOffcut ? KeptLine : CutLine));
            if (Told(schedule, sheet, node, unit) is { Length: > 0 } told)
            {
                words.AddRange(labels.Place(told, Plane.Roughly(box)));
            }
        }

        var cuts = Cuts(schedule, sheet).ToList();
        ground.Add(new DrawnOutline(Outline.FromBox(whole), null, EdgeLine));
        var area = Plane.Roughly(whole);
        var title = $"Sheet {sheet.Letter}: {sheet.Words}, {Text(sheet.Plan.Repeats)} {(sheet.Plan.Repeats == 1 ? "sheet" : "sheets")}";
        var heading = Line(title, area.Left, area.Top - 7.5, TitleHeight, Palette.Ink);
        var facing = Line(
            $"{LengthText.WriteSize(root.Width + off + off, root.Height + off + off, unit)}, {sheet.FaceUp} face up; shown at half size", area.Left, area.Top - 2.5, TextHeight, Palette.Quiet);
        var key = labels.Key.Select((entry, i) => Line(entry, area.Left, area.Bottom + 4 + TextHeight + (LinePitch * i), TextHeight, Palette.Ink)).ToList();
        var right = new[] { heading, facing }.Concat(key).Max(line => area.Left + Plane.Roughly(LetteringFont.Instance.Width(line.Text, line.CapHeight)));
        var bottom = key.Count == 0 ? area.Bottom : area.Bottom + 4 + (LinePitch * key.Count);
        return new()
        {
            Title = title,
            Description = $"How sheet {sheet.Letter} of {schedule.Plan.Batch.Batch.Title} is cut; pieces, cuts in order, leftovers",
            Unit = unit,
            Sheet = Plane.Exactly(new Area(area.Left - Border, area.Top - 7.5 - TitleHeight - Border, Math.Max(area.Right, right) + Border, bottom + Border)).OutToStep(unit),
            Patterns = [],
            Items =
            [
                new DrawnGroup(ground) { Id = "sheet", Class = "sheet" },
                new DrawnGroup([.. cuts.Select(cut => cut.Line)]) { Id = "cuts", Class = "cuts" },
                new DrawnGroup(words) { Id = "names", Class = "names" },
                new DrawnGroup([.. cuts.SelectMany(cut => cut.Badge)]) { Id = "numbers", Class = "numbers" },
                heading, facing, .. key,
            ],
        };
    }

    private static readonly Colour White = new(0xff, 0xff, 0xff);

    private static IEnumerable<(DrawnLine Line, IReadOnlyList<DrawnItem> Badge)> Cuts(TrimSchedule schedule, ScheduledSheet sheet)
    {
        var taken = new List<Spot>();
        foreach (var cut in sheet.Plan.Root.Walk().OfType<CutInTwo>())
        {
            var upright = cut.Direction == CutDirection.Upright;
            var at = upright ? cut.Left + cut.At : cut.Top + cut.At;
            var (from, to) = upright
                ? (Spot(at, cut.Top), Spot(at, cut.Top + cut.Height))
                : (Spot(cut.Left, at), Spot(cut.Left + cut.Width, at));

            // The number sits on its cut, near where the cut begins: there no other cut of the same rectangle begins. Where a number sits
            // already, it moves along.
            var length = upright ? to.Y - from.Y : to.X - from.X;
            var near = Math.Min(6, Math.Max(BadgeRadius, length / 4));
            var places = new[] { near, near + (2 * BadgeRadius), near + (4 * BadgeRadius), length / 2, length * 3 / 4, length - near };
            var middle = places.Where(along => along <= length).Select(along => upright ? new Spot(from.X, from.Y + along) : new Spot(from.X + along, from.Y))
                .FirstOrDefault(spot => taken.TrueForAll(other => Math.Abs(other.X - spot.X) >= 2 * BadgeRadius || Math.Abs(other.Y - spot.Y) >= 2 * BadgeRadius),
                    upright ? new Spot(from.X, from.Y + near) : new Spot(from.X + near, from.Y));
            taken.Add(middle);
            var circle = Outline.FromEllipse(Plane.Exactly(new Area(middle.X - BadgeRadius, middle.Y - BadgeRadius, middle.X + BadgeRadius, middle.Y + BadgeRadius)));
            yield return (
                new([from.ToPoint(), to.ToPoint()], EdgeLine),
                [
                    new DrawnOutline(circle, new(White), CutLine),
                    new DrawnText(Text(schedule.Numbers[cut]), new Spot(middle.X, middle.Y + 0.9).ToPoint(), TextHold.Middle, Palette.Micrometres(1800), Palette.Ink),
                ]);
        }
    }

    private static string[] Told(TrimSchedule schedule, ScheduledSheet sheet, CutNode node, LengthUnit unit)
    {
        var size = LengthText.WriteSize(node.Width, node.Height, unit);
        return node switch
        {
            CutPiece piece => [.. ScheduleMaker.PieceNames(schedule.Plan, sheet, [piece]).Select(name => WithoutOne(name, sheet)), size],
            CutOffcut => ["keep", size],
            _ => [],
        };
    }

    // Of a single sheet there is one of everything.
    private static string WithoutOne(string name, ScheduledSheet sheet) =>
        sheet.Plan.Repeats == 1 && name.StartsWith("1 ", StringComparison.Ordinal) ? name[2..] : name;

    private static Colour ToneOf(TrimSchedule schedule, ScheduledSheet sheet, CutNode node)
    {
        var paper = node is CutPiece piece && sheet.Stock is { } stock ? ScheduleMaker.PaperOf(schedule.Plan, stock, piece, piece.Ids[0]) : sheet.FaceUp;
        return schedule.Plan.Batch.Batch.PaperNamed(paper).Colour;
    }

    private static Box Scaled(Length left, Length top, Length width, Length height)
    {
        var (x, y) = (Position.FromLength(left) * Half, Position.FromLength(top) * Half);
        return new(x, y, x + (Position.FromLength(width) * Half), y + (Position.FromLength(height) * Half));
    }

    private static Spot Spot(Length x, Length y) => new(Plane.Roughly(Position.FromLength(x) * Half), Plane.Roughly(Position.FromLength(y) * Half));

    private static DrawnText Line(string text, double x, double y, double height, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Palette.Micrometres((long)(height * 1000)), colour);

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Words inside rectangles, or letters for them and a key.</summary>
    private sealed class Labels
    {
        private readonly List<string> _key = [];
        private readonly Dictionary<string, char> _letters = new(StringComparer.Ordinal);

        public IReadOnlyList<string> Key => _key;

        public IEnumerable<DrawnItem> Place(string[] lines, Area box)
        {
            var (width, height) = (box.Right - box.Left - (2 * Pad) - (2 * BadgeRadius), box.Bottom - box.Top - (2 * Pad) - (2 * BadgeRadius));
            var capital = Palette.Micrometres((long)(TextHeight * 1000));
            var widest = lines.Max(line => Plane.Roughly(LetteringFont.Instance.Width(line, capital)));
            var tall = TextHeight + (LinePitch * (lines.Length - 1));
            var (x, y) = ((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
            if (widest <= width && tall <= height)
            {
                return lines.Select((line, i) => new DrawnText(
                    line, new Spot(x, y - (tall / 2) + TextHeight + (LinePitch * i)).ToPoint(), TextHold.Middle, capital, Palette.Ink) { Class = "name" });
            }

            if (widest <= height && tall <= width)
            {
                return lines.Select((line, i) => new DrawnText(
                    line, new Spot(x - (tall / 2) + TextHeight + (LinePitch * i), y).ToPoint(), TextHold.Middle, capital, Palette.Ink) { Class = "name", Upwards = true });
            }

            var told = string.Join(", ", lines);
            if (!_letters.TryGetValue(told, out var letter))
            {
                letter = _letters[told] = (char)('a' + (_letters.Count % 26));
                _key.Add($"{letter}: {told}");
            }

            return [new DrawnText(letter.ToString(), new Spot(x, y + (TextHeight / 2)).ToPoint(), TextHold.Middle, capital, Palette.Ink) { Class = "name" }];
        }
    }
}
