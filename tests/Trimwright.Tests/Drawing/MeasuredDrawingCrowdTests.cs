using System.Globalization;
using System.Xml.Linq;
using Trimwright.Measures;
using Trimwright.Trimming;
using Xunit;

namespace Trimwright.Tests.Drawing;

/// <summary>Sheets of cards that nobody drew: whatever is on them, they can be read and are true.</summary>
public class MeasuredDrawingCrowdTests
{
    // In parts, so that they run side by side and a failure names its seeds.
    public static TheoryData<int> Hundreds => [.. Enumerable.Range(0, 10)];

    [Theory]
    [MemberData(nameof(Hundreds))]
    public void Fifty_random_cards_of_up_to_forty_pieces_can_be_read_and_are_true(int part)
    {
        for (var seed = part * 50; seed < (part + 1) * 50; seed++)
        {
            Check(seed, 1 + (seed % 40));
        }
    }

    [Theory]
    [InlineData(1001, 100)]
    [InlineData(1002, 150)]
    [InlineData(1003, 300)]
    public void A_crowd_of_pieces_can_be_read_and_is_true(int seed, int pieces) => Check(seed, pieces);

    private static void Check(int seed, int pieces)
    {
        try
        {
            var sheets = new MeasuredSheets(RandomCards.Make(seed, pieces), bothUnits: seed % 7 == 0);
            sheets.AssertReadableAndTrue();
            AssertSaysWhatTheListSays(sheets);
        }
        catch (Exception problem)
        {
            throw new InvalidOperationException($"card {seed} of {pieces} pieces: {problem.Message}", problem);
        }
    }

    /// <summary>Every length that is cut stands on a sheet, and every size on a sheet is that of something that is cut, or of the card.</summary>
    private static void AssertSaysWhatTheListSays(MeasuredSheets sheets)
    {
        var sizes = sheets.Dimensions
            .Where(d => (string)d.Attribute("data-measure")! is "width" or "height" or "size" || ((string)d.Attribute("data-measure")!).StartsWith("mat-", StringComparison.Ordinal))
            .SelectMany(d => ((string)d.Attribute("data-nm")!).Split(' ').Take((string)d.Attribute("data-measure")! is "width" or "height" ? 1 : 2)
                .Where((_, i) => i == 0 || !IsRound(d)))
            .ToHashSet();
        var listed = TrimList.FromCard(sheets.Card).Lines.Skip(1).SelectMany(line => new[] { Text(line.Width), Text(line.Height) }).ToHashSet();

        // Where a piece is as wide as its neighbour is far from the edge, one dimension says both.
        Assert.Equal([], listed.Except(sheets.Dimensions.SelectMany(d => ((string)d.Attribute("data-nm")!).Split(' '))));
        Assert.Equal([], sizes.Except(listed).Except([Text(sheets.Card.Width), Text(sheets.Card.Height)]));
    }

    /// <summary>A circle has one size, and what follows on its mat is the reveal.</summary>
    private static bool IsRound(XElement dimension) => dimension.Element(MeasuredSheets.Name("text"))!.Value.Contains('\u2300', StringComparison.Ordinal);

    private static string Text(Length length) => length.Nanometres.ToString(CultureInfo.InvariantCulture);
}
