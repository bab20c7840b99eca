using Trimwright.Drawing;
using Trimwright.Measures;
using Trimwright.Tests.Batches;
using Trimwright.Tests.Worksheets;
using Trimwright.Worksheets;

namespace Trimwright.Tests.Drawing;

/// <summary>Maps of sheets, by themselves and on worksheets: the numbers of cuts and the words of pieces do not lie on one another.</summary>
public class SheetMapTests
{
    private sealed record Ring(double X, double Y, double Radius, string Number);

    public static TheoryData<string> Batches => [.. Repository.BatchNames(), "windows", "many kinds", "large sheets", "millimetres"];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Rings_lie_neither_on_one_another_nor_on_words(string name)
    {
        var schedule = BatchSamples.Schedule(name);
        var maps = schedule.Sheets.Select(sheet => SheetMapDrawing.Draw(schedule, sheet))
            .Concat(BatchWorksheet.Make(schedule, PaperSize.Letter).Sections.SelectMany(section => section.Parts).OfType<WorksheetFigures>()
                .SelectMany(figures => figures.Figures).Select(figure => figure.Drawing))
            .Where(map => map.Items.OfType<DrawnGroup>().Any(group => group.Id == "numbers")).ToList();
        var faults = new List<string>();
        var count = 0;
        foreach (var map in maps)
        {
            var rings = Rings(map);
            count += rings.Count;
            for (var i = 0; i < rings.Count; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    var apart = Math.Sqrt(Square(rings[i].X - rings[j].X) + Square(rings[i].Y - rings[j].Y));
                    if (apart < rings[i].Radius + rings[j].Radius)
                    {
                        faults.Add(FormattableString.Invariant($"{map.Title}: rings {rings[i].Number} and {rings[j].Number} are {apart:0.00} mm apart"));
                    }
                }

                faults.AddRange(Words(map).Where(word => Meets(rings[i], word)).Select(word => $"{map.Title}: ring {rings[i].Number} lies on `{word.Text}`"));
            }
        }

        Assert.True(count > 1);
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    // By hand: thirty strips, each of another length and too narrow for its words, come out of one sheet.
    [Fact]
    public void No_two_lines_of_the_key_begin_alike_however_many_pieces_are_small()
    {
        var layout = $$"""
            { "title": "Pegs", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
              "pieces": [ {{string.Join(", ", Enumerable.Range(0, 30).Select(n =>
                  $$"""{ "name": "peg-{{n}}", "kind": "panel", "paper": "dots", "width": "exactly 3/16", "height": "exactly {{16 + n}}/16", "place": { "center": "both" } }"""))}} ] }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text("""{ "name": "pad", "size": "6 x 6", "count": 1, "paper": "dots" }, """ + BatchMaker.Kraft, """{ "layout": "card.json", "count": 1 }"""), layout);
        var map = SheetMapDrawing.Draw(schedule, schedule.Sheets.Single(sheet => sheet.FaceUp == "dots"));
        var signs = map.Items.OfType<DrawnText>().Select(line => line.Text.Split(": ")).Where(line => line.Length == 2 && line[1].StartsWith("peg-", StringComparison.Ordinal))
            .Select(line => line[0]).ToList();
        Assert.Equal(30, signs.Count);
        Assert.Equal(30, signs.Distinct().Count());
        Assert.Equal(signs.Order(StringComparer.Ordinal), Words(map).Select(word => word.Text).Where(signs.Contains).Order(StringComparer.Ordinal));
    }

    private static double Square(double value) => value * value;

    private static List<Ring> Rings(DrawingList map)
    {
        var items = map.Items.OfType<DrawnGroup>().Single(group => group.Id == "numbers").Items;
        return [.. items.OfType<DrawnOutline>().Zip(items.OfType<DrawnText>()).Select(pair =>
        {
            var box = pair.First.Outline.Bounds;
            var (left, right, top) = (Millimetres(box.Left), Millimetres(box.Right), Millimetres(box.Top));
            return new Ring((left + right) / 2, top + ((right - left) / 2), (right - left) / 2, pair.Second.Text);
        })];
    }

    private static IEnumerable<DrawnText> Words(DrawingList map) => map.Items.OfType<DrawnGroup>().Single(group => group.Id == "names").Items.OfType<DrawnText>();

    // A line of words is at least four tenths as wide as it is high, a letter each; the middle of its foot is its place.
    private static bool Meets(Ring ring, DrawnText word)
    {
        var (x, y, height) = (Millimetres(word.At.X), Millimetres(word.At.Y), (double)word.CapHeight.Nanometres / Length.NanometresPerMillimetre);
        var half = 0.2 * height * word.Text.Length;
        var (dx, dy) = word.Upwards
            ? (Outside(ring.X, x - height, x), Outside(ring.Y, y - half, y + half))
            : (Outside(ring.X, x - half, x + half), Outside(ring.Y, y - height, y));
        return Square(dx) + Square(dy) < Square(ring.Radius);
    }

    private static double Outside(double value, double least, double most) => Math.Max(0, Math.Max(least - value, value - most));

    private static double Millimetres(Position position) => (double)position.Nanometres.Numerator / (double)position.Nanometres.Denominator / Length.NanometresPerMillimetre;
}
