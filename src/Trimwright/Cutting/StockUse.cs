namespace Trimwright.Cutting;

/// <summary>Jobs with a part of the stock.</summary>
internal static class StockUse
{
    /// <summary>The piece, from no other stock than that.</summary>
    public static WantedPiece OutOf(WantedPiece piece, IReadOnlyCollection<string> stock) => piece with
    {
        From = [.. stock.Where(piece.MayComeFrom)],
        Lies = [.. piece.Lies.Where(lie => stock.Contains(lie.Stock))],
    };

    /// <summary>The job, with no other stock than that.</summary>
    public static CuttingJob OutOf(CuttingJob job, IReadOnlyList<StockSheet> stock)
    {
        var ids = stock.Select(sheet => sheet.Id).ToList();
        return job with { Pieces = [.. job.Pieces.Select(piece => OutOf(piece, ids))], Stock = stock };
    }
}
