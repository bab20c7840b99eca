using System.Globalization;
using System.Text;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

/// <summary>Panels of any number of strips, covers of any shape, and how many panels a few strips give.</summary>
public class ManyStripsTests
{
    /// <summary>A bed of 4 x 5 1/4 in, or of another size, with pieces above it.</summary>
    private static string Bed(string covers, string bed = "\"place\": { \"fill\": true }") => $$"""
        { "title": "Bed", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
          "pieces": [ { "name": "bed", "kind": "panel", "paper": "dots", {{bed}} }, {{covers}} ] }
        """;

    private static string Path(string name, string fromLeft, string width = "5/8", string more = "") =>
        $$"""{ "name": "{{name}}", "kind": "strip", "runs": "up-and-down", "width": "{{width}}", "paper": "kraft", "on": "bed", "place": { "span": "up-and-down", "from-left": "{{fromLeft}}" }{{more}} }""";

    private static string Strips(string name, string size, int count, string more = "") =>
        $$"""{ "name": "{{name}}", "size": "{{size}}", "count": {{count}}, "paper": "dots", "offcut": true{{more}} }""";

    private static string Batch(string stock, string count, string head = "") => BatchMaker.Text(
        stock + ", " + BatchMaker.Kraft, $$"""{ "layout": "card.json", "count": {{count}} }""", head: "\"piecing\": true," + head);

    private static Length Sixteenths(long count) => Length.FromInches(count, 16);

    [Fact]
    public void A_panel_is_pieced_from_three_strips_where_two_are_too_narrow()
    {
        // By hand: paths lie from 1 to 1 5/8 and from 2 3/8 to 3 in; their middles are at 1 5/16 and 2 11/16. The strips between are 1 5/16, 1 3/8 and
        // 1 5/16 in wide, and the stock is 1 1/2 in wide: two would need 2 in each.
        var schedule = BatchMaker.Schedule(Batch(Strips("strips", "1 1/2 x 6", 6), "2"), Bed(Path("left-path", "1") + ", " + Path("right-path", "2 3/8")));
        var pieced = Assert.Single(schedule.Plan.Pieced);
        Assert.Equal(2, pieced.Count);
        Assert.Equal([Sixteenths(21), Sixteenths(43)], pieced.Seams.Select(seam => seam.At));
        Assert.Equal([Sixteenths(21), Sixteenths(22), Sixteenths(21)], pieced.Strips.Select(strip => strip.Width));
        Assert.All(pieced.Seams, seam => Assert.Equal(Sixteenths(5), seam.Overlap));
        Assert.Equal(["left-path", "right-path"], pieced.Seams.SelectMany(seam => seam.Covers).Select(cover => cover.Name));
        Assert.Contains(
            ScheduleText.Summary(schedule),
            line => line.EndsWith(
                "butt strips of 1 5/16 x 5 1/4 in, 1 3/8 x 5 1/4 in and 1 5/16 x 5 1/4 in, from the left on; the seams are 1 5/16 in from the left edge, under the left-path, which reaches 5/16 in or more beyond it on both sides, and 2 11/16 in from the left edge, under the right-path, which reaches 5/16 in or more beyond it on both sides",
                StringComparison.Ordinal));
        var drawing = SeamDrawing.Draw(schedule, pieced);
        Assert.Equal(2, drawing.Items.OfType<DrawnLine>().Count(line => line.Class == "seam" && line.Stroke.Dash > Length.Zero));
        Assert.Equal(["1", "2", "3"], drawing.Items.OfType<DrawnText>().Where(text => text.Class == "strip").Select(text => text.Text));
    }

