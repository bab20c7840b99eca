using CsCheck;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Measures;

public class LengthReaderTests
{
    private static WrittenLength Read(string text, LengthUnit unit = LengthUnit.Inch)
    {
        var (length, problem) = LengthReader.Read(text, unit);
        Assert.True(length.HasValue, problem?.Problem);
        Assert.Null(problem);
        return length.Value;
    }

    // Nanometres worked out by hand from 1 in = 25.4 mm (international yard and pound agreement, 1959).
    [Theory]
    [InlineData("1", 25_400_000)]
    [InlineData("1/8", 3_175_000)]
    [InlineData("1/64", 396_875)]
    [InlineData("1 1/2", 38_100_000)]
    [InlineData("1-1/2", 38_100_000)]
    [InlineData("1  -  1/2 in", 38_100_000)]
    [InlineData("1½", 38_100_000)]
    [InlineData("1 ½", 38_100_000)]
    [InlineData("½", 12_700_000)]
    [InlineData("⅝ in", 15_875_000)]
    [InlineData("7⁄8", 22_225_000)]
    [InlineData("0.125", 3_175_000)]
    [InlineData(".5", 12_700_000)]
    [InlineData("2 in", 50_800_000)]
    [InlineData("2in", 50_800_000)]
    [InlineData("2 inch", 50_800_000)]
    [InlineData("2 INCHES", 50_800_000)]
    [InlineData("2\"", 50_800_000)]
    [InlineData("2″", 50_800_000)]
    [InlineData("2”", 50_800_000)]
    [InlineData("12mm", 12_000_000)]
    [InlineData("12 MM", 12_000_000)]
    [InlineData("3.5 cm", 35_000_000)]
    [InlineData("0.000001 mm", 1)]
    [InlineData("-1/4", -6_350_000)]
    [InlineData("−1/4", -6_350_000)]
    [InlineData("-1 1/4", -31_750_000)]
    [InlineData("0", 0)]
    [InlineData("  2  in  ", 50_800_000)]
    [InlineData("10000 mm", 10_000_000_000)]
    [InlineData("5/2", 63_500_000)]
    [InlineData("1/5", 5_080_000)]
    public void A_length_is_read_to_the_nanometre(string text, long nanometres) => Assert.Equal(nanometres, Read(text).Value.Nanometres);

    [Theory]
    [InlineData("exactly 2", Strength.Must)]
    [InlineData("Exactly 2 in", Strength.Must)]
    [InlineData("about 2", Strength.May)]
    [InlineData("  about2", Strength.May)]
    [InlineData("2", Strength.Should)]
    public void The_word_before_a_length_gives_its_strength(string text, Strength strength)
    {
        Assert.Equal(strength, Read(text).Strength);
        Assert.Equal(Length.FromInches(2), Read(text).Value);
    }

    [Theory]
    [InlineData("2", LengthUnit.Millimetre, LengthUnit.Millimetre, 2_000_000)]
    [InlineData("2 in", LengthUnit.Millimetre, LengthUnit.Inch, 50_800_000)]
    [InlineData("2 cm", LengthUnit.Inch, LengthUnit.Millimetre, 20_000_000)]
    public void A_length_without_a_unit_is_in_the_unit_of_the_file(string text, LengthUnit unit, LengthUnit meant, long nanometres) =>
        Assert.Equal((meant, nanometres), (Read(text, unit).Unit, Read(text, unit).Value.Nanometres));

