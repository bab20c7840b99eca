using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class SyntaxTests
{
    [Theory]
    [InlineData("")]
    [InlineData(" \t\r\n")]
    [InlineData("// nothing\n/* at all */")]
    [InlineData("\uFEFF")]
    public void A_file_without_content_is_empty(string text) => Assert.Equal("E0101", Assert.Single(Sample.Read(text).Diagnostics).Code);

    [Fact]
    public void A_file_of_more_than_four_mebibytes_is_refused_before_it_is_looked_at()
    {
        var atLimit = new byte[LayoutReader.MaxBytes];
        Array.Fill(atLimit, (byte)' ');
        Assert.Equal("E0101", Assert.Single(LayoutReader.Read("big.json", atLimit).Diagnostics).Code);
        var tooLarge = Assert.Single(LayoutReader.Read("big.json", [.. atLimit, 0]).Diagnostics);
        Assert.Equal("E0102", tooLarge.Code);
        Assert.Equal(tooLarge, LayoutReader.TooLarge("big.json") with { Related = tooLarge.Related, Notes = tooLarge.Notes });
    }

    public static TheoryData<byte[]> NoTexts => new()
    {
        { [0x89, (byte)'P', (byte)'N', (byte)'G'] },
        { [.. "{ \"title\": \""u8, 0, .. "\" }"u8] },
        { [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes("{}")] },
        { [.. "{ \"title\": \""u8, 0xC3, .. "\" }"u8] },        // a sequence cut short
        { [.. "{ \"title\": \""u8, 0xED, 0xA0, 0x80, .. "\" }"u8] }, // a surrogate, which UTF-8 forbids (RFC 3629)
        { [.. "{ \"title\": \""u8, 0xC0, 0xAF, .. "\" }"u8] },  // an overlong form, which RFC 3629 forbids
    };

    [Theory]
    [MemberData(nameof(NoTexts))]
    public void What_is_no_text_in_UTF_8_is_refused(byte[] content) =>
        Assert.Equal("E0103", Assert.Single(LayoutReader.Read("test.json", content).Diagnostics).Code);

    // «the place»
    [Theory]
    [InlineData("{ \"title\": \"a\"«", "close what is open with `}`")]
    [InlineData("{ \"pieces\": [ { \"name\": \"a\" }«", "close what is open with `]` `}`")]
    [InlineData("{ \"title\": 'a' }", "put texts and keys in double quotes", 12)]
    [InlineData("{ \"title\": “a” }", "put texts and keys in double quotes", 12)]
    [InlineData("{ title: \"a\" }", "put texts and keys in double quotes", 3)]
    [InlineData("{ \"title\": \"a\" \"units\": \"in\" }", "put a comma after the value before it", 16)]
    [InlineData("{ \"title\": \"a\", , \"units\": \"in\" }", "take the comma out", 17)]
    [InlineData("{ \"reveal\": 1/8 }", "`\"1/8\"`", 14)]
    [InlineData("{ \"reveal\": 2 in }", "`\"2 in\"`", 15)]
    [InlineData("{ \"reveal\": .5 }", "`0.5`", 13)]
    [InlineData("{ \"reveal\": 05 }", "`0.5`", 14)]
    [InlineData("{ \"title\": \"a }\n}", "close the text", 16)]
    [InlineData("{ \"title\": \"a\\q\" }", "`\\\\`", 15)]
    [InlineData("{ \"title\": \"a\" ] }", "close with `}` first", 16)]
    [InlineData("{ \"title\": \"a\" } }", "take it out", 18)]
    [InlineData("{ \"title\": tru }", "double quotes")]
    [InlineData("{ \"title\": % }", "check the quotes", 12)]
    [InlineData("{ \"title\": \"\\ud800\" }", "write the character itself")]
    [InlineData("/* open", "close it with `*/`", 1)]
    [InlineData("{ /* open", "close it with `*/`", 3)]
    public void What_is_no_JSON_is_reported_once_with_a_remedy(string text, string said, int? column = null)
    {
        var diagnostics = Sample.Read(text.Replace("«", "", StringComparison.Ordinal)).Diagnostics;
        var diagnostic = diagnostics.First(each => each.Code is "E0104" or "E0101");
        Assert.Contains(said, diagnostic.Message + "; " + diagnostic.Remedy, StringComparison.Ordinal);
        var marked = text.IndexOf('«', StringComparison.Ordinal);
        if ((marked < 0 ? column : marked + 1) is { } expected)
        {
            Assert.Equal((1, expected), (diagnostic.Place.Line, diagnostic.Place.Column));
        }
    }

    [Fact]
    public void A_lone_carriage_return_ends_a_line_in_the_place_of_an_error_too() =>
        Assert.Equal((3, 1), Assert.Single(Sample.Read("{\r\"title\":\n%}").Diagnostics) is { Place: var place } ? (place.Line, place.Column) : default);

    [Fact]
    public void Nesting_is_read_down_to_thirty_two_and_no_further()
    {
        string Nested(int depth) => new string('[', depth) + new string(']', depth);
        Assert.Equal("E0109", Assert.Single(Sample.Read(Nested(32)).Diagnostics).Code);
        var tooDeep = Assert.Single(Sample.Read(Nested(33)).Diagnostics);
        Assert.Equal(("E0105", 33), (tooDeep.Code, tooDeep.Place.Column));
        Assert.Equal("E0105", Assert.Single(Sample.Read(new string('[', 100_000)).Diagnostics).Code);
    }

    [Fact]
    public void A_key_that_stands_twice_is_reported_and_its_first_value_counts()
    {
        var reading = Sample.Read(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p", "name": 5 }"""));
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.Equal(("E0106", 47, 3), (diagnostic.Code, diagnostic.Place.Column, diagnostic.Related[0].Place.Column));
    }

    [Fact]
    public void Mistakes_before_a_place_where_reading_stops_are_not_lost()
    {
        var reading = Sample.Read("{ \"title\": 1, \"title\": 2, % }");
        Assert.Equal(["E0106", "E0104"], reading.Diagnostics.Select(diagnostic => diagnostic.Code));
    }

    [Fact]
    public void Comments_and_trailing_commas_are_read() =>
        Sample.Good("// layout\n" + Sample.With("""{ "name": "a", /* why */ "kind": "panel", "paper": "p", },"""));

    [Fact]
    public void Errors_of_the_whole_file_have_no_line() =>
        Assert.Equal(SourcePlace.WholeFile("test.json"), Assert.Single(Sample.Read("").Diagnostics).Place);
}
