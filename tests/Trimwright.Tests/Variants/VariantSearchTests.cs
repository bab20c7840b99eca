using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Variants;

public class VariantSearchTests
{
    private const string Sun = """{ "name": "sun", "kind": "circle", "paper": "p", "accent": true, "diameter": "exactly 1", "place": { "from-left": "exactly 1/4", "from-top": "exactly 1/2" } }""";

    [Fact]
    public void An_accent_in_a_corner_may_go_to_every_other_corner_and_edge_and_keeps_its_insets()
    {
        var layout = Read(Layout(Sun));
        var accent = Assert.Single(AccentSpots.Of(layout));
        Assert.Equal("top left", accent.Now.ToString());
        Assert.Equal(["top", "top right", "left", "right", "bottom left", "bottom", "bottom right"], accent.Others.Select(spot => spot.ToString()));

        // A2 portrait is 4 1/4 x 5 1/2 in.
        var low = Fit(AccentSpots.Move(layout, "sun", new(Edge.Right, Edge.Bottom))).PieceNamed("sun").Box;
        Assert.Equal((Length.FromInches(3).Nanometres, Length.FromInches(4).Nanometres), (low.Left.Nanometres, low.Top.Nanometres));
        var side = Fit(AccentSpots.Move(layout, "sun", new(Edge.Right, null))).PieceNamed("sun").Box;
        Assert.Equal((Length.FromInches(3).Nanometres, Length.FromInches(9, 4).Nanometres), (side.Left.Nanometres, side.Top.Nanometres));
    }

    [Fact]
    public void Moving_there_and_back_gives_the_place_as_drawn()
    {
        var layout = Read(Layout(Sun));
        var back = AccentSpots.Move(AccentSpots.Move(layout, "sun", new(Edge.Right, Edge.Bottom)), "sun", new(Edge.Left, Edge.Top));
        Assert.Equal(Fit(layout).PieceNamed("sun").Box, Fit(back).PieceNamed("sun").Box);
    }

    [Fact]
    public void What_hangs_from_the_top_goes_on_hanging_from_the_top_and_its_neighbour_goes_with_it()
    {
        var layout = Demo("bean-row");
        var pennant = Assert.Single(AccentSpots.Of(layout), accent => accent.Name == "long-pennant");
        Assert.Equal("top right", pennant.Now.ToString());
        Assert.Equal(["top left", "top"], pennant.Others.Select(spot => spot.ToString()));
        var card = Fit(AccentSpots.Move(layout, "long-pennant", new(Edge.Left, Edge.Top)));
        var (longer, shorter, ground) = (card.PieceNamed("long-pennant").Box, card.PieceNamed("short-pennant").Box, card.PieceNamed("ground").Box);
        Assert.Equal((ground.Left + Length.FromInches(1, 4), ground.Top), (longer.Left, longer.Top));
        Assert.Equal(longer.Right + Length.FromInches(1, 8), shorter.Left);
    }

    [Theory]
    [InlineData("""{ "must": "sun.center-y = card.center-y" }""", 1)]
    [InlineData("""{ "must": "sun.left = exactly 1/4 in" }""", 2)]
    [InlineData("""{ "must": "sun.width = exactly 1 in" }""", 7)]
    public void A_side_that_a_rule_names_is_pinned(string rule, int spots)
    {
        var place = rule.Contains("center-y", StringComparison.Ordinal) ? Sun.Replace(""", "from-top": "exactly 1/2" """, " ", StringComparison.Ordinal) : Sun;
        Assert.Equal(spots, Assert.Single(AccentSpots.Of(Read(Layout(place, rule)))).Others.Count);
    }

    [Fact]
    public void A_piece_that_is_no_accent_is_not_moved() =>
        Assert.Empty(AccentSpots.Of(Read(Layout(Sun.Replace("\"accent\": true,", "", StringComparison.Ordinal)))));

    [Fact]
    public void A_row_of_accents_moves_as_one_and_a_row_with_another_piece_stays()
    {
        string Row(string accents) => $$"""
            { "row": "seeds", "runs": "across", "gap": "exactly 1/8", "place": { "from-left": "exactly 1/4", "from-bottom": "exactly 1/4" }, "copies": 3,
              "of": { "kind": "square", "paper": "p", "side": "exactly 1/2", {{accents}} "cut": "trimmer" } }
            """;
        var layout = Read(Layout(Row("\"accent\": true,")));
        Assert.Equal("seeds", Assert.Single(AccentSpots.Of(layout)).Name);
        var before = Fit(layout);
        var after = Fit(AccentSpots.Move(layout, "seeds", new(Edge.Right, Edge.Top)));
        Assert.Equal(before.Face.Right - Length.FromInches(1, 4), after.Rows[0].Box.Right);
        Assert.Equal(before.Rows[0].Box.Width, after.Rows[0].Box.Width);
        Assert.Empty(AccentSpots.Of(Read(Layout(Row("")))));
    }

