using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

public class RefusalTests
{
    private static readonly StockSheet Six = new("six", Length.FromInches(6), Length.FromInches(6), null, 1);

    [Fact]
    public void A_piece_larger_than_every_sheet_is_named_with_the_sheet_that_would_do()
    {
        var margins = SheetMargins.FromEqual(Length.FromInches(1, 8));
        var refusal = Assert.Single(Refuse([Planned.Sixteenths("base", 88, 136, 1)], [Six with { Margins = margins }]));
        Assert.Equal((RefusalReason.PieceTooLarge, "base"), (refusal.Reason, refusal.Piece));
        Assert.Equal((Length.FromInches(23, 4), Length.FromInches(35, 4)), (refusal.SheetWidth, refusal.SheetHeight));
        var enough = Six with { Width = refusal.SheetWidth, Height = refusal.SheetHeight, Margins = margins };
        Assert.Equal(1, Planned.Check(new([Planned.Sixteenths("base", 88, 136, 1)], [enough], new())).SheetCount);
    }

    [Fact]
    public void All_that_is_wrong_is_said_at_once_in_the_order_of_the_job()
    {
        var refusals = Refuse(
            [
                Planned.Sixteenths("none", 16, 16, 0),
                Planned.Sixteenths("flat", 0, 16, 1),
                Planned.Sixteenths("lost", 16, 16, 1) with { From = ["blue"] },
                Planned.Sixteenths("lost", 16, 16, 1),
                Planned.Sixteenths("homeless", 16, 16, 1) with { From = [] },
                Planned.Sixteenths("tall", 16, 160, 1),
            ],
            [
                Six,
                new("nothing", Length.Zero, Length.FromInches(6), 1, 1),
                new("empty", Length.FromInches(6), Length.FromInches(6), 0, 1),
                new("free", Length.FromInches(6), Length.FromInches(6), null, 0),
                Six with { Id = "shaved", Margins = SheetMargins.FromEqual(Length.FromInches(3)) },
            ],
            new() { StackLimit = 0 });
        Assert.Equal(
            [
                (RefusalReason.RuleOutOfRange, null, null),
                (RefusalReason.SizeOutOfRange, null, "nothing"),
                (RefusalReason.CountOutOfRange, null, "empty"),
                (RefusalReason.CostOutOfRange, null, "free"),
                (RefusalReason.MarginsTooLarge, null, "shaved"),
                (RefusalReason.CountOutOfRange, "none", null),
                (RefusalReason.SizeOutOfRange, "flat", null),
                (RefusalReason.UnknownStock, "lost", "blue"),
                (RefusalReason.SameId, "lost", null),
                (RefusalReason.NoStock, "homeless", null),
                (RefusalReason.PieceTooLarge, "tall", null),
            ],
            refusals.Select(refusal => (refusal.Reason, refusal.Piece, refusal.Stock)));
    }

    [Fact]
    public void More_pieces_than_can_be_counted_are_refused()
    {
        Assert.Equal(
            [(RefusalReason.CountOutOfRange, "b")],
            Refuse([Planned.Sixteenths("a", 16, 16, CuttingPlanner.MostPieces), Planned.Sixteenths("b", 16, 16, long.MaxValue)], [Six])
                .Select(refusal => (refusal.Reason, refusal.Piece)));
    }

    [Theory]
    [InlineData(4, 4, 8, 0)] // No cut shorter than 1/2 in, but a 1/4 in square needs one.
    [InlineData(95, 96, 0, 2)] // No trim under 1/8 in, but 5 15/16 out of 6 leaves 1/16.
    public void A_piece_that_cannot_be_held_to_be_cut_is_named(int width, int height, int leastCut, int leastTrim)
    {
        var rules = new CuttingRules { LeastCut = Length.FromInches(leastCut, 16), LeastTrim = Length.FromInches(leastTrim, 16) };
        var refusal = Assert.Single(Refuse([Planned.Sixteenths("scrap", width, height, 1)], [Six], rules));
        Assert.Equal((RefusalReason.PieceCannotBeHeld, "scrap"), (refusal.Reason, refusal.Piece));
    }

    [Theory]
    [InlineData(1, 60, 1, false)] // Beside it 1 mm is left, which the other piece fills.
    [InlineData(1, 20, 1, false)] // Three of the other fill it.
    [InlineData(2, 60, 1, true)] // The other is too thick,
    [InlineData(1, 60, 0, true)] // or there is none: 1 mm of waste cannot be shaved off.
    public void What_cannot_be_shaved_off_as_waste_may_be_another_piece(int thickness, int length, int others, bool isRefused)
    {
        var panel = Planned.Piece("panel", 99, 60, 1);
        var strip = Planned.Piece("strip", thickness, length, 60 / length) with { MayTurn = false };
        var job = new CuttingJob(others > 0 ? [panel, strip] : [panel], [Planned.Sheets("sheet", 100, 60)], new() { LeastTrim = Length.FromMillimetres(2) });
        if (isRefused)
        {
            Assert.Equal((RefusalReason.PieceCannotBeHeld, "panel"), CuttingPlanner.Plan(job).Refusals.Select(refusal => (refusal.Reason, refusal.Piece!)).First());
            return;
        }

        var plan = Planned.Check(job);
        Assert.Equal((1L, PlanState.ProvedCheapest), (plan.SheetCount, plan.State));
    }

    [Fact]
    public void Nothing_wanted_is_refused() => Assert.Equal(RefusalReason.NoPieces, Assert.Single(Refuse([], [Six])).Reason);

    [Fact]
    public void Too_little_paper_is_no_refusal_but_a_plan_with_what_is_missing()
    {
        var plan = Planned.Check(new([Planned.Sixteenths("front", 64, 84, 5)], [Six with { Count = 3 }], new()));
        Assert.Equal(PlanState.ProvedIncomplete, plan.State);
        Assert.Equal([new MissingPieces("front", 2)], plan.Missing);
    }

    private static IReadOnlyList<CuttingRefusal> Refuse(
        IReadOnlyList<WantedPiece> pieces, IReadOnlyList<StockSheet> stock, CuttingRules? rules = null)
    {
        var result = CuttingPlanner.Plan(new(pieces, stock, rules ?? new()));
        Assert.Null(result.Plan);
        return result.Refusals;
    }
}
