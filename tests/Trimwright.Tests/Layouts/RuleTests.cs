using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

public class RuleTests
{
    private const string Pieces = """
        { "name": "a", "kind": "panel", "paper": "p" }, { "name": "b-2", "kind": "panel", "paper": "p" },
        { "name": "in", "kind": "panel", "paper": "p" }, { "name": "exactly", "kind": "panel", "paper": "p" },
        { "row": "seeds", "runs": "across", "copies": 2, "of": { "kind": "panel", "paper": "p" } }
        """;

    private static Rule Read(string rule, string strength = "must", string rest = "") =>
        Assert.Single(Sample.Good(Sample.With(Pieces, $$"""{ "{{strength}}": "{{rule}}"{{rest}} }""")).Rules);

    private static string Terms(Rule rule) => string.Join(" ", rule.Terms.Select(term =>
        $"{LengthText.WriteMixed(term.Factor)}*{term.Of ?? "card"}.{term.Measure}"));

    // The terms all on the left, the relation, the constant in inches.
    [Theory]
    [InlineData("a.left = b-2.left", "1*a.Left -1*b-2.Left", RuleRelation.Equal, "0")]
    [InlineData("a.center-x = 1/2 card.width + 1/8 in", "1*a.CenterX -1/2*card.Width", RuleRelation.Equal, "1/8")]
    [InlineData("card.width = 2 a.width", "-1*card.Width 2*a.Width", RuleRelation.Equal, "0")]
    [InlineData("card.width <= 2 a.width", "-1*card.Width 2*a.Width", RuleRelation.AtLeast, "0")]
    [InlineData("card.width >= 2 a.width - 1", "-1*card.Width 2*a.Width", RuleRelation.AtMost, "1")]
    [InlineData("1/2 <= a.left", "1*a.Left", RuleRelation.AtLeast, "1/2")]
    [InlineData("a.top >= 0", "1*a.Top", RuleRelation.AtLeast, "0")]
    [InlineData("a.width * 3 = 2 * b-2.height", "3*a.Width -2*b-2.Height", RuleRelation.Equal, "0")]
    [InlineData("a.width / 3 = b-2.height", "1/3*a.Width -1*b-2.Height", RuleRelation.Equal, "0")]
    [InlineData("3 a.width / 4 = 1", "3/4*a.Width", RuleRelation.Equal, "1")]
    [InlineData("- a.left + 1 1/2 a.right = 1½", "-1*a.Left 1 1/2*a.Right", RuleRelation.Equal, "1 1/2")]
    [InlineData("-a.left = -1/8 in", "-1*a.Left", RuleRelation.Equal, "-1/8")]
    [InlineData("a.left − 1/8 in = 0", "1*a.Left", RuleRelation.Equal, "1/8")]
    [InlineData("a.left + a.left = 1", "2*a.Left", RuleRelation.Equal, "1")]
    [InlineData("a.left + b-2.left = a.left", "1*b-2.Left", RuleRelation.Equal, "0")]
    [InlineData("a.left = a.left + a.left + 1", "-1*a.Left", RuleRelation.Equal, "1")]
    [InlineData("seeds.bottom <= seeds-1.bottom", "1*seeds.Bottom -1*seeds-1.Bottom", RuleRelation.AtMost, "0")]
    [InlineData("0.25 a.center-y=a.top", "1/4*a.CenterY -1*a.Top", RuleRelation.Equal, "0")]
    [InlineData("a.width = 25.4 mm", "1*a.Width", RuleRelation.Equal, "1")]
    [InlineData("a.width = 1″", "1*a.Width", RuleRelation.Equal, "1")]
    [InlineData("a.width = 1 \\\"", "1*a.Width", RuleRelation.Equal, "1")]
    [InlineData("a.width = 1 in + 1 in - 1/2", "1*a.Width", RuleRelation.Equal, "1 1/2")]
    [InlineData("a.width = 2 in.width", "1*a.Width -2*in.Width", RuleRelation.Equal, "0")]
    [InlineData("a.width = exactly.width", "1*a.Width -1*exactly.Width", RuleRelation.Equal, "0")]
    public void A_rule_is_a_sum_of_terms_and_a_constant(string text, string terms, RuleRelation relation, string constant)
    {
        var rule = Read(text);
        Assert.Equal(terms, Terms(rule));
        Assert.Equal(relation, rule.Relation);
        Assert.Equal(constant, LengthText.WriteBare(rule.Constant, LengthUnit.Inch));
        Assert.Equal(text.Replace("\\\"", "\"", StringComparison.Ordinal), rule.Text);
    }

    [Theory]
    [InlineData("must", Strength.Must)]
    [InlineData("should", Strength.Should)]
    [InlineData("may", Strength.May)]
    public void The_strength_is_the_word_that_the_rule_stands_under(string word, Strength strength) =>
        Assert.Equal(strength, Read("a.left = 1", word).Strength);

    [Fact]
    public void The_reason_is_kept_for_explanations()
    {
        Assert.Equal("the picture faces left", Read("a.left = 1", "may", ", \"because\": \"the picture faces left\"").Because);
        Assert.Null(Read("a.left = 1").Because);
    }

    [Theory]
    [InlineData("a.left = 1/2 in", true)]
    [InlineData("a.left = about 1/2 in", true)]
    [InlineData("a.left = exactly 1/2 in", false)]
    [InlineData("a.left = exactly 1/2 - exactly 1/4 in", false)]
    [InlineData("a.left = exactly 1/2 + 0", false)]
    [InlineData("a.left = b-2.left", true)]
    public void Only_exactly_pins_the_constant_on_other_formats(string text, bool scales) => Assert.Equal(scales, Read(text).Scales);

    [Fact]
    public void A_bare_number_is_a_length_in_the_unit_of_the_file()
    {
        var layout = Sample.Good(Sample.With(Pieces, """{ "must": "a.left = 5" }""").Replace("\"in\", \"base\"", "\"mm\", \"base\"", StringComparison.Ordinal));
        Assert.Equal(Length.FromMillimetres(5), layout.Rules[0].Constant);
    }

    [Fact]
    public void Rules_stand_in_file_order_with_their_places()
    {
        var layout = Sample.Good(Sample.With(Pieces, "{ \"may\": \"a.left = 1\" },\n{ \"must\": \"a.left = 2\" }"));
        Assert.Equal([Strength.May, Strength.Must], layout.Rules.Select(rule => rule.Strength));
        Assert.Equal([(8, 10), (9, 11)], layout.Rules.Select(rule => (rule.Source.Line, rule.Source.Column)));
    }
}
