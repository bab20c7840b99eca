using System.Text;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Batches;

namespace Trimwright.Tests.Cutting;

/// <summary>Counts are tried by plans that are only asked whether the stock will do. What is kept when the search is ended must be no dearer for that.</summary>
public class EndedEarlyTests
{
    // By hand: 9 x 7 and two of 2 x 12 beside each other are 13 x 12, the other two go into the band of 16 x 9 below them. One sheet will do.
    private static readonly (int Width, int Height, int Count)[] Pieces = [(9, 7, 1), (2, 12, 2), (2, 13, 1), (5, 2, 1)];

    private static readonly Trimwright.Cutting.StockSheet Sheets = Planned.Sheets("sheet", 16, 21) with { Count = 9 };

    [Fact]
    public void Sets_for_which_a_search_was_ended_come_from_as_few_sheets_as_ever()
    {
        var job = new CuttingJob([.. Pieces.Select((piece, n) => Planned.Piece($"piece {n}", piece.Width, piece.Height, piece.Count))], [Sheets], new());
        Assert.Equal(1, Planned.Check(job).SheetCount);

        // The first plan that comes to hand takes two; if it does no longer, this job tests nothing.
        using var first = new CancellationTokenSource();
        Assert.Equal(2, Planned.Check(job, new() { Progress = _ => first.Cancel() }, first.Token).SheetCount);

        using var source = new CancellationTokenSource();
        var most = SetPlanner.Find(
            job, [new("set", [.. Pieces.Select((piece, n) => new SetPart($"piece {n}", piece.Count))]) { AtMost = 1 }], new() { Progress = _ => source.Cancel() }, source.Token);
        Assert.Equal([new SetCount("set", 1)], most.Sets);
        Assert.True(most.Plan!.Cancelled);
        Replay.Check(job, most.Plan);
        Certificates.Check(job, most.Plan);
        Assert.Equal(1, most.Plan.SheetCount);
    }

    [Fact]
    public void A_batch_that_was_ended_once_all_of_it_could_be_made_comes_from_as_few_sheets_as_ever()
    {
        // The same pieces, three eighths of an inch to the unit, all on one card.
        var pieces = string.Join(", ", Pieces.Select((piece, n) => $$"""
            { "row": "row-{{n}}", "runs": "across", "gap": 0, "copies": {{piece.Count}}, "place": { "center": "both" },
              "of": { "kind": "panel", "paper": "dots", "width": "exactly {{piece.Width * 3}}/8", "height": "exactly {{piece.Height * 3}}/8" } }
            """));
        var layout = $$"""
            { "title": "Bits", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" },
              "papers": { "kraft": {}, "dots": {} }, "pieces": [ {{pieces}} ] }
            """;
        (string, byte[])? Open(string name) => (name, Encoding.UTF8.GetBytes(layout));
        var text = BatchMaker.Text($$"""{ "name": "pad", "size": "6 x 7 7/8", "count": 9, "paper": "dots" }, """ + BatchMaker.Kraft);
        var fitted = BatchFitter.Fit(BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(text), Open).Batch!, Drawer.Default, Open).Batch!;
        var ended = 0;
        for (var reports = 1; reports < 20; reports++)
        {
            using var source = new CancellationTokenSource();
            var told = 0;
            var plan = BatchPlanner.Plan(fitted, new() { Progress = _ => Told() }, source.Token).Plan!;
            BatchMaker.Followed(plan);
            ended += plan.IsStoppedEarly ? 1 : 0;
            Assert.Equal(1, plan.Cutting.Sheets.Where(sheet => sheet.Stock == "pad").Sum(sheet => sheet.Repeats));

            void Told()
            {
                if (++told == reports)
                {
                    source.Cancel();
                }
            }
        }

        Assert.InRange(ended, 3, 18);
    }
}
