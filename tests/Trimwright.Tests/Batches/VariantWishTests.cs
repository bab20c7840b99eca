using System.Text;
using System.Text.RegularExpressions;
using Trimwright.Batches;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

/// <summary>Batches that make a variant of a layout.</summary>
public class VariantWishTests
{
    private const string Stock = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft;

    // A sun in the top left corner of a front of 4 x 5 1/4 in.
    private const string Sun = """
        { "title": "Sun", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
          "pieces": [
            { "name": "front", "kind": "panel", "paper": "dots", "place": { "fill": true } },
            { "name": "sun", "kind": "square", "paper": "kraft", "side": "exactly 1", "accent": true, "on": "front", "place": { "from-left": "exactly 1/4", "from-top": "exactly 1/2" } } ] }
        """;

    // Sun and cloud lie side by side, 1/2 in apart. Over the middle of a front of 4 in, the sun leaves 1 1/2 in on either side: no room for a cloud of 2 in.
    private const string Low = """
        { "title": "Low", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
          "pieces": [
            { "name": "front", "kind": "panel", "paper": "dots", "place": { "fill": true } },
            { "name": "sun", "kind": "square", "paper": "kraft", "side": "exactly 1", "accent": true, "on": "front", "place": { "from-left": "exactly 1/4", "from-top": "exactly 1/2" } },
            { "name": "cloud", "kind": "panel", "paper": "kraft", "width": "exactly 2", "height": "exactly 1", "accent": true, "on": "front",
              "place": { "beside": { "piece": "sun", "side": "right", "gap": "exactly 1/2" } } } ] }
        """;

    private static string Cards(params string[] variants) => string.Join(", ", variants.Select(variant => $$"""{ "layout": "card.json", "count": 2{{(variant.Length == 0 ? "" : $", \"variant\": \"{variant}\"")}} }"""));

    [Fact]
    public void A_variant_is_made_beside_the_layout_as_drawn_and_named_by_what_sets_it_apart()
    {
        var schedule = BatchMaker.Schedule(BatchMaker.Text(Stock, Cards("", "mirrored left-right", "`sun` to the bottom right", "half-turn")), Sun);
        Assert.Equal(
            ["Sun, A2 portrait", "Sun, A2 portrait, mirrored left-right", "Sun, A2 portrait, sun to the bottom right", "Sun, A2 portrait, half-turn"],
            schedule.Plan.Cards.Select(made => made.Card.Words));

        // By hand: 1/8 in of the base shows around the front, so the sun lies 3/8 in from the fold as drawn, and 2 7/8 in where it is moved over.
        Assert.Equal(
            [(6, 10), (46, 10), (46, 62), (46, 62)],
            schedule.Plan.Cards.Select(made => made.Card.Card.PieceNamed("sun").Box).Select(box => ((int)(box.Left.Nanometres * 16 / Length.NanometresPerInch).Floor(), (int)(box.Top.Nanometres * 16 / Length.NanometresPerInch).Floor())));
        Assert.Contains("- 2 of Sun, A2 portrait, sun to the bottom right\n", ScheduleSheet.Write(schedule), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("mirored left-right", "did you mean `mirrored left-right`?", "mirrored left-right")]
    [InlineData("half-tern", "did you mean `half-turn`?", "half-turn")]
    [InlineData("8", "write the name that stands beside the number, such as `sun to the top`", "sun to the top")]
    [InlineData("upside down", "write `sun to the top`, `sun to the top right`, `sun to the left` or one of 4 more, or take `variant` out for the layout as drawn", "sun to the top")]
    public void A_variant_that_is_not_is_told_with_those_that_are(string written, string remedy, string mended)
    {
        var told = BatchMaker.Refused(BatchMaker.Text(Stock, Cards(written)), Sun);
        Assert.Equal(("E0616", $"`card.json` has no variant `{written}`", 4), (told.Code, told.Message, told.Place.Line));
        Assert.StartsWith(remedy, told.Remedy, StringComparison.Ordinal);
        Assert.Contains("`trimwright balance card.json` shows them all", told.Notes);
        BatchMaker.Schedule(BatchMaker.Text(Stock, Cards(mended)), Sun);
    }

    [Fact]
    public void A_variant_with_an_empty_name_is_told()
    {
        var told = BatchMaker.Refused(BatchMaker.Text(Stock, Cards(" ")), Sun);
        Assert.Equal(("E0616", "`variant` names nothing"), (told.Code, told.Message));
    }

    [Fact]
    public void A_variant_that_does_not_fit_is_told_with_the_reason_and_those_that_fit()
    {
        string Text(string variant) => BatchMaker.Text(Stock, Cards(variant));
        var (plan, found) = BatchMaker.Try(Text("sun to the top"), Low);
        Assert.Null(plan);
        var told = Assert.Single(found, diagnostic => diagnostic.Code == "E0617");
        Assert.Equal(("batch.json", "`card.json` does not fit as `sun to the top`: what cannot hold together then is told as well"), (told.Place.File, told.Message));
        Assert.Contains(found, diagnostic => diagnostic.Code == "E0301" && diagnostic.Place.File == "card.json");
        Assert.Equal("write `sun to the top right`, `sun to the left`, `sun to the right` or one of 2 more, or take `variant` out for the layout as drawn", told.Remedy);
        BatchMaker.Schedule(Text("as drawn"), Low);
        BatchMaker.Schedule(Text("sun to the top right"), Low);
        BatchMaker.Schedule(Text("sun to the left"), Low);
        BatchMaker.Schedule(BatchMaker.Text(Stock, Cards("")), Low);
    }

    [Fact]
    public void Where_the_layout_as_drawn_does_not_fit_either_it_is_not_named_as_a_way_out()
    {
        // As drawn the sun lies in the middle, where it leaves the cloud no room; what is named leaves it some.
        var middle = Low.Replace("\"from-left\": \"exactly 1/4\", \"from-top\"", "\"center\": \"across\", \"from-top\"", StringComparison.Ordinal);
        string Text(string variant) => BatchMaker.Text(Stock, Cards(variant));
        Assert.Null(BatchMaker.Try(Text(""), middle).Plan);
        var told = Assert.Single(BatchMaker.Try(Text("mirrored left-right"), middle).Diagnostics, diagnostic => diagnostic.Code == "E0617");
        Assert.DoesNotContain("take `variant` out", told.Remedy, StringComparison.Ordinal);
        var named = Regex.Matches(told.Remedy!, "`([^`]+)`").Select(match => match.Groups[1].Value).ToList();
        Assert.Equal(3, named.Count);
        Assert.All(named, name => BatchMaker.Schedule(Text(name), middle));
    }

    [Fact]
    public void The_grain_and_the_count_of_a_variant_are_those_of_its_layout()
    {
        var stock = Stock.Replace("\"count\": \"enough\"", "\"count\": \"enough\", \"grain\": \"across\"", StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, """{ "layout": "card.json", "count": "as-many-as-possible", "variant": "turned half round" }"""), Sun);
        Assert.Equal(18, Assert.Single(schedule.Plan.Cards).Count);
    }
}
