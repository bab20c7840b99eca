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
/// The map of one way to cut a sheet: pieces with their names and sizes, the cuts numbered as in the schedule, what is kept white and called so, scrap grey. What is
/// too small for its words has a letter, and a line in the key below. By itself it is drawn at half size; on a worksheet, where several maps share a
/// page with the cuts, smaller, and cards go by their numbers.
/// </summary>
public sealed class SheetMapDrawing
{
    private const double Pad = 1.4;
    private const int PalePercent = 55;

    private static readonly Stroke CutLine = new(Palette.Narrow, Palette.Ink);
    private static readonly Stroke EdgeLine = new(Palette.Wide, Palette.Ink);

    private readonly TrimSchedule _schedule;
    private readonly ScheduledSheet _sheet;
    private readonly MapStyle _style;
    private readonly LengthUnit _unit;

    private readonly (int First, int Last)? _steps;

    private SheetMapDrawing(TrimSchedule schedule, ScheduledSheet sheet, MapStyle style, (int First, int Last)? steps) =>
        (_schedule, _sheet, _style, _unit, _steps) = (schedule, sheet, style, schedule.Plan.Batch.Batch.Unit, steps);

    /// <summary>Draws the map of one sheet of a schedule at half size.</summary>
    public static DrawingList Draw(TrimSchedule schedule, ScheduledSheet sheet) => new SheetMapDrawing(schedule, sheet, MapStyle.ByItself, null).Draw();

    /// <summary>Draws the map of one sheet for some of the steps: other cuts are thin and have no numbers.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="style">How large.</param>
    /// <param name="steps">The numbers of the first and the last step.</param>
    internal static DrawingList Draw(TrimSchedule schedule, ScheduledSheet sheet, MapStyle style, (int First, int Last) steps) =>
        new SheetMapDrawing(schedule, sheet, style, steps).Draw();

    private DrawingList Draw()
    {
        var root = _sheet.Plan.Root;
        var off = _sheet.Stock?.TrueOff ?? Length.Zero;
        var whole = Scaled(root.Left - off, root.Top - off, root.Width + off + off, root.Height + off + off);
        var cuts = Cuts().ToList();
        var labels = new Labels(_style);
        List<DrawnItem> ground = [new DrawnOutline(Outline.FromBox(whole), new(Palette.Lighter(Palette.Quiet, 85)), null)];
        List<DrawnItem> words = [];
        foreach (var node in root.Walk().Where(node => node is not CutInTwo))
        {
            var box = Scaled(node.Left, node.Top, node.Width, node.Height);
            ground.Add(new DrawnOutline(
                Outline.FromBox(box), node switch
                {
                    CutPiece => new(Palette.Lighter(ToneOf(node), PalePercent)),
                    CutOffcut => new(White),
                    _ => new(Palette.Lighter(Palette.Quiet, 75)),
                },
                CutLine));
            if (Told(node) is { Length: > 0 } told)
            {
                words.AddRange(labels.Place(told, Plane.Roughly(box)));
            }
        }

        // Numbers and letters find their room together.
        var rings = cuts.Where(cut => cut.Ring is not null).Select(cut => (cut.Number, Mark: cut.Ring!)).ToList();
        var (places, haveRoom) = MapMarks.Place([.. rings.Select(ring => ring.Mark), .. labels.Letters.Select(letter => letter.Mark)]);
        if (!haveRoom && _style.Smaller is { } smaller)
        {
            return new SheetMapDrawing(_schedule, _sheet, smaller, _steps).Draw();
        }

        words.AddRange(labels.Letters.Zip(places.Skip(rings.Count), (letter, spot) => labels.Letter(letter.Letter, spot)));
        ground.Add(new DrawnOutline(Outline.FromBox(whole), null, EdgeLine));
        var area = Plane.Roughly(whole);
        var title = $"Sheet {_sheet.Letter}: {_sheet.Words}, {Text(_sheet.Plan.Repeats)} {(_sheet.Plan.Repeats == 1 ? "sheet" : "sheets")}";
        var size = LengthText.WriteSize(root.Width + off + off, root.Height + off + off, _unit);
        string[] facing = _style.IsSmall
            ? [$"{size}, {_sheet.FaceUp} face up", $"1/{_style.Scale.Denominator} of its size: do not measure"]
            : [$"{size}, {_sheet.FaceUp} face up; shown at half size"];
        var (textHeight, linePitch) = (_style.TextHeight, _style.LinePitch);
        var foot = area.Top - 2.5 - (linePitch * (facing.Length - 1)) - _style.Head;
        var heading = Line(title, area.Left, foot, _style.TitleHeight, Palette.Ink);
        var below = facing.Select((line, i) => Line(line, area.Left, area.Top - 2.5 - (linePitch * (facing.Length - 1 - i)), textHeight, Palette.Quiet)).ToList();
        var key = labels.Key.Select((entry, i) => Line(entry, area.Left, area.Bottom + 4 + textHeight + (linePitch * i), textHeight, Palette.Ink)).ToList();
        var right = below.Prepend(heading).Concat(key).Max(line => area.Left + Plane.Roughly(LetteringFont.Instance.Width(line.Text, line.CapHeight)));
        var bottom = key.Count == 0 ? area.Bottom : area.Bottom + 4 + (linePitch * key.Count);
        var border = _style.Border;
        var top = foot - _style.TitleHeight;
        return new()
        {
            Title = title,
            Description = $"How sheet {_sheet.Letter} of {_schedule.Plan.Batch.Batch.Title} is cut; pieces, cuts in order, leftovers",
            Unit = _unit,
            Sheet = Plane.Exactly(new Area(area.Left - border, top - border, Math.Max(area.Right, right) + border, bottom + border)).OutToStep(_unit),
            Patterns = [],
            Items =
            [
                new DrawnGroup(ground) { Id = "sheet", Class = "sheet" },
                new DrawnGroup([.. cuts.Select(cut => cut.Line)]) { Id = "cuts", Class = "cuts" },
                new DrawnGroup(words) { Id = "names", Class = "names" },
                new DrawnGroup([.. rings.Zip(places).SelectMany(ring => Badge(ring.Second, ring.First.Number))]) { Id = "numbers", Class = "numbers" },
                heading, .. below, .. key,
            ],
        };
    }

