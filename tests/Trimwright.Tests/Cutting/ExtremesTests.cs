using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>The longest sides in the finest unit, and far more stock than pieces. Every plan is replayed and its proof checked again.</summary>
public class ExtremesTests
{
    [Fact]
    public void Sheets_of_two_metres_are_planned_to_the_nanometre()
    {
        // By hand: no two of these lie side by side on two metres, so that each has a sheet of its own.
        var longer = Length.FromNanometres(1_200_000_001);
        var job = new CuttingJob([new("panel", longer, longer, 3)], [new("sheet", Length.FromNanometres(1_999_999_999), Length.FromMillimetres(2_000), null, 1)], new());
        var plan = Planned.Check(job);
        Assert.Equal((3L, PlanState.ProvedCheapest), (plan.SheetCount, plan.State));
        Planned.Check(job with { Rules = new() { Kerf = Length.FromMillimetres(100) } });
    }

    [Fact]
    public void A_leftover_is_measured_by_a_long_limit_however_fine_the_unit()
    {
        // 600 mm and a nanometre beside it: less than the 700 mm that are worth keeping.
        var plan = Planned.Check(new(
            [new("panel", Length.FromMillimetres(1_000), Length.FromMillimetres(1_900), 1)],
            [new("sheet", Length.FromNanometres(1_600_000_001), Length.FromMillimetres(1_900), 1, 1)],
            new() { OffcutWidth = Length.FromMillimetres(700), OffcutHeight = Length.FromMillimetres(700) }));
        Assert.Empty(plan.Offcuts);
    }

    [Theory]
    [InlineData(100, false)]
    [InlineData(101, true)]
    public void A_kerf_as_wide_as_a_hand_is_a_slip_of_the_pen(int kerf, bool isRefused)
    {
        var result = CuttingPlanner.Plan(new([Planned.Piece("panel", 50, 50, 1)], [Planned.Sheets("sheet", 2_000, 2_000)], new() { Kerf = Length.FromMillimetres(kerf) }));
        Assert.Equal(isRefused, result.Refusals.Any(refusal => refusal.Reason == RefusalReason.RuleOutOfRange));
    }

    [Fact]
    public void A_proof_allows_for_all_the_sheets_there_are_not_only_for_one_for_each_piece()
    {
        // By hand: the square fits only the dear sheet. By area alone thirty free scraps would hold it.
        var plan = Planned.Check(new(
            [Planned.Piece("square", 6, 6, 1), Planned.Piece("tag", 3, 2, 1)],
            [Planned.Sheets("scrap", 3, 3) with { Count = 30, Cost = 0 }, Planned.Sheets("sheet", 9, 9) with { Count = 1, Cost = 5 }],
            new()));
        Assert.Equal((5L, PlanState.ProvedCheapest), (plan.Cost, plan.State));
    }

    [Fact]
    public void A_proof_allows_for_as_many_sheets_as_are_wanted_where_there_is_no_limit()
    {
        // By hand: the bed fits only the dear sheet, and the two squares lie beside it or on a cheap sheet each.
        var plan = Planned.Check(new(
            [Planned.Piece("bed", 7, 4, 1) with { MayTurn = false }, Planned.Piece("square", 4, 6, 2), Planned.Piece("tag", 4, 1, 1) with { MayTurn = false }],
            [Planned.Sheets("sheet", 10, 5) with { Cost = 5 }, Planned.Sheets("pad", 6, 6) with { Cost = 1 }, Planned.Sheets("scrap", 3, 3) with { Cost = 4 }],
            new()));
        Assert.Equal((7L, PlanState.ProvedCheapest), (plan.Cost, plan.State));
    }
}
