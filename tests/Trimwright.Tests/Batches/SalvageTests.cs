using Trimwright.Batches;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

/// <summary>The hidden middles of mats. The schedules are followed as all are: a window is opened only when its mat is cut, and covered by what lies on it.</summary>
public class SalvageTests
{
    private const string Dots = """{ "name": "pad", "size": "6 x 6", "count": 18, "paper": "dots" }, """ + BatchMaker.Kraft;

    private const string Matted = """
        { "title": "Matted", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {}, "leaf": {} },
          "pieces": [
            { "name": "front", "kind": "panel", "paper": "dots", "width": "3 1/2", "height": "3 1/2", "place": { "center": "both" }, "mats": [ { "paper": "leaf", "reveal": "1/8" } ] },
            { "name": "sign", "kind": "panel", "paper": "leaf", "on": "front", "width": 2, "height": 2, "place": { "center": "both" } } ] }
        """;

    private static string Batch(string stock, string count, string salvage, string more = "") => BatchMaker.Text(
        stock + ", " + Dots, $$"""{ "layout": "card.json", "count": {{count}} }""", ", \"leaf\": {}", $"\"salvage\": \"{salvage}\",{more}");

    private static string Leaf(string size, int count, string more = "") => $$"""{ "name": "leaf-sheets", "size": "{{size}}", "count": {{count}}, "paper": "leaf"{{more}} }""";

    private static long Taken(TrimSchedule schedule, string name) => schedule.Sheets.Where(sheet => sheet.Words == name).Sum(sheet => sheet.Plan.Repeats);

    [Theory]
    [InlineData("if-it-saves", 4)]
    [InlineData("always", 4)]
    [InlineData("never", 2)]
    public void As_many_as_possible_counts_the_windows_of_the_cards_that_are_made(string salvage, int cards)
    {
        // By hand: a leaf sheet of 3 3/4 in is a mat or a sign. The front of 3 1/2 in less a quarter all round hides 3 x 3 in: a sign comes out of it.
        var schedule = BatchMaker.Schedule(Batch(Leaf("3 3/4 x 3 3/4", 4), "\"as-many-as-possible\"", salvage), Matted);
        Assert.Equal(cards, schedule.Plan.Cards[0].Count);
        Assert.Equal(salvage == "never" ? 0 : 4, schedule.Plan.Salvage.Sum(window => window.Used));
        Assert.All(Assert.Single(schedule.Plan.Stops).Parts, part => Assert.Equal(["leaf"], part.Sources.Select(source => source.Paper).Distinct()));
    }

    [Theory]
    [InlineData("1/4", 4)]
    [InlineData("3/4", 4)]
    [InlineData("13/16", 8)]
    public void The_glue_margin_stays_on_every_side(string margin, int sheets)
    {
        // By hand: 3 1/2 in less twice 3/4 leaves 2 in, just a sign; less twice 13/16 leaves 1 7/8.
        var schedule = BatchMaker.Schedule(Batch(Leaf("3 3/4 x 3 3/4", 20), "4", "if-it-saves", $" \"glue-margin\": \"{margin}\","), Matted);
        Assert.Equal(sheets, Taken(schedule, "leaf-sheets"));
    }

