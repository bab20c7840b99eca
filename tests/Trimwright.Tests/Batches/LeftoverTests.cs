using System.Globalization;
using System.Text;
using System.Text.Json;
using Trimwright.Batches;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

/// <summary>What is written as left over is read again and counted against what lay on the table before and what the steps of the schedule give.</summary>
public class LeftoverTests
{
    /// <summary>A kind of sheet, lengths in nanometres, as a test knows it without any reader; equal kinds are counted together.</summary>
    private sealed record Kind(long Width, long Height, string SideA, string? SideB, string? Grain, long TrueOff, string? Cost, bool IsOffcut);

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 16)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void What_was_there_is_what_was_taken_and_what_is_left_by_kind_and_by_area(int seed)
    {
        var random = new CsCheck.PCG(11, (ulong)seed);
        int Next(int most) => (int)random.Next((uint)most);
        var unit = Next(3) == 0 ? "mm" : "in";
        var priced = Next(2) == 0;
        List<(string Name, Kind Kind, int? Count)> before = [];
        var texts = new List<string>();
        void Add(string name, string sideA, string? sideB, int least, int span, int? count, bool isOffcut)
        {
            var ((width, height), size) = Next(4) switch
            {
                0 => Millimetres(25 * (least + Next(span)), 25 * (least + Next(span))),
                1 => Mixed((16 * least) + Next(16 * span), 25 * (least + Next(span))),
                _ => Sixteenths((16 * least) + Next(16 * span), (16 * least) + Next(16 * span)),
            };
            var (grain, off) = (Next(3) switch { 0 => "across", 1 => "up-and-down", _ => null }, Next(3));
            var cost = priced && !isOffcut ? $"{1 + Next(3)}.{Next(10)}5" : null;
            before.Add((name, new(width, height, sideA, sideB, grain, off * 1_587_500L, cost, isOffcut), count));
            texts.Add($$"""
                { "name": "{{name}}", "size": "{{size}}", "count": {{count?.ToString(CultureInfo.InvariantCulture) ?? "\"enough\""}},
                  {{(sideB == sideA ? $"\"paper\": \"{sideA}\"" : sideB is null ? $"\"side-a\": \"{sideA}\"" : $"\"side-a\": \"{sideA}\", \"side-b\": \"{sideB}\"")}}
                  {{(grain is null ? "" : $", \"grain\": \"{grain}\"")}}{{(off == 0 ? "" : $", \"true-off\": \"{off}/16 in\"")}}{{(cost is null ? "" : $", \"cost\": {cost}")}}{{(isOffcut ? ", \"offcut\": true" : "")}} }
                """);
        }

        Add("pad", "dots", "rows", 6, 4, 30 + Next(10), false);
        Add("one-sided", "rows", null, 6, 4, 3 + Next(5), false);
        Add("leaf-sheets", "leaf", "leaf", 8, 4, Next(2) == 0 ? null : 20, false);
        Add("kraft-sheets", "kraft", "kraft", 12, 3, null, false);
        Add("dots-offcut-1", "dots", "rows", 2, 5, 1 + Next(9), true);
        Add("strips", "rows", "rows", 1, 5, 1 + Next(9), true);
        Add("leaf-ends", "leaf", "leaf", 2, 6, 1 + Next(9), true);
        string[] papers = ["dots", "leaf", "rows"];
        var layout = $$"""
            { "title": "Any", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {}, "leaf": {}, "rows": {} },
              "pieces": [ {{string.Join(",\n", Enumerable.Range(0, 2 + Next(3)).Select(n =>
                $$"""{ "name": "p{{n}}", "kind": "panel", "paper": "{{papers[Next(3)]}}", "width": "{{16 + Next(44)}}/16", "height": "{{16 + Next(60)}}/16", "place": { "center": "both" }{{(Next(3) == 0 ? ", \"mats\": [ { \"paper\": \"leaf\", \"reveal\": \"1/8\" } ]" : "")}} }"""))}} ] }
            """;
        const string paperText = """{ "kraft": { "grammage": 216.5 }, "dots": { "kind": "patterned", "tone": "#aabbcc", "one-way": true }, "leaf": { "caliper": "0.012 in" }, "rows": { "caliper": "0.3 mm" } }""";
        var schedule = BatchMaker.Schedule($$"""
            { "title": "Any", "units": "{{unit}}", "papers": {{paperText}},
              "salvage": "{{new[] { "always", "never" }[Next(2)]}}", "stock": [ {{string.Join(",\n", texts)}} ],
              "cards": [ { "layout": "card.json", "count": {{1 + Next(5)}}, "cut-from": { "dots": [ "dots", "rows" ] } } ] }
            """, layout);

        var written = BatchJson.WriteLeftovers(schedule);
        var read = Again(written);
        Assert.Equal(read.Stock.Count, read.Stock.Select(sheet => sheet.Name).Distinct().Count());

        // By count, kind by kind. What comes off is taken from the steps, which a replay has followed; the schedule's own list of leftovers is not asked.
        var expected = new SortedDictionary<string, long?>(StringComparer.Ordinal);
        void Count(Kind kind, long? count) => expected[kind.ToString()] = expected.TryGetValue(kind.ToString(), out var known) ? known + count : count;
        foreach (var (name, kind, count) in before)
        {
            Count(kind, count - schedule.Sheets.Where(sheet => sheet.Words == name).Sum(sheet => sheet.Plan.Repeats));
        }

        var yields = schedule.Steps.SelectMany(step => new[] { step.Held, step.ComesOff }.Where(yield => yield is not null).Select(yield => (step.Sheet, Yield: yield!))).ToList();
        foreach (var (letter, yield) in yields.Where(entry => entry.Yield.Kind == YieldKind.Offcut))
        {
            var sheet = schedule.Sheets.Single(sheet => sheet.Letter == letter);
            var from = before.Find(entry => entry.Name == sheet.Words).Kind;
            Count(
                from is null
                    ? new(yield.Width.Nanometres, yield.Height.Nanometres, sheet.Window!.Paper, null, null, 0, null, true)
                    : new(yield.Width.Nanometres, yield.Height.Nanometres, from.SideA, from.SideB, from.Grain, 0, null, true),
                yield.Count);
        }

        var found = read.Stock.GroupBy(Of).ToDictionary(group => group.Key.ToString(), group => group.Any(sheet => sheet.Count is null) ? null : group.Sum(sheet => (long?)sheet.Count));
        Assert.Equal(expected.Where(entry => entry.Value != 0), new SortedDictionary<string, long?>(found, StringComparer.Ordinal));

        // By area: what was there is what is left, the pieces, and the scrap. A window gives the middle of a mat a second time.
        Int128 Area(long width, long height, long count) => (Int128)width * height * count;
        Int128 Sum(IEnumerable<Int128> areas) => areas.Aggregate(Int128.Zero, (sum, area) => sum + area);
        var was = Sum(before.Select(entry => Area(
            entry.Kind.Width, entry.Kind.Height, entry.Count ?? schedule.Sheets.Where(sheet => sheet.Words == entry.Name).Sum(sheet => sheet.Plan.Repeats))));
        var windows = Sum(schedule.Plan.Salvage.Select(window => Area(window.Width.Nanometres, window.Height.Nanometres, window.Used)));
        var isLeft = Sum(read.Stock.Where(sheet => sheet.Count is not null).Select(sheet => Area(sheet.Width.Nanometres, sheet.Height.Nanometres, sheet.Count!.Value)));
        var scrap = Sum(yields.Where(entry => entry.Yield.Kind == YieldKind.Sliver).Select(entry => Area(entry.Yield.Width.Nanometres, entry.Yield.Height.Nanometres, entry.Yield.Count)));
        var pieces = Sum(schedule.Plan.Cards.SelectMany(made => made.Card.Parts.Select(part => Area(part.Width.Nanometres, part.Height.Nanometres, (long)made.Count * part.Line.Count))));
        Assert.Equal(was + windows, isLeft + scrap + pieces);

        // The papers are those that were described.
        using var described = JsonDocument.Parse(paperText);
        Assert.All(read.Papers, paper =>
        {
            var said = described.RootElement.GetProperty(paper.Name);
            Assert.Equal(said.TryGetProperty("one-way", out _), paper.OneWay);
            Assert.Equal(said.TryGetProperty("kind", out _), paper.Kind == PaperKind.Patterned);
            Assert.Equal(said.TryGetProperty("tone", out var tone) ? tone.GetString() : "#ffffff", paper.Colour.ToString());
            Assert.Equal(said.TryGetProperty("grammage", out _) ? Rational.From(433, 2) : null, paper.Grammage);
            Assert.Equal(paper.Name switch { "leaf" => 304_800, "rows" => 300_000, _ => null }, paper.Caliper?.Nanometres);
        });
    }

    [Fact]
    public void Sheets_that_were_not_touched_are_told_beside_the_new_offcuts_and_all_are_written()
    {
        // By hand: 17 fronts take 17 sheets of 18; the tenth strip lies where it lay, and one base of two comes off each sheet of kraft.
        var schedule = BatchMaker.Schedule(BatchMaker.Text(
            """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots", "cost": 0.35 }, { "name": "strips", "size": "1 x 6", "count": 10, "paper": "dots", "offcut": true }, { "name": "kraft-sheets", "size": "8 1/2 x 11", "count": 9, "paper": "kraft", "cost": 0.5 }""",
            """{ "layout": "card.json", "count": 17 }"""));
        Assert.Equal(["1 of 8 1/2 x 5 1/2 in, kraft", "17 of 2 x 6 in, dots"], ScheduleText.Leftovers(schedule));
        Assert.Equal(["1 of pad, 6 x 6 in", "10 of strips, 1 x 6 in"], StockText.Untouched(schedule));
        Assert.Contains("\n## Not touched\n\n- 1 of pad, 6 x 6 in\n- 10 of strips, 1 x 6 in\n", ScheduleSheet.Write(schedule), StringComparison.Ordinal);
        Assert.Equal(
            ["pad 1 0.35", "strips 10 offcut", "kraft-offcut-1 1 offcut", "dots-offcut-1 17 offcut"],
            Again(BatchJson.WriteLeftovers(schedule)).Stock.Select(sheet =>
                FormattableString.Invariant($"{sheet.Name} {sheet.Count} {(sheet.IsOffcut ? "offcut" : LengthText.WriteDecimal(sheet.Cost!.Value, 2))}")));
    }

    [Fact]
    public void What_is_left_of_what_was_left_has_names_of_its_own_and_like_offcuts_are_counted_together()
    {
        // By hand: each front of 4 x 5 1/4 in leaves a strip of 2 x 6 in of its sheet; three were there already.
        const string stock = """{ "name": "pad", "size": "6 x 6", "count": 4, "paper": "dots" }, { "name": "dots-offcut-1", "size": "2 x 6", "count": 3, "paper": "dots", "offcut": true }, { "name": "dots-offcut-2", "size": "1 x 3", "count": 1, "paper": "kraft", "offcut": true }, """ + BatchMaker.Kraft;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, """{ "layout": "card.json", "count": 2 }"""));
        Assert.Equal("dots-offcut-3", Assert.Single(LeftoverStock.Of(schedule)).Name);
        Assert.Equal(
            ["pad 2", "dots-offcut-1 5", "dots-offcut-2 1", "kraft-sheets "],
            Again(BatchJson.WriteLeftovers(schedule)).Stock.Select(sheet => FormattableString.Invariant($"{sheet.Name} {sheet.Count}")));
    }

    [Fact]
    public void More_than_a_file_may_say_of_one_kind_are_written_as_several()
    {
        // By hand: a sheet of 6 x 6 in gives one front and leaves one strip, whatever the count.
        var cards = string.Join(", ", Enumerable.Repeat("""{ "layout": "card.json", "count": 10000 }""", 11));
        var (plan, _) = BatchMaker.Try(BatchMaker.Text("""{ "name": "pad", "size": "6 x 6", "count": "enough", "paper": "dots" }, """ + BatchMaker.Kraft, cards));
        Assert.Equal(
            ["pad ", "kraft-sheets ", "dots-offcut-1 100000", "dots-offcut-1-2 10000"],
            Again(BatchJson.WriteLeftovers(TrimSchedule.FromPlan(plan!))).Stock.Select(sheet => FormattableString.Invariant($"{sheet.Name} {sheet.Count}")));
    }

    [Fact]
    public void A_paper_with_the_longest_name_leaves_offcuts_whose_names_can_be_read()
    {
        var paper = "d" + new string('o', 59);
        var stock = $$"""{ "name": "{{paper}}", "size": "6 x 6", "count": 2, "paper": "{{paper}}" }, """ + BatchMaker.Kraft;
        var text = BatchMaker.Text(stock, """{ "layout": "card.json", "count": 2 }""").Replace("\"dots\"", $"\"{paper}\"", StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(text, BatchMaker.Front.Replace("dots", paper, StringComparison.Ordinal));
        Assert.Equal(2, Again(BatchJson.WriteLeftovers(schedule)).Stock[^1].Count);
    }

    private static Kind Of(StockSheet sheet) => new(
        sheet.Width.Nanometres, sheet.Height.Nanometres, sheet.SideA, sheet.SideB, sheet.Grain is { } grain ? (grain == Axis.Across ? "across" : "up-and-down") : null,
        sheet.TrueOff.Nanometres, sheet.Cost is { } cost ? LengthText.WriteDecimal(cost, 2) : null, sheet.IsOffcut);

    private static ((long Width, long Height) Nanometres, string Text) Sixteenths(int width, int height) => ((width * 1_587_500L, height * 1_587_500L), $"{width}/16 x {height}/16 in");

    private static ((long Width, long Height) Nanometres, string Text) Millimetres(int width, int height) => ((width * 1_000_000L, height * 1_000_000L), $"{width} x {height} mm");

    private static ((long Width, long Height) Nanometres, string Text) Mixed(int sixteenths, int millimetres) => ((sixteenths * 1_587_500L, millimetres * 1_000_000L), $"{sixteenths}/16 in x {millimetres} mm");

    /// <summary>The stock of a batch that has none but what is left over.</summary>
    private static Batch Again(string left)
    {
        (string, byte[])? Open(string name) => (name, Encoding.UTF8.GetBytes(left));
        var reading = BatchReader.Read(
            "next.json", """{ "title": "Next", "units": "in", "stock-from": [ "left-over.json" ], "cards": [ { "layout": "card.json", "count": 1 } ] }"""u8.ToArray(), Open);
        Assert.True(reading.Batch is not null && reading.Diagnostics.Count == 0, Sample.Lines(reading.Diagnostics));
        return reading.Batch;
    }
}
