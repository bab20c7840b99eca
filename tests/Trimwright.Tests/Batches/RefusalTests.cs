using System.Text;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

public class RefusalTests
{
    private const string Pad = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft;

    [Fact]
    public void All_that_is_wrong_with_a_file_is_told_at_once_with_its_place()
    {
        const string text = """
            {
              "title": "Seed-swap day", "units": "in",
              "papers": { "kraft": {}, "dots": {} },
              "stock": [
                { "name": "pad", "size": "6 x", "count": 18, "paper": "dots" },
                { "name": "pad", "size": "6 x 6", "count": 0, "paper": "dts" },
                { "name": "card-stock", "size": "8 x 10", "count": "lots" },
                { "name": "strips", "size": "2 x 11", "count": 4, "paper": "kraft", "side-b": "dots", "true-off": "1", "offcuts": true }
              ],
              "cards": [
                { "layout": "", "count": 100000 },
                { "layout": "card.json", "count": 2, "cut-from": { "dots": 3 }, "format": "A99" }
              ],
              "salvage": "perhaps"
            }
            """;
        var found = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text)).Diagnostics;
        Assert.Equal(
            [
                "E0111 5:", "E0207 6:15", "E0603 6:48", "E0208 6:60", "E0605 7:", "E0109 7:", "E0212 8:", "E0604 8:", "E0107 8:",
                "E0607 11:17", "E0603 11:30", "E0109 12:", "E0204 12:", "E0110 14:14",
            ],
            new[]
            {
                "E0111 5:", "E0207 6:15", "E0603 6:48", "E0208 6:60", "E0605 7:", "E0109 7:", "E0212 8:", "E0604 8:", "E0107 8:", "E0607 11:17",
                "E0603 11:30", "E0109 12:", "E0204 12:", "E0110 14:14",
            }.Where(told => found.Any(diagnostic => $"{diagnostic.Code} {diagnostic.Place.Line}:{diagnostic.Place.Column}".StartsWith(told, StringComparison.Ordinal))));
        Assert.True(found.Count == 14, Sample.Lines(found));
        Assert.Equal(found.OrderBy(diagnostic => diagnostic.Place.Line).Select(diagnostic => diagnostic.Code), found.Select(diagnostic => diagnostic.Code));
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{ \"title\": 3 }")]
    [InlineData("{ \"stock\": {}, \"cards\": 7, \"papers\": [], \"stock-from\": \"x\" }")]
    [InlineData("{ \"stock\": [ 3, [], null ], \"cards\": [ \"a\" ], \"papers\": { \"x\": 1 } }")]
    public void Nonsense_is_refused_and_never_an_exception(string text)
    {
        var reading = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text));
        Assert.Null(reading.Batch);
        Assert.True(reading.Diagnostics.HasErrors());
    }

    [Fact]
    public void A_piece_larger_than_every_sheet_is_named_with_the_sheet_that_would_do()
    {
        var found = BatchMaker.Refused(BatchMaker.Text("""{ "name": "pad", "size": "3 x 6", "count": 18, "paper": "dots", "true-off": "1/8" }, """ + BatchMaker.Kraft));
        Assert.Equal("E0621", found.Code);
        Assert.Contains("the front of `card.json`, 4 x 5 1/4 in", found.Message, StringComparison.Ordinal);
        Assert.Contains("4 1/4 x 5 1/2 in", found.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Paper_that_is_not_in_stock_is_named_with_what_may_have_been_meant()
    {
        var found = BatchMaker.Refused(BatchMaker.Text(Pad, papers: "").Replace("dots", "dot", StringComparison.Ordinal));
        Assert.Equal("E0612", found.Code);
        Assert.Contains("`dots`", found.Message, StringComparison.Ordinal);
        Assert.Contains("\"cut-from\": { \"dots\": \"dot\" }", found.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_hundred_thousand_cards_are_refused_and_ten_thousand_are_planned()
    {
        Assert.Equal("E0603", BatchMaker.Refused(BatchMaker.Text(Pad, """{ "layout": "card.json", "count": 100000 }""")).Code);
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad.Replace("18", "\"enough\"", StringComparison.Ordinal), """{ "layout": "card.json", "count": 10000 }"""));
        Assert.Equal(15_000, schedule.Sheets.Sum(sheet => sheet.Plan.Repeats));
    }

    [Theory]
    [InlineData("\"count\": 18", "\"count\": 0", "E0603")]
    [InlineData("\"count\": 18", "\"count\": -3", "E0603")]
    [InlineData("\"6 x 6\"", "\"0 x 6\"", "E0111")]
    [InlineData(", \"paper\": \"dots\"", "", "E0605")]
    [InlineData("\"paper\": \"dots\"", "\"side-b\": \"dots\"", "E0605")]
    [InlineData("\"paper\": \"dots\"", "\"side-a\": \"dost\"", "E0208")]
    public void Stock_that_cannot_be_is_refused(string good, string broken, string code)
    {
        var text = BatchMaker.Text(Pad).Replace(good, broken, StringComparison.Ordinal);
        Assert.Equal(code, BatchMaker.Refused(text).Code);
    }

    [Fact]
    public void A_drawer_that_can_hold_nothing_is_told_plainly()
    {
        var drawer = Drawer.Default with { SmallestPiece = Length.FromInches(20) };
        var (plan, found) = BatchMaker.Try(BatchMaker.Text(Pad), drawer: drawer);
        Assert.Null(plan);
        Assert.Contains(found, diagnostic => diagnostic.Code == "E0622" && diagnostic.Message.Contains("the front", StringComparison.Ordinal));
        Assert.Contains(found, diagnostic => diagnostic.Code == "E0622" && diagnostic.Message.Contains("the card base", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("100", "1/8", "5 1/4", "1/8", "make `smallest-piece` in the drawer at most 5 1/4 in, if")]
    [InlineData("1/2", "100", "1/2", "3/4", "make `thinnest-shaving` in the drawer at most 3/4 in, if")]
    [InlineData("100", "100", "5 1/4", "3/4", "make `smallest-piece` in the drawer at most 5 1/4 in and `thinnest-shaving` in the drawer at most 3/4 in, if")]
    public void What_a_drawer_would_have_to_hold_is_told_and_works(string piece, string shaving, string mendedPiece, string mendedShaving, string remedy)
    {
        // By hand: a front of 4 x 5 1/4 in out of 6 x 6 in is cut across 6 in first and then across 4 in or 5 1/4 in, as the order is. The shavings are 2 in
        // and 3/4 in. The base is a sheet of its own and not cut at all.
        const string stock = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, { "name": "bases", "size": "8 1/2 x 5 1/2", "count": 2, "paper": "kraft" }""";
        Drawer Of(string held, string shaved) => DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes($$"""{ "units": "in", "smallest-piece": "{{held}}", "thinnest-shaving": "{{shaved}}" }""")).Drawer!;
        var told = BatchMaker.Refused(BatchMaker.Text(stock), drawer: Of(piece, shaving));
        Assert.Equal("E0622", told.Code);
        Assert.Contains(remedy, told.Remedy, StringComparison.Ordinal);
        BatchMaker.Schedule(BatchMaker.Text(stock), drawer: Of(mendedPiece, mendedShaving));
    }

    [Theory]
    [InlineData("\"grain\": \"across\"", "5 1/2 x 8 1/2 in, with the grain across,", "\"size\": \"5 1/2 x 8 1/2\", \"grain\": \"across\"")]
    [InlineData("\"grain\": \"up-and-down\"", "8 1/2 x 5 1/2 in, with the grain up and down,", "\"size\": \"8 1/2 x 5 1/2\", \"grain\": \"up-and-down\"")]
    [InlineData("\"offcut\": false", "8 1/2 x 5 1/2 in to", "\"size\": \"8 1/2 x 5 1/2\"")]
    public void The_sheet_that_would_do_for_a_base_is_named_with_its_grain_and_does(string grain, string remedy, string mended)
    {
        string Stock(string more) => $$"""{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, { "name": "ends", "size": "5 x 5", "count": 2, "paper": "kraft", {{grain}} }{{more}}""";
        var told = BatchMaker.Refused(BatchMaker.Text(Stock("")));
        Assert.Equal("E0621", told.Code);
        Assert.Contains(remedy, told.Remedy, StringComparison.Ordinal);
        BatchMaker.Schedule(BatchMaker.Text(Stock($$""", { "name": "more", {{mended}}, "count": 2, "paper": "kraft" }""")));
    }

    [Fact]
    public void A_sheet_longer_than_any_trimmer_is_refused_with_its_place()
    {
        var told = BatchMaker.Refused(BatchMaker.Text(Pad.Replace("6 x 6", "150 x 150", StringComparison.Ordinal)));
        Assert.Equal(("E0615", 3), (told.Code, told.Place.Line));
    }

    [Fact]
    public void A_least_offcut_larger_than_every_sheet_only_keeps_nothing()
    {
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad, head: "\"least-offcut\": \"100 x 100\","));
        Assert.Empty(LeftoverStock.Of(schedule));
    }

    [Fact]
    public void As_many_as_possible_ends_at_the_most_that_one_entry_can_have()
    {
        var stock = Pad.Replace("\"count\": 18", "\"count\": 100000", StringComparison.Ordinal);
        var (plan, _) = BatchMaker.Try(BatchMaker.Text(stock, """{ "layout": "card.json", "count": "as-many-as-possible" }"""));
        Assert.Equal(10_000, plan!.Cards[0].Count);
        Assert.Contains(ScheduleText.Summary(TrimSchedule.FromPlan(plan)), line => line.Contains("can have no more", StringComparison.Ordinal));
    }

    [Fact]
    public void A_part_that_can_never_be_cut_is_told_before_as_many_as_possible_of_another_card_is_worked_out()
    {
        const string cards = """{ "layout": "card.json", "count": "as-many-as-possible" }, { "layout": "card.json", "format": "A7", "count": "as-many-as-possible" }""";
        var (plan, found) = BatchMaker.Try(BatchMaker.Text("""{ "name": "pad", "size": "5 x 5 1/2", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft, cards));
        Assert.Null(plan);
        Assert.Equal("E0621", Assert.Single(found).Code);
    }

    [Fact]
    public void Too_many_kinds_of_sheets_are_refused()
    {
        var kinds = string.Join(", ", Enumerable.Range(0, 501).Select(n => $$"""{ "name": "s{{n}}", "size": "6 x 6", "count": 1, "paper": "dots" }"""));
        Assert.Equal("E0602", BatchMaker.Refused(BatchMaker.Text(kinds)).Code);
        var cards = string.Join(", ", Enumerable.Repeat("""{ "layout": "card.json", "count": 1 }""", 201));
        Assert.Equal("E0602", BatchMaker.Refused(BatchMaker.Text(Pad, cards)).Code);
    }

    [Fact]
    public void More_than_a_million_pieces_are_refused()
    {
        const string layout = """
            { "title": "Row", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
              "pieces": [ { "row": "seeds", "runs": "across", "copies": 7, "gap": 0, "of": { "kind": "panel", "width": "1/2", "height": 1, "paper": "dots" }, "place": { "center": "both" } } ] }
            """;
        var cards = string.Join(", ", Enumerable.Repeat("""{ "layout": "card.json", "count": 10000 }""", 13));
        var (plan, found) = BatchMaker.Try(BatchMaker.Text(Pad, cards), layout);
        Assert.Null(plan);
        Assert.NotEmpty(found);
        Assert.All(found, diagnostic => Assert.Equal("E0623", diagnostic.Code));
    }

    [Fact]
    public void What_is_wrong_in_a_stock_file_is_told_with_the_place_in_that_file()
    {
        const string left = """
            { "title": "Left over", "units": "in", "papers": { "dots": {} },
              "stock": [
                { "name": "strips", "size": "2 x 6", "count": 0, "paper": "dots", "offcut": true } ] }
            """;
        (string, byte[])? Open(string name) => name == "left.json" ? ("old/left.json", Encoding.UTF8.GetBytes(left)) : null;
        var text = BatchMaker.Text(Pad, head: "\"stock-from\": [ \"left.json\", \"lost.json\" ],");
        var found = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text), Open).Diagnostics;
        Assert.Equal(["E0603", "E0609"], found.Select(diagnostic => diagnostic.Code).Order(StringComparer.Ordinal));
        var inside = found.Single(diagnostic => diagnostic.Code == "E0603");
        Assert.Equal(("old/left.json", 3), (inside.Place.File, inside.Place.Line));
    }

    [Fact]
    public void Stock_files_with_sheets_of_one_name_are_told_apart()
    {
        const string left = """
            { "title": "Left over", "units": "mm", "papers": { "dots": {} },
              "stock": [ { "name": "pad", "size": "150 x 150", "count": 2, "paper": "dots", "offcut": true } ] }
            """;
        (string, byte[])? Open(string name) => (name, Encoding.UTF8.GetBytes(left));
        var batch = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(BatchMaker.Text(Pad, head: "\"stock-from\": [ \"a.json\", \"b.json\" ],")), Open).Batch!;
        Assert.Equal(["pad", "kraft-sheets", "pad-2", "pad-3"], batch.Stock.Select(sheet => sheet.Name));
        Assert.Equal(Length.FromMillimetres(150), batch.Stock[2].Width);
    }

    [Fact]
    public void A_cancelled_batch_keeps_what_was_found()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var plan = BatchPlanner.Plan(Fitted("""{ "layout": "card.json", "count": 5 }"""), null, source.Token).Plan!;
        Assert.True(plan.IsStoppedEarly);
        Assert.StartsWith("stopped early", ScheduleText.Summary(BatchMaker.Followed(plan))[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(8)]
    [InlineData(11)]
    [InlineData(14)]
    public void As_many_as_possible_keeps_the_most_that_was_found_when_it_is_cancelled(int reports)
    {
        // By hand: eighteen sheets give eighteen fronts. The count is doubled and then halved, with a few reports for each, so it stops on the way.
        using var source = new CancellationTokenSource();
        var told = 0;
        var options = new CuttingOptions
        {
            Progress = _ =>
            {
                if (++told == reports)
                {
                    source.Cancel();
                }
            },
        };
        var plan = BatchPlanner.Plan(Fitted("""{ "layout": "card.json", "count": "as-many-as-possible" }"""), options, source.Token).Plan!;
        Assert.True(plan.IsStoppedEarly);
        Assert.InRange(plan.Cards[0].Count, 1, 18);
        Assert.Empty(plan.Stops);
        BatchMaker.Followed(plan);
    }

    [Fact]
    public void That_the_stock_runs_out_is_not_said_of_a_search_that_was_ended_before_it_found_a_card()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => BatchPlanner.Plan(Fitted("""{ "layout": "card.json", "count": "as-many-as-possible" }"""), null, source.Token));
    }

    private static FittedBatch Fitted(string cards)
    {
        var reading = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(BatchMaker.Text(Pad, cards)));
        return BatchFitter.Fit(reading.Batch!, Drawer.Default, name => (name, Encoding.UTF8.GetBytes(BatchMaker.Front))).Batch!;
    }
}
