using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>Batches as a card maker would want them, in sixteenths of an inch.</summary>
public class BatchTests
{
    // Seventeen sets of six pieces. The numbers of sheets below are pinned by the proof of each plan, which is checked again by code of its own,
    // and by the replay: for 6 x 6 by hand too, since no two of the 34 large pieces fit one sheet.
    private static readonly (string Id, int Width, int Height, int Count)[] Seventeen =
    [
        ("front", 64, 84, 17), ("mat", 60, 80, 17), ("hedge", 60, 24, 17), ("path", 64, 28, 17), ("square", 22, 22, 34), ("tag", 16, 20, 17),
    ];

    [Theory]
    [InlineData(96, 96, 34)]
    [InlineData(128, 128, 17)]
    [InlineData(192, 192, 7)]
    [InlineData(136, 176, 12)]
    [InlineData(132, 187, 11)]
    public void Seventeen_sets_take_the_fewest_sheets_of_each_size_with_proof(int width, int height, int sheets)
    {
        var plan = Planned.Check(Batch(width, height));
        Assert.Equal(PlanState.ProvedCheapest, plan.State);
        Assert.Equal(sheets, plan.SheetCount);
    }

    [Fact]
    public void Ten_more_sheets_are_needed_when_the_large_pieces_may_not_turn()
    {
        var job = Batch(96, 96);
        job = job with { Pieces = [.. job.Pieces.Select((piece, n) => piece with { MayTurn = n >= 4 })] };
        var plan = Planned.Check(job);
        Assert.Equal(PlanState.ProvedCheapest, plan.State);
        Assert.Equal(44, plan.SheetCount);
    }

    [Fact]
    public void A_front_out_of_a_square_sheet_leaves_one_wide_strip()
    {
        var plan = Planned.Check(new([Planned.Sixteenths("front", 64, 84, 1)], [SixBySix(null)], new()));
        var (offcut, _, count) = Assert.Single(plan.Offcuts);
        Assert.Equal(1, count);
        Assert.Equal((Length.FromInches(2), Length.FromInches(6)), Sides(offcut));
        Assert.Equal(2, plan.Sheets[0].Cuts);
    }

    [Fact]
    public void Seventeen_fronts_out_of_eighteen_sheets_come_one_a_sheet_and_the_strips_are_named()
    {
        var plan = Planned.Check(new([Planned.Sixteenths("front", 64, 84, 17)], [SixBySix(18)], new()));
        Assert.Equal(PlanState.ProvedCheapest, plan.State);
        var sheet = Assert.Single(plan.Sheets);
        Assert.Equal(17, sheet.Repeats);
        var (offcut, stock, count) = Assert.Single(plan.Offcuts);
        Assert.Equal(("six", 17L), (stock, count));
        Assert.Equal((Length.FromInches(2), Length.FromInches(6)), Sides(offcut));
        Assert.Equal(4, plan.StackedCuts(stackLimit: 10));
    }

    [Fact]
    public void Offcuts_are_used_when_they_save_a_sheet_and_only_then()
    {
        // Four strips fill a sheet; the fifth would open another, or come out of the offcut.
        StockSheet[] stock =
        [
            new("offcut", Length.FromInches(2), Length.FromInches(6), 3, 1),
            new("new", Length.FromInches(6), Length.FromInches(6), null, 100),
        ];
        var five = Planned.Check(new([Planned.Sixteenths("strip", 24, 96, 5)], stock, new()));
        Assert.Equal(PlanState.ProvedCheapest, five.State);
        Assert.Equal(101, five.Cost);
        var three = Planned.Check(new([Planned.Sixteenths("strip", 24, 96, 3)], stock, new()));
        Assert.Equal(3, three.Cost);
        var four = Planned.Check(new([Planned.Sixteenths("strip", 24, 96, 4)], stock, new()));
        Assert.Equal(100, four.Cost);
    }

