using System.Globalization;
using Trimwright.Diagnostics;
using Trimwright.Drawing.Lettering;
using Trimwright.Layouts;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>The first of several sheets: the whole face with the size of the card, a number on each piece, and a key that says where it is measured.</summary>
internal sealed class OverviewSheet
{
    private const double Border = 8;
    private const double BlockGap = 8;
    private const double LeastKeyWidth = 90;
    private const double KeyGap = 8;

    // More numbers beside the face could not be followed; more names in the key would not be read.
    private const int MostBeside = 40;
    private const int MostNames = 60;
    private const int LongestNames = 40;
    private const int Rows = 5;

    private readonly CardIndex _index;
    private readonly IReadOnlyList<IReadOnlyList<SheetUnit>> _sheets;
    private readonly DimensionText _text;
    private readonly Sight _sight;
    private readonly List<(string Text, Spot At, Area Area)> _numbers = [];
    private readonly List<SheetUnit> _unnumbered = [];

    /// <summary>Places the numbers.</summary>
    /// <param name="index">The card.</param>
    /// <param name="sheets">What each of the following sheets is about.</param>
    /// <param name="text">How lengths are written.</param>
    public OverviewSheet(CardIndex index, IReadOnlyList<IReadOnlyList<SheetUnit>> sheets, DimensionText text)
    {
        (_index, _sheets, _text) = (index, sheets, text);
        _sight = new(index.Layers, Plane.Roughly(index.Card.Face));
        foreach (var unit in sheets.SelectMany(sheet => sheet))
        {
            var number = unit.Number.ToString(CultureInfo.InvariantCulture);
            var before = _numbers.Count;
            foreach (var piece in unit.Pieces)
            {
                if (RoomFor(number, index.LayersOf(piece.Name).Piece) is { } at)
                {
                    _numbers.Add((number, at, AreaOf(number, at)));
                }
            }

            if (_numbers.Count == before)
            {
                _unnumbered.Add(unit);
            }
        }
    }

    /// <summary>What a sheet is about, in words: what its pieces lie on.</summary>
    public static string Shows(IReadOnlyList<SheetUnit> units)
    {
        string[] parents = [.. units.Select(unit => unit.On ?? "the card").Distinct()];
        var names = WordList.Of(parents);
        return names.Length <= LongestNames ? "on " + names : string.Create(CultureInfo.InvariantCulture, $"on {parents.Length} pieces");
    }

    /// <summary>Draws it.</summary>
    public DrawingList Draw(SheetPlace place)
    {
        var card = _index.Card;
        var face = _sight.Shapes.Aggregate(Plane.Roughly(card.Face), (area, shape) => area.Around(shape.Area));
        var sayings = new SayingsFinder(_index, [], _text).Find([], withCard: true);
        var dimensions = new LanePlacer(face, _text).Place(sayings.Dimensions);
        var taken = dimensions.Aggregate(face, (area, placed) => area.Around(placed.LineArea));
        Area[] words = [.. dimensions.Select(placed => placed.TextArea), .. _numbers.Select(number => number.Area)];
        var finder = new LeaderFinder(_sight, face, words, [.. dimensions.SelectMany(placed => placed.ExtensionLines())], []);
        var beside = _unnumbered.Take(MostBeside).Select(CalloutOf).Where(callout => finder.DotsOf(callout.Targets).Left.Count > 0);
        var callouts = new CalloutPlacer(finder, face, taken).Place(beside).Where(placed => !LeaderFinder.IsBroken(placed, words)).ToArray();
        var used = callouts.Aggregate(taken, (area, placed) => area.Around(placed.TextArea));
        var (key, keyArea) = Key(used, _unnumbered.Count - callouts.Length);
        used = used.Around(keyArea);
        var (block, blockArea) = TitleBlock.Draw(card, _text, place, used, used.Bottom + BlockGap);
        var ink = new DimensionInk(dimensions, words);
        return new()
        {
            Title = card.Layout.Title,
            Description = $"{CardWords.Describe(card)}: the key to the sheets with its measures",
            Unit = card.Unit,
            Sheet = Plane.Exactly(used.Around(blockArea).Grown(Border)).OutToStep(card.Unit),
            Patterns = [],
            Items =
            [
                .. FaceInk.Draw(card, _sight, _ => true, cardIsMeant: true, withHidden: false),
                .. ink.Dimensions(),
                .. _numbers.Select(number => Text(number.Text, number.At, TextHold.Middle) with { Class = "number" }),
                .. callouts.Select(ink.Draw),
                new DrawnGroup(key) { Id = "key", Class = "key" },
                new DrawnGroup(block) { Id = "title-block", Class = "title-block" },
            ],
        };
    }

