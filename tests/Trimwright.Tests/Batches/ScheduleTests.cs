using System.Text;
using System.Text.Json;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Drawing;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

public class ScheduleTests
{
    private static string Pad(int count, string more = "") =>
        $$"""{ "name": "pad", "size": "6 x 6", "count": {{count}}, "paper": "dots"{{more}} }, {{BatchMaker.Kraft}}""";

    private static string Cards(string count) => $$"""{ "layout": "card.json", "count": {{count}} }""";

    // A front leaves a strip of 2 x 6 in and not one of 6 x 3/4 (common practice, no source).
    [Fact]
    public void Seventeen_fronts_come_out_of_eighteen_sheets_one_a_sheet_and_leave_their_strips()
    {
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad(18), Cards("17")));
        var pad = Assert.Single(schedule.Sheets, sheet => sheet.Words == "pad");
        Assert.Equal(17, pad.Plan.Repeats);
        var strips = Assert.Single(LeftoverStock.Of(schedule), stock => stock.SideA == "dots");
        Assert.Equal((17, Length.FromInches(2), Length.FromInches(6)), (strips.Count, strips.Width, strips.Height));
        Assert.Contains("17 of 2 x 6 in, dots", ScheduleText.Leftovers(schedule));
        Assert.Contains("pad: 17 sheets; no plan uses fewer", ScheduleText.Summary(schedule));
    }

    [Fact]
    public void As_many_as_possible_stops_when_the_pad_runs_out_and_says_so()
    {
        // By hand: no two fronts fit one sheet, so eighteen sheets give eighteen.
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad(18), Cards("\"as-many-as-possible\"")));
        Assert.Equal(18, schedule.Plan.Cards[0].Count);
        var stop = Assert.Single(schedule.Plan.Stops);
        Assert.True(stop.IsProved);
        Assert.Equal("front", Assert.Single(stop.Parts).Line.Name);
        Assert.Contains(ScheduleText.Summary(schedule), line => line.Contains("the 4 x 5 1/4 in front in dots would run out with one more", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(1, 2)]
    [InlineData(3, 6)]
    [InlineData(7, 14)]
    public void As_many_as_possible_is_two_bases_a_sheet(int sheets, int cards)
    {
        // By hand: a sheet of 8 1/2 x 11 in is two blanks of 8 1/2 x 5 1/2 in, with nothing left.
        var stock = $$"""
            { "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, { "name": "kraft-sheets", "size": "8 1/2 x 11", "count": {{sheets}}, "paper": "kraft" }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("\"as-many-as-possible\"")));
        Assert.Equal(cards, schedule.Plan.Cards[0].Count);
        Assert.Equal("card base", Assert.Single(Assert.Single(schedule.Plan.Stops).Parts).Line.Name);
    }

    [Theory]
    [InlineData(1, 1, 0, 12)]
    [InlineData(3, 1, 6, 0)]
    public void The_mix_that_is_worth_most_is_made(int worthOfFront, int worthOfHalf, int fronts, int halves)
    {
        // By hand: a sheet of 6 x 6 in is one front of 4 x 5 1/4 in, or two halves of 3 x 5 1/4 in; no half fits beside a front. With six sheets, halves
        // are twice as many cards, unless a front is worth three of them.
        var half = BatchMaker.Front.Replace("\"place\": { \"fill\": true }", "\"width\": 3, \"height\": \"5 1/4\", \"place\": { \"center\": \"both\" }", StringComparison.Ordinal);
        (string, byte[])? Open(string name) => (name, Encoding.UTF8.GetBytes(name == "half.json" ? half.Replace("\"Front\"", "\"Half\"", StringComparison.Ordinal) : BatchMaker.Front));
        var cards = $$"""
            { "layout": "card.json", "count": "as-many-as-possible", "worth": {{worthOfFront}} }, { "layout": "half.json", "count": "as-many-as-possible", "worth": {{worthOfHalf}} }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad(6), cards), open: Open);
        Assert.Equal([fronts, halves], schedule.Plan.Cards.Select(made => made.Count));
        Assert.True(schedule.Plan.IsBestMix);
    }

    [Fact]
    public void Cards_of_one_name_are_told_apart_and_papers_that_stand_in_are_used()
    {
        var stock = $$"""{ "name": "pad", "size": "6 x 6", "count": 3, "paper": "dots" }, { "name": "rows-pad", "size": "6 x 6", "count": 4, "paper": "rows" }, {{BatchMaker.Kraft}}""";
        const string cards = """
            { "layout": "card.json", "count": 2 }, { "layout": "card.json", "count": 2, "cut-from": { "dots": "rows" } }, { "layout": "card.json", "count": 3, "cut-from": { "dots": [ "rows", "dots" ] } }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, cards, ", \"rows\": {}"));
        Assert.Equal(["Front, A2 portrait", "Front, A2 portrait (2)", "Front, A2 portrait (3)"], schedule.Plan.Cards.Select(made => made.Card.Words));
        Assert.Equal(7, schedule.Sheets.Where(sheet => sheet.Words.EndsWith("pad", StringComparison.Ordinal)).Sum(sheet => sheet.Plan.Repeats));
    }

    [Fact]
    public void A_sheet_spent_from_one_side_is_spent_on_the_other()
    {
        const string layout = """
            { "title": "Two", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {}, "rows": {} },
              "pieces": [
                { "name": "front", "kind": "panel", "paper": "dots", "place": { "fill": true } },
                { "name": "lining", "kind": "panel", "paper": "rows", "width": "3 7/8", "height": "5 1/8", "place": { "center": "both" } } ] }
            """;
        var stock = $$"""{ "name": "pad", "size": "6 x 6", "count": 5, "side-a": "dots", "side-b": "rows" }, {{BatchMaker.Kraft}}""";
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("\"as-many-as-possible\""), ", \"rows\": {}"), layout);

        // By hand: five sheets give five pieces of that size, from whichever side; a card takes two.
        Assert.Equal(2, schedule.Plan.Cards[0].Count);
        Assert.Contains(schedule.Steps, step => step.Held.Names.Any(name => name.EndsWith("in rows", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_pattern_with_a_top_is_not_turned_and_one_without_is()
    {
        const string stock = """{ "name": "strips", "size": "5 1/4 x 4", "count": 3, "paper": "dots" }, """ + BatchMaker.Kraft;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("3")));
        Assert.All(schedule.Sheets.Single(sheet => sheet.Words == "strips").Plan.Root.Walk().OfType<CutPiece>(), piece => Assert.True(piece.Turned));
        Assert.Equal("E0621", BatchMaker.Refused(BatchMaker.Text(stock, Cards("3")).Replace("\"dots\": {}", "\"dots\": { \"one-way\": true }", StringComparison.Ordinal)).Code);
    }

    [Theory]
    [InlineData("up-and-down", "8 1/2 x 11", 6)]
    [InlineData("across", "11 x 8 1/2", 6)]
    [InlineData("across", "8 1/2 x 11", 12)]
    public void Bases_are_folded_along_the_grain(string grain, string size, int sheets)
    {
        // By hand: blanks of 8 1/2 x 5 1/2 in are folded along their 5 1/2 in; with the grain along 11 in two lie one above the other, and with the
        // grain along 8 1/2 in a blank would need 8 1/2 in across a grain of 8 1/2: one fits.
        var stock = $$"""{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, { "name": "kraft-sheets", "size": "{{size}}", "count": 20, "paper": "kraft", "grain": "{{grain}}" }""";
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("12")));
        Assert.Equal(sheets, schedule.Sheets.Where(sheet => sheet.Words == "kraft-sheets").Sum(sheet => sheet.Plan.Repeats));
    }

    [Theory]
    [InlineData("\"grain\": \"up-and-down\"", "\"count\": 1")]
    [InlineData("\"grain\": \"up-and-down\"", "\"grain\": \"across\", \"count\": 1")]
    [InlineData("\"offcut\": false", "\"grain\": \"across\", \"count\": 1")]
    public void A_base_lies_its_own_way_on_each_sheet(string tall, string wide)
    {
        // By hand: blanks of 8 1/2 x 5 1/2 in. Two lie upright on 8 1/2 x 11 in with the grain down it or unknown; two lie turned on 11 x 8 1/2 in with
        // the grain across it or unknown, where upright only one would.
        var stock = $$"""
            { "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" },
            { "name": "tall", "size": "8 1/2 x 11", "count": 1, "paper": "kraft", {{tall}} }, { "name": "wide", "size": "11 x 8 1/2", "paper": "kraft", {{wide}} }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("4")));
        Assert.Equal([(2, false), (2, true)], schedule.Sheets.Where(sheet => sheet.FaceUp == "kraft").Select(sheet =>
            (sheet.Plan.Root.Walk().OfType<CutPiece>().Count(), sheet.Plan.Root.Walk().OfType<CutPiece>().All(piece => piece.Turned))));
    }

    [Fact]
    public void A_front_turns_on_the_paper_without_a_top_and_not_on_the_one_with()
    {
        // By hand: one sheet of 6 x 6 in gives one front of 4 x 5 1/4 in upright, one of 5 1/4 x 4 in gives one turned.
        var stock = $$"""{ "name": "pad", "size": "6 x 6", "count": 1, "paper": "rows" }, { "name": "strip", "size": "5 1/4 x 4", "count": 1, "paper": "dots" }, {{BatchMaker.Kraft}}""";
        const string cards = """{ "layout": "card.json", "count": "as-many-as-possible", "cut-from": { "dots": [ "rows", "dots" ] } }""";
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, cards, ", \"rows\": { \"one-way\": true }"));
        Assert.Equal(2, schedule.Plan.Cards[0].Count);
        Assert.False(schedule.Sheets.Single(sheet => sheet.FaceUp == "rows").Plan.Root.Walk().OfType<CutPiece>().Single().Turned);
        Assert.True(Assert.IsType<CutPiece>(schedule.Sheets.Single(sheet => sheet.FaceUp == "dots").Plan.Root).Turned);
    }

    [Fact]
    public void A_front_that_can_only_lie_turned_shows_the_side_without_a_top_though_the_other_is_preferred()
    {
        var stock = $$"""{ "name": "pad", "size": "4 x 6", "count": 1, "side-a": "rows", "side-b": "dots" }, {{BatchMaker.Kraft}}""";
        const string cards = """{ "layout": "card.json", "count": 1, "cut-from": { "dots": [ "rows", "dots" ] } }""";
        var upright = BatchMaker.Schedule(BatchMaker.Text(stock, cards, ", \"rows\": { \"one-way\": true }"));
        Assert.Contains(upright.Steps, step => step.Held.Names.Contains("1 front in rows") || step.ComesOff!.Names.Contains("1 front in rows"));
        var turned = BatchMaker.Schedule(BatchMaker.Text(stock.Replace("4 x 6", "5 1/4 x 5", StringComparison.Ordinal), cards, ", \"rows\": { \"one-way\": true }"));
        Assert.Contains(turned.Steps, step => step.Held.Names.Contains("1 front in dots"));
        Assert.Equal("dots", turned.Sheets.Single(sheet => sheet.Words == "pad").FaceUp);
    }

    private const string Matted = """
        { "title": "Matted", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {}, "leaf": {} },
          "pieces": [
            { "name": "front", "kind": "panel", "paper": "dots", "width": "3 1/2", "height": "3 1/2", "place": { "center": "both" }, "mats": [ { "paper": "leaf", "reveal": "1/8" } ] },
            { "name": "sign", "kind": "panel", "paper": "leaf", "on": "front", "width": 2, "height": 2, "place": { "center": "both" } } ] }
        """;

    [Theory]
    [InlineData("if-it-saves", 4, 4)]
    [InlineData("never", 8, 0)]
    [InlineData("always", 4, 4)]
    public void The_middle_of_a_mat_is_used_again_where_it_saves_a_sheet(string salvage, int leaf, int windows)
    {
        // By hand: a leaf sheet is one mat of 3 3/4 x 3 3/4 in, or one sign. The window is 3 1/2 in less twice a quarter: a sign fits.
        var stock = $$"""{ "name": "leaf-sheets", "size": "3 3/4 x 3 3/4", "count": 20, "paper": "leaf" }, {{Pad(18)}}""";
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("4"), ", \"leaf\": {}", $"\"salvage\": \"{salvage}\","), Matted);
        Assert.Equal(leaf, schedule.Sheets.Where(sheet => sheet.Words == "leaf-sheets").Sum(sheet => sheet.Plan.Repeats));
        Assert.Equal(windows, schedule.Plan.Salvage.Sum(window => window.Used));
        Assert.Equal(windows > 0, ScheduleText.Summary(schedule).Any(line => line.StartsWith("before gluing, cut a window of 3 x 3 in", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_middle_of_a_mat_is_left_alone_where_it_saves_nothing()
    {
        var stock = $$"""{ "name": "leaf-sheets", "size": "8 1/2 x 11", "count": 20, "paper": "leaf" }, {{Pad(18)}}""";
        var text = BatchMaker.Text(stock, Cards("1"), ", \"leaf\": {}");
        Assert.Empty(BatchMaker.Schedule(text, Matted).Plan.Salvage);
    }

    [Fact]
    public void Offcuts_are_used_where_they_save_a_new_sheet_and_only_then()
    {
        var stock = $$"""{ "name": "left", "size": "4 x 6", "count": 2, "paper": "dots", "offcut": true }, {{Pad(18)}}""";
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("5")));
        Assert.Equal((2, 3), (Taken("left"), Taken("pad")));
        Assert.Contains("left: 2 offcuts and pad: 3 sheets; no plan uses fewer new sheets", ScheduleText.Summary(schedule));

        long Taken(string name) => schedule.Sheets.Where(sheet => sheet.Words == name).Sum(sheet => sheet.Plan.Repeats);
    }

    [Fact]
    public void Edges_of_a_sheet_are_trued_before_it_is_cut_and_are_no_cut_too_thin()
    {
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad(3, ", \"true-off\": \"1/16\""), Cards("3")));
        Assert.Equal(4, schedule.Steps.Count(step => step.IsTrueing));
        var pad = schedule.Sheets.Single(sheet => sheet.Words == "pad").Letter;
        Assert.All(schedule.Steps.Where(step => step.Sheet == pad).Take(4), step => Assert.True(step.IsTrueing));
    }

    [Fact]
    public void A_sheet_that_is_a_piece_as_it_is_needs_no_cut_and_the_table_says_so()
    {
        const string stock = """{ "name": "cut", "size": "4 x 5 1/4", "count": 3, "paper": "dots" }, """ + BatchMaker.Kraft;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, Cards("2")));
        Assert.Contains(ScheduleText.SheetRows(schedule), row => row[^1] == "no cut is needed: it is 2 front");
    }

    [Fact]
    public void Equal_cuts_are_one_step_and_the_fence_is_set_once_for_each_distance_of_a_simple_sheet()
    {
        const string layout = """
            { "title": "Row", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
              "pieces": [ { "row": "seeds", "runs": "across", "copies": 3, "gap": "1/8", "of": { "kind": "square", "side": 1, "paper": "dots" }, "place": { "center": "both" } } ] }
            """;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Pad(1), Cards("12")), layout);

        // By hand: thirty-six squares of 1 in fill a sheet of 6 x 6 in. Five cuts make six strips, five cuts through the stack six squares of each.
        var steps = schedule.Steps.Where(step => schedule.Sheets.Single(sheet => sheet.Letter == step.Sheet).Words == "pad").ToList();
        Assert.Equal(2, steps.Count);
        Assert.Equal([(1L, 5), (6L, 5)], steps.Select(step => (step.Count, step.Times)));
        Assert.Equal(36, steps[1].Held.Count + steps[1].ComesOff!.Count);
        Assert.Single(steps.Select(step => step.Setting).Distinct());
    }

    [Fact]
    public void The_demo_of_strips_makes_as_many_cards_as_the_shoe_box_gives()
    {
        // By hand: each ground takes one of the five strips that are 4 1/2 in wide, since two of 2 in are not high enough, and the lower part of it comes out of a narrow
        // one. Those 3 1/2 in high are joined at 3 1/2 in from the top or above, the others below.
        var schedule = Demo("from-strips.json");
        Assert.Equal(5, Assert.Single(schedule.Plan.Cards).Count);
        Assert.Equal(5, schedule.Plan.Pieced.Sum(panel => panel.Count));
        Assert.Equal([2L, 3L], schedule.Plan.Pieced.Select(panel => panel.Count).Order());
        Assert.True(Assert.Single(schedule.Plan.Stops).IsProved);
    }

    [Fact]
    public void The_demo_batch_can_be_followed_and_is_proved() => Assert.All(Demo().Plan.Cutting.Lots, lot => Assert.Equal(PlanState.ProvedCheapest, lot.State));

    [Fact]
    public void Two_runs_give_the_same_bytes() => Assert.Equal(Everything(Demo()), Everything(Demo()));

    [Fact]
    public void The_numbers_on_the_maps_are_those_of_the_steps()
    {
        var schedule = Demo();
        foreach (var sheet in schedule.Sheets)
        {
            var steps = schedule.Steps.Where(step => step.Sheet == sheet.Letter && !step.IsTrueing).ToDictionary(step => step.Number);
            foreach (var cut in sheet.Plan.Root.Walk().OfType<CutInTwo>())
            {
                var step = steps[schedule.Numbers[cut]];
                Assert.Equal(cut.Direction, step.Direction);
                Assert.Contains(step.Setting, (Length?[])[cut.At, cut.Direction == CutDirection.Upright ? cut.Second?.Width : cut.Second?.Height]);
                Assert.All(new[] { cut.First, cut.Second }.OfType<CutInTwo>(), part => Assert.True(schedule.Numbers[part] >= schedule.Numbers[cut]));
            }
        }
    }

    [Fact]
    public void The_spreadsheet_has_a_row_for_every_step_and_as_many_fields_as_its_heading()
    {
        var schedule = Demo();
        var lines = ScheduleCsv.Write(schedule).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(schedule.Steps.Count + 1, lines.Length);
        Assert.All(lines, line => Assert.Equal(lines[0].Split(',').Length, line.Split(',').Length));
    }

    [Fact]
    public void The_leftovers_of_one_batch_are_stock_of_the_next()
    {
        var first = BatchMaker.Schedule(BatchMaker.Text(Pad(18), Cards("17")));
        var left = Encoding.UTF8.GetBytes(BatchJson.WriteLeftovers(first));
        const string strip = """
            { "title": "Strip", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
              "pieces": [ { "name": "band", "kind": "panel", "paper": "dots", "width": 4, "height": 2, "place": { "center": "both" } } ] }
            """;
        (string, byte[])? Open(string name) => name switch
        {
            "left-over.json" => (name, left),
            "card.json" => (name, Encoding.UTF8.GetBytes(strip)),
            _ => null,
        };
        var second = BatchMaker.Schedule(BatchMaker.Text(BatchMaker.Kraft, Cards("20").Replace("20", "17", StringComparison.Ordinal), "", "\"stock-from\": [ \"left-over.json\" ],"), open: Open);
        var used = second.Sheets.Where(sheet => sheet.Stock is { IsOffcut: true, SideA: "dots" }).ToList();
        Assert.Equal(17, used.Sum(sheet => sheet.Plan.Repeats));
        Assert.All(used, sheet => Assert.Equal("dots-offcut-1", sheet.Words));
    }

    [Fact]
    public void Letters_of_sheets_are_all_different_and_none_passes_for_a_figure()
    {
        // Thirty sizes of offcuts, each of them one front.
        var stock = string.Join(", ", Enumerable.Range(0, 30).Select(n => $$"""{ "name": "s{{n}}", "size": "4 x {{84 + (2 * n)}}/16", "count": 1, "paper": "dots" }"""));
        var letters = BatchMaker.Schedule(BatchMaker.Text($"{stock}, {BatchMaker.Kraft}", Cards("30"))).Sheets.Select(sheet => sheet.Letter).ToList();
        Assert.Equal(letters.Distinct().Count(), letters.Count);
        Assert.True(letters.Count > 24);
        Assert.DoesNotContain(letters, letter => letter.Contains('I', StringComparison.Ordinal) || letter.Contains('O', StringComparison.Ordinal));
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 24)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_batch_of_any_make_can_be_followed(int seed)
    {
        var random = new CsCheck.PCG(1, (ulong)seed);
        int Next(int most) => (int)random.Next((uint)most);
        string Sixteenths(int least, int span) => $"{least + Next(span)}/16";
        string[] papers = ["dots", "leaf", "rows"];
        var pieces = string.Join(",\n", Enumerable.Range(0, 2 + Next(4)).Select(n =>
            $$"""{ "name": "p{{n}}", "kind": "panel", "paper": "{{papers[Next(3)]}}", "width": "{{Sixteenths(16, 44)}}", "height": "{{Sixteenths(16, 60)}}", "place": { "center": "both" }{{(Next(3) == 0 ? ", \"mats\": [ { \"paper\": \"leaf\", \"reveal\": \"1/8\" } ]" : "")}} }"""));
        var layout = $$"""
            { "title": "Any", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {}, "leaf": {}, "rows": {} },
              "pieces": [ {{pieces}} ] }
            """;
        var text = $$"""
            { "title": "Any", "units": "in", "papers": { "kraft": {}, "dots": { "one-way": {{(Next(2) == 0 ? "true" : "false")}} }, "leaf": {}, "rows": {} },
              "salvage": "{{new[] { "always", "if-it-saves" }[Next(2)]}}",
              "stock": [
                { "name": "pad", "size": "{{6 + Next(3)}} x {{6 + Next(3)}}", "count": "enough", "side-a": "dots", "side-b": "rows", "true-off": "{{Next(3)}}/16" },
                { "name": "leaf-sheets", "size": "8 1/2 x 11", "count": "enough", "paper": "leaf" },
                { "name": "strips", "size": "{{Sixteenths(24, 60)}} x {{Sixteenths(40, 90)}}", "count": {{1 + Next(6)}}, "paper": "rows", "offcut": true },
                { "name": "kraft-sheets", "size": "12 x 12", "count": "enough", "paper": "kraft", "grain": "{{new[] { "across", "up-and-down" }[Next(2)]}}" },
                { "name": "kraft-ends", "size": "{{8 + Next(4)}} x {{8 + Next(4)}}", "count": 2, "paper": "kraft", "offcut": true{{new[] { "", ", \"grain\": \"across\"", ", \"grain\": \"up-and-down\"" }[Next(3)]}} } ],
              "cards": [ { "layout": "card.json", "count": {{1 + Next(14)}}, "cut-from": { "dots": [ "dots", "rows" ] } } ] }
            """;
        BatchMaker.Schedule(text, layout);
    }

    private static TrimSchedule Demo(string file = "seed-swap.json")
    {
        var folder = Repository.Path("layouts", "batches");
        (string, byte[])? Open(string name) => (name, File.ReadAllBytes(Path.Combine(folder, name)));
        return BatchMaker.Schedule(File.ReadAllText(Path.Combine(folder, file)), open: Open);
    }

    private static string Everything(TrimSchedule schedule)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            BatchJson.Write(json, schedule);
        }

        return string.Join('\n', [
            ScheduleSheet.Write(schedule), ScheduleCsv.Write(schedule), BatchJson.WriteLeftovers(schedule), Encoding.UTF8.GetString(stream.ToArray()),
            .. schedule.Sheets.Select(sheet => SvgWriter.Write(SheetMapDrawing.Draw(schedule, sheet)))]);
    }
}
