using System.Text;
using Trimwright.Batches;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

/// <summary>What is said to do about a bad batch is done, and the batch is planned then.</summary>
public class RemedyTests
{
    private const string Pad = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft;

    private static IReadOnlyList<Diagnostic> Told(string batch, string layout = BatchMaker.Front, Drawer? drawer = null) => BatchMaker.Try(batch, layout, drawer).Diagnostics;

    [Theory]
    [InlineData("0 x 6", "6 x 6")]
    [InlineData("6 x 0 in", "6 x 6")]
    [InlineData("0.0 x 0", "6 x 6")]
    public void A_sheet_of_nothing_is_told_with_what_to_write_or_leave_out(string size, string mended)
    {
        var text = BatchMaker.Text(Pad.Replace("6 x 6", size, StringComparison.Ordinal) + """, { "name": "more", "size": "6 x 6", "count": 1, "paper": "dots" }""");
        var told = Assert.Single(Told(text));
        Assert.Equal(
            ("E0111", "both sides of a size must be more than 0", "write its true size like `6 x 6`, or leave the entry out if there is nothing of it"), (told.Code, told.Message, told.Remedy));
        Assert.Empty(Told(text.Replace(size, mended, StringComparison.Ordinal)));
        Assert.Empty(Told(BatchMaker.Text("""{ "name": "more", "size": "6 x 6", "count": 1, "paper": "dots" }, """ + BatchMaker.Kraft)));
    }

