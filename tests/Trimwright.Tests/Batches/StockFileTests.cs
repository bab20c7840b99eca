using System.Text;
using Trimwright.Batches;
using Trimwright.Diagnostics;
using Trimwright.Measures;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

/// <summary>Batches that take their stock, and their papers, from other files.</summary>
public class StockFileTests
{
    private const string Cards = """ "cards": [ { "layout": "card.json", "count": 1 } ] """;

    private const string Box = """
        { "title": "The shoe box", "units": "in",
          "papers": { "kraft": { "grammage": 250 }, "dots": { "kind": "patterned", "tone": "#aabbcc", "one-way": true, "caliper": "0.2 mm" }, "moss": {}, "fern": {} },
          "stock": [
            { "name": "kraft-sheets", "size": "12 x 12", "count": 2, "paper": "kraft" }, { "name": "pad", "size": "6 x 6", "count": 3, "paper": "dots" },
            { "name": "moss-ends", "size": "2 x 2", "count": 1, "paper": "moss", "offcut": true }, { "name": "fern-ends", "size": "2 x 2", "count": 1, "paper": "fern", "offcut": true } ] }
        """;

    private static Func<string, (string, byte[])?> Beside(params (string Name, string Text)[] files) => name =>
        files.Append((Name: "card.json", Text: BatchMaker.Front)).Where(file => file.Name == name).Select(file => ((string, byte[])?)(name, Encoding.UTF8.GetBytes(file.Text))).FirstOrDefault();

    private static BatchReading Read(string batch, params (string Name, string Text)[] files) => BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(batch), Beside(files));

    [Fact]
    public void A_batch_needs_no_papers_where_its_stock_file_has_them_and_nothing_is_said_of_what_no_card_needs()
    {
        var text = $$"""{ "title": "Next", "units": "in", "stock-from": [ "box.json" ], {{Cards}} }""";
        var (plan, found) = BatchMaker.Try(text, open: Beside(("box.json", Box)));
        Assert.True(found.Count == 0, Sample.Lines(found));
        BatchMaker.Followed(plan!);
        Assert.Equal(["kraft", "dots", "moss", "fern"], plan!.Batch.Batch.Papers.Select(paper => paper.Name));
    }

    [Fact]
    public void A_batch_may_name_papers_of_its_stock_file_without_describing_them()
    {
        var text = $$"""
            { "title": "Next", "units": "in", "stock-from": [ "box.json" ], "stock": [ { "name": "more", "size": "6 x 6", "count": 3, "paper": "dots" } ], {{Cards}} }
            """;
        Assert.Empty(Read(text, ("box.json", Box)).Diagnostics);
        var misspelt = Assert.Single(Read(text.Replace("\"dots\"", "\"dost\"", StringComparison.Ordinal), ("box.json", Box)).Diagnostics);
        Assert.Equal(("E0208", "did you mean `dots`?"), (misspelt.Code, misspelt.Remedy));
    }

    [Fact]
    public void Papers_are_needed_where_no_stock_file_could_have_them() =>
        Assert.Equal("E0108", Assert.Single(Read($$"""{ "title": "Next", "units": "in", "stock": [], {{Cards}} }""").Diagnostics, found => found.Message.Contains("papers", StringComparison.Ordinal)).Code);

    [Fact]
    public void What_one_file_leaves_open_of_a_paper_the_other_says()
    {
        var text = $$"""
            { "title": "Next", "units": "in", "papers": { "kraft": { "caliper": "0.3 mm", "tone": "#c9b48f" }, "dots": { "one-way": true } }, "stock-from": [ "box.json" ], {{Cards}} }
            """;
        var batch = Read(text, ("box.json", Box)).Batch!;
        var (kraft, dots) = (batch.PaperNamed("kraft"), batch.PaperNamed("dots"));
        Assert.Equal((250, 300_000, "#c9b48f"), (kraft.Grammage, kraft.Caliper!.Value.Nanometres, kraft.Colour.ToString()));
        Assert.Equal((null, 200_000, "#ffffff"), (dots.Grammage, dots.Caliper!.Value.Nanometres, dots.Colour.ToString()));
    }

    [Theory]
    [InlineData("\"kraft\": { \"grammage\": 216.5 }", "the `grammage` of `kraft` is 250 g/m² here, but 216.5 g/m² in `batch.json`", "\"kraft\": { \"grammage\": 250 }", "\"kraft\": {}")]
    [InlineData("\"dots\": { \"one-way\": true, \"caliper\": \"1/64\" }", "the `caliper` of `dots` is 0.2 mm here, but 1/64 in in `batch.json`", "\"dots\": { \"one-way\": true, \"caliper\": \"0.2 mm\" }", "\"dots\": { \"one-way\": true }")]
    [InlineData("\"dots\": {}", "`dots` has a top here, but has none in `batch.json`", "\"dots\": { \"one-way\": true }", "\"spots\": {}")]
    public void Two_files_that_say_different_things_of_one_paper_are_told_and_the_remedies_work(string said, string message, string same, string other)
    {
        string Text(string papers) => $$"""{ "title": "Next", "units": "in", "papers": { {{papers}} }, "stock-from": [ "box.json" ], {{Cards}} }""";
        var found = Assert.Single(Read(Text(said), ("box.json", Box)).Diagnostics);
        Assert.Equal(("E0610", "box.json", message), (found.Code, found.Place.File, found.Message));
        Assert.Equal("batch.json", Assert.Single(found.Related).Place.File);
        Assert.NotNull(Read(Text(same), ("box.json", Box)).Batch);
        Assert.NotNull(Read(Text(other), ("box.json", Box)).Batch);
    }

    [Fact]
    public void Papers_that_a_lost_stock_file_may_have_are_not_called_unknown()
    {
        const string text = """
            { "title": "Next", "units": "in", "stock-from": [ "lost.json" ], "stock": [ { "name": "more", "size": "6 x 6", "count": 3, "paper": "dots" } ],
              "cards": [ { "layout": "card.json", "count": 1 } ] }
            """;
        Assert.Equal("E0609", Assert.Single(Read(text).Diagnostics).Code);
    }

    [Theory]
    [InlineData(1, "nothing is cut from `s1`", "take it out of `stock`, or say with `cut-from` what its papers stand in for")]
    [InlineData(2, "nothing is cut from 2 kinds of sheets: `s1` and `s2`", "take them out of `stock`, or say with `cut-from` what their papers stand in for")]
    [InlineData(4, "nothing is cut from 4 kinds of sheets: `s1`, `s2`, `s3` and `s4`", "take them out of `stock`, or say with `cut-from` what their papers stand in for")]
    [InlineData(7, "nothing is cut from 7 kinds of sheets: `s1`, `s2`, `s3` and 4 more", "take them out of `stock`, or say with `cut-from` what their papers stand in for")]
    public void Sheets_that_nothing_is_cut_from_are_told_in_one_warning(int kinds, string message, string remedy)
    {
        var stock = string.Join(", ", Enumerable.Range(1, kinds).Select(n => $$"""{ "name": "s{{n}}", "size": "6 x 6", "count": 1, "paper": "moss" }"""));
        var (_, found) = BatchMaker.Try(BatchMaker.Text($$"""{ "name": "pad", "size": "6 x 6", "count": 1, "paper": "dots" }, {{BatchMaker.Kraft}}, {{stock}}""", papers: ", \"moss\": {}"));
        var warning = Assert.Single(found);
        Assert.Equal(("W0601", Severity.Warning, message, remedy), (warning.Code, warning.Severity, warning.Message, warning.Remedy));
    }
}
