using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Fitting;

/// <summary>The main job against tables of the trade.</summary>
public class TradeTableTests
{
    private const string Ground = """{ "name": "ground", "kind": "panel", "paper": "p", "place": { "fill": true } }""";

    /// <summary>
    /// A printed chart of mat sizes (common practice, no source: no standard stands behind it). It names a mat by how much smaller it
    /// is in all: its "1/8 in mat" shows 1/16 in on every side, its "1/4 in mat" 1/8 in.
    /// </summary>
    public static TheoryData<string, string, string> MatChart() => new()
    {
        { "3 x 3 in", "2 7/8 x 2 7/8", "2 3/4 x 2 3/4" },
        { "6 x 6 in", "5 7/8 x 5 7/8", "5 3/4 x 5 3/4" },
        { "3 1/2 x 4 7/8 in", "3 3/8 x 4 3/4", "3 1/4 x 4 5/8" },
        { "4 1/4 x 5 1/2 in", "4 1/8 x 5 3/8", "4 x 5 1/4" },
        { "4 1/2 x 6 1/4 in", "4 3/8 x 6 1/8", "4 1/4 x 6" },
        { "5 x 7 in", "4 7/8 x 6 7/8", "4 3/4 x 6 3/4" },
        { "5 1/4 x 7 7/8 in", "5 1/8 x 7 3/4", "5 x 7 5/8" },
        { "5 1/2 x 8 1/2 in", "5 3/8 x 8 3/8", "5 1/4 x 8 1/4" },
        { "3 7/8 x 9 1/4 in", "3 3/4 x 9 1/8", "3 5/8 x 9" },
    };

    [Theory]
    [MemberData(nameof(MatChart))]
    public void The_mat_of_a_card_is_the_one_of_the_chart(string card, string eighthInAll, string quarterInAll)
    {
        Assert.Equal(eighthInAll, SizeOf(Fit(Layout(Ground, format: card, reveal: "1/16")).PieceNamed("ground")));
        Assert.Equal(quarterInAll, SizeOf(Fit(Layout(Ground, format: card, reveal: "1/8")).PieceNamed("ground")));
    }

    /// <summary>
    /// Blanks and scores from a merchant's chart of card bases (common practice, no source; its A8 score is misprinted as 5 in and
    /// corrected here to half the blank; the A10 blank is a printer's: 9 1/4 x 11 1/2 in). Sides across the fold first.
    /// </summary>
    public static TheoryData<string, string, Edge, string, string> BlankChart() => new()
    {
        { "A2", "portrait", Edge.Left, "8 1/2 x 5 1/2", "4 1/4 in" },
        { "A2", "portrait", Edge.Top, "4 1/4 x 11", "5 1/2 in" },
        { "A1", "portrait", Edge.Left, "7 x 4 7/8", "3 1/2 in" },
        { "A6", "portrait", Edge.Left, "9 x 6 1/4", "4 1/2 in" },
        { "A7", "portrait", Edge.Left, "10 x 7", "5 in" },
        { "A8", "portrait", Edge.Left, "10 1/2 x 7 7/8", "5 1/4 in" },
        { "A9", "portrait", Edge.Left, "11 x 8 1/2", "5 1/2 in" },
        { "A10", "portrait", Edge.Left, "11 1/2 x 9 1/4", "5 3/4 in" },
        { "No. 10", "portrait", Edge.Left, "7 3/4 x 9 1/4", "3 7/8 in" },
        { "3 x 3 in", "portrait", Edge.Left, "6 x 3", "3 in" },
        { "6 x 6 in", "portrait", Edge.Left, "12 x 6", "6 in" },
        { "slimline", "portrait", Edge.Left, "7 x 8 1/2", "3 1/2 in" },
        { "A5", "portrait", Edge.Left, "296 x 210", "148 mm" },
        { "DL", "portrait", Edge.Left, "198 x 210", "99 mm" },
        { "148 x 148 mm", "portrait", Edge.Left, "296 x 148", "148 mm" },
    };

    [Theory]
    [MemberData(nameof(BlankChart))]
    public void The_blank_and_the_score_of_a_base_are_those_of_the_chart(string format, string held, Edge fold, string blank, string score)
    {
        var card = CardFormats.Find(format, LengthUnit.Inch)!;
        var (width, height) = card.Held(held == "portrait" ? Holding.Portrait : Holding.Landscape);
        var (blankWidth, blankHeight, scoreAt) = BaseLine.Blank(width, height, fold);
        Assert.Equal(blank, $"{LengthText.WriteBare(blankWidth, card.Unit)} x {LengthText.WriteBare(blankHeight, card.Unit)}");
        Assert.Equal(score, LengthText.Write(scoreAt, card.Unit));
    }

    /// <summary>Common practice, no source: an A2 front with an eighth shown is 4 x 5 1/4, a mat of an eighth on it 3 3/4 x 5.</summary>
    [Fact]
    public void An_eighth_shown_twice_on_A2_leaves_4_by_5_1_4_and_3_3_4_by_5()
    {
        var card = Fit(Layout($$"""{{Ground}}, { "name": "mat", "kind": "panel", "paper": "p", "on": "ground", "place": { "fill": "1/8" } }"""));
        Assert.Equal("4 x 5 1/4", SizeOf(card.PieceNamed("ground")));
        Assert.Equal("3 3/4 x 5", SizeOf(card.PieceNamed("mat")));

        // Common practice, no source: a 6 x 6 in sheet cut for that front leaves a strip 2 in wide.
        Assert.Equal(Length.FromInches(2), Length.FromInches(6) - card.PieceNamed("ground").Width);
    }

    /// <summary>Printed charts repeat it, no standard stands behind it: the inner size is the outer less twice the reveal, both ways.</summary>
    [Theory]
    [InlineData("exactly 1/16")]
    [InlineData("exactly 1/8")]
    [InlineData("exactly 3/16")]
    [InlineData("exactly 1/4")]
    public void Every_reveal_is_the_same_on_all_four_sides(string reveal)
    {
        var card = Fit(Layout($$"""{ "name": "ground", "kind": "panel", "paper": "p", "place": { "fill": "{{reveal}}" } }""", format: "A7"));
        var (box, face) = (card.PieceNamed("ground").Box, card.Face);
        var expected = new Position(Trimwright.Measures.LengthReader.Read(reveal, LengthUnit.Inch).Length!.Value.Value.Nanometres);
        Assert.Equal(expected, box.Left - face.Left);
        Assert.Equal(expected, box.Top - face.Top);
        Assert.Equal(expected, face.Right - box.Right);
        Assert.Equal(expected, face.Bottom - box.Bottom);
    }

    private static string SizeOf(FittedPiece piece) =>
        $"{LengthText.WriteBare(piece.Width, LengthUnit.Inch)} x {LengthText.WriteBare(piece.Height, LengthUnit.Inch)}";
}
