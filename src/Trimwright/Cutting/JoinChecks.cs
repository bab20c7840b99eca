namespace Trimwright.Cutting;

/// <summary>Finds which joins of a job are of use, and what is wrong with it.</summary>
internal static class JoinChecks
{
    /// <summary>
    /// The job with the joins whose parts can all be cut, and the pieces that can only be joined; or everything that is wrong. A piece that cannot
    /// be cut whole is no reason to refuse while it can be joined.
    /// </summary>
    public static (CuttingJob Job, HashSet<string> OnlyJoined, List<CuttingRefusal> Refusals) Check(CuttingJob job)
    {
        var onlyJoined = new HashSet<string>(StringComparer.Ordinal);
        var known = job.Pieces.Select(piece => piece.Id).ToHashSet(StringComparer.Ordinal);
        var wholes = job.Joins.Select(join => join.Piece).ToHashSet(StringComparer.Ordinal);
        var broken = job.Joins.Where(join => !known.Contains(join.Piece) || join.Parts.Count < 2
            || join.Parts.Any(part => !known.Contains(part) || wholes.Contains(part))).ToList();
        if (broken.Count > 0)
        {
            return (job, onlyJoined, [.. broken.Select(join => new CuttingRefusal(RefusalReason.JoinOutOfRange, join.Piece))]);
        }

        var parts = job.Joins.SelectMany(join => join.Parts).ToHashSet(StringComparer.Ordinal);
        var refusals = JobChecks.Check(job with
        {
            Pieces = [.. job.Pieces.Select(piece => piece.Count == 0 && parts.Contains(piece.Id) ? piece with { Count = 1 } : piece)],
        });
        bool CannotBeCut(string id) => refusals.Exists(refusal =>
            refusal.Piece == id && refusal.Reason is RefusalReason.PieceTooLarge or RefusalReason.PieceCannotBeHeld or RefusalReason.NoStock);
        var joins = job.Joins.Where(join => !join.Parts.Any(CannotBeCut)).ToList();
        var used = joins.SelectMany(join => join.Parts).ToHashSet(StringComparer.Ordinal);
        foreach (var piece in job.Pieces.Where(piece => CannotBeCut(piece.Id)))
        {
            if (joins.Exists(join => join.Piece == piece.Id))
            {
                onlyJoined.Add(piece.Id);
            }
            else if (piece.Count > 0)
            {
                continue;
            }

            refusals.RemoveAll(refusal => refusal.Piece == piece.Id);
        }

        var pieces = job.Pieces.Where(piece => piece.Count > 0 || used.Contains(piece.Id)).ToList();
        return (job with { Pieces = pieces, Joins = joins }, onlyJoined, refusals);
    }
}