    [Fact]
    public void Copies_use_different_seam_places_where_the_strips_left_over_differ()
    {
        // By hand: the path lies from 1 1/2 to 2 1/8 in, so seams are hidden from 1 5/8 to 2 in. Strips of 1 5/8 and 2 3/8 in make one bed, two of 2 in another.
        var stock = $"{Strips("narrow", "1 5/8 x 5 1/4", 1)}, {Strips("wide", "2 3/8 x 5 1/4", 1)}, {Strips("even", "2 x 5 1/4", 2)}";
        var schedule = BatchMaker.Schedule(Batch(stock, "2"), Bed(Path("path", "1 1/2")));
        Assert.Equal([(Sixteenths(26), 1L), (Sixteenths(32), 1L)], schedule.Plan.Pieced.Select(panel => (panel.Seams.Single().At, panel.Count)).OrderBy(entry => entry.At));
        Assert.Contains(schedule.Plan.Pieced.SelectMany(panel => panel.Strips), strip => strip.Line.Name == "strip of bed, 1 5/8 in wide");
        Assert.Equal("E0624", BatchMaker.Refused(Batch(stock, "3"), Bed(Path("path", "1 1/2"))).Code);
    }

    [Theory]
    [InlineData("2 x 2", "2 x 2", 32, 12)]
    [InlineData("1 3/8 x 2", "2 5/8 x 2", 22, 2)]
    [InlineData("1 5/16 x 2", "2 11/16 x 2", 0, 0)]
    public void A_circle_hides_a_seam_as_far_as_it_is_high_enough(string left, string right, int at, int reach)
    {
        // By hand: the bed is 4 x 2 in, the circle of 2 1/2 in lies on its middle. 1 in above and below it is as wide as 3/4 in to each side, since 3, 4 and
        // 5 quarters make a right triangle. So a seam is hidden from 5/8 in left of the middle on, with 1/8 in to spare, and in the middle with 3/4 in.
        var layout = Bed(
            """{ "name": "moon", "kind": "circle", "cut": "scissors", "diameter": "2 1/2", "paper": "kraft", "on": "bed", "place": { "center": "both" } }""",
            "\"width\": 4, \"height\": 2, \"place\": { \"center\": \"both\" }");
        var batch = Batch($"{Strips("left", left, 1)}, {Strips("right", right, 1)}", "1");
        if (at == 0)
        {
            Assert.Equal("E0624", BatchMaker.Refused(batch, layout).Code);
            return;
        }

        var seam = Assert.Single(Assert.Single(BatchMaker.Schedule(batch, layout).Plan.Pieced).Seams);
        Assert.Equal((Sixteenths(at), Sixteenths(reach)), (seam.At, seam.Overlap));
    }

    [Theory]
    [InlineData("2 3/4", true)]
    [InlineData("2 5/8", false)]
    public void Covers_take_turns_along_a_seam_if_they_lap(string height, bool isHidden)
    {
        // By hand: the bed is 5 1/4 in high, the lower cover 2 5/8 in. Where the upper one is as high they only touch; 1/8 in more and they lap as they must.
        string Cover(string name, string high, string edge) =>
            $$"""{ "name": "{{name}}", "kind": "panel", "width": "3/4", "height": "{{high}}", "paper": "kraft", "on": "bed", "place": { "from-left": "1 1/2", "{{edge}}": 0 } }""";
        var layout = Bed(Cover("pole", height, "from-top") + ", " + Cover("sign", "2 5/8", "from-bottom"));
        var batch = Batch(Strips("strips", "2 1/2 x 6", 2), "1");
        if (isHidden)
        {
            var seam = Assert.Single(Assert.Single(BatchMaker.Schedule(batch, layout).Plan.Pieced).Seams);
            Assert.Equal(["pole", "sign"], seam.Covers.Select(cover => cover.Name));
            Assert.Equal(Sixteenths(30), seam.At);
        }
        else
        {
            Assert.Equal("E0626", BatchMaker.Refused(batch, layout).Code);
        }
    }

