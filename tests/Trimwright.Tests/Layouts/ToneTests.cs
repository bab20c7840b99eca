using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class ToneTests
{
    private static string Tone(string tone) => Sample.Good(
        Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""")
            .Replace("\"p\": {}", $"\"p\": {{ \"tone\": \"{tone}\" }}", StringComparison.Ordinal))
        .Papers[0].Colour.ToString();

    [Theory]
    [InlineData("0%", "#ffffff")]
    [InlineData("100%", "#000000")]
    [InlineData("50 %", "#808080")] // 127.5, halves up
    [InlineData("12.5%", "#dfdfdf")] // 223.125
    [InlineData("#7a9", "#77aa99")] // CSS Color Module Level 4, section 5.2: each digit doubled
    [InlineData("#7A9B01", "#7a9b01")]
    [InlineData("BurlyWood", "#deb887")]
    public void A_tone_is_a_grey_a_name_or_digits(string tone, string colour) => Assert.Equal(colour, Tone(tone));

    [Fact]
    public void A_paper_without_a_tone_is_white() => Assert.Equal(
        "#ffffff", Sample.Good(Sample.With("""{ "name": "a", "kind": "panel", "paper": "p" }""")).Papers[0].Colour.ToString());

    [Fact]
    public void Colour_names_are_those_that_the_framework_knows_from_CSS_too()
    {
        // System.Drawing.Color carries the same list from an independent hand, but spells grey the American way alone and makes
        // `transparent` a colour.
        Assert.Equal(148, CssColours.Names.Count()); // CSS Color Module Level 4, section 6.1
        Assert.All(CssColours.Names, name =>
        {
            var known = System.Drawing.Color.FromName(name.Replace("grey", "gray", StringComparison.Ordinal));
            Assert.True(known.IsKnownColor && !known.IsSystemColor, name);
            Assert.Equal(new Colour(known.R, known.G, known.B), CssColours.Find(name));
        });
    }
}
