using CsCheck;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

public class SearchTests
{
    private static readonly Gen<CuttingJob> Jobs =
        from kerf in Gen.Int[0, 1]
        from leastCut in Gen.Int[0, 5]
        from leastTrim in Gen.Int[0, 3]
        from sheets in Gen.Select(Gen.Int[12, 30], Gen.Int[12, 30], Gen.Int[0, 6], Gen.Int[1, 5]).Array[1, 3]
        from pieces in Gen.Select(Gen.Int[3, 14], Gen.Int[3, 14], Gen.Int[1, 9], Gen.Bool, Gen.Int[0, 4]).Array[1, 7]
        from lies in Gen.Int[0, 5].Array[pieces.Length * sheets.Length]
        select new CuttingJob(
            [.. pieces.Select((piece, n) => Planned.Piece($"piece {n}", piece.Item1, piece.Item2, piece.Item3) with
            {
                MayTurn = piece.Item4,
                From = piece.Item5 < sheets.Length ? [$"stock {piece.Item5}"] : null,
                Lies = [.. sheets.Select((_, s) => (Stock: s, Lie: lies[(n * sheets.Length) + s])).Where(lie => lie.Lie <= (int)PieceLie.Turned)
                    .Select(lie => new StockLie($"stock {lie.Stock}", (PieceLie)lie.Lie))],
            })],
            [.. sheets.Select((sheet, n) => Planned.Sheets($"stock {n}", sheet.Item1, sheet.Item2) with
            {
                Count = sheet.Item3 == 0 ? null : sheet.Item3,
                Cost = sheet.Item4,
                Margins = sheet.Item4 == 3 ? SheetMargins.FromEqual(Length.FromMillimetres(1)) : default,
            })],
            new()
            {
                Kerf = Length.FromMillimetres(kerf),
                LeastCut = Length.FromMillimetres(leastCut),
                LeastTrim = Length.FromMillimetres(leastTrim),
                OffcutWidth = Length.FromMillimetres(4),
                OffcutHeight = Length.FromMillimetres(5),
            });

    [Fact]
    public void Any_job_is_refused_or_gives_a_plan_that_can_be_cut_and_proofs_that_hold() => Jobs.Hold(
        job =>
        {
            var result = CuttingPlanner.Plan(job, new() { Rounds = 300, TidySteps = 2_000 });
            Assert.Equal(result.Plan is null, result.Refusals.Count > 0);
            if (result.Plan is { } plan)
            {
                Replay.Check(job, plan);
                Certificates.Check(job, plan);
            }
        },
        iter: 200);

    [Fact]
    public void The_same_job_gives_the_same_plan_every_time()
    {
        Jobs.Hold(
            job =>
            {
                var once = CuttingPlanner.Plan(job, new() { Rounds = 500 });
                var again = CuttingPlanner.Plan(job, new() { Rounds = 500 });
                Assert.Equal(once.Refusals, again.Refusals);
                if (once.Plan is { } plan)
                {
                    Assert.Equal(Planned.Text(plan), Planned.Text(again.Plan!));
                }
            },
            iter: 30);
    }

    [Fact]
    public void A_cancelled_search_keeps_a_whole_plan()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var pieces = Enumerable.Range(0, 40).Select(n => Planned.Piece($"piece {n}", 11 + (n * 7 % 41), 13 + (n * 11 % 43), 1 + (n % 3)));
        var plan = Planned.Check(new([.. pieces], [Planned.Sheets("sheet", 100, 100)], new()), cancel: source.Token);
        Assert.True(plan.Cancelled);
        Assert.Empty(plan.Missing);
    }

    [Fact]
    public void Cancelling_in_the_middle_keeps_the_best_plan_so_far()
    {
        using var source = new CancellationTokenSource();
        var told = new List<CuttingProgress>();
        var pieces = Enumerable.Range(0, 40).Select(n => Planned.Piece($"piece {n}", 11 + (n * 7 % 41), 13 + (n * 11 % 43), 1));
        var options = new CuttingOptions
        {
            Rounds = 1_000_000,
            Progress = progress =>
            {
                told.Add(progress);
                source.Cancel();
            },
        };
        var plan = Planned.Check(new([.. pieces], [Planned.Sheets("sheet", 100, 100)], new()), options, source.Token);
        Assert.Empty(plan.Missing);
        Assert.Equal(told[0].Sheets, plan.SheetCount);
        Assert.True(told[0].Bound <= plan.SheetCount);
    }
}
