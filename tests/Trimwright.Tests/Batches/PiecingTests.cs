using Trimwright.Batches;
using Trimwright.Drawing;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

public class PiecingTests
{
    private const string Bed = """
        { "title": "Bed", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
          "pieces": [
            { "name": "bed", "kind": "panel", "paper": "dots", "place": { "fill": true } },
            { "name": "path", "kind": "strip", "runs": "up-and-down", "width": "5/8", "paper": "kraft", "on": "bed", "place": { "span": "up-and-down", "from-left": "1 1/2" } } ] }
        """;

    private static string Batch(string stock, int count, string more = "") => BatchMaker.Text(
        stock + ", " + BatchMaker.Kraft, $$"""{ "layout": "card.json", "count": {{count}} }""", head: "\"piecing\": true," + more);

    [Fact]
    public void A_panel_is_pieced_from_strips_where_no_sheet_is_large_enough()
    {
        // By hand: the bed is 4 x 5 1/4 in, the path lies from 1 1/2 to 2 1/8 in from its left edge, and its middle is at 1 13/16.
        var schedule = BatchMaker.Schedule(Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3), Bed);
        var pieced = Assert.Single(schedule.Plan.Pieced);
        Assert.Equal(3, pieced.Count);
        Assert.Equal(Length.FromInches(29, 16), Assert.Single(pieced.Seams).At);
        Assert.Equal([Length.FromInches(29, 16), Length.FromInches(35, 16)], pieced.Strips.Select(strip => strip.Width));
        Assert.Contains(ScheduleText.Summary(schedule), line => line.Contains("the seam is 1 13/16 in from the left edge, under the path, which reaches 5/16 in or more", StringComparison.Ordinal));
    }

    [Fact]
    public void Panels_are_whole_as_far_as_the_stock_goes()
    {
        // By hand: a strip costs more than a sheet of the pad, so beds are whole while the pad lasts. It gives one bed a sheet, since two of 4 in are
        // 8 in wide, and a strip of 2 x 6 in, which serves for the left 1 13/16 in of another; so four beds take two sheets and two strips.
        var stock = """{ "name": "pad", "size": "6 x 6", "count": 2, "paper": "dots", "cost": 0.30 }, { "name": "strips", "size": "2 1/2 x 6", "count": 8, "paper": "dots", "cost": 0.35 }""";
        var four = BatchMaker.Schedule(Batch(stock, 4).Replace("\"kraft\" }", "\"kraft\", \"cost\": 1 }", StringComparison.Ordinal), Bed);
        Assert.Equal(2, four.Plan.Pieced.Sum(panel => panel.Count));
        Assert.Equal((2L, 2L), (Taken(four, "pad"), Taken(four, "strips")));
        Assert.Empty(BatchMaker.Schedule(Batch(stock, 2).Replace("\"kraft\" }", "\"kraft\", \"cost\": 1 }", StringComparison.Ordinal), Bed).Plan.Pieced);
    }

    private static long Taken(TrimSchedule schedule, string name) => schedule.Sheets.Where(sheet => sheet.Words == name).Sum(sheet => sheet.Plan.Repeats);

    [Fact]
    public void Strips_of_the_stock_that_save_a_new_sheet_are_pieced_and_the_proof_allows_for_it()
    {
        // By hand: one new sheet gives a bed and a strip of 2 x 6 in, which with one offcut makes another; two offcuts make the third. Without piecing
        // three new sheets would be needed; without any new one four offcuts make two beds.
        var stock = """{ "name": "pad", "size": "6 x 6", "count": 9, "paper": "dots" }, { "name": "strips", "size": "2 1/2 x 6", "count": 4, "paper": "dots", "offcut": true }""";
        var schedule = BatchMaker.Schedule(Batch(stock, 3), Bed);
        Assert.Equal(2, schedule.Plan.Pieced.Sum(panel => panel.Count));
        Assert.Equal((1L, 3L), (Taken(schedule, "pad"), Taken(schedule, "strips")));
        Assert.Contains("pad: 1 sheet and strips: 3 offcuts; no plan uses fewer new sheets", ScheduleText.Summary(schedule));
    }

    [Fact]
    public void As_many_as_possible_counts_pieced_panels()
    {
        // By hand: each strip of 2 1/2 x 6 in gives one half of a bed, so six give three.
        var text = Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3).Replace("\"count\": 3", "\"count\": \"as-many-as-possible\"", StringComparison.Ordinal);
        Assert.Equal(3, BatchMaker.Schedule(text, Bed).Plan.Cards[0].Count);
    }

    [Fact]
    public void The_seam_moves_under_its_cover_so_that_the_strips_fit()
    {
        // The middle of the path would need a strip of 2 3/16 in; there are only strips of 2 1/8 and more than enough below.
        var schedule = BatchMaker.Schedule(Batch("""{ "name": "strips", "size": "2 1/8 x 6", "count": 6, "paper": "dots" }""", 3), Bed);
        Assert.Equal(Length.FromInches(15, 8), Assert.Single(Assert.Single(schedule.Plan.Pieced).Seams).At);
    }

    [Fact]
    public void A_pattern_with_a_top_goes_on_across_the_seam()
    {
        const string oneWay = "\"dots\": { \"one-way\": true }";
        var upright = Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3).Replace("\"dots\": {}", oneWay, StringComparison.Ordinal);
        Assert.Single(BatchMaker.Schedule(upright, Bed).Plan.Pieced);
        var lying = Batch("""{ "name": "strips", "size": "6 x 2 1/2", "count": 6, "paper": "dots" }""", 3).Replace("\"dots\": {}", oneWay, StringComparison.Ordinal);

        // Lying strips could only be joined by seams from side to side, and the path hides none of those; three strips of 2 1/2 in make 5 1/4 in.
        var refused = BatchMaker.Refused(lying, Bed);
        Assert.Equal("E0626", refused.Code);
        Assert.Contains("no piece goes over it from side to side", refused.Message, StringComparison.Ordinal);
        Assert.Contains("no more than 2 1/2 in apart", refused.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("3/16", "`path`, 3/16 in wide, is too narrow to hide a seam with 1/8 in on both sides of it", "make `path` at least 1/4 in wide")]
    [InlineData("1/16", "`path`, 1/16 in wide, is too narrow to hide a seam with 1/8 in on both sides of it", "make `path` at least 1/4 in wide")]
    public void A_cover_that_is_too_narrow_is_named_with_the_width_that_would_do(string width, string message, string remedy)
    {
        var strips = Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3);
        var found = BatchMaker.Refused(strips, Bed.Replace("5/8", width, StringComparison.Ordinal));
        Assert.Equal("E0626", found.Code);
        Assert.EndsWith(message, found.Message, StringComparison.Ordinal);
        Assert.Equal(remedy, found.Remedy);

        // The remedy works.
        Assert.Single(BatchMaker.Schedule(strips, Bed.Replace("5/8", "1/4", StringComparison.Ordinal)).Plan.Pieced);
    }

    [Fact]
    public void Without_a_cover_the_narrowest_that_would_do_is_named()
    {
        var found = BatchMaker.Refused(Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3), BatchMaker.Front);
        Assert.Equal("E0626", found.Code);
        Assert.StartsWith("lay a strip at least 1/4 in wide across the whole of it", found.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_pieced_unless_it_is_asked_for()
    {
        var text = Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3).Replace("\"piecing\": true,", "", StringComparison.Ordinal);
        Assert.Equal("E0621", BatchMaker.Refused(text, Bed).Code);
    }

    [Fact]
    public void The_seam_is_drawn_dashed_at_its_place()
    {
        var schedule = BatchMaker.Schedule(Batch("""{ "name": "strips", "size": "2 1/2 x 6", "count": 6, "paper": "dots" }""", 3), Bed);
        var drawing = SeamDrawing.Draw(schedule, schedule.Plan.Pieced[0]);
        var seam = Assert.Single(drawing.Items.OfType<DrawnLine>(), line => line.Class == "seam");

        // At half size: the bed begins at 1/8 in on the card, the seam is 1 13/16 in further.
        Assert.All(seam.Points, point => Assert.Equal(Position.FromLength(Length.FromInches(31, 32)), point.X));
        Assert.True(seam.Stroke.Dash > Length.Zero);
    }
}