    [Fact]
    public void Pieces_of_different_papers_are_planned_apart()
    {
        var plan = Planned.Check(new(
            [
                Planned.Sixteenths("green", 64, 84, 4) with { From = ["green pad"] },
                Planned.Sixteenths("white", 48, 48, 8) with { From = ["white pad"] },
            ],
            [SixBySix(null) with { Id = "green pad" }, SixBySix(null) with { Id = "white pad" }],
            new()));
        Assert.Equal(2, plan.Lots.Count);
        Assert.Equal([4L, 2L], plan.Lots.Select(lot => lot.Sheets));
        Assert.Equal(PlanState.ProvedCheapest, plan.State);
    }

    [Fact]
    public void Pieces_of_one_size_share_sheets_and_keep_their_names()
    {
        var plan = Planned.Check(new(
            [Planned.Sixteenths("bean row", 48, 48, 3), Planned.Sixteenths("trellis", 48, 48, 5)], [SixBySix(null)], new()));
        var sheet = Assert.Single(plan.Sheets);
        Assert.Equal(2, sheet.Repeats);
        Assert.Equal(2, sheet.Root.Walk().OfType<CutPiece>().Count(piece => piece.Ids.SequenceEqual(["trellis", "trellis"])));
    }

    [Fact]
    public void Trued_edges_are_taken_off_before_anything_is_cut()
    {
        var eighth = SheetMargins.FromEqual(Length.FromInches(1, 8));
        var job = new CuttingJob([Planned.Sixteenths("square", 48, 48, 4)], [SixBySix(null) with { Margins = eighth }], new());
        Assert.Equal(4, Planned.Check(job).SheetCount);
        Assert.Equal(1, Planned.Check(job with { Stock = [SixBySix(null)] }).SheetCount);
    }

    [Fact]
    public void A_kerf_is_paid_at_each_cut_but_not_at_the_edges()
    {
        // Three of 32 with two cuts of 1 take 98; three of 31 take 95.
        var rules = new CuttingRules { Kerf = Length.FromInches(1, 16) };
        var wide = new CuttingJob([Planned.Sixteenths("strip", 32, 96, 3)], [SixBySix(null)], rules);
        Assert.Equal(2, Planned.Check(wide).SheetCount);
        Assert.Equal(1, Planned.Check(wide with { Pieces = [Planned.Sixteenths("strip", 31, 96, 3)] }).SheetCount);
    }

    [Fact]
    public void A_rest_as_thin_as_the_kerf_leaves_no_second_part()
    {
        var rules = new CuttingRules { Kerf = Length.FromInches(1, 16) };
        var plan = Planned.Check(new([Planned.Sixteenths("panel", 95, 96, 1)], [SixBySix(null)], rules));
        Assert.Null(Assert.IsType<CutInTwo>(plan.Sheets[0].Root).Second);
    }

    [Fact]
    public void Narrow_strips_are_sliced_from_a_block_that_was_cut_to_length_first()
    {
        // 1/2 in strips, 4 in long: no cut may be shorter than 1 in, so none may be cut to length as a strip. Twelve come out of a block
        // of 4 x 6, four out of the 2 x 4 beside it: the replay sees to the rest.
        var rules = new CuttingRules { LeastCut = Length.FromInches(1), LeastTrim = Length.FromInches(1, 8) };
        var plan = Planned.Check(new([Planned.Sixteenths("strip", 8, 64, 16)], [SixBySix(null)], rules));
        Assert.Equal(1, plan.SheetCount);
    }

    [Fact]
    public void Waste_too_thin_to_shave_off_costs_a_piece_its_place()
    {
        // Two of 2 15/16 leave 1/8 of 6, which may be cut off in one; a third margin of 1/4 may not be cut thinner.
        var piece = Planned.Sixteenths("square", 47, 47, 4);
        var loose = new CuttingRules { LeastTrim = Length.FromInches(1, 8) };
        var strict = new CuttingRules { LeastTrim = Length.FromInches(1, 4) };
        Assert.Equal(1, Planned.Check(new([piece], [SixBySix(null)], loose)).SheetCount);
        Assert.Equal(4, Planned.Check(new([piece], [SixBySix(null)], strict)).SheetCount);
    }