    [Theory]
    [InlineData("3/4", true)]
    [InlineData("5/8", false)]
    public void A_tilted_cover_hides_as_much_as_stays_straight_over_the_seam(string width, bool isHidden)
    {
        // By hand: tilted by 5 degrees (tangent 0.0875), a strip drifts 0.230 in over the 2 5/8 in from the middle to the end of the seam. At the
        // middle it is 0.376 in wide to each side (0.375 by the cosine, 0.996): 0.147 is left at the ends. Of 5/8 in 0.084 is left, and 1/8 is wanted.
        var layout = Bed($$"""{ "name": "path", "kind": "panel", "width": "{{width}}", "height": "5 3/4", "tilt": 5, "paper": "kraft", "on": "bed", "place": { "center": "both" }, "hangs-over": true }""");
        var batch = Batch(Strips("strips", "2 1/2 x 6", 2), "1");
        if (isHidden)
        {
            Assert.Equal(Sixteenths(32), Assert.Single(Assert.Single(BatchMaker.Schedule(batch, layout).Plan.Pieced).Seams).At);
        }
        else
        {
            Assert.Equal("E0626", BatchMaker.Refused(batch, layout).Code);
        }
    }

    [Fact]
    public void A_picture_cut_out_with_scissors_hides_nothing()
    {
        const string picture = """{ "name": "bean", "kind": "image", "cut": "CUT", "width": 2, "height": "5 1/4", "paper": "kraft", "on": "bed", "place": { "center": "both" } }""";
        var batch = Batch(Strips("strips", "2 1/2 x 6", 2), "1");
        Assert.Single(BatchMaker.Schedule(batch, Bed(picture.Replace("CUT", "trimmer", StringComparison.Ordinal))).Plan.Pieced);
        Assert.Equal("E0626", BatchMaker.Refused(batch, Bed(picture.Replace("CUT", "scissors", StringComparison.Ordinal))).Code);
    }

    [Fact]
    public void Seams_may_run_from_side_to_side()
    {
        // By hand: the rail lies from 2 to 3 in from the top; its middle at 2 1/2 leaves 2 3/4 in below.
        var layout = Bed("""{ "name": "rail", "kind": "strip", "runs": "across", "height": 1, "paper": "kraft", "on": "bed", "place": { "span": "across", "from-top": 2 } }""");
        var pieced = Assert.Single(BatchMaker.Schedule(Batch(Strips("strips", "4 1/4 x 2 7/8", 4), "2"), layout).Plan.Pieced);
        Assert.Equal((Axis.Across, Sixteenths(40)), (pieced.Direction, Assert.Single(pieced.Seams).At));
        Assert.Equal(["upper strip of bed", "lower strip of bed"], pieced.Strips.Select(strip => strip.Line.Name));
    }

    [Fact]
    public void A_strip_that_the_stock_does_not_give_is_told_with_where_a_cover_would_do_and_that_works()
    {
        // By hand: the path hides seams from 5/8 to 1 in from the left, so a strip of 3 in is left; strips are 2 1/2 in wide. Covers would do with their
        // middles from 4 - 2 1/2 = 1 1/2 in on.
        var batch = Batch(Strips("strips", "2 1/2 x 6", 2), "1");
        var found = BatchMaker.Refused(batch, Bed(Path("path", "1/2")));
        Assert.Equal("E0626", found.Code);
        Assert.EndsWith("so is a strip that is left where `path` hides a seam: the stock gives strips at most 2 1/2 in wide", found.Message, StringComparison.Ordinal);
        Assert.Equal(
            "lay a strip at least 1/4 in wide across the whole of it, from top to bottom, with its middle 1 1/2 in to 2 1/2 in from the left edge, or add a larger sheet to `stock`", found.Remedy);
        foreach (var left in new[] { "1 3/8", "2 3/8" })
        {
            Assert.Single(BatchMaker.Schedule(batch, Bed(Path("path", left, "1/4"))).Plan.Pieced);
        }
    }

