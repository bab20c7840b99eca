using CsCheck;
using Trimwright.Diagnostics;
using Xunit;

namespace Trimwright.Tests.Diagnostics;

public class NearNamesTests
{
    // Worked by hand; `kitten` and `sitting` is the textbook example of the Levenshtein distance.
    [Theory]
    [InlineData("", "", 0)]
    [InlineData("", "abc", 3)]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("papre", "paper", 1)]
    [InlineData("form-left", "from-left", 1)]
    [InlineData("ca", "abc", 3)] // no letter takes part in two changes
    [InlineData("width", "widht", 1)]
    [InlineData("hight", "height", 1)]
    public void Edits_count_letters_left_out_put_in_changed_and_swapped(string from, string to, int edits) =>
        Assert.Equal(edits, NearNames.Edits(from, to));

    [Theory]
    [InlineData("widht", "width")]
    [InlineData("WIDTH", "width")]
    [InlineData("hieght", "height")]
    [InlineData("wih", "width")]
    [InlineData("colour", null)]
    [InlineData("", null)]
    [InlineData("xy", null)] // two changes would leave nothing of the word
    public void The_nearest_word_is_at_most_two_letters_away(string word, string? nearest) =>
        Assert.Equal(nearest, NearNames.Nearest(word, ["width", "height", "on"]));

    [Fact]
    public void Of_two_words_equally_near_the_first_is_taken()
    {
        Assert.Equal("bean", NearNames.Nearest("beam", ["bean", "beat"]));
        Assert.Equal("beat", NearNames.Nearest("beam", ["beat", "bean"]));
    }

    [Fact]
    public void Edits_are_the_same_both_ways_and_zero_for_equal_words_alone() =>
        Gen.Select(Gen.String[Gen.Char["abc"], 0, 8], Gen.String[Gen.Char["abc"], 0, 8]).Hold((a, b) =>
            NearNames.Edits(a, b) == NearNames.Edits(b, a)
            && NearNames.Edits(a, b) == 0 == (a == b)
            && NearNames.Edits(a, b) >= Math.Abs(a.Length - b.Length)
            && NearNames.Edits(a, b) <= Math.Max(a.Length, b.Length));
}
