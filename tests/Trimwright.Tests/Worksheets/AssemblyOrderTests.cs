using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;
using Trimwright.Worksheets;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Worksheets;

public partial class AssemblyOrderTests
{
    public static TheoryData<string, string> Cards()
    {
        var cards = new TheoryData<string, string>();
        foreach (var demo in Repository.DemoNames())
        {
            foreach (var format in (string[])["A2", "A7", "square 5 1/4 in", "ISO A6"])
            {
                cards.Add(demo, format);
            }
        }

        return cards;
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_piece_is_glued_once_and_after_what_it_is_glued_to(string demo, string format)
    {
        if (TryFit(Demo(demo), format).Card is not { } card)
        {
            return;
        }

        var glued = new List<string> { "the card" };
        foreach (var step in AssemblyOrder.Of(TrimList.FromCard(card)))
        {
            if (Placed().Match(step) is not { Success: true } match)
            {
                continue;
            }

            Assert.Contains(match.Groups["on"].Value, glued);
            var row = match.Groups["count"].Success;
            var names = row
                ? card.Pieces.Where(piece => piece.Source.Row == match.Groups["name"].Value).Select(piece => piece.Name).Except(glued)
                    .Take(int.Parse(match.Groups["count"].Value, CultureInfo.InvariantCulture)).ToList()
                : [match.Groups["name"].Value];
            Assert.All(names, name => Assert.DoesNotContain(name, glued));
            glued.AddRange(names);
        }

        Assert.Equal(card.Pieces.Select(piece => piece.Name), glued.Skip(1));
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void A_place_measured_from_an_edge_is_where_the_piece_lies(string demo, string format)
    {
        if (TryFit(Demo(demo), format).Card is not { } card)
        {
            return;
        }

        foreach (var match in AssemblyOrder.Of(TrimList.FromCard(card)).Select(step => Placed().Match(step)).Where(match => match.Success))
        {
            if (match.Groups["count"].Success || card.PieceNamed(match.Groups["name"].Value) is not { Source.Tilt.IsZero: true } piece)
            {
                continue;
            }

            var outer = piece.Mats.Count > 0 ? piece.Mats[^1].Box : piece.Box;
            var under = match.Groups["on"].Value == "the card" ? card.Face : card.PieceNamed(match.Groups["on"].Value).Box;
            foreach (Match place in Distance().Matches(match.Groups["where"].Value))
            {
                var from = place.Groups["whose"].Value == "its" ? under : card.Face;
                var gap = place.Groups["edge"].Value switch
                {
                    "left" => outer.Left - from.Left,
                    "right" => from.Right - outer.Right,
                    "top" => outer.Top - from.Top,
                    _ => from.Bottom - outer.Bottom,
                };
                gap = place.Groups["way"].Value == "beyond" ? -gap : gap;
                var (said, problem) = LengthReader.Read(place.Groups["length"].Value, card.Unit);
                Assert.True(problem is null, problem?.Problem);
                var nanometres = said!.Value.Value.Nanometres;
                if (place.Groups["over"].Success)
                {
                    // The mark of the ruler just below.
                    var mark = card.Unit == LengthUnit.Inch ? Length.NanometresPerInch / 64 : Length.NanometresPerMillimetre / 10;
                    Assert.True(gap.Nanometres > nanometres && gap.Nanometres < nanometres + mark, match.Value);
                }
                else
                {
                    Assert.True(gap.Nanometres == nanometres, match.Value);
                }
            }
        }
    }

    [Fact]
    public void A_piece_that_reaches_over_foam_is_told_how_much_higher_that_is()
    {
        var card = Fit(Layout("""
            { "name": "frame", "kind": "panel", "paper": "p", "width": "2", "height": "2", "lift": "1/8", "place": { "from-left": "1/2", "from-top": "1/2" } },
            { "name": "ribbon", "kind": "strip", "runs": "across", "paper": "p", "width": "3", "height": "1/2", "place": { "from-left": "1", "from-top": "1" } }
            """));
        var step = AssemblyOrder.Of(TrimList.FromCard(card)).Single(step => step.Contains("ribbon (", StringComparison.Ordinal));
        Assert.Contains("It lies over part of frame.", step, StringComparison.Ordinal);
        Assert.Contains("stands 1/8 in higher than the card", step, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("across", "left", "from left to right")]
    [InlineData("across", "right", "from right to left")]
    [InlineData("up-and-down", "top", "from top to bottom")]
    [InlineData("up-and-down", "bottom", "from bottom to top")]
    public void A_row_is_glued_from_where_it_starts(string runs, string start, string order)
    {
        // Numbers and places are told in the order of the row, so the words must go the same way.
        var card = Fit(Layout($$"""
            { "row": "beds", "runs": "{{runs}}", "starts-at": "{{start}}", "gap": "1/8", "place": { "center": "both" },
              "of": [ { "name": "a", "kind": "panel", "paper": "p", "width": "1/2", "height": "1/2" }, { "name": "b", "kind": "panel", "paper": "p", "width": "1/2", "height": "3/4" } ] }
            """));
        var step = AssemblyOrder.Of(TrimList.FromCard(card)).Single(step => step.Contains("pieces of beds", StringComparison.Ordinal));
        Assert.Contains($", {order}: ", step, StringComparison.Ordinal);
        var (a, b) = (card.PieceNamed("a").Box, card.PieceNamed("b").Box);
        Assert.Equal(start is "left" or "top", runs == "across" ? a.Left < b.Left : a.Top < b.Top);
    }

    [GeneratedRegex(@"^(Glue|With .* foam under it, mount) (the (?<count>\d+) pieces of )?(?<name>[a-z0-9-]+) \([\d, ]+\)(, (each )?on its mats?,)? (flat )?on (?<on>the card|[a-z0-9-]+)(, from [a-z ]+)?: (?<where>[^.]*)\.")]
    private static partial Regex Placed();

    [GeneratedRegex(@"(?<over>just over )?(?<length>\d[\d /.]* (in|mm)) (?<way>from|beyond) (?<whose>its|the card’s) (?<edge>left|right|top|bottom) (and [a-z]+ )?edge")]
    private static partial Regex Distance();
}