    [Theory]
    [InlineData("", "missing", 0)]
    [InlineData("   ", "missing", 3)]
    [InlineData("exactly", "missing", 7)]
    [InlineData("wide", "begin with a number", 0)]
    [InlineData("exactlyish 2", "begin with a number", 0)]
    [InlineData("2 feet", "`feet` is not a unit", 2)]
    [InlineData("2 in in", "is not a unit", 2)]
    [InlineData("2 1/2 3", "is not a unit", 6)]
    [InlineData("1,5 cm", "decimal comma", 1)]
    [InlineData("1.", "after the point", 2)]
    [InlineData("1.x", "after the point", 2)]
    [InlineData("1/0", "below the stroke", 2)]
    [InlineData("1/", "below the stroke", 2)]
    [InlineData("1/x", "below the stroke", 2)]
    [InlineData("1/3", "no whole number of nanometres", 0)]
    [InlineData("exactly 1/7 in", "no whole number of nanometres", 8)]
    [InlineData("1/128", "no whole number of nanometres", 0)] // 198 437.5 nm
    [InlineData("0.0000001 mm", "no whole number of nanometres", 0)]
    [InlineData("10000.000001 mm", "longer than 10 m", 0)]
    [InlineData("-10001 mm", "longer than 10 m", 0)]
    [InlineData("--2", "begin with a number", 0)]
    [InlineData("1e3", "is not a unit", 1)]
    [InlineData("NaN", "begin with a number", 0)]
    [InlineData("٣", "begin with a number", 0)] // an Arabic-Indic three
    public void What_is_no_length_is_refused_with_a_remedy(string text, string problem, int start)
    {
        var (length, found) = LengthReader.Read(text, LengthUnit.Inch);
        Assert.Null(length);
        Assert.Contains(problem, found!.Problem, StringComparison.Ordinal);
        Assert.Equal(start, found.Start);
        Assert.NotEmpty(found.Remedy);
    }

    [Fact]
    public void A_text_of_more_than_a_hundred_characters_is_refused()
    {
        Assert.NotNull(LengthReader.Read("1." + new string('0', 98), LengthUnit.Inch).Length);
        Assert.Null(LengthReader.Read("1." + new string('0', 99), LengthUnit.Inch).Length);
    }

    [Theory]
    [InlineData("1/3", "use 5/16 in or 3/8 in")]
    [InlineData("1/3 cm", "use 3 mm or 3.5 mm")]
    [InlineData("-1/3", "use -3/8 in or -5/16 in")]
    public void The_remedy_for_an_inexact_length_names_the_nearest_settings(string text, string remedy)
    {
        var (_, problem) = LengthReader.Read(text, LengthUnit.Inch);
        Assert.Equal(remedy, problem!.Remedy);
        Assert.All(remedy["use ".Length..].Split(" or "), setting => Read(setting));
    }

    [Theory]
    [InlineData("2", 2, 1)]
    [InlineData(" 0.25 ", 1, 4)]
    [InlineData("1 1/2", 3, 2)]
    [InlineData("½", 1, 2)]
    [InlineData("-7.5", -15, 2)]
    public void A_plain_number_is_exact(string text, long numerator, long denominator) =>
        Assert.Equal(Rational.From(numerator, denominator), LengthReader.ReadNumber(text).Number);

    [Theory]
    [InlineData("2 in")]
    [InlineData("1e3")]
    [InlineData("")]
    [InlineData("1 2")]
    public void A_number_with_anything_after_it_is_refused(string text) => Assert.NotNull(LengthReader.ReadNumber(text).Problem);

    [Fact]
    public void Every_length_that_is_written_is_read_back_as_the_same_length() =>
        Gen.Select(
            Gen.OneOf(
                Gen.Long[-10_000_000_000, 10_000_000_000],
                Gen.Long[-25_000, 25_000].Select(sixtyFourths => sixtyFourths * 396_875),
                Gen.Long[-10_000, 10_000].Select(millimetres => millimetres * 1_000_000)),
            Gen.Enum<LengthUnit>())
        .Hold((nanometres, unit) =>
        {
            var length = Length.FromNanometres(nanometres);
            var (read, _) = LengthReader.Read(LengthText.Write(length, unit), unit);
            var (bare, _) = LengthReader.Read(LengthText.WriteBare(length, unit), unit);
            return read?.Value == length && bare?.Value == length;
        });

    [Fact]
    public void Reading_ends_without_an_exception_on_any_text() =>
        Gen.OneOf(Gen.String, Gen.String[Gen.Char["0123456789/.- ½⅛⁄\"inmcxabouty"], 0, 30])
            .Hold(text =>
            {
                var (length, problem) = LengthReader.Read(text, LengthUnit.Inch);
                return length.HasValue == problem is null && (problem is null || (problem.Start >= 0 && problem.Start <= text.Length));
            });
}