    [Fact]
    public void A_window_out_of_a_mat_out_of_a_window_comes_after_both()
    {
        // By hand: the front hides 3 x 3 in of its mat; the mat of the sun, 2 1/2 in, comes out of that. The sun, 2 1/4 in, hides 1 3/4 in of its mat, and the
        // sign of 1 1/2 in comes out of that. So one sheet a card.
        var layout = Matted.Replace(
            "\"width\": 2, \"height\": 2, \"place\": { \"center\": \"both\" } }",
            "\"width\": \"1 1/2\", \"height\": \"1 1/2\", \"place\": { \"center\": \"both\" } }, "
            + "{ \"name\": \"sun\", \"kind\": \"square\", \"side\": \"2 1/4\", \"paper\": \"dots\", \"on\": \"front\", \"place\": { \"center\": \"both\" }, \"mats\": [ { \"paper\": \"leaf\", \"reveal\": \"1/8\" } ] }",
            StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(Batch(Leaf("3 3/4 x 3 3/4", 20), "3", "if-it-saves"), layout);
        Assert.Equal(3, Taken(schedule, "leaf-sheets"));
        Assert.Equal(["mat of front", "mat of sun"], schedule.Plan.Salvage.Select(window => window.Mat.Line.Name));
        Assert.All(schedule.Plan.Salvage, window => Assert.Equal(3, window.Used));
    }

    [Theory]
    [InlineData("always", 1)]
    [InlineData("if-it-saves", 0)]
    public void Where_nothing_is_saved_a_window_is_cut_only_if_it_is_asked_for(string salvage, int windows)
    {
        var schedule = BatchMaker.Schedule(Batch(Leaf("8 1/2 x 11", 20), "1", salvage), Matted);
        Assert.Equal(windows, schedule.Plan.Salvage.Sum(window => window.Used));
        Assert.Equal(1, Taken(schedule, "leaf-sheets"));
    }

    [Fact]
    public void A_window_is_not_cut_to_spare_an_offcut()
    {
        // By hand: the signs come out of the four scraps, and no window would save a new sheet.
        var stock = Leaf("3 3/4 x 3 3/4", 20) + """, { "name": "scraps", "size": "2 x 2", "count": 4, "paper": "leaf", "offcut": true }""";
        var schedule = BatchMaker.Schedule(Batch(stock, "4", "if-it-saves"), Matted);
        Assert.Empty(schedule.Plan.Salvage);
        Assert.Equal((4L, 4L), (Taken(schedule, "leaf-sheets"), Taken(schedule, "scraps")));
    }

    [Fact]
    public void A_panel_is_pieced_from_strips_out_of_windows()
    {
        // By hand: the flag of 4 x 2 in is larger than the window of 3 x 3 in and than the leaf sheets of 3 3/4 in; pieced under the pole it is two strips of
        // 2 x 2 in. A window gives one and so does a sheet: eight mats and sixteen strips take eight sheets for the mats, their windows, and eight sheets more.
        var layout = Matted.Replace(
            "{ \"name\": \"sign\", \"kind\": \"panel\", \"paper\": \"leaf\", \"on\": \"front\", \"width\": 2, \"height\": 2, \"place\": { \"center\": \"both\" } }",
            "{ \"name\": \"flag\", \"kind\": \"panel\", \"paper\": \"leaf\", \"width\": 4, \"height\": 2, \"place\": { \"center\": \"both\" } }, "
            + "{ \"name\": \"pole\", \"kind\": \"strip\", \"runs\": \"up-and-down\", \"paper\": \"kraft\", \"on\": \"flag\", \"width\": \"1/4\", \"place\": { \"span\": \"up-and-down\", \"center\": \"across\" } }",
            StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(Batch(Leaf("3 3/4 x 3 3/4", 20), "8", "if-it-saves", " \"piecing\": true,"), layout);
        Assert.Equal(16, Taken(schedule, "leaf-sheets"));
        Assert.Equal(8, schedule.Plan.Pieced.Sum(panel => panel.Count));
        Assert.Equal(Length.FromInches(2), Assert.Single(Assert.Single(schedule.Plan.Pieced).Seams).At);
    }

    [Fact]
    public void The_mat_of_a_pieced_panel_stays_whole()
    {
        // A seam over a hole would not hold. By hand: all four fronts of 3 1/2 in are pieced from strips 2 in wide, so that their mats are left as
        // they are, and four signs take sheets of their own.
        var layout = Matted.Replace(
            "{ \"name\": \"sign\"",
            "{ \"name\": \"band\", \"kind\": \"strip\", \"runs\": \"across\", \"paper\": \"kraft\", \"on\": \"front\", \"height\": \"1/2\", \"place\": { \"span\": \"across\", \"center\": \"up-and-down\" } }, { \"name\": \"sign\"",
            StringComparison.Ordinal);
        var text = Batch(Leaf("3 3/4 x 3 3/4", 20), "4", "if-it-saves", " \"piecing\": true,")
            .Replace("\"size\": \"6 x 6\", \"count\": 18, \"paper\": \"dots\"", "\"size\": \"3 1/2 x 2\", \"count\": 8, \"paper\": \"dots\", \"offcut\": true", StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(text, layout);
        Assert.Equal((4, 0), ((int)schedule.Plan.Pieced.Sum(panel => panel.Count), schedule.Plan.Salvage.Count));
        Assert.Equal(8, Taken(schedule, "leaf-sheets"));

        // Whole fronts may have windows below them; a sheet of 4 x 4 in gives one each.
        var whole = BatchMaker.Schedule(
            Batch(Leaf("3 3/4 x 3 3/4", 20), "4", "if-it-saves", " \"piecing\": true,").Replace("6 x 6", "4 x 4", StringComparison.Ordinal), layout);
        Assert.Equal((0, 4L), (whole.Plan.Pieced.Count, Taken(whole, "leaf-sheets")));
    }
}
