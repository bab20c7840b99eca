using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Tests.Cutting;

/// <summary>Plans that are replayed and whose proofs are checked before a test looks at them.</summary>
internal static class Planned
{
    public static CuttingPlan Check(CuttingJob job, CuttingOptions? options = null, CancellationToken cancel = default)
    {
        var result = CuttingPlanner.Plan(job, options, cancel);
        Assert.Empty(result.Refusals);
        var plan = result.Plan!;
        Replay.Check(job, plan);
        Certificates.Check(job, plan);
        return plan;
    }

    /// <summary>A piece in millimetres.</summary>
    public static WantedPiece Piece(string id, int width, int height, long count) =>
        new(id, Length.FromMillimetres(width), Length.FromMillimetres(height), count);

    /// <summary>Sheets in millimetres that cost 1, as many as needed.</summary>
    public static StockSheet Sheets(string id, int width, int height) =>
        new(id, Length.FromMillimetres(width), Length.FromMillimetres(height), null, 1);

    /// <summary>A piece in sixteenths of an inch.</summary>
    public static WantedPiece Sixteenths(string id, int width, int height, long count) =>
        new(id, Length.FromInches(width, 16), Length.FromInches(height, 16), count);

    /// <summary>The plan as text, every node of it.</summary>
    public static string Text(CuttingPlan plan) => string.Join('\n', plan.Sheets.SelectMany(sheet => sheet.Root.Walk().Select(node => node switch
    {
        CutPiece piece => $"{sheet.Stock} x{sheet.Repeats} {piece.Left} {piece.Top} {piece.Width} {piece.Height} {string.Join(',', piece.Ids)} {piece.Turned}",
        CutInTwo cut => $"{sheet.Stock} x{sheet.Repeats} {cut.Left} {cut.Top} {cut.Direction} {cut.At} {cut.FromFarEdge}",
        _ => $"{sheet.Stock} x{sheet.Repeats} {node.GetType().Name} {node.Left} {node.Top} {node.Width} {node.Height}",
    })));
}
