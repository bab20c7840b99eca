using Trimwright.Balance;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Balance;

public class BalanceRankingTests
{
    // On a white card, black beds of equal size: how far off each variant is can be worked out by hand.
    private static Variant At(string name, string left, string top, string tone = "black") => new(name, Fit($$"""
        {
          "title": "test", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "white" },
          "papers": { "white": { "tone": "white" }, "dark": { "tone": "{{tone}}" } },
          "pieces": [ { "name": "bed", "kind": "panel", "paper": "dark", "width": "exactly 1", "height": "exactly 1",
            "place": { "from-left": "exactly {{left}}", "from-top": "exactly {{top}}" } } ]
        }
        """), []);

    private static readonly Variant NotFitted = new("cannot be", null, []);

    [Fact]
    public void The_nearer_to_the_middle_the_better_and_the_layout_as_drawn_is_always_told()
    {
        var drawn = At("as drawn", "0", "0");
        var ranking = BalanceRanking.Of([drawn, At("middle", "1 5/8", "2 1/4"), At("nearer", "1", "2"), NotFitted], FacePictures.None);
        Assert.Equal(["middle", "nearer", "as drawn"], ranking.Ranked.Select(entry => entry.Variant.Name));
        Assert.Equal([1, 2, 3], ranking.Ranked.Select(entry => entry.Place));
        Assert.All(ranking.Ranked, entry => Assert.False(entry.Tied));
        Assert.Equal(ranking.Ranked[2], ranking.AsDrawn);
        Assert.Equal([NotFitted], ranking.NotFitted);
    }

    [Fact]
    public void Mirror_images_tie_and_stand_in_the_order_given()
    {
        var ranking = BalanceRanking.Of(
            [At("as drawn", "3 1/4", "0"), At("left", "0", "0"), At("middle", "1 5/8", "2 1/4"), At("low", "0", "4 1/2"), At("edge", "0", "2 1/4")], FacePictures.None);
        Assert.Equal(["middle", "edge", "as drawn", "left", "low"], ranking.Ranked.Select(entry => entry.Variant.Name));
        Assert.Equal([1, 2, 3, 3, 3], ranking.Ranked.Select(entry => entry.Place));
        Assert.Equal([false, false, true, true, true], ranking.Ranked.Select(entry => entry.Tied));
    }

    // 1/64 in of 4 1/4 in is 0.37 of 100: a chain of steps of a trimmer never counts as one tie.
    [Fact]
    public void Variants_a_hair_apart_do_not_tie()
    {
        var ranking = BalanceRanking.Of([At("as drawn", "1 5/8", "2 1/4"), At("a hair", "1 11/16", "2 1/4")], FacePictures.None);
        Assert.Equal([1, 2], ranking.Ranked.Select(entry => entry.Place));
    }

    [Fact]
    public void A_face_without_weight_comes_last()
    {
        var ranking = BalanceRanking.Of([At("as drawn", "0", "0"), At("white on white", "0", "0", "white")], FacePictures.None);
        Assert.Equal(["as drawn", "white on white"], ranking.Ranked.Select(entry => entry.Variant.Name));
        Assert.Null(ranking.Ranked[1].Weight);
    }

    // A lone bed in the middle has no deviation, but the other measure rates it 41 and more: it also asks for spread.
    [Fact]
    public void The_two_measures_may_differ_in_their_order()
    {
        Variant Corners(string name, string papers) => new(name, Fit($$"""
            {
              "title": "test", "format": "sq-5", "units": "in", "base": { "paper": "white" },
              "papers": { "white": { "tone": "white" }, "dark": { "tone": "black" } },
              "pieces": [ {{papers}} ]
            }
            """.Replace("\"sq-5\"", "\"4 x 4 in\"", StringComparison.Ordinal).Replace("\"units\"", "\"held\": \"portrait\", \"units\"", StringComparison.Ordinal)), []);
        static string Bed(int i, string left, string top) => $$"""{ "name": "bed-{{i}}", "kind": "panel", "paper": "dark", "width": "exactly 1", "height": "exactly 1", "place": { "from-left": "exactly {{left}}", "from-top": "exactly {{top}}" } }""";
        var middle = Corners("middle", Bed(1, "1 1/2", "1 1/2"));
        var spread = Corners("spread", string.Join(',', Bed(1, "0", "0"), Bed(2, "3", "0"), Bed(3, "0", "3"), Bed(4, "2 15/16", "3")));
        Assert.Equal("middle", BalanceRanking.Of([middle, spread], FacePictures.None).Ranked[0].Variant.Name);
        Assert.Equal("spread", BalanceRanking.Of([middle, spread], FacePictures.None, BalanceMeasure.Preference).Ranked[0].Variant.Name);
    }

    [Fact]
    public void The_report_says_where_the_weight_lies_what_pulls_it_and_what_a_variant_changes()
    {
        var drawn = FaceWeight.Of(At("as drawn", "0", "0").Card!, FacePictures.None)!;
        var middle = FaceWeight.Of(At("middle", "1 5/8", "2 1/4").Card!, FacePictures.None)!;

        // The bed's centre lies 1/2 in from both edges: 1 5/8 of 4 1/4 and 2 1/4 of 5 1/2 from the middle.
        Assert.Equal("the weight lies 38.2 % of the width left of the middle and 40.9 % of the height above it", BalanceReport.Where(drawn));
        Assert.Equal("the weight lies in the middle", BalanceReport.Where(middle));
        Assert.Equal(["`bed` pulls it 38.2 % to the left and 40.9 % up"], BalanceReport.Pulls(drawn));
        Assert.Equal(
            "0 % off the middle instead of 56 %: `bed` now pulls neither way instead of 38.2 % to the left and 40.9 % up",
            BalanceReport.Against(middle, drawn, BalanceMeasure.Deviation));
    }

    [Fact]
    public void Ranking_every_variant_of_a_demo_names_the_one_as_drawn_and_is_the_same_twice()
    {
        var layout = Demo("bean-row");
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default).Found;
        var (one, other) = (BalanceRanking.Of(found, FacePictures.None), BalanceRanking.Of(found, FacePictures.None));
        Assert.Equal("as drawn", one.AsDrawn!.Variant.Name);
        Assert.Equal(
            one.Ranked.Select(entry => (entry.Place, entry.Variant.Name, entry.Weight!.Whole.Deviation)),
            other.Ranked.Select(entry => (entry.Place, entry.Variant.Name, entry.Weight!.Whole.Deviation)));
        Assert.Equal(found.Count, one.Ranked.Count);
    }

    [Fact]
    public void Nothing_to_rank_is_refused() => Assert.Throws<ArgumentException>(() => BalanceRanking.Of([], FacePictures.None));
}
