using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Measures;

public class LengthTextTests
{
    [Theory]
    [InlineData(25_400_000, "1 in")]
    [InlineData(34_925_000, "1 3/8 in")]
    [InlineData(3_175_000, "1/8 in")]
    [InlineData(-6_350_000, "-1/4 in")]
    [InlineData(-31_750_000, "-1 1/4 in")]
    [InlineData(0, "0 in")]
    [InlineData(396_875, "1/64 in")]
    [InlineData(3_000_000, "3 mm")] // 15/127 in is on no ruler
    [InlineData(5_080_000, "1/5 in")]
    public void Inches_are_written_as_mixed_fractions_unless_only_millimetres_can_be_found_on_a_ruler(long nanometres, string text) =>
        Assert.Equal(text, LengthText.Write(Length.FromNanometres(nanometres), LengthUnit.Inch));

    [Theory]
    [InlineData(25_400_000, "25.4 mm")]
    [InlineData(34_925_000, "34.925 mm")]
    [InlineData(1, "0.000001 mm")]
    [InlineData(-12_000_000, "-12 mm")]
    [InlineData(0, "0 mm")]
    [InlineData(10_000_000_000, "10000 mm")]
    public void Millimetres_are_written_as_decimals(long nanometres, string text) =>
        Assert.Equal(text, LengthText.Write(Length.FromNanometres(nanometres), LengthUnit.Millimetre));

    [Fact]
    public void A_place_that_has_no_finite_decimal_is_written_as_a_fraction()
    {
        var seventh = new Position(Rational.From(Length.NanometresPerInch, 7));
        Assert.Equal("1/7 in", LengthText.Write(seventh, LengthUnit.Inch));
        Assert.Equal("3 22/35 mm", LengthText.Write(seventh, LengthUnit.Millimetre)); // 25.4 / 7 = 127/35
    }

    [Fact]
    public void A_size_names_its_unit_once() =>
        Assert.Equal("4 x 5 1/4 in", LengthText.WriteSize(Length.FromInches(4), Length.FromInches(21, 4), LengthUnit.Inch));

    [Fact]
    public void A_size_in_two_units_names_both() =>
        Assert.Equal("4 in x 100 mm", LengthText.WriteSize(Length.FromInches(4), Length.FromMillimetres(100), LengthUnit.Inch));

    [Theory]
    [InlineData(396_875, LengthUnit.Inch, true)]
    [InlineData(396_874, LengthUnit.Inch, false)]
    [InlineData(100_000, LengthUnit.Millimetre, true)]
    [InlineData(50_000, LengthUnit.Millimetre, false)]
    public void A_ruler_shows_sixty_fourths_and_tenths_of_a_millimetre(long nanometres, LengthUnit unit, bool shown) =>
        Assert.Equal(shown, LengthText.IsOnRuler(nanometres, unit));

    [Fact]
    public void A_decimal_that_needs_more_digits_is_refused() =>
        Assert.Throws<ArgumentException>(() => LengthText.WriteDecimal(Rational.From(1, 3), 6));
}
