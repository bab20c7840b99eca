using Trimwright.Fitting;
using Xunit;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Fitting;

/// <summary>What a maker is told when something does not fit, gave way, or is open - and that the changes offered do work.</summary>
public class ExplanationTests
{
    /// <summary>Three equal panels edge to edge across a ground of 5 1/2 in: the arithmetic gives 1 5/6 in each.</summary>
    private static string ThreePanels(string groundWidth = "exactly 5 1/2", string gap = "exactly 0", string shortBy = "") => $$"""
        {
          "title": "Three beds", "units": "in", "format": "A7", "held": "landscape", "base": { "paper": "p" }, "papers": { "p": {} },
          "pieces": [
            { "name": "ground", "kind": "panel", "paper": "p", "width": "{{groundWidth}}", "height": "2", "place": { "center": "both" } },
            {
              "row": "beds", "runs": "across", "on": "ground", "copies": 3, "gap": "{{gap}}",
              "of": { "kind": "panel", "height": "1", "paper": "p" },
              "place": { "span": "across", {{shortBy}} "from-top": "1/2" }
            }
          ]
        }
        """;

    [Fact]
    public void Three_equal_panels_that_fall_off_the_scale_are_told_with_what_they_would_be_and_with_cures()
    {
        var clash = Assert.Single(TryFit(Read(ThreePanels())).Diagnostics);
        Assert.Equal("E0301", clash.Code);
        Assert.Contains("without a scale, the width of the pieces of `beds` would be 1 5/6 in", clash.Notes);
        Assert.Equal(
            "make the gap between the pieces of `beds` 1/32 in, or make the width of `ground` 5 7/16 in or 5 5/8 in, "
            + "or let `beds` stop 1/32 in short of the edges (`short-by`); each of these fits",
            clash.Remedy);
    }

    [Theory]
    [InlineData("exactly 5 1/2", "exactly 1/32", "")]
    [InlineData("exactly 5 7/16", "exactly 0", "")]
    [InlineData("exactly 5 5/8", "exactly 0", "")]
    [InlineData("exactly 5 1/2", "exactly 0", "\"short-by\": \"exactly 1/32\",")]
    public void Each_cure_offered_for_the_three_panels_fits(string width, string gap, string shortBy) =>
        Assert.NotNull(TryFit(Read(ThreePanels(width, gap, shortBy))).Card);

    [Fact]
    public void A_clash_shows_the_sum_that_does_not_come_out()
    {
        var clash = Assert.Single(TryFit(Read(Layout(
            """
            { "name": "a", "kind": "panel", "paper": "p", "width": "exactly 2 1/2", "height": "exactly 1", "place": { "from-left": "exactly 1", "from-top": "exactly 1" } },
            { "name": "b", "kind": "panel", "paper": "p", "width": "exactly 2", "height": "exactly 1", "place": { "from-top": "exactly 3", "beside": { "piece": "a", "side": "right", "gap": "exactly 0" } } }
            """))).Diagnostics);
        Assert.Contains("2 1/2 in + 1 in + 2 in = 5 1/2 in, but the card gives 4 1/4 in", clash.Notes);
    }

    [Fact]
    public void A_rule_that_clashes_is_offered_as_a_should_and_sizes_by_what_they_would_have_to_be()
    {
        var clash = Assert.Single(TryFit(Read(Layout(
            """
            { "name": "a", "kind": "panel", "paper": "p", "width": "exactly 3", "height": "1", "place": { "center": "both" } },
            { "name": "b", "kind": "panel", "paper": "p", "width": "exactly 2", "height": "1", "place": { "center": "both" } }
            """,
            """{ "must": "a.width = 2 b.width", "because": "the beds are doubled" }"""))).Diagnostics);
        Assert.Contains("the beds are doubled", clash.Message, StringComparison.Ordinal);
        Assert.Contains("3 in on one side, 2 x 2 in = 4 in on the other", clash.Notes);
        Assert.Equal(
            "make the width of `b` 1 1/2 in, or make the width of `a` 4 in, or write `should` for the rule `a.width = 2 b.width`: "
            + "the width of `a` is then 3 in; each of these fits",
            clash.Remedy);
    }

    [Fact]
    public void A_wish_that_gave_way_is_told_with_what_left_it_no_room()
    {
        // 1 + 3 + 1/2 in on a card 4 1/4 in wide: the width can be 2 3/4 in and no more.
        var card = Fit(Layout(
            """
            { "name": "a", "kind": "panel", "paper": "p", "width": "3", "height": "1",
              "place": { "from-left": "exactly 1", "from-right": "exactly 1/2", "from-top": "exactly 1" } }
            """));
        var gave = Assert.Single(card.GaveWay);
        Assert.Equal("the width of `a`", gave.What);
        var reasons = Assert.Single(FitExplainer.Explain(card))!;
        Assert.Equal(
            ["`a` sits exactly 1 in from the left edge of the card", "`a` sits exactly 1/2 in from the right edge of the card"],
            reasons.Select(reason => reason.Text));
        Assert.All(reasons, reason => Assert.False(reason.GaveWayToo));
    }

    [Fact]
    public void Two_wishes_that_were_traded_name_each_other()
    {
        var card = Fit(Layout(
            """{ "name": "a", "kind": "panel", "paper": "p", "height": "1", "place": { "center": "both" } }""",
            """{ "should": "a.width = 2 in" }, { "should": "a.width = 3 in" }"""));
        Assert.Equal(2, card.GaveWay.Count);
        Assert.All(FitExplainer.Explain(card), reasons =>
        {
            var reason = Assert.Single(reasons!);
            Assert.True(reason.GaveWayToo);
            Assert.Equal("the width of `a`", reason.Text);
        });
    }

    [Fact]
    public void A_reveal_off_the_scale_gave_way_to_the_scale()
    {
        // 3 mm all round an A2 card cannot leave sixteenths: 4 1/4 in less 6 mm is 101.95 mm.
        var card = Fit(Layout("""{ "name": "ground", "kind": "panel", "paper": "p", "place": { "fill": "3 mm" } }"""));
        Assert.Equal("the reveal round `ground`", Assert.Single(card.GaveWay).What);
        var reasons = Assert.Single(FitExplainer.Explain(card))!;
        Assert.Equal(
            ["`ground` fills the card with the same reveal on all sides", "the width of `ground` has to be whole steps of the trimmer's scale (1/16 in)"],
            reasons.Select(reason => reason.Text));
        Assert.Null(reasons[^1].Source);
    }

    [Fact]
    public void The_report_reads_as_sentences_with_lines()
    {
        var report = FitReport.Of(Fit(Demo("marrow-show")));
        var (heading, lines) = Assert.Single(report);
        Assert.Equal("gave way", heading);
        Assert.Equal("how far `words` stops short of the edges of `band` may be 1/4 in and is 5/16 in, 1/16 in more (line 40)", lines[0]);
        Assert.Equal("    because the reveal round `ground` is 1/8 in (line 7)", lines[1]);
        Assert.StartsWith("    and `words.width <= 3 in`", lines[^1], StringComparison.Ordinal);
    }
}
