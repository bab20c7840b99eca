using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>Bounds how many sets a stock gives, and says how many to try first: column generation with a column for each set.</summary>
internal sealed class SetBound
{
    private const int MostRounds = 2_000;
    private const long FinestScale = 1_000_000;

    private readonly CuttingJob _job;
    private readonly Lot _lot;
    private readonly IReadOnlyList<WantedSet> _sets;
    private readonly List<(int Shape, long Each)[]> _takes = [];
    private readonly SheetTable[] _tables;
    private readonly JoinShapes _joins;
    private BigInteger? _least;

    public SetBound(CuttingJob job, IReadOnlyList<WantedSet> sets)
    {
        _job = job;
        var brought = sets.SelectMany(set => set.Brings).Select(brought => brought.Stock).ToHashSet(StringComparer.Ordinal);
        _lot = LotMaker.MakeOne(JoinShapes.Possible(job));

        // Of stock that only comes with the sets there is none before.
        _lot = _lot with { Stocks = [.. _lot.Stocks.Select(stock => brought.Contains(job.Stock[stock.Index].Id) ? stock with { Limited = true, Count = 0 } : stock)] };
        _joins = new(job, _lot);
        _sets = sets;
        _tables = [.. Enumerable.Range(0, _lot.Stocks.Count).Select(s => SheetTable.For(_lot, s))];
        foreach (var set in sets)
        {
            _takes.Add([.. set.Parts.Select(part => (ShapeOf(part.Piece), part.Each)).GroupBy(take => take.Item1)
                .Select(same => (same.Key, same.Sum(take => take.Each))).OrderBy(take => take.Key)]);
        }
    }

    public MostProof? Proof { get; private set; }

    /// <summary>How many of each set the linear programme would make, rounded down.</summary>
    public long[] Solve(IReadOnlyList<long> limits, CancellationToken cancel)
    {
        var demand = new long[_lot.Shapes.Count];
        var dearest = 10.0 * _sets.Max(set => set.Weight) * _lot.Shapes.Count;
        var master = new Master(
            _lot, demand, [.. _lot.Stocks.Select(stock => stock.Count)], [.. demand.Select(_ => dearest)], limits);
        var columns = new int[_sets.Count];
        for (var n = 0; n < columns.Length; n++)
        {
            columns[n] = master.AddTaker(_takes[n], n, -(double)_sets[n].Weight, [.. _sets[n].Brings.Select(brought => (StockOf(brought.Stock), brought.Each))]);
        }

        _joins.AddTo(master, [.. _job.Joins.Select(_ => -1)]);
        for (var s = 0; s < _lot.Stocks.Count; s++)
        {
            for (var k = 0; k < demand.Length; k++)
            {
                if (_lot.Shapes[k].MayComeFrom(s))
                {
                    master.Add(Packer.PackOneKind(_lot, s, k), 0);
                }
            }
        }

        for (var round = 0; round < MostRounds && !cancel.IsCancellationRequested; round++)
        {
            master.Solve();
            if (!AddPatterns(master))
            {
                break;
            }
        }

        master.Solve();
        return [.. columns.Select((column, n) => Math.Min((master.Millionths(column) + 100) / 1_000_000, limits[n]))];
    }

    private bool AddPatterns(Master master)
    {
        var (worths, scale) = SheetTable.WholeWorths(_tables, [.. Enumerable.Range(0, _lot.Shapes.Count).Select(k => Math.Max(0, master.Duals[k]))], FinestScale);
        _joins.Clamp(worths);
        var most = new long[_tables.Length];
        var found = false;
        foreach (var table in _tables)
        {
            most[table.Stock] = table.Fill(worths);
            var price = Math.Round(-master.StockDual(table.Stock) * scale);
            if (most[table.Stock] > price + Math.Max(1, Math.Floor(scale / 100_000)))
            {
                var pattern = table.BestPattern(_lot);
                var worth = 0L;
                for (var k = 0; k < worths.Length; k++)
                {
                    worth += (long)worths[k] * pattern.Counts[k];
                }

                if (worth > price + Math.Max(1, Math.Floor(scale / 100_000)))
                {
                    master.Add(pattern, 0);
                    found = true;
                }
            }
        }

        Prove(worths, most, scale);
        return found;
    }

    private void Prove(int[] worths, long[] most, double scale)
    {
        if (_lot.Stocks.Any(stock => !stock.Limited && _job.Stock[stock.Index].Count is null && most[stock.Index] > 0))
        {
            return;
        }

        // Sets without a limit of their own must be paid for in full: they set what one of weight stands for.
        BigInteger rate = Math.Max(1, (long)scale);
        var takes = _takes.Select((set, n) => set.Aggregate(BigInteger.Zero, (sum, take) => sum + ((BigInteger)worths[take.Shape] * take.Each))
            - _sets[n].Brings.Aggregate(BigInteger.Zero, (sum, brought) => sum + ((BigInteger)most[StockOf(brought.Stock)] * brought.Each))).ToList();
        for (var n = 0; n < takes.Count; n++)
        {
            rate = _sets[n].AtMost is null ? BigInteger.Min(rate, takes[n] / _sets[n].Weight) : rate;
        }

        if (rate <= 0)
        {
            return;
        }

        BigInteger sum = 0;
        foreach (var stock in _lot.Stocks)
        {
            sum += (BigInteger)most[stock.Index] * (stock.Count == 0 ? 0 : _job.Stock[stock.Index].Count ?? 0);
        }

        for (var n = 0; n < takes.Count; n++)
        {
            sum += (_sets[n].AtMost ?? 0) * BigInteger.Max(0, (_sets[n].Weight * rate) - takes[n]);
        }

        var bound = sum / rate;
        if (_least is null || bound < _least)
        {
            _least = bound;
            Proof = new()
            {
                Pieces = [.. _job.Pieces.Select(piece => new PieceWorth(piece.Id, worths[ShapeOf(piece.Id)]))],
                Sheets = [.. _lot.Stocks.Select(stock => new SheetWorth(
                    _job.Stock[stock.Index].Id, most[stock.Index], _tables[stock.Index].KeepsRules)
                {
                    RoundedTo = _tables[stock.Index].Step == 1 ? Length.Zero : Length.FromNanometres(_tables[stock.Index].Step * _lot.Unit),
                })],
                Joins = _job.Joins,
                WorthOfWeight = (long)rate,
                Bound = (long)bound,
            };
        }
    }

    private int StockOf(string id) => Enumerable.Range(0, _lot.Stocks.Count).First(s => _job.Stock[_lot.Stocks[s].Index].Id == id);

    private int ShapeOf(string piece)
    {
        for (var k = 0; k < _lot.Shapes.Count; k++)
        {
            if (_lot.Shapes[k].Members.Any(member => _job.Pieces[member.Piece].Id == piece))
            {
                return k;
            }
        }

        return -1;
    }
}
