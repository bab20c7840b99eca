namespace Trimwright.Cutting;

/// <summary>
/// A table over sides rounded down to a coarser unit, for sheets that mix units so fine that an exact table would never end. What fits the
/// sheet still fits it when every side is rounded down, so the most worth that it gives holds; the way to cut it gives need not fit.
/// </summary>
internal sealed class CoarseTable : SheetTable
{
    private const int MostSteps = 480;

    private readonly RasterTable _table;
    private readonly bool[] _sees;
    private readonly int[] _seen;

    public CoarseTable(Lot lot, int stock)
        : base(lot, stock)
    {
        var sheet = lot.Stocks[stock];
        Step = (Math.Max(sheet.Width, sheet.Height) / MostSteps) + 1;
        _sees = [.. lot.Shapes.Select(shape => Math.Min(shape.Width, shape.Height) >= Step)];
        _seen = new int[_sees.Length];
        _table = new(
            lot with
            {
                Shapes = [.. lot.Shapes.Select((shape, k) => shape with
                {
                    Width = Math.Max(1, shape.Width / Step),
                    Height = Math.Max(1, shape.Height / Step),
                    Upright = _sees[k] ? shape.Upright : new bool[shape.Upright.Length],
                    Turned = _sees[k] ? shape.Turned : new bool[shape.Turned.Length],
                })],
                Stocks = [.. lot.Stocks.Select(item => item with { Width = item.Width / Step, Height = item.Height / Step })],
            },
            stock);
    }

    public override bool KeepsRules => false;

    public override bool IsExact => false;

    public override int Step { get; }

    public override bool Sees(int shape) => _sees[shape];

    // Rounded down, a piece of just under two units is half as wide and half as high: four are on the sheet for one.
    public override long MostOf(int shape) => _table.MostOf(shape);

    protected override int FillAll(int[] worths)
    {
        for (var k = 0; k < _seen.Length; k++)
        {
            _seen[k] = _sees[k] ? worths[k] : 0;
        }

        return _table.Fill(_seen);
    }

    public override Part Best() => _table.Best();
}
