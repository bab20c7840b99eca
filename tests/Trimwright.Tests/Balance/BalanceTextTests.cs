using Trimwright.Balance;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Balance;

public class BalanceTextTests
{
    [Theory]
    [InlineData(0, 1, "0.00")]
    [InlineData(1, 3, "0.33")]
    [InlineData(-1, 200, "-0.01")]
    [InlineData(1, 200, "0.01")]
    [InlineData(-1, 201, "0.00")]
    [InlineData(7071, 100, "70.71")]
    [InlineData(-1999, 200, "-10.00")]
    public void Scores_have_two_decimals_and_mirror_one_another(long numerator, long denominator, string text) =>
        Assert.Equal(text, BalanceText.Score(Rational.From(numerator, denominator)));

    [Theory]
    [InlineData("", true, null)]
    [InlineData("", false, null)]
    [InlineData(""" "faces": "left", """, true, "`wren` faces left and stands nearer to the left edge, so it looks off the card")]
    [InlineData(""" "faces": "left", """, false, null)]
    [InlineData(""" "faces": "right", """, true, null)]
    [InlineData(""" "faces": "right", """, false, "`wren` faces right and stands nearer to the right edge, so it looks off the card")]
    public void What_faces_the_edge_that_is_nearer_looks_off_the_card(string faces, bool onTheLeft, string? note)
    {
        var card = Fit(Layout($$"""{ "name": "wren", "kind": "image", "paper": "p", {{faces}} "width": "exactly 1", "height": "exactly 1", "place": { "from-{{(onTheLeft ? "left" : "right")}}": "exactly 1/4", "center": "up-and-down" } }"""));
        Assert.Equal(note is null ? [] : [note], FacingNotes.Of(card));
    }

    [Theory]
    [InlineData("left")]
    [InlineData("right")]
    public void What_stands_in_the_middle_looks_off_no_edge(string faces) => Assert.Empty(FacingNotes.Of(Fit(Layout(
        $$"""{ "name": "wren", "kind": "image", "paper": "p", "faces": "{{faces}}", "width": "exactly 1", "height": "exactly 1", "place": { "center": "both" } }"""))));

    [Fact]
    public void Names_with_bars_do_not_break_the_table_of_the_page()
    {
        var layout = Read(Layout("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true } }"""));
        var found = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default);
        var odd = found with { Found = [found.Found[0] with { Name = @"as | \ drawn" }] };
        var row = BalanceTable.OfVariants(BalanceComparison.Of(odd, FacePictures.None).Variants).ToMarkdown().Split('\n')[2];
        Assert.StartsWith(@"| 1 | 1 | as \| \\ drawn |", row, StringComparison.Ordinal);
    }

    [Fact]
    public void A_layout_that_does_not_fit_as_drawn_is_not_compared() => Assert.Throws<ArgumentException>(() =>
        BalanceComparison.Of(new VariantsFound([new("as drawn", null, [])], [], 0), FacePictures.None));
}
