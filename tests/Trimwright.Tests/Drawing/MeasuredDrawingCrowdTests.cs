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
            new MeasuredSheets(RandomCards.Make(seed, pieces), bothUnits: seed % 7 == 0).AssertReadableAndTrue();
        }
        catch (Exception problem)
        {
            throw new InvalidOperationException($"card {seed} of {pieces} pieces: {problem.Message}", problem);
        }
    }
}