    [Theory]
    [InlineData(3, 1, 3, 0)]
    [InlineData(1, 1, 0, 6)]
    public void The_best_mix_counts_pieced_panels_and_its_proof_does_too(int worthOfBed, int worthOfHalf, int beds, int halves)
    {
        // By hand: six strips give six halves of 2 x 5 1/4 in, or three beds of two strips each, and none gives two of anything.
        var half = BatchMaker.Front.Replace("\"place\": { \"fill\": true }", "\"width\": 2, \"height\": \"5 1/4\", \"place\": { \"center\": \"both\" }", StringComparison.Ordinal)
            ;
        (string, byte[])? Open(string name) => (name, Encoding.UTF8.GetBytes(name == "half.json" ? half : Bed(Path("path", "1 1/2"))));
        var text = Batch(Strips("strips", "2 1/2 x 6", 6), "1").Replace(
            "{ \"layout\": \"card.json\", \"count\": 1 }",
            $$"""
            { "layout": "card.json", "count": "as-many-as-possible", "worth": {{worthOfBed}} }, { "layout": "half.json", "count": "as-many-as-possible", "worth": {{worthOfHalf}} }
            """,
            StringComparison.Ordinal);
        var schedule = BatchMaker.Schedule(text, open: Open);
        Assert.Equal([beds, halves], schedule.Plan.Cards.Select(made => made.Count));
        Assert.True(schedule.Plan.IsBestMix);
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 16)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void As_many_beds_come_out_of_a_few_strips_as_trying_everything_gives(int seed)
    {
        // Each offcut is so narrow that it gives one strip only, since none under 1 1/4 in can be held. Every set of them is tried for one bed: strips in some order with all seams hidden.
        var random = new CsCheck.PCG(7, (ulong)seed);
        int Next(int most) => (int)random.Next((uint)most);
        var widths = Enumerable.Range(0, 4 + Next(4)).Select(_ => 20 + Next(20)).Order().ToList();
        var stock = string.Join(", ", widths.GroupBy(width => width).Select(same => Strips(FormattableString.Invariant($"w{same.Key}"), $"{same.Key}/16 x 5 1/4", same.Count())));
        var layout = Bed(string.Join(", ", Enumerable.Range(0, 1 + Next(2)).Select(n => Path($"p{n}", $"{8 + (20 * n) + Next(18)}/16", $"{6 + Next(6)}/16"))));
        var most = MostBeds(widths, layout);
        var (plan, found) = BatchMaker.Try(
            Batch(stock, "\"as-many-as-possible\""), layout, Drawer.Default with { SmallestPiece = Sixteenths(20), ThinnestShaving = Length.Zero });
        var made = 0;
        if (plan is not null)
        {
            made = BatchMaker.Followed(plan).Plan.Cards[0].Count;
        }
        else
        {
            Assert.Contains(found, diagnostic => diagnostic.Code is "E0625" or "E0626");
        }

        Assert.Equal(most, made);
    }

    private static int MostBeds(List<int> widths, string layout)
    {
        var card = Fitter.Fit(LayoutReader.Read("card.json", Encoding.UTF8.GetBytes(layout)).Layout!, Drawer.Default).Card!;
        var hidden = Enumerable.Range(1, 63).Where(at => at is >= 2 and <= 62
            && SeamSight.IsHidden(card, card.PieceNamed("bed"), Axis.UpDown, Sixteenths(at), Sixteenths(2), Sixteenths(2))).ToList();
        bool Makes(int at, int left) => 64 - at is var rest && Enumerable.Range(0, widths.Count).Any(n => (left & (1 << n)) != 0
            && (left == 1 << n ? rest >= 20 && widths[n] >= rest : hidden.Exists(to => to - at >= 20 && to - at <= widths[n] && Makes(to, left & ~(1 << n)))));
        var beds = Enumerable.Range(1, (1 << widths.Count) - 1).Where(set => Makes(0, set)).ToList();
        var most = new int[1 << widths.Count];
        for (var set = 1; set < most.Length; set++)
        {
            most[set] = beds.Where(bed => (bed & set) == bed).Select(bed => 1 + most[set & ~bed]).DefaultIfEmpty(0).Max();
        }

        return most[^1];
    }
}
