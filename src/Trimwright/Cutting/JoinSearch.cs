namespace Trimwright.Cutting;

/// <summary>
/// The linear programme of a job in which pieces may be joined from others: patterns cover the demand, and a join turns parts into a piece. It
/// says how many of each to join, more or less, and what its worths prove holds however many are joined.
/// </summary>
internal sealed class JoinSearch
{
    private const int MostRounds = 400;
    private const long FinestScale = 1_000_000;

    private readonly CuttingJob _job;
    private readonly Lot _lot;
    private readonly JoinShapes _joins;
    private readonly SheetTable[] _tables;
    private readonly PatternPool _patterns = new();

    /// <param name="job">The job; every piece of it can be cut, or is joined.</param>
    public JoinSearch(CuttingJob job)
    {
        // What is wanted for certain is another matter than what could be.
        var full = LotMaker.MakeOne(JoinShapes.Possible(job));
        _job = job;
        _tables = [.. Enumerable.Range(0, full.Stocks.Count).Select(s => SheetTable.For(full, s))];
        _joins = new(job, full);
        for (var s = 0; s < full.Stocks.Count; s++)
        {
            for (var k = 0; k < full.Shapes.Count; k++)
            {
                Keep(Packer.PackOneKind(full, s, k));
            }
        }

        _lot = full with
        {
            Shapes = [.. full.Shapes.Select(shape => shape with
            {
                Demand = shape.Members.Sum(member => job.Pieces[member.Piece].Count),
                Members = [.. shape.Members.Select(member => (member.Piece, job.Pieces[member.Piece].Count))],
            })],
        };
    }

    /// <summary>The best bound found; null before anything was solved.</summary>
    public WorthBound? Bound { get; private set; }

    /// <summary>Proof that the stock is too little, joins or no joins, when it was found.</summary>
    public WorthBound? ShortProof { get; private set; }

    /// <summary>Whether the programme itself has to leave something out.</summary>
    public bool LeavesOut { get; private set; }

    /// <summary>The lot, with what is wanted for certain.</summary>
    public Lot Lot => _lot;

    /// <summary>Solves, and gives how many of each join to make, in millionths.</summary>
    /// <param name="proveShort">Whether to look for a proof that the stock is too little rather than for the least cost.</param>
    /// <param name="cancel">Ends it early.</param>
    public long[] Solve(bool proveShort, CancellationToken cancel)
    {
        var area = SimpleBounds.ByArea(_lot);
        if (!proveShort && _joins.Hold(area.Worths))
        {
            Bound = area;
            ShortProof = area.ProvesShort(_lot) ? area : null;
        }

        var demand = _lot.Shapes.Select(shape => shape.Demand).ToArray();
        var dearest = Math.Max(1, _lot.Stocks.Max(stock => stock.Cost));
        var costs = _lot.Stocks.Select(stock => proveShort ? 0.0 : (double)stock.Cost).ToArray();
        var largest = (double)_lot.Shapes.Max(shape => shape.Area);
        var missing = _lot.Shapes.Select(shape => proveShort ? shape.Area / largest : 100.0 * dearest * (1 + (shape.Area / largest))).ToArray();
        var wholes = _job.Joins.Select(join => join.Piece).Distinct(StringComparer.Ordinal).ToList();
        var master = new Master(
            _lot, demand, [.. _lot.Stocks.Select(stock => stock.Count)], missing, [.. wholes.Select(id => _job.Pieces.First(piece => piece.Id == id).Count)]);
        var columns = _joins.AddTo(master, [.. _job.Joins.Select(join => wholes.IndexOf(join.Piece))]);
        foreach (var pattern in _patterns.All)
        {
            master.Add(pattern, costs[pattern.Stock]);
        }

        for (var round = 0; round < MostRounds && !cancel.IsCancellationRequested; round++)
        {
            master.Solve();
            if (!AddPatterns(master, costs, proveShort) || (proveShort && ShortProof is not null))
            {
                break;
            }
        }

        master.Solve();
        LeavesOut = master.LeavesOut();
        return [.. columns.Select(master.Millionths)];
    }

    private bool AddPatterns(Master master, double[] costs, bool proveShort)
    {
        var (worths, scale) = SheetTable.WholeWorths(_tables, [.. Enumerable.Range(0, _lot.Shapes.Count).Select(k => Math.Max(0, master.Duals[k]))], FinestScale);
        _joins.Clamp(worths);
        var most = new long[_tables.Length];
        var found = false;
        foreach (var table in _tables)
        {
            most[table.Stock] = table.Fill(worths);
            var price = Math.Round((costs[table.Stock] - master.StockDual(table.Stock)) * scale);
            if (most[table.Stock] > price + Math.Max(1, Math.Floor(scale / 100_000)) && most[table.Stock] > 0 && Keep(table.BestPattern(_lot)))
            {
                master.Add(_patterns.All[^1], costs[table.Stock]);
                found = true;
            }
        }

        var bound = WorthBound.From(BoundKind.Worth, _lot, [.. worths.Select(worth => (long)worth)], most, [.. _tables.Select(table => table.KeepsRules)]) with
        {
            Steps = [.. _tables.Select(table => table.Step)],
        };
        Bound = !proveShort && (Bound is null || bound.Bound > Bound.Bound) ? bound : Bound;
        ShortProof ??= bound.ProvesShort(_lot) ? bound : null;
        return found;
    }

    // What would be an empty sheet is no pattern.
    private bool Keep(Pattern pattern) => pattern.Counts.Any(count => count != 0) && _patterns.Add(pattern);
}