    private static readonly Colour White = new(0xff, 0xff, 0xff);

    private IEnumerable<(DrawnLine Line, string Number, MapMark? Ring)> Cuts()
    {
        var radius = _style.BadgeRadius;
        foreach (var cut in _sheet.Plan.Root.Walk().OfType<CutInTwo>())
        {
            var upright = cut.Direction == CutDirection.Upright;
            var at = upright ? cut.Left + cut.At : cut.Top + cut.At;
            var (from, to) = upright
                ? (Spot(at, cut.Top), Spot(at, cut.Top + cut.Height))
                : (Spot(cut.Left, at), Spot(cut.Left + cut.Width, at));
            var number = _schedule.Numbers[cut];
            var line = new DrawnLine([from.ToPoint(), to.ToPoint()], IsNumbered(number) ? EdgeLine : CutLine);
            if (!IsNumbered(number))
            {
                yield return (line, "", null);
                continue;
            }

            // The number sits on its cut, near where the cut begins: there no other cut of the same rectangle begins. Where that is taken it moves along.
            var length = upright ? to.Y - from.Y : to.X - from.X;
            var near = Math.Min(6, Math.Max(radius, length / 4));
            var (first, last) = (Math.Min(radius, length / 2), Math.Max(length - radius, length / 2));
            var places = Steps(near, last).Concat(Steps(first, near)).Append(length / 2).Concat(Steps(0, first)).Concat(Steps(last, length))
                .Select(along => upright ? new Spot(from.X, from.Y + along) : new Spot(from.X + along, from.Y)).ToList();
            yield return (line, Text(number), new(radius, places));
        }

        IEnumerable<double> Steps(double start, double end)
        {
            for (var i = 0; start + (i * radius / 3) <= end; i++)
            {
                yield return start + (i * radius / 3);
            }
        }
    }

    private bool IsNumbered(int step) => _steps is not { } shown || (step >= shown.First && step <= shown.Last);

    private IEnumerable<DrawnItem> Badge(Spot middle, string number)
    {
        // Three figures are set smaller, so that they keep clear of their ring.
        var radius = _style.BadgeRadius;
        var wide = Plane.Roughly(LetteringFont.Instance.Width(number, Palette.Micrometres((long)(_style.NumberHeight * 1000))));
        var high = _style.NumberHeight * Math.Min(1, 1.6 * radius / wide);
        var circle = Outline.FromEllipse(Plane.Exactly(new Area(middle.X - radius, middle.Y - radius, middle.X + radius, middle.Y + radius)));
        return
        [
            new DrawnOutline(circle, new(White), CutLine),
            new DrawnText(
                number, new Spot(middle.X, middle.Y + (high / 2)).ToPoint(), TextHold.Middle, Palette.Micrometres((long)(high * 1000)), Palette.Ink),
        ];
    }

    private string[] Told(CutNode node)
    {
        var size = LengthText.WriteSize(node.Width, node.Height, _unit);
        return node switch
        {
            CutPiece piece => [.. ScheduleMaker.PieceNames(_schedule.Plan, _sheet, [piece], byNumber: _style.IsSmall).Select(WithoutOne), size],
            CutOffcut => ["keep", size],
            _ => [],
        };
    }

    // Of a single sheet there is one of everything.
    private string WithoutOne(string name) => _sheet.Plan.Repeats != 1 ? name
        : name.StartsWith("1 of ", StringComparison.Ordinal) ? name[5..]
        : name.StartsWith("1 ", StringComparison.Ordinal) ? name[2..]
        : name;