    [Fact]
    public void Only_corners_that_are_empty_are_found()
    {
        // A panel fills the lower half, another the upper right: of seven spots only the left edge is half free, and none is empty but the top.
        var layout = Read(Layout(Sun + """
            , { "name": "bed", "kind": "panel", "paper": "p", "width": "exactly 4 1/4", "height": "exactly 2 3/4", "place": { "from-left": "0", "from-bottom": "0" } }
            , { "name": "shed", "kind": "panel", "paper": "p", "width": "exactly 1 1/2", "height": "exactly 2", "place": { "from-right": "0", "from-top": "0" } }
            """));
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 8);
        Assert.Equal(1, found.Found.Count(variant => variant.Name.StartsWith('`')));
        Assert.Contains(found.Found, variant => variant.Name == "`sun` to the top");
    }

    [Fact]
    public void The_layout_as_drawn_comes_first_no_two_look_alike_and_what_was_not_tried_is_counted()
    {
        var layout = Read(Layout(Sun + """, { "name": "tag", "kind": "panel", "paper": "p", "accent": true, "width": "exactly 1", "height": "exactly 1/2", "place": { "from-right": "exactly 1/4", "from-bottom": "exactly 1/2" } }"""));
        var few = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 10);
        Assert.Equal("as drawn", few.Found[0].Name);
        Assert.Equal(10, few.Tried);

        // As drawn and four mirrors, each with eight places for each of the two accents.
        Assert.Equal((5 * 8 * 8) - 10, few.NotTried);
        var all = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 1000);
        Assert.Equal((320, 0), (all.Tried, all.NotTried));
        var places = all.Found.Select(variant => string.Join(' ', variant.Card!.Pieces.Select(piece => piece.Box))).ToList();
        Assert.Equal(places.Count, places.Distinct().Count());

        // Every pair of eight spots but those where the two overlap, and mirrored pictures beside them.
        Assert.True(all.Found.Count > 40, $"{all.Found.Count}");
        Assert.All(all.Found, variant => Assert.False(Overlap(variant.Card!)));
    }

    [Theory]
    [InlineData("bean-row")]
    [InlineData("garden-gate")]
    public void No_variant_misses_more_than_the_layout_as_drawn_or_breaks_a_must(string demo)
    {
        var layout = Demo(demo);
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default).Found;
        Assert.True(found.Count > 3);
        Assert.All(found, variant => Assert.True(variant.Card!.GaveWay.Count <= found[0].Card!.GaveWay.Count));
        Assert.All(found, variant => Assert.All(variant.Card!.GaveWay, note => Assert.NotEqual(Strength.Must, note.Strength)));
    }

    // The pennants hang over the upper left corner of the can where they are mirrored alone, and nothing is over it as drawn.
    [Fact]
    public void A_variant_that_covers_a_picture_or_lettering_that_is_open_as_drawn_is_left_out()
    {
        var layout = Demo("watering-can");
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default);
        Assert.DoesNotContain(found.Found, variant => variant.Name == "accents alone mirrored");
        var left = Assert.Single(found.LeftOut, variant => variant.Name == "accents alone mirrored");
        Assert.Equal((true, LeftOutFor.Covers, "`pennant-a` would lie over `can`"), (left.IsMirrorAlone, left.Why, left.Reason));
        Assert.Equal(15, found.Tried);
    }

    // Where it lies over the picture as drawn, the maker wants it so.
    [Theory]
    [InlineData("label", "\"text\": \"hello\", ", "1/4", "left out")]
    [InlineData("image", "", "1/4", "left out")]
    [InlineData("panel", "", "1/4", "`sun` lies over `words`")]
    [InlineData("label", "\"text\": \"hello\", ", "1 3/4", "")]
    [InlineData("image", "", "1 3/4", "")]
    public void An_accent_alone_mirrored_may_lie_over_lettering_and_pictures_only_as_drawn(string kind, string parts, string fromLeft, string told)
    {
        var layout = Read(Layout($$"""
            { "name": "words", "kind": "{{kind}}", {{parts}}"paper": "p", "width": "exactly 2", "height": "exactly 1", "place": { "from-right": "exactly 1/8", "from-top": "exactly 1/8" } },
            { "name": "sun", "kind": "circle", "paper": "p", "accent": true, "tilt": 5, "diameter": "exactly 1", "place": { "from-left": "exactly {{fromLeft}}", "from-top": "exactly 1/2" } }
            """));
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default);
        var alone = found.Found.SingleOrDefault(variant => variant.Name == "accents alone mirrored");
        Assert.Equal(told, alone is null ? "left out" : string.Join("; ", alone.NewOverlaps));
    }

    // The seat is 2 x 3 in in the lower right corner; mirrored, the sun reaches 1/8 x 1/2 in into the corner of its box, where an oval has no paper.
    [Theory]
    [InlineData("panel", "`sun` lies over `seat`")]
    [InlineData("oval", "")]
    public void Paper_and_not_its_box_counts_for_an_overlap(string kind, string told)
    {
        var layout = Read(Layout($$"""
            { "name": "seat", "kind": "{{kind}}", "paper": "p", "width": "exactly 2", "height": "exactly 3", "cut": "scissors", "place": { "from-right": "exactly 0 in", "from-bottom": "exactly 0 in" } },
            { "name": "sun", "kind": "square", "paper": "p", "accent": true, "tilt": 10, "side": "exactly 1/4", "place": { "from-left": "exactly 1 7/8", "from-bottom": "exactly 2 1/2" } }
            """));
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default).Found;
        Assert.Equal(told, string.Join("; ", found.Single(variant => variant.Name == "accents alone mirrored").NewOverlaps));
    }

    [Fact]
    public void Cancelling_ends_the_search()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var layout = Demo("bean-row");
        Assert.ThrowsAny<OperationCanceledException>(() => VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 64, source.Token));
    }

    private static bool Overlap(FittedCard card)
    {
        var (a, b) = (card.Pieces[0].Box, card.Pieces[1].Box);
        return a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom;
    }
}
