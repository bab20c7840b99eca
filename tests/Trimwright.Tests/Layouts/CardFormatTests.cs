using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class CardFormatTests
{
    private static CardFormat Named(string name) => CardFormats.All.Single(format => format.Name == name);

    private static (Length, Length) Mm(long shortSide, long longSide) => (Length.FromMillimetres(shortSide), Length.FromMillimetres(longSide));

    private static (Length, Length) Sides(CardFormat format) => (format.ShortSide, format.LongSide);

    // ISO 216: A0 has an area of one square metre and sides in the ratio 1 : sqrt 2; each size is the one before halved, rounded down to
    // the millimetre. A0 is 841 x 1189 mm.
    [Theory]
    [InlineData("ISO A5", 5)]
    [InlineData("ISO A6", 6)]
    public void The_metric_A_formats_are_those_of_ISO_216(string name, int halvings)
    {
        var (shortSide, longSide) = (841L, 1189L);
        for (var i = 0; i < halvings; i++)
        {
            (shortSide, longSide) = (longSide / 2, shortSide);
        }

        Assert.Equal(Mm(shortSide, longSide), Sides(Named(name)));
    }

    [Fact]
    public void DL_is_a_third_of_A4() =>
        Assert.Equal(Mm(297 / 3, 210), Sides(Named("DL"))); // A4 is 210 x 297 mm by ISO 216

    // ISO 269, also in DIN 678-1: C5, C6, DL and C6/C5.
    [Theory]
    [InlineData("ISO A5", 162, 229)]
    [InlineData("ISO A6", 114, 162)]
    [InlineData("DL", 110, 220)]
    [InlineData("long card", 114, 229)]
    public void Metric_envelopes_are_those_of_ISO_269(string name, long shortSide, long longSide) =>
        Assert.Equal(Mm(shortSide, longSide), Named(name).Envelope);

    // Charts of card blanks and of envelopes: common practice, no source. Millimetres by 1 in = 25.4 mm (1959).
    [Theory]
    [InlineData("A1", "3 1/2", "4 7/8", "92.075 x 130.175 mm")]
    [InlineData("A2", "4 1/4", "5 1/2", "111.125 x 146.05 mm")]
    [InlineData("A6", "4 1/2", "6 1/4", "120.65 x 165.1 mm")]
    [InlineData("A7", "5", "7", "133.35 x 184.15 mm")]
    [InlineData("A8", "5 1/4", "7 7/8", "139.7 x 206.375 mm")]
    [InlineData("A9", "5 1/2", "8 1/2", "146.05 x 222.25 mm")]
    [InlineData("A10", "5 3/4", "9 1/4", "152.4 x 241.3 mm")]
    [InlineData("slimline", "3 1/2", "8 1/2", "98.425 x 225.425 mm")]
    [InlineData("No. 10", "3 7/8", "9 1/4", "104.775 x 241.3 mm")]
    [InlineData("square 3 in", "3", "3", "82.55 x 82.55 mm")]
    [InlineData("square 6 in", "6", "6", "158.75 x 158.75 mm")]
    public void Inch_formats_and_their_envelopes_are_those_of_the_charts(string name, string shortSide, string longSide, string envelope)
    {
        var format = Named(name);
        Assert.Equal((shortSide, longSide), (LengthText.WriteBare(format.ShortSide, LengthUnit.Inch), LengthText.WriteBare(format.LongSide, LengthUnit.Inch)));
        Assert.Equal(envelope, LengthText.WriteSize(format.Envelope!.Value.ShortSide, format.Envelope.Value.LongSide, LengthUnit.Millimetre));
        Assert.Equal(LengthUnit.Inch, format.Unit);
    }

    [Fact]
    public void Every_format_goes_into_its_envelope_with_an_eighth_of_an_inch_to_spare()
    {
        // 1/8 in is the least clearance found in charts (common practice, no source).
        var least = Length.FromInches(1, 8);
        Assert.All(CardFormats.All, format =>
        {
            Assert.True(format.Envelope!.Value.ShortSide >= format.ShortSide + least, format.Name);
            Assert.True(format.Envelope.Value.LongSide >= format.LongSide + least, format.Name);
            Assert.True(format.ShortSide <= format.LongSide);
            Assert.NotEmpty(format.Source);
        });
    }

    [Theory]
    [InlineData("square 144 mm")]
    [InlineData("square 148 mm")]
    [InlineData("square 150 mm")]
    [InlineData("long card")]
    public void What_no_page_was_found_for_says_so(string name) =>
        Assert.Contains("from memory", Named(name).Source, StringComparison.Ordinal);

    [Fact]
    public void The_catalogue_has_the_squares_of_the_trade() => Assert.Equal(
        ["3 in", "4 in", "4 1/4 in", "5 in", "5 1/4 in", "5 1/2 in", "6 in", "144 mm", "148 mm", "150 mm"],
        CardFormats.All.Where(format => format.IsSquare).Select(format => LengthText.Write(format.ShortSide, format.Unit)));

    [Theory]
    [InlineData("a2", "A2")]
    [InlineData(" A 2 ", "A2")]
    [InlineData("no 10", "No. 10")]
    [InlineData("Number 10", "No. 10")]
    [InlineData("SLIMLINE", "slimline")]
    [InlineData("a-long", "slimline")]
    [InlineData("4-bar", "A1")]
    [InlineData("A6", "A6")]
    [InlineData("A6 in", "A6")]
    [InlineData("iso a6", "ISO A6")]
    [InlineData("A6 mm", "ISO A6")]
    [InlineData("A5", "ISO A5")]
    [InlineData("dl", "DL")]
    [InlineData("square 5 1/4", "square 5 1/4 in")]
    [InlineData("Square 5.25 in", "square 5 1/4 in")]
    [InlineData("square 5¼", "square 5 1/4 in")]
    [InlineData("square 148 mm", "square 148 mm")]
    public void Names_are_read_without_regard_to_case_spaces_and_points(string text, string name) =>
        Assert.Equal(name, CardFormats.Find(text, LengthUnit.Inch)?.Name);

    [Theory]
    [InlineData("4 x 6 in", LengthUnit.Millimetre, "4 x 6 in", LengthUnit.Inch, Holding.Portrait)]
    [InlineData("6x4", LengthUnit.Inch, "4 x 6 in", LengthUnit.Inch, Holding.Landscape)]
    [InlineData("105 × 148 mm", LengthUnit.Inch, "105 x 148 mm", LengthUnit.Millimetre, Holding.Portrait)]
    [InlineData("4 in x 6 in", LengthUnit.Millimetre, "4 x 6 in", LengthUnit.Inch, Holding.Portrait)]
    [InlineData("10 x 14.8 cm", LengthUnit.Inch, "100 x 148 mm", LengthUnit.Millimetre, Holding.Portrait)]
    [InlineData("7 x 5 in", LengthUnit.Inch, "5 x 7 in", LengthUnit.Inch, Holding.Landscape)] // like A7, but as the maker wrote it
    [InlineData("5 x 5", LengthUnit.Inch, "5 x 5 in", LengthUnit.Inch, null)]
    [InlineData("square 4 1/2", LengthUnit.Inch, "4 1/2 x 4 1/2 in", LengthUnit.Inch, null)]
    public void Any_size_is_a_format_of_the_maker_held_as_written(string text, LengthUnit unit, string size, LengthUnit madeIn, Holding? held)
    {
        var (reading, _) = CardFormats.Read(text, unit);
        Assert.Equal(size, LengthText.WriteSize(reading!.Format.ShortSide, reading.Format.LongSide, reading.Format.Unit));
        Assert.Equal((madeIn, held, text), (reading.Format.Unit, reading.AsWritten, reading.Format.Name));
        Assert.Null(reading.Format.Envelope);
    }

    [Theory]
    [InlineData("")]
    [InlineData("A3")]
    [InlineData("square")]
    [InlineData("square x")]
    [InlineData("4 x")]
    [InlineData("x 4")]
    [InlineData("4 x 6 x 8")]
    [InlineData("-4 x 6")]
    public void What_is_neither_a_name_nor_a_size_is_no_format(string text)
    {
        var (reading, problem) = CardFormats.Read(text, LengthUnit.Inch);
        Assert.Null(reading);
        Assert.NotEmpty(problem!.Remedy);
        Assert.Null(CardFormats.Find(text, LengthUnit.Inch));
    }
}