    private Colour ToneOf(CutNode node)
    {
        var paper = node is CutPiece piece && _sheet.Stock is { } stock ? ScheduleMaker.PaperOf(_schedule.Plan, stock, piece, piece.Ids[0]) : _sheet.FaceUp;
        return _schedule.Plan.Batch.Batch.PaperNamed(paper).Colour;
    }

    private Box Scaled(Length left, Length top, Length width, Length height)
    {
        var (x, y) = (Position.FromLength(left) * _style.Scale, Position.FromLength(top) * _style.Scale);
        return new(x, y, x + (Position.FromLength(width) * _style.Scale), y + (Position.FromLength(height) * _style.Scale));
    }

    private Spot Spot(Length x, Length y) => new(Plane.Roughly(Position.FromLength(x) * _style.Scale), Plane.Roughly(Position.FromLength(y) * _style.Scale));

    private static DrawnText Line(string text, double x, double y, double height, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Palette.Micrometres((long)(height * 1000)), colour);

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>Words inside rectangles, or letters for them and a key.</summary>
    private sealed class Labels(MapStyle style)
    {
        private readonly List<string> _key = [];
        private readonly List<(string Letter, MapMark Mark)> _placed = [];
        private readonly Dictionary<string, string> _letters = new(StringComparer.Ordinal);

        public IReadOnlyList<string> Key => _key;

        /// <summary>The letters that stand for words, and where they may stand.</summary>
        public IReadOnlyList<(string Letter, MapMark Mark)> Letters => _placed;

        public DrawnText Letter(string letter, Spot spot) => new(
            letter, new Spot(spot.X, spot.Y + (style.TextHeight / 2)).ToPoint(), TextHold.Middle, Palette.Micrometres((long)(style.TextHeight * 1000)), Palette.Ink) { Class = "name" };

        /// <summary>The words where there is room for them; else a letter stands for them.</summary>
        public IEnumerable<DrawnItem> Place(string[] lines, Area box)
        {
            var (width, height) = (box.Right - box.Left - (2 * Pad) - (2 * style.BadgeRadius), box.Bottom - box.Top - (2 * Pad) - (2 * style.BadgeRadius));
            var capital = Palette.Micrometres((long)(style.TextHeight * 1000));
            var widest = lines.Max(line => Plane.Roughly(LetteringFont.Instance.Width(line, capital)));
            var tall = style.TextHeight + (style.LinePitch * (lines.Length - 1));
            var (x, y) = ((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
            if (widest <= width && tall <= height)
            {
                return lines.Select((line, i) => new DrawnText(
                    line, new Spot(x, y - (tall / 2) + style.TextHeight + (style.LinePitch * i)).ToPoint(), TextHold.Middle, capital, Palette.Ink) { Class = "name" });
            }

            if (widest <= height && tall <= width)
            {
                return lines.Select((line, i) => new DrawnText(
                    line, new Spot(x - (tall / 2) + style.TextHeight + (style.LinePitch * i), y).ToPoint(), TextHold.Middle, capital, Palette.Ink) { Class = "name", Upwards = true });
            }

            var told = string.Join(", ", lines);
            if (!_letters.TryGetValue(told, out var letter))
            {
                letter = _letters[told] = Sign(_letters.Count);
                _key.Add($"{letter}: {told}");
            }

            _placed.Add((letter, new(letter.Length * style.TextHeight / 2, Places(box, letter.Length))));
            return [];
        }

        // After z come aa, ab and so on: no two lines of the key begin alike.
        private static string Sign(int number) => number < 26 ? ((char)('a' + number)).ToString() : Sign((number / 26) - 1) + Sign(number % 26);

        /// <summary>The places in a box where so many letters touch no edge, the nearest to the middle first.</summary>
        private List<Spot> Places(Area box, int letters)
        {
            const int Steps = 12;
            const double Air = 0.3;
            var (half, halfWide) = (style.TextHeight / 2, letters * style.TextHeight / 2);
            var middle = new Spot((box.Left + box.Right) / 2, (box.Top + box.Bottom) / 2);
            List<Spot> inside = [.. Enumerable.Range(1, Steps - 1).SelectMany(i => Enumerable.Range(1, Steps - 1).Select(j => new Spot(
                    box.Left + ((box.Right - box.Left) * i / Steps), box.Top + ((box.Bottom - box.Top) * j / Steps))))
                .OrderBy(spot => spot.To(middle)).ThenBy(spot => spot.Y).ThenBy(spot => spot.X)
                .Where(spot => spot.X - halfWide >= box.Left + Air && spot.X + halfWide <= box.Right - Air && spot.Y - half >= box.Top + Air && spot.Y + half <= box.Bottom - Air)];
            return inside.Count > 0 ? inside : [middle];
        }
    }
}
