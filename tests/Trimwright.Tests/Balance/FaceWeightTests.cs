using Trimwright.Balance;
using Trimwright.Fitting;
using Trimwright.Images;
using Trimwright.Measures;
using Trimwright.Tests.Images;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Balance;

public class FaceWeightTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    // The stated error of the render is half of what counts as a tie: 0.025 of 100.
    [Theory]
    [MemberData(nameof(Demos))]
    public void The_render_of_every_demo_weighs_what_its_outlines_weigh(string demo)
    {
        var card = Fit(Demo(demo));
        var weight = FaceWeight.Of(card, FacePictures.None, GroundTone.Light)!.Whole;
        var (dx, dy, terms) = OutlineWeights.Of(card);
        var within = BalanceRanking.TieWithin.ToDouble() / 2;
        Near(dx, weight.Dx, within);
        Near(dy, weight.Dy, within);
        Near(Math.Sqrt((dx * dx) + (dy * dy)), weight.Deviation, within);
        Near(terms.Average(), weight.Preference, within);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_pieces_together_pull_and_weigh_as_the_whole(string demo)
    {
        foreach (var ground in Enum.GetValues<GroundTone>())
        {
            var weight = FaceWeight.Of(Fit(Demo(demo)), FacePictures.None, ground)!;
            Assert.Equal(Rational.One, weight.Pieces.Aggregate(Rational.Zero, (sum, piece) => sum + piece.Share));
            Assert.Equal(-weight.Whole.Dx, weight.Pieces.Aggregate(Rational.Zero, (sum, piece) => sum + piece.PullX));
            Assert.Equal(-weight.Whole.Dy, weight.Pieces.Aggregate(Rational.Zero, (sum, piece) => sum + piece.PullY));
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_mirrored_card_has_the_mirrored_weight(string demo)
    {
        var layout = Demo(demo);
        var one = FaceWeight.Of(Fit(layout), FacePictures.None, GroundTone.Light)!.Whole;
        var mirrored = FaceWeight.Of(Fit(Mirroring.Apply(layout, Mirror.LeftRight)), FacePictures.None, GroundTone.Light)!.Whole;
        Near(-one.Dx.ToDouble(), mirrored.Dx, 0.001);
        Near(one.Deviation.ToDouble(), mirrored.Deviation, 0.001);
        Near(one.Preference.ToDouble(), mirrored.Preference, 0.001);
    }

    [Fact]
    public void A_black_quarter_of_a_white_card_puts_the_weight_in_its_middle()
    {
        // A2 portrait is 4 1/4 x 5 1/2 in; a sixteenth of 2 1/8 x 2 3/4 is on the trimmer's scale, so the quarter is exact.
        var weight = FaceWeight.Of(Fit(BlackPanel("2 1/8", "2 3/4", """ "from-left": "0", "from-top": "0" """)), FacePictures.None)!;
        Assert.Equal((Rational.From(1, 4), Rational.From(1, 4)), (weight.Whole.CentreX, weight.Whole.CentreY));
        Assert.Equal(Rational.From(1, 4), weight.Whole.Heaviness);
        Near(53.921, weight.Whole.Preference, 0.001);
        Assert.Equal(Length.FromInches(17, 16).Nanometres, weight.To.X.Nanometres);
        Assert.Equal((Rational.Zero, Rational.One), (weight.Pieces[0].Share, weight.Pieces[1].Share));
        Assert.Equal((-25, -25), (weight.Pieces[1].PullX, weight.Pieces[1].PullY));
    }

    [Fact]
    public void What_lies_over_the_edge_of_the_card_weighs_nothing()
    {
        var over = FaceWeight.Of(Fit(BlackPanel("2", "5 1/2", """ "from-left": "-1", "from-top": "0" """, """ "hangs-over": true, """)), FacePictures.None)!;
        var within = FaceWeight.Of(Fit(BlackPanel("1", "5 1/2", """ "from-left": "0", "from-top": "0" """)), FacePictures.None)!;
        Assert.Equal(within.Whole, over.Whole);
    }

    [Fact]
    public void A_picture_is_weighed_where_it_is_dark_and_with_its_paper_where_it_is_clear()
    {
        var card = Fit(Layout("""{ "name": "bean", "kind": "image", "paper": "p", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }"""));
        var picture = TestPictures.Make(40, 40, (x, _) => x < 20 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)0, (byte)0, (byte)0, (byte)0));
        var weight = FaceWeight.Of(card, FacePictures.None.With("bean", picture), GroundTone.Light)!;

        // The dark half reaches from 1 1/8 in to 2 1/8 in of 4 1/4 in; its middle lies at 1 5/8 in.
        Near(13.0 / 34, weight.Whole.CentreX, 0.001);
        Near(0.5, weight.Whole.CentreY, 0.001);
        Near(2 / 23.375, weight.Whole.Heaviness, 0.001);
    }

    [Fact]
    public void A_flipped_picture_is_weighed_flipped_and_a_facing_one_is_not()
    {
        var picture = TestPictures.Make(40, 40, (x, _) => x < 20 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)255, (byte)255, (byte)255, (byte)255));
        foreach (var (faces, turned) in new[] { ("", -1), (""" "faces": "left", """, 1) })
        {
            var layout = Read(Layout($$"""{ "name": "bean", "kind": "image", {{faces}} "paper": "p", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }"""));
            var pictures = FacePictures.None.With("bean", picture);
            var one = FaceWeight.Of(Fit(layout), pictures, GroundTone.Light)!.Whole.Dx;
            var mirrored = FaceWeight.Of(Fit(Mirroring.Apply(layout, Mirror.LeftRight)), pictures, GroundTone.Light)!.Whole.Dx;
            Near(turned * one.ToDouble(), mirrored, 0.01);
            Assert.True(one > 5);
        }
    }

    [Fact]
    public void A_tilted_picture_is_weighed_tilted()
    {
        // Dark on its left, turned half a right angle clockwise, a picture is dark towards its upper left.
        var card = Fit(Layout("""{ "name": "bean", "kind": "image", "tilt": 45, "paper": "p", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }"""));
        var picture = TestPictures.Make(40, 40, (x, _) => x < 20 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)255, (byte)255, (byte)255, (byte)255));
        var weight = FaceWeight.Of(card, FacePictures.None.With("bean", picture), GroundTone.Light)!.Whole;
        Near(100 * 0.5 * Math.Sqrt(0.5) / 4.25, weight.Dx, 0.05);
        Near(100 * 0.5 * Math.Sqrt(0.5) / 5.5, weight.Dy, 0.05);
    }

    [Fact]
    public void A_picture_cut_out_fills_its_piece_with_what_was_cut_out()
    {
        // A black square with a broad clear border: cut out, it fills the piece.
        var picture = TestPictures.Make(100, 100, (x, y) => x is >= 30 and < 70 && y is >= 30 and < 70 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)0, (byte)0, (byte)0, (byte)0));
        var card = Fit(Layout("""{ "name": "bean", "kind": "image", "paper": "p", "width": "exactly 2", "height": "exactly 2", "place": { "from-left": "0", "from-top": "0" } }"""));
        var whole = FaceWeight.Of(card, FacePictures.None.With("bean", picture), GroundTone.Light)!.Whole;
        var cutOut = FaceWeight.Of(card, FacePictures.None.With("bean", picture, TestPictures.Traced(picture)), GroundTone.Light)!.Whole;
        Near(4 / 23.375, cutOut.Heaviness, 0.002);
        Near(0.16 * 4 / 23.375, whole.Heaviness, 0.002);
    }

    [Fact]
    public void The_same_face_is_rendered_alike_twice() =>
        Assert.Equal(
            FaceRender.Draw(Fit(Demo("bean-row")), FacePictures.None).Grey.Levels.ToArray(),
            FaceRender.Draw(Fit(Demo("bean-row")), FacePictures.None).Grey.Levels.ToArray());

    private static string BlackPanel(string width, string height, string place, string more = "") => $$"""
        {
          "title": "test", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "white" },
          "papers": { "white": { "tone": "white" }, "black": { "tone": "black" } },
          "pieces": [ { "name": "bed", "kind": "panel", "paper": "black", {{more}} "width": "exactly {{width}}", "height": "exactly {{height}}", "place": { {{place}} } } ]
        }
        """;

    private static void Near(double expected, Rational actual, double within) =>
        Assert.InRange(actual.ToDouble(), expected - within, expected + within);
}
