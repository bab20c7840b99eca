using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Variants;

public class NamedVariantTests
{
    [Theory]
    [InlineData("watering-can")]
    [InlineData("garden-gate")]
    [InlineData("bean-row")]
    public void Every_variant_that_is_shown_is_found_again_by_its_name(string demo)
    {
        // The search names plans that it has applied; here a name alone leads to the layout, and every piece comes to lie where it was.
        var layout = Demo(demo);
        var shown = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, 24).Found
            .Concat(VariantFits.Mirrored(layout, layout.Format, layout.Holding, Drawer.Default)).Where(variant => variant.Card is not null).ToList();
        Assert.True(shown.Count > 6);
        Assert.All(shown, variant =>
        {
            var found = NamedVariants.Find(layout, variant.Name);
            Assert.True(found is not null, variant.Name);
            var card = Fitter.Fit(found, layout.Format, layout.Holding, Drawer.Default).Card!;
            Assert.Equal(
                variant.Card!.Pieces.Select(piece => (piece.Name, piece.Box, piece.Source.Flipped, piece.Source.Tilt)),
                card.Pieces.Select(piece => (piece.Name, piece.Box, piece.Source.Flipped, piece.Source.Tilt)));
        });
    }

    [Theory]
    [InlineData("Mirrored  LEFT-RIGHT, sign to the bottom")]
    [InlineData("left-right, then `sign` to the bottom")]
    public void Backticks_and_upper_case_make_no_difference(string name)
    {
        var layout = Demo("garden-gate");
        var expected = Fit(NamedVariants.Find(layout, "mirrored left-right, `sign` to the bottom")!);
        Assert.Equal(expected.Pieces.Select(piece => piece.Box), Fit(NamedVariants.Find(layout, name)!).Pieces.Select(piece => piece.Box));
    }

    [Theory]
    [InlineData("")]
    [InlineData(",")]
    [InlineData("mirrored")]
    [InlineData("as drawn, sign to the bottom")]
    [InlineData("mirrored left-right, mirrored top-bottom")]
    [InlineData("sign to the bottom, sign to the left")]
    [InlineData("sign to the bottom, sign to the bottom")]
    [InlineData("gate to the moon")]
    [InlineData("then sign to the bottom")]
    public void A_name_of_nothing_gives_nothing(string name) => Assert.Null(NamedVariants.Find(Demo("garden-gate"), name));
}