    [Fact]
    public void Hundred_thousand_pieces_are_planned_with_few_different_sheets()
    {
        var plan = Planned.Check(new(
            [Planned.Sixteenths("square", 24, 24, 70_000), Planned.Sixteenths("strip", 16, 96, 30_000)], [SixBySix(null)], new()));
        Assert.True(plan.SheetCount - plan.Bound <= 1, $"{plan.SheetCount} sheets, bound {plan.Bound}");
        Assert.True(plan.Sheets.Count <= 10);
    }

    [Fact]
    public void Inches_and_millimetres_are_planned_together_exactly()
    {
        var plan = Planned.Check(new(
            [Planned.Piece("label", 50, 70, 12), Planned.Sixteenths("front", 64, 84, 3)],
            [new("A4", Length.FromMillimetres(210), Length.FromMillimetres(297), null, 1)],
            new()), new() { Rounds = 500 });
        Assert.True(plan.SheetCount <= 3);
    }

    [Fact]
    public void A_batch_whose_common_unit_is_very_fine_is_planned_and_its_bound_holds_with_sides_rounded_down()
    {
        var plan = Planned.Check(
            new(
                [
                    Planned.Sixteenths("front", 64, 84, 9), Planned.Sixteenths("mat", 60, 80, 9), Planned.Piece("packet", 45, 107, 9),
                    Planned.Piece("label", 31, 33, 20), Planned.Piece("tag", 23, 37, 12), Planned.Sixteenths("seed", 19, 21, 12),
                ],
                [new("A4", Length.FromMillimetres(210), Length.FromMillimetres(297), null, 1)],
                new()),
            new() { Rounds = 2_000, TidySteps = 2_000 });
        Assert.Empty(plan.Missing);
        Assert.True(plan.SheetCount - plan.Bound <= 1, $"{plan.SheetCount} sheets, bound {plan.Bound}");
    }

    [Fact]
    public void What_is_left_over_is_gathered_on_one_sheet()
    {
        // Six of 3 x 6 take three sheets; a seventh and a 1 x 3 share a fourth, and of the other half 3 x 5 stays whole.
        var plan = Planned.Check(new(
            [Planned.Sixteenths("panel", 48, 96, 7), Planned.Sixteenths("tag", 16, 48, 1)], [SixBySix(null)], new()));
        Assert.Equal(4, plan.SheetCount);
        var largest = plan.Offcuts[0].Offcut;
        Assert.Equal((Length.FromInches(3), Length.FromInches(5)), Sides(largest));
    }

    [Fact]
    public void No_waste_is_held_to_the_fence_and_equal_distances_share_a_setting()
    {
        var plan = Planned.Check(Batch(136, 176));
        var cuts = plan.Sheets.SelectMany(sheet => sheet.Root.Walk().OfType<CutInTwo>()).ToList();
        Assert.All(cuts, cut => Assert.False((cut.FromFarEdge ? cut.Second : cut.First) is CutOffcut or CutSliver));
        Assert.Equal(cuts.Select(cut => cut.Setting.Nanometres).Distinct().Count(), plan.SettingCount);
        Assert.True(plan.SettingCount < cuts.Select(cut => cut.At.Nanometres).Distinct().Count());
    }

    private static CuttingJob Batch(int width, int height) => new(
        [.. Seventeen.Select(piece => Planned.Sixteenths(piece.Id, piece.Width, piece.Height, piece.Count))],
        [new("pad", Length.FromInches(width, 16), Length.FromInches(height, 16), null, 1)],
        new());

    private static StockSheet SixBySix(long? count) => new("six", Length.FromInches(6), Length.FromInches(6), count, 1);

    private static (Length Short, Length Long) Sides(CutNode node) =>
        (Length.Min(node.Width, node.Height), Length.Max(node.Width, node.Height));
}