    private Callout CalloutOf(SheetUnit unit) => new(
        unit.Name, [new(unit.Number.ToString(CultureInfo.InvariantCulture), null, [])], [_index.LayersOf(unit.Pieces[0].Name).Piece]);

    private static DrawnText Text(string text, Spot at, TextHold hold) => new(text, at.ToPoint(), hold, Capital, Palette.Ink);

    private static double Width(string text) => Plane.Roughly(LetteringFont.Instance.Width(text, Capital));

    private static Area AreaOf(string number, Spot at)
    {
        var half = Width(number) / 2;
        return new(at.X - half, at.Y - TextHeight, at.X + half, at.Y + 0.1);
    }

    /// <summary>The foot of a number on a piece: where nothing but the piece is seen, nearest to its middle; null if nowhere.</summary>
    private Spot? RoomFor(string number, int layer)
    {
        var area = _sight.Shapes[layer].Area;
        var (half, room) = ((Width(number) / 2) + (2 * Air), area.Bottom - area.Top - TextHeight - (4 * Air));
        if (room < 0 || area.Right - area.Left < 2 * half)
        {
            return null;
        }

        var near = _sight.Near(area);
        for (var row = 0; row < Rows; row++)
        {
            // The middle first, then by turns above and below it.
            var share = 0.5 + ((row % 2 == 0 ? 1 : -1) * ((row + 1) / 2) / (Rows - 1.0));
            var top = area.Top + (room * share);
            var seen = _sight.Seen(layer, near, top, top + TextHeight + (4 * Air), half);
            if (seen.Count > 0)
            {
                var middle = (area.Left + area.Right) / 2;
                var (from, to) = seen.MaxBy(stretch => stretch.To - stretch.From);
                var x = seen.Any(stretch => stretch.From <= middle && middle <= stretch.To) ? middle : (from + to) / 2;
                return new(x, top + TextHeight + (2 * Air));
            }
        }

        return null;
    }

    /// <summary>The key: each sheet with what it is about and the numbers on it, in columns below the drawing.</summary>
    private (List<DrawnItem> Items, Area Area) Key(Area used, int without)
    {
        var named = _sheets.Sum(sheet => sheet.Count) <= MostNames;
        var width = used.Right - used.Left;
        var columns = Math.Max(1, (int)((width + KeyGap) / (LeastKeyWidth + KeyGap)));
        var wide = Math.Max(LeastKeyWidth, (width - (KeyGap * (columns - 1))) / columns);
        List<string> lines = [];
        for (var i = 0; i < _sheets.Count; i++)
        {
            var begin = string.Create(CultureInfo.InvariantCulture, $"sheet {i + 2}, {Shows(_sheets[i])}:");
            string[] numbers = named ? [.. _sheets[i].Select((unit, at) => unit.Numbered(unit.Name) + (at + 1 < _sheets[i].Count ? "," : ""))]
                : [string.Create(CultureInfo.InvariantCulture, $"{_sheets[i][0].Number} to {_sheets[i][^1].Number}")];
            lines.AddRange(Wrapped([begin, .. numbers], wide));
        }

        if (without > 0)
        {
            lines.AddRange(Wrapped(
                string.Create(CultureInfo.InvariantCulture, $"{without} more are hidden or too small to be numbered here; their sheets show them").Split(' '), wide));
        }

        var rows = (lines.Count + columns - 1) / columns;
        var top = used.Bottom + BlockGap;
        List<DrawnItem> items = [];
        for (var i = 0; i < lines.Count; i++)
        {
            var at = new Spot(used.Left + (i / rows * (wide + KeyGap)), top + TextHeight + (i % rows * PlainLinePitch));
            items.Add(Text(lines[i], at, TextHold.Start));
        }

        return (items, new(used.Left, top, used.Left + (columns * (wide + KeyGap)) - KeyGap, top + (rows * PlainLinePitch)));
    }

    /// <summary>Breaks a text between parts: a number stays with its name.</summary>
    private static IEnumerable<string> Wrapped(IEnumerable<string> parts, double width)
    {
        var line = "";
        foreach (var word in parts)
        {
            if (line.Length > 0 && Width($"{line} {word}") > width)
            {
                yield return line;
                line = word;
            }
            else
            {
                line = line.Length == 0 ? word : $"{line} {word}";
            }
        }

        yield return line;
    }
}
