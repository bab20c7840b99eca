using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Fitting;

public class FitterTests
{
    private static readonly Length Sixteenth = Length.FromInches(1, 16);

    public static TheoryData<string> Demos() => Repository.Demos();

    public static TheoryData<string, string, Holding> DemosOnFormats()
    {
        var data = new TheoryData<string, string, Holding>();
        foreach (var demo in Repository.DemoNames())
        {
            foreach (var format in (string[])["A2", "A7", "square 5 1/4 in", "ISO A6", "4 x 6 in"])
            {
                data.Add(demo, format, Holding.Portrait);
                data.Add(demo, format, Holding.Landscape);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(DemosOnFormats))]
    public void Whatever_fits_lies_on_the_scale_and_on_the_card_with_even_reveals(string demo, string format, Holding holding)
    {
        var layout = Demo(demo);
        var result = TryFit(layout, format, holding);
        if (result.Card is not { } card)
        {
            Assert.Contains(result.Diagnostics, diagnostic => diagnostic.Code == "E0301");
            return;
        }

        foreach (var piece in card.Pieces)
        {
            AssertOnScale(card, piece.Source.Cut, piece.Width, piece.Height);
            if (piece.Source.CutOut is null)
            {
                AssertSameSize(piece.Box, piece.Width, piece.Height);
            }
            else
            {
                // The outline of a picture lies in its blank, with less than a step to spare.
                var step = Position.FromLength(card.Increment);
                Assert.InRange((Position.FromLength(piece.Width) - piece.Box.Width).Nanometres, Rational.Zero, step.Nanometres - 1);
                Assert.InRange((Position.FromLength(piece.Height) - piece.Box.Height).Nanometres, Rational.Zero, step.Nanometres - 1);
            }

            var inner = piece.Box;
            foreach (var mat in piece.Mats)
            {
                AssertOnScale(card, piece.Source.Cut, mat.Width, mat.Height);
                if (piece.Source.Tail is null or { Kind: TailKind.Straight, Taper: null })
                {
                    Assert.Equal(inner.Grown(mat.Reveal), mat.Box);
                }

                inner = inner.Grown(mat.Reveal);
            }

            if (!piece.Source.MayHangOver && piece.Source.Tilt.IsZero)
            {
                Assert.True(inner.Left >= card.Face.Left && inner.Top >= card.Face.Top, piece.Name);
                Assert.True(inner.Right <= card.Face.Right && inner.Bottom <= card.Face.Bottom, piece.Name);
            }

            if (piece.Reveal is { } reveal)
            {
                Assert.Equal(card.BoxOn(piece.Source.On).Grown(-reveal), inner);
            }
        }

        foreach (var row in card.Rows)
        {
            var boxes = row.Source.Pieces.Select(name => card.PieceNamed(name)).Select(Outer).ToList();
            for (var i = 1; i < boxes.Count; i++)
            {
                Assert.Equal(
                    row.Gap,
                    row.Source.Runs == Axis.Across ? boxes[i].Left - boxes[i - 1].Right : boxes[i].Top - boxes[i - 1].Bottom);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_demo_fits_the_format_it_was_drawn_for_with_every_must_and_should_met(string demo)
    {
        var card = Fit(Demo(demo));
        Assert.DoesNotContain(card.GaveWay, note => note.Strength == Strength.Should);
        Assert.Null(card.NotProvedWithin);
    }

    [Fact]
    public void An_exact_size_stays_on_every_format_and_a_plain_one_is_carried_along_its_axis()
    {
        var json = Layout("""
            { "name": "a", "kind": "panel", "paper": "p", "width": "exactly 2", "height": "2", "place": { "center": "both" } }
            """);
        var card = Fit(json, "A7");
        var piece = card.PieceNamed("a");
        Assert.Equal(Length.FromInches(2), piece.Width);

        // 2 in x 7 / 5.5 = 28/11 in = 2.5454..; the sixteenths round it are 40/16 and 41/16, and 41/16 is nearer.
        Assert.Equal(Length.FromInches(41, 16), piece.Height);
        var carried = Assert.Single(card.Carried);
        Assert.Equal(Rational.From(28, 11) * Length.NanometresPerInch, carried.InProportion.Nanometres);
    }

    [Fact]
    public void Reveals_are_never_carried()
    {
        var card = Fit(Layout("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true }, "mats": [ { "paper": "p", "reveal": "1/16" } ] }"""), "A10");
        Assert.Equal(Length.FromInches(1, 8).Nanometres, card.PieceNamed("a").Reveal!.Value.Nanometres);
        Assert.Equal(Sixteenth.Nanometres, card.PieceNamed("a").Mats[0].Reveal.Nanometres);
        Assert.Empty(card.Carried);
    }

    [Fact]
    public void A_metric_reveal_on_an_inch_card_gives_way_to_the_nearest_that_keeps_all_sides_even()
    {
        var card = Fit(Layout("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true } }""", reveal: "3 mm", units: "mm"));

        // 4 1/4 in less twice 3 mm is on no sixteenth; the nearest reveal that is on all sides is 1/8 in, 0.175 mm more.
        Assert.Equal(Length.FromInches(1, 8).Nanometres, card.PieceNamed("a").Reveal!.Value.Nanometres);
        var note = Assert.Single(card.GaveWay);
        Assert.Equal((Rational)3_000_000, note.Wanted.Nanometres);
        Assert.Equal((Rational)175_000, note.Miss.Nanometres);
    }

    [Fact]
    public void A_stronger_wish_wins_over_any_number_of_weaker_ones()
    {
        var card = Fit(Layout(
            """{ "name": "a", "kind": "panel", "paper": "p", "width": "2", "height": "1", "place": { "center": "both" } }""",
            string.Join(',', Enumerable.Range(0, 40).Select(_ => """{ "may": "a.width = 3 in" }"""))));
        Assert.Equal(Length.FromInches(2), card.PieceNamed("a").Width);
    }

    [Fact]
    public void Between_two_wishes_of_one_strength_the_earlier_in_the_file_wins()
    {
        var card = Fit(Layout(
            """{ "name": "a", "kind": "panel", "paper": "p", "height": "1", "place": { "center": "both" } }""",
            """{ "should": "a.width = 2 in" }, { "should": "a.width = 3 in" }"""));

        // Any width from 2 to 3 in misses by 1 in in all; the least largest miss is half an inch each.
        Assert.Equal(Length.FromInches(5, 2), card.PieceNamed("a").Width);
    }

    [Fact]
    public void A_clash_names_every_member_and_offers_a_change_that_works()
    {
        var layout = Read(Layout(
            """
            { "name": "a", "kind": "panel", "paper": "p", "width": "exactly 2 1/2", "height": "exactly 1", "place": { "from-left": "exactly 1", "from-top": "exactly 1" } },
            { "name": "b", "kind": "panel", "paper": "p", "width": "exactly 2", "height": "exactly 1", "place": { "from-top": "exactly 3", "beside": { "piece": "a", "side": "right", "gap": "exactly 0" } } }
            """));
        var result = TryFit(layout);
        var clash = Assert.Single(result.Diagnostics);
        Assert.Equal("E0301", clash.Code);

        // 1 + 2 1/2 + 2 = 5 1/2 in on 4 1/4 in: the left distance, both widths and the meeting edges make it.
        Assert.Equal(3, clash.Related.Count);
        Assert.Contains("4 cannot all hold", clash.Message, StringComparison.Ordinal);
        Assert.EndsWith("each of these fits", clash.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void What_nothing_pins_is_told_with_its_range_and_lies_in_the_middle()
    {
        var card = Fit(Layout("""{ "name": "a", "kind": "panel", "paper": "p", "width": "2", "height": "2", "place": { "from-top": "1" } }"""));
        var loose = Assert.Single(card.Loose);
        Assert.Equal("the left edge of `a`", loose.What);
        Assert.Equal(Position.Zero, loose.Least);
        Assert.Equal(Length.FromInches(9, 4).Nanometres, loose.Most.Nanometres);
        Assert.Equal(Length.FromInches(9, 8).Nanometres, loose.Chosen.Nanometres);
    }

    [Fact]
    public void A_die_cut_circle_takes_the_nearest_die_and_its_mat_the_next_that_fits()
    {
        var card = Fit(Layout("""
            { "name": "sun", "kind": "circle", "paper": "p", "diameter": "about 1.9", "place": { "center": "both" }, "mats": [ { "paper": "p", "reveal": "1/8" } ] }
            """));
        var sun = card.PieceNamed("sun");
        Assert.Equal(Length.FromInches(2), sun.Width);
        Assert.Equal(Length.FromInches(9, 4), sun.Mats[0].Width);
        Assert.NotNull(sun.Die);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_same_layout_gives_the_same_card_every_time(string demo)
    {
        var layout = Demo(demo);
        Assert.Equal(Trimwright.Trimming.CardJson.Write(Fit(layout)), Trimwright.Trimming.CardJson.Write(Fit(layout)));
    }

    private static Trimwright.Geometry.Box Outer(FittedPiece piece) =>
        piece.Mats.Aggregate(piece.Box, (box, mat) => box.Grown(mat.Reveal));

    private static void AssertOnScale(FittedCard card, CutWay cut, Length width, Length height)
    {
        if (cut == CutWay.Die)
        {
            Assert.Contains(card.Drawer.Dies, die => (die.Width == width && die.Height == height) || (die.Width == height && die.Height == width));
            return;
        }

        Assert.True(width.IsMultipleOf(card.Increment) && height.IsMultipleOf(card.Increment), $"{width} x {height}");
    }

    private static void AssertSameSize(Trimwright.Geometry.Box box, Length width, Length height)
    {
        Assert.Equal(Position.FromLength(width), box.Width);
        Assert.Equal(Position.FromLength(height), box.Height);
    }
}
