using Trimwright.Fitting;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Fitting;

/// <summary>Lettering that something lies over is told, by hand-made cards: a sign of 2 x 1 in whose left edge is 1 in and whose top is 2 in from the card's.</summary>
public class CoveringTests
{
    private const string Sign = """
        { "name": "sign", "kind": "label", "paper": "p", "text": "thank you", "width": "2", "height": "1", "place": { "from-left": "1", "from-top": "2" } }
        """;

    [Theory]
    [InlineData("\"width\": \"1/2\", \"height\": \"2\", \"place\": { \"from-left\": \"3/4\", \"from-top\": \"1\" }", true)]
    [InlineData("\"width\": \"1/2\", \"height\": \"2\", \"place\": { \"from-left\": \"1/2\", \"from-top\": \"1\" }", false)]
    [InlineData("\"width\": \"1/4\", \"height\": \"2\", \"place\": { \"from-left\": \"1/2\", \"from-top\": \"1\" }", false)]
    [InlineData("\"width\": \"1/4\", \"height\": \"2\", \"tilt\": 45, \"place\": { \"from-left\": \"1/2\", \"from-top\": \"1 1/2\" }", true)]
    [InlineData("\"width\": \"1/4\", \"height\": \"2\", \"mats\": [ { \"paper\": \"p\", \"reveal\": \"1/2\" } ], \"place\": { \"from-left\": \"1/4\", \"from-top\": \"1\" }", true)]
    [InlineData("\"on\": \"sign\", \"width\": \"1/2\", \"height\": \"1/2\", \"place\": { \"center\": \"both\" }", false)]
    public void A_strip_over_lettering_is_told_and_one_beside_it_or_placed_on_it_is_not(string strip, bool isTold)
    {
        var card = Fit(Layout($$"""{{Sign}}, { "name": "strip", "kind": "panel", "paper": "p", {{strip}} }"""));
        var told = FitReport.Of(card).Where(section => section.Heading.Contains("lies over lettering", StringComparison.Ordinal)).SelectMany(section => section.Lines);
        if (isTold)
        {
            Assert.StartsWith("`sign` lies in part under `strip` (line ", Assert.Single(told), StringComparison.Ordinal);
        }
        else
        {
            Assert.Empty(told);
        }
    }

    [Fact]
    public void A_panel_below_lettering_covers_nothing() => Assert.DoesNotContain(
        FitReport.Of(Fit(Layout($$"""{ "name": "ground", "kind": "panel", "paper": "p", "place": { "fill": true } }, {{Sign}}"""))),
        section => section.Heading.Contains("lies over lettering", StringComparison.Ordinal));
}
