namespace Trimwright.Cutting;

/// <summary>
/// Finds patterns by what the pieces are worth (column generation: Gilmore and Gomory, Operations Research 9, 1961) and keeps the best bound
/// that the worths prove on the way.
/// </summary>
internal sealed class ColumnSearch
{
    private const long FinestScale = 1_000_000;

    private readonly Lot _lot;
    private readonly SheetTable[] _tables;
    private readonly PatternPool _patterns = new();

    public ColumnSearch(Lot lot)
    {
        _lot = lot;
        _tables = [.. Enumerable.Range(0, lot.Stocks.Count).Select(s => SheetTable.For(lot, s))];
        for (var s = 0; s < lot.Stocks.Count; s++)
        {
            for (var k = 0; k < lot.Shapes.Count; k++)
            {
                if (lot.Shapes[k].MayComeFrom(s))
                {
                    _patterns.Add(Packer.PackOneKind(lot, s, k));
                }
            }
        }
    }

    public IReadOnlyList<Pattern> Patterns => _patterns.All;

    /// <summary>The best bound so far; null before the first round.</summary>
    public WorthBound? Bound { get; private set; }

    /// <summary>Proof that the stock cannot give everything, when it was found.</summary>
    public WorthBound? ShortProof { get; private set; }

    /// <summary>
    /// Solves the linear programme for what is still wanted. Bounds are only taken from the whole demand.
    /// </summary>
    /// <param name="demand">What is still wanted of each shape.</param>
    /// <param name="stockLeft">How many sheets are left of each stock.</param>
    /// <param name="rounds">The most patterns to look for.</param>
    /// <param name="proveShort">Whether to look for a proof that the stock is too little rather than for a cheap plan.</param>
    /// <param name="cancel">Ends it early.</param>
    public Master Solve(long[] demand, long[] stockLeft, int rounds, bool proveShort, CancellationToken cancel)
    {
        var dearest = Math.Max(1, _lot.Stocks.Max(stock => stock.Cost));
        var costs = _lot.Stocks.Select(stock => proveShort ? 0.0 : (double)stock.Cost).ToArray();
        var largest = (double)_lot.Shapes.Max(shape => shape.Area);
        var missing = _lot.Shapes.Select(shape => proveShort ? shape.Area / largest : 100.0 * dearest * (1 + (shape.Area / largest))).ToArray();
        var master = new Master(_lot, demand, stockLeft, missing);
        var whole = demand.AsSpan().SequenceEqual(_lot.Shapes.Select(shape => shape.Demand).ToArray());
        foreach (var pattern in _patterns.All)
        {
            master.Add(pattern, costs[pattern.Stock]);
        }

        for (var round = 0; round < rounds && !cancel.IsCancellationRequested; round++)
        {
            master.Solve();
            if (!AddPatterns(master, costs, demand, whole, proveShort))
            {
                break;
            }

            if (whole && !proveShort && Bound is { } bound && !master.LeavesOut() && bound.Bound >= RoundUp(master.Cost))
            {
                break;
            }

            if (proveShort && ShortProof is not null)
            {
                break;
            }
        }

        master.Solve();
        return master;
    }

    // The programme's cost is a little too high by the extra demand on its rows; a slip here only ends the search a round too early.
    private long RoundUp(double cost)
    {
        var step = _lot.CostStep;
        return (long)Math.Ceiling((cost - 1e-4) / step) * step;
    }

    private bool AddPatterns(Master master, double[] costs, long[] demand, bool whole, bool proveShort)
    {
        var duals = new double[_lot.Shapes.Count];
        for (var k = 0; k < duals.Length; k++)
        {
            duals[k] = demand[k] > 0 ? Math.Max(0, master.Duals[k]) : 0;
        }

        var (worths, scale) = SheetTable.WholeWorths(_tables, duals, FinestScale);
        var most = new long[_tables.Length];
        var found = false;
        foreach (var table in _tables)
        {
            most[table.Stock] = table.Fill(worths);
            var price = Math.Round((costs[table.Stock] - master.StockDual(table.Stock)) * scale);
            if (most[table.Stock] > price + Math.Max(1, Math.Floor(scale / 100_000)) && most[table.Stock] > 0)
            {
                var pattern = table.BestPattern(_lot);
                if (_patterns.Add(pattern))
                {
                    master.Add(pattern, costs[pattern.Stock]);
                    found = true;
                }
            }
        }

        if (whole)
        {
            var bound = WorthBound.From(
                BoundKind.Worth, _lot, [.. worths.Select(worth => (long)worth)], most, [.. _tables.Select(table => table.KeepsRules)]) with
            {
                Steps = [.. _tables.Select(table => table.Step)],
            };
            if (!proveShort && (Bound is null || bound.Bound > Bound.Bound))
            {
                Bound = bound;
            }

            if (ShortProof is null && bound.ProvesShort(_lot))
            {
                ShortProof = bound;
            }
        }

        return found;
    }
}
