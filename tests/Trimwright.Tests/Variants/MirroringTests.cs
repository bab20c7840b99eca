using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Variants;

public class MirroringTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    [Theory]
    [MemberData(nameof(Demos))]
    public void Left_right_moves_every_piece_to_its_mirror_image(string demo)
    {
        var layout = Demo(demo);
        var (before, after) = (Fit(layout), Fit(Mirroring.Apply(layout, Mirror.LeftRight)));
        foreach (var piece in before.Pieces)
        {
            var image = after.PieceNamed(piece.Name);
            Assert.Equal(before.Face.Right - piece.Box.Right, image.Box.Left);
            Assert.Equal(piece.Box.Top, image.Box.Top);
            Assert.Equal((piece.Width, piece.Height), (image.Width, image.Height));
            Assert.Equal(-piece.Source.Tilt, image.Source.Tilt);
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Top_bottom_moves_what_does_not_hang_and_keeps_what_hangs(string demo)
    {
        var layout = Demo(demo);
        var before = Fit(layout);
        if (TryFit(Mirroring.Apply(layout, Mirror.TopBottom)).Card is not { } after)
        {
            return;
        }

        foreach (var piece in before.Pieces.Where(piece => piece.Source.On is null && piece.Source.Placements.OfType<Fill>().Any()))
        {
            Assert.Equal(piece.Box, after.PieceNamed(piece.Name).Box);
        }

        foreach (var piece in before.Pieces.Where(piece => piece.Source.Placements.Any(placement => placement is Hang { From: Edge.Top })))
        {
            Assert.Equal(piece.Box, after.PieceNamed(piece.Name).Box);
            Assert.Equal(Edge.Top, after.PieceNamed(piece.Name).Source.HangsFrom);
        }
    }

    [Theory]
    [InlineData(Mirror.LeftRight)]
    [InlineData(Mirror.TopBottom)]
    [InlineData(Mirror.HalfTurn)]
    [InlineData(Mirror.AccentsAlone)]
    public void Mirroring_twice_gives_every_demo_back(Mirror mirror)
    {
        foreach (var demo in Repository.DemoNames())
        {
            var layout = Demo(demo);
            var twice = Mirroring.Apply(Mirroring.Apply(layout, mirror), mirror);
            Assert.Equal(
                Fit(layout).Pieces.Select(piece => (piece.Name, piece.Box)),
                Fit(twice).Pieces.Select(piece => (piece.Name, piece.Box)));
            Assert.Equal(layout.Pieces.Select(piece => piece.Flipped), twice.Pieces.Select(piece => piece.Flipped));
        }
    }

    [Fact]
    public void A_banner_that_hangs_from_the_top_hangs_from_the_top_in_every_variant()
    {
        var layout = Demo("bean-row");
        foreach (var mirror in Enum.GetValues<Mirror>())
        {
            var card = Fit(Mirroring.Apply(layout, mirror));
            Assert.Equal(card.PieceNamed("ground").Box.Top, card.PieceNamed("long-pennant").Box.Top);
        }
    }

    [Fact]
    public void The_accents_alone_change_sides_and_the_rest_stays()
    {
        var layout = Demo("bean-row");
        var (before, after) = (Fit(layout), Fit(Mirroring.Apply(layout, Mirror.AccentsAlone)));
        foreach (var piece in before.Pieces)
        {
            var expected = piece.Source.Accent
                ? before.PieceNamed("ground").Box is var ground ? ground.Left + (ground.Right - piece.Box.Right) : default
                : piece.Box.Left;
            Assert.Equal(expected, after.PieceNamed(piece.Name).Box.Left);
        }
    }

    [Fact]
    public void Lettering_facing_images_and_one_way_papers_are_not_flipped()
    {
        var layout = Read("""
            {
              "title": "t", "format": "A2", "held": "portrait", "units": "in", "reveal": "1/8", "base": { "paper": "plain" },
              "papers": { "plain": { "kind": "cardstock", "tone": "white" }, "way": { "kind": "patterned", "tone": "red", "one-way": true } },
              "pieces": [
                { "name": "words", "kind": "label", "text": "hello", "paper": "plain", "width": "1", "height": "1", "place": { "corner": "top left" } },
                { "name": "facing", "kind": "image", "faces": "left", "paper": "plain", "width": "1", "height": "1", "place": { "corner": "top right" } },
                { "name": "free", "kind": "image", "paper": "plain", "width": "1", "height": "1", "place": { "corner": "bottom right" } },
                { "name": "one-way", "kind": "panel", "paper": "way", "width": "1", "height": "1", "place": { "corner": "bottom left" } }
              ]
            }
            """);
        var mirrored = Mirroring.Apply(layout, Mirror.LeftRight);
        Assert.Equal(["free"], mirrored.Pieces.Where(piece => piece.Flipped).Select(piece => piece.Name));
    }

    [Fact]
    public void A_rule_between_a_flipped_and_a_standing_piece_keeps_its_meaning_in_the_mirror()
    {
        var layout = Read(Layout(
            """
            { "name": "still", "kind": "panel", "paper": "p", "width": "exactly 1", "height": "exactly 1", "place": { "from-left": "exactly 1/2", "from-top": "exactly 1" } },
            { "name": "moves", "kind": "panel", "paper": "p", "width": "exactly 1/2", "height": "exactly 1", "accent": true, "place": { "from-top": "exactly 3" } }
            """,
            """{ "must": "moves.left = still.right + exactly 1/4 in" }"""));
        var before = Fit(layout).PieceNamed("moves").Box.Left;
        var after = Fit(Mirroring.Apply(layout, Mirror.AccentsAlone)).PieceNamed("moves").Box;
        Assert.Equal(Length.FromInches(7, 4).Nanometres, before.Nanometres);

        // Where its left edge was 1 3/4 in from the left, its right edge is 1 3/4 in from the right.
        Assert.Equal((Length.FromInches(17, 4) - Length.FromInches(7, 4)).Nanometres, after.Right.Nanometres);
    }

    [Fact]
    public void A_row_runs_the_other_way_round_in_the_mirror()
    {
        var card = Fit(Mirroring.Apply(Demo("watering-can"), Mirror.LeftRight));
        Assert.True(card.PieceNamed("pennant-a").Box.Left > card.PieceNamed("pennant-c").Box.Left);
    }
}
