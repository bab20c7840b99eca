namespace Trimwright.Cutting;

/// <summary>The joins of a job as columns of a linear programme over the shapes of a lot, and as limits on what shapes may be worth in a proof.</summary>
internal sealed class JoinShapes
{
    private readonly List<(int Whole, IReadOnlyList<(int Shape, long Each)> Parts)> _joins = [];

    /// <param name="job">The job that the lot was made of.</param>
    /// <param name="lot">The lot; it has all pieces of the joins.</param>
    public JoinShapes(CuttingJob job, Lot lot)
    {
        var shapes = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var k = 0; k < lot.Shapes.Count; k++)
        {
            foreach (var (piece, _) in lot.Shapes[k].Members)
            {
                shapes[job.Pieces[piece].Id] = k;
            }
        }

        foreach (var join in job.Joins)
        {
            _joins.Add((shapes[join.Piece], [.. join.Parts.GroupBy(part => shapes[part]).OrderBy(same => same.Key).Select(same => (same.Key, (long)same.Count()))]));
        }
    }

    /// <summary>Adds a column for each join: it takes the parts and gives the whole.</summary>
    /// <param name="master">The programme.</param>
    /// <param name="limits">The row of the programme that limits each join.</param>
    /// <returns>The numbers of the columns.</returns>
    public int[] AddTo(Master master, IReadOnlyList<int> limits) =>
        [.. _joins.Select((join, j) => master.AddTaker([.. join.Parts, (join.Whole, -1L)], limits[j], 0))];

    /// <summary>The job with as many of every part as its joins could want, so that sheets are filled with them.</summary>
    public static CuttingJob Possible(CuttingJob job)
    {
        var more = job.Joins.SelectMany(join => join.Parts.Select(part => (Part: part, job.Pieces.First(piece => piece.Id == join.Piece).Count)))
            .ToLookup(entry => entry.Part, entry => entry.Count, StringComparer.Ordinal);
        return job with { Pieces = [.. job.Pieces.Select(piece => piece with { Count = piece.Count + more[piece.Id].Sum() })] };
    }

    /// <summary>Whether the parts of every join are worth at least the whole.</summary>
    public bool Hold(IReadOnlyList<long> worths) => _joins.TrueForAll(join => join.Parts.Sum(part => worths[part.Shape] * part.Each) >= worths[join.Whole]);

    /// <summary>Lowers what wholes are worth to what their parts are worth, so that joining never makes up for worth.</summary>
    public void Clamp(int[] worths)
    {
        foreach (var (whole, parts) in _joins)
        {
            var sum = parts.Sum(part => worths[part.Shape] * part.Each);
            worths[whole] = (int)Math.Min(worths[whole], sum);
        }
    }
}
