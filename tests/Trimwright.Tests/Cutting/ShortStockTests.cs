using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>Stock that is far too little: what is left out costs far more than a sheet, so that worths are as large as they ever are.</summary>
public class ShortStockTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(2, 0)]
    [InlineData(0, 1)]
    public void One_dear_sheet_for_thousands_of_small_pieces_is_cut_and_the_rest_is_missing(int leastCut, int oddNanometres)
    {
        // A hundred fit the sheet, and leaving one out costs a hundred sheets and more, each of the greatest cost there may be.
        var side = Length.FromMillimetres(10);
        var job = new CuttingJob(
            [new("leaf", side, side, 3_000), new("stem", side * 2, side - Length.FromNanometres(oddNanometres), 500)],
            [new("sheet", side * 10, side * 10, 1, CuttingPlanner.GreatestCost)],
            new() { LeastCut = Length.FromMillimetres(leastCut), OffcutWidth = side, OffcutHeight = side });
        var plan = Planned.Check(job);
        Assert.Equal(PlanState.ProvedIncomplete, plan.State);
        Assert.Equal(1, plan.Sheets.Sum(sheet => sheet.Repeats));
        Assert.Equal(["leaf", "stem"], plan.Missing.Select(missing => missing.Piece));
    }

    [Fact]
    public void A_piece_wider_than_every_sheet_is_joined_as_far_as_the_dear_paper_goes()
    {
        var job = new CuttingJob(
            [Planned.Piece("bed", 150, 50, 2_000), Planned.Piece("half", 75, 50, 0)],
            [Planned.Sheets("sheet", 100, 100) with { Count = 2, Cost = CuttingPlanner.GreatestCost }],
            new())
        {
            Joins = [new("bed", ["half", "half"])],
        };
        var plan = Planned.Check(job);
        Assert.Equal(PlanState.ProvedIncomplete, plan.State);
        Assert.Equal(4_000 - 4, Assert.Single(plan.Missing, missing => missing.Piece == "half").Count);
    }

    [Fact]
    public void Worths_that_sums_of_32_bits_cannot_hold_are_no_table_to_fill()
    {
        // Sides of just under two steps count as one step each where sides are rounded down: four times as many fit as by area.
        var job = new CuttingJob(
            [new("leaf", Length.FromNanometres(1_249_999), Length.FromNanometres(1_249_999), 1)],
            [new("sheet", Length.FromNanometres(300_000_001), Length.FromNanometres(300_000_001), 1, 1)],
            new());
        Assert.Throws<ArgumentException>(() => BestSheet.Find(job, [BestSheet.MostWorth / (240 * 240)]));
    }
}