    [Fact]
    public void Of_many_pieces_that_cannot_be_held_the_smallest_are_named_and_one_limit_does_for_all()
    {
        string File(string name) => System.IO.File.ReadAllText(Repository.Path("layouts", name));
        Drawer Of(string held) => DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes($$"""{ "units": "in", "smallest-piece": "{{held}}" }""")).Drawer!;
        var batch = File("batches/seed-swap.json").Replace("../bean-row.json", "card.json", StringComparison.Ordinal);
        var told = Assert.Single(Told(batch, File("bean-row.json"), Of("20")));
        Assert.StartsWith("the thanks, 1 1/8 x 5/8 in, the mat of thanks, 1 1/4 x 3/4 in, the short-pennant, 5/8 x 1 5/8 in, and 7 other pieces of `card.json` cannot be cut", told.Message, StringComparison.Ordinal);
        var limit = System.Text.RegularExpressions.Regex.Match(told.Remedy!, "at most (.*) in, if").Groups[1].Value;
        BatchMaker.Schedule(batch, File("bean-row.json"), Of(limit));
    }

    [Theory]
    [InlineData("\"size\": \"6 x 6\"", "\"size\": 6", "`size` is a number", "write it in double quotes, like `\"6 x 6\"`")]
    [InlineData("\"count\": 18", "\"count\": 1.5", "`count` is 1.5, but sheets are counted in whole numbers from 1 to 100000", "write a whole number from 1 to 100000")]
    public void Numbers_are_told_as_they_were_written(string good, string broken, string message, string remedy)
    {
        var told = Assert.Single(Told(BatchMaker.Text(Pad).Replace(good, broken, StringComparison.Ordinal)));
        Assert.Equal((message, remedy), (told.Message, told.Remedy));
    }

    [Fact]
    public void A_least_offcut_of_nothing_is_told_with_what_to_write()
    {
        string Text(string head) => BatchMaker.Text(Pad, head: head);
        Assert.Contains("leave it out, or write a small one like `1/4 x 1/4`", Assert.Single(Told(Text("\"least-offcut\": \"0 x 0\","))).Remedy, StringComparison.Ordinal);
        Assert.Empty(Told(Text("\"least-offcut\": \"1/4 x 1/4\",")));
        Assert.Empty(Told(Text("")));
    }

    [Theory]
    [InlineData("\"side-a\": \"dots\", \"side-c\": \"kraft\"", "a kind of sheet has no key `side-c`", "did you mean `side-b`?", "\"side-a\": \"dots\", \"side-b\": \"kraft\"")]
    [InlineData("\"side-c\": \"dots\"", "a kind of sheet has no key `side-c`", "did you mean `side-a`?", "\"side-a\": \"dots\"")]
    [InlineData("\"papr\": \"dots\"", "a kind of sheet has no key `papr`", "did you mean `paper`?", "\"paper\": \"dots\"")]
    [InlineData("\"paper\": \"dots\", \"papers\": \"dots\"", "a kind of sheet has no key `papers`, and `paper` is there already", "take it out", "\"paper\": \"dots\"")]
    public void A_misspelt_key_is_taken_for_one_that_is_not_there_yet(string written, string message, string remedy, string mended)
    {
        string Text(string sides) => BatchMaker.Text($$"""{ "name": "pad", "size": "6 x 6", "count": 18, {{sides}} }, {{BatchMaker.Kraft}}""");
        var told = Assert.Single(Told(Text(written)));
        Assert.Equal(("E0107", message, remedy), (told.Code, told.Message, told.Remedy));
        Assert.Empty(Told(Text(mended)));
    }

    [Fact]
    public void Two_misspelt_keys_of_one_sheet_are_taken_for_two_keys()
    {
        var told = Told(BatchMaker.Text("""{ "name": "pad", "size": "6 x 6", "count": 18, "side-c": "dots", "side-d": "kraft" }, """ + BatchMaker.Kraft));
        Assert.Equal(["did you mean `side-a`?", "did you mean `side-b`?"], told.Select(found => found.Remedy));
    }

    [Theory]
    [InlineData("stock", "\"stock\": [ { \"name\": \"pad\", \"size\": \"6 x 6\", \"count\": 18, \"paper\": \"kraft\" } ]")]
    [InlineData("cards", "\"cards\": [ { \"layout\": \"bean-row.json\", \"count\": 12 } ]")]
    public void What_is_missing_is_told_with_an_example_that_can_be_read(string key, string example)
    {
        var all = new Dictionary<string, string>
        {
            ["stock"] = """ "stock": [ { "name": "ends", "size": "8 x 8", "count": 1, "paper": "kraft" } ] """,
            ["cards"] = """ "cards": [ { "layout": "card.json", "count": 1 } ] """,
        };
        string Text(string with) => $$"""{ "title": "t", "units": "in", "papers": { "kraft": {} }, {{string.Join(", ", all.Where(entry => entry.Key != key).Select(entry => entry.Value).Append(with).Where(part => part.Length > 0))}} }""";
        IReadOnlyList<Diagnostic> Read(string text) => BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text)).Diagnostics;
        var told = Assert.Single(Read(Text("")), found => found.Code == "E0108");
        Assert.Contains($"`{example}`", told.Remedy, StringComparison.Ordinal);
        Assert.Empty(Read(Text(example)));
    }

    // The fold of a card that opens like a book runs up and down its blank of 8 1/2 x 5 1/2 in. The front is 4 x 5 1/4 in.
    [Theory]
    [InlineData("the card base", "\"size\": \"5 1/2 x 8 1/2\", \"paper\": \"kraft\", \"grain\": \"up-and-down\"", "would fit `ends` turned, but its fold would run across the grain",
        "add a sheet of at least 8 1/2 x 5 1/2 in, with the grain up and down, to `stock`, or take `grain` out of `ends` to fold against it",
        "\"size\": \"5 1/2 x 8 1/2\", \"paper\": \"kraft\"", "\"size\": \"8 1/2 x 5 1/2\", \"paper\": \"kraft\", \"grain\": \"up-and-down\"")]
    [InlineData("the card base", "\"size\": \"8 1/2 x 5 1/2\", \"paper\": \"kraft\", \"grain\": \"across\"", "would fit `ends`, but its fold would run across the grain",
        "add a sheet of at least 5 1/2 x 8 1/2 in, with the grain across, to `stock`, or take `grain` out of `ends` to fold against it",
        "\"size\": \"8 1/2 x 5 1/2\", \"paper\": \"kraft\"", "\"size\": \"5 1/2 x 8 1/2\", \"paper\": \"kraft\", \"grain\": \"across\"")]
    [InlineData("the front", "\"size\": \"6 x 4\", \"paper\": \"rows\"", "would fit `ends` turned, but `rows` has a top",
        "add a sheet of at least 4 x 5 1/4 in to `stock`, or take `one-way` out of `rows` if its pattern may lie on its side",
        "\"size\": \"6 x 4\", \"paper\": \"moss\"", "\"size\": \"4 x 5 1/4\", \"paper\": \"rows\"")]
    [InlineData("the card base", "\"size\": \"5 3/4 x 8 3/4\", \"true-off\": \"1/8\", \"paper\": \"rows\", \"grain\": \"up-and-down\"", "would fit `ends` turned, but its fold would run across the grain and `rows` has a top",
        "add a sheet of at least 8 3/4 x 5 3/4 in, with the grain up and down, to `stock`, or take `grain` out of `ends` and `one-way` out of `rows` if neither matters to you",
        "\"size\": \"5 3/4 x 8 3/4\", \"true-off\": \"1/8\", \"paper\": \"moss\"", "\"size\": \"8 3/4 x 5 3/4\", \"true-off\": \"1/8\", \"paper\": \"rows\", \"grain\": \"up-and-down\"")]
    public void A_piece_that_would_fit_the_wrong_way_is_told_so_and_both_remedies_work(string piece, string sheet, string message, string remedy, string taken, string added)
    {
        // `moss` is `rows` without its top.
        var isBase = piece == "the card base";
        string Text(string stock, string more = "") => $$"""
            { "title": "t", "units": "in", "papers": { "kraft": {}, "dots": {}, "rows": { "one-way": true }, "moss": {} },
              "stock": [ {{(isBase ? "{ \"name\": \"pad\", \"size\": \"6 x 6\", \"count\": 1, \"paper\": \"dots\" }" : BatchMaker.Kraft)}}, { "name": "ends", "count": 1, {{stock}} }{{more}} ],
              "cards": [ { "layout": "card.json", "count": 1, "cut-from": { "{{(isBase ? "kraft" : "dots")}}": {{(stock.Contains("rows", StringComparison.Ordinal) || stock.Contains("moss", StringComparison.Ordinal) ? "[ \"rows\", \"moss\" ]" : isBase ? "\"kraft\"" : "\"dots\"")}} } } ] }
            """;
        var told = Assert.Single(Told(Text(sheet)), found => found.Severity == Severity.Error);
        Assert.Equal("E0621", told.Code);
        Assert.StartsWith($"{piece} of `card.json`, ", told.Message, StringComparison.Ordinal);
        Assert.EndsWith(message, told.Message, StringComparison.Ordinal);
        Assert.Equal(remedy, told.Remedy);
        var (taking, first) = BatchMaker.Try(Text(taken));
        Assert.True(taking is not null, Sample.Lines(first));
        BatchMaker.Followed(taking);
        var (adding, second) = BatchMaker.Try(Text(sheet, $$""", { "name": "more", "count": 1, {{added}} }"""));
        Assert.True(adding is not null, Sample.Lines(second));
        BatchMaker.Followed(adding);
    }

    [Fact]
    public void What_a_drawer_would_have_to_hold_is_told_once_for_everything_and_works()
    {
        // By hand: a front of 4 x 5 1/4 in out of 6 x 6 in is cut across 5 1/4 in last; a base of 8 1/2 x 5 1/2 in out of 9 x 6 in across 8 1/2 in. Less will not do for the front.
        const string stock = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, { "name": "bases", "size": "9 x 6", "count": 2, "paper": "kraft" }""";
        Drawer Of(string held) => DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes($$"""{ "units": "in", "smallest-piece": "{{held}}" }""")).Drawer!;
        var told = Assert.Single(Told(BatchMaker.Text(stock), drawer: Of("20")));
        Assert.Equal("E0622", told.Code);
        Assert.Equal("the front, 4 x 5 1/4 in, and the card base, 8 1/2 x 5 1/2 in, of `card.json` cannot be cut from their sheets without cutting across a strip narrower than 20 in", told.Message);
        Assert.StartsWith("make `smallest-piece` in the drawer at most 5 1/4 in, if", told.Remedy, StringComparison.Ordinal);
        BatchMaker.Schedule(BatchMaker.Text(stock), drawer: Of("5 1/4"));
        Assert.Contains(Told(BatchMaker.Text(stock), drawer: Of("5 5/16")), found => found.Code == "E0622");
    }

    [Fact]
    public void Stock_that_runs_out_is_told_with_the_cards_it_gives_and_what_runs_out_first()
    {
        // By hand: no two fronts come out of one sheet, so eighteen sheets give eighteen.
        string Text(string count) => BatchMaker.Text(Pad, $$"""{ "layout": "card.json", "count": {{count}} }""");
        var told = Assert.Single(Told(Text("35")));
        Assert.Equal("E0624", told.Code);
        Assert.Equal("the stock is enough for 18 of the 35 cards of `card.json`: with one more the front in `dots` runs out", told.Message);
        Assert.Equal(["for 35 there is no paper for 17 of the front in `dots`"], told.Notes);
        Assert.Equal("write `\"count\": 18`, or add sheets of `dots` to `stock`", told.Remedy);
        Assert.Equal(18, BatchMaker.Schedule(Text("18")).Plan.Cards[0].Count);
        BatchMaker.Schedule(BatchMaker.Text(Pad + """, { "name": "more", "size": "6 x 6", "count": 17, "paper": "dots" }""", """{ "layout": "card.json", "count": 35 }"""));
    }

    [Fact]
    public void What_runs_out_first_is_told_where_more_than_one_paper_is_short()
    {
        // By hand: three sheets of 8 1/2 x 11 in are six bases, five sheets of 6 x 6 in five fronts.
        const string stock = """{ "name": "pad", "size": "6 x 6", "count": 5, "paper": "dots" }, { "name": "kraft-sheets", "size": "8 1/2 x 11", "count": 3, "paper": "kraft" }""";
        var told = Assert.Single(Told(BatchMaker.Text(stock, """{ "layout": "card.json", "count": 10 }""")));
        Assert.Equal("the stock is enough for 5 of the 10 cards of `card.json`: with one more the front in `dots` runs out", told.Message);
        Assert.Equal(["for 10 there is no paper for 4 of the card base in `kraft`, and no paper for 5 of the front in `dots`"], told.Notes);
        Assert.Equal("write `\"count\": 5`, or add sheets of `kraft` and of `dots` to `stock`", told.Remedy);
        BatchMaker.Schedule(BatchMaker.Text(stock, """{ "layout": "card.json", "count": 5 }"""));
    }

    [Fact]
    public void Cards_of_several_entries_are_made_in_their_order_and_all_the_counts_told_work_together()
    {
        // By hand: ten sheets are ten fronts. The first entry has seven, so three are left for the second and none for the third.
        string Text(string second, string third) => BatchMaker.Text(
            Pad.Replace("18", "10", StringComparison.Ordinal), $$"""{ "layout": "card.json", "count": 7 }, { "layout": "card.json", "count": "as-many-as-possible", "at-least": {{second}} }{{third}}""");
        var told = Told(Text("9", """, { "layout": "card.json", "count": 2 }"""));
        Assert.Equal(
            [
                "beside the cards before it, the stock is enough for 3 of the 9 cards of `card.json`: with one more the front in `dots` runs out",
                "beside the cards before it, the stock is not enough for one card of `card.json`: the front in `dots` runs out",
            ],
            told.Select(found => found.Message));
        Assert.Equal(["write `\"at-least\": 3`, or add sheets of `dots` to `stock`", "take the entry out, or add sheets of `dots` to `stock`"], told.Select(found => found.Remedy));
        Assert.Equal([7, 3], BatchMaker.Schedule(Text("3", "")).Plan.Cards.Select(made => made.Count));
    }

    [Fact]
    public void A_grain_that_nobody_has_named_is_told_where_bases_are_cut_and_not_once_it_is_named()
    {
        var stock = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """;
        var unknown = ScheduleText.Known(BatchMaker.Schedule(BatchMaker.Text(stock + BatchMaker.Kraft)));
        Assert.Contains(unknown, line => line.StartsWith("the grain of kraft-sheets is not known", StringComparison.Ordinal));
        var named = ScheduleText.Known(BatchMaker.Schedule(BatchMaker.Text(stock + BatchMaker.Kraft.Replace("\"count\"", "\"grain\": \"across\", \"count\"", StringComparison.Ordinal))));
        Assert.DoesNotContain(named, line => line.Contains("grain", StringComparison.Ordinal));
    }
}
