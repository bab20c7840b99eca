using Trimwright.Images;

namespace Trimwright.Balance;

/// <summary>What shows of one piece, with moments about the upper left corner in half cells.</summary>
internal sealed class OwnerSums
{
    public long Cover { get; set; }

    public Int128 CoverX { get; set; }

    public Int128 CoverY { get; set; }

    public Int128 Light { get; set; }

    public Int128 LightX { get; set; }

    public Int128 LightY { get; set; }

    /// <summary>Adds what shows on a scan line: its places, and them times twice the middle of their cell.</summary>
    public void Add(long cover, long across, int twiceRow, long light, Int128 lightAcross)
    {
        Cover += cover;
        CoverX += across;
        CoverY += (Int128)cover * twiceRow;
        Light += light;
        LightX += lightAcross;
        LightY += (Int128)light * twiceRow;
    }
}

/// <summary>Paints a face line by line, the uppermost sheet first, each only where nothing lies above it.</summary>
internal sealed class FacePainting
{
    private readonly ScanGrid _grid;
    private readonly int[] _levels;

    // What is not covered yet on the line in hand, as pairs of places; and the same without the sheet in hand.
    private List<int> _open = [];
    private List<int> _left = [];

    public FacePainting(ScanGrid grid, int owners)
    {
        _grid = grid;
        _levels = new int[grid.Face.Columns * grid.Face.Rows];
        Owners = [.. Enumerable.Range(0, owners).Select(_ => new OwnerSums())];
    }

    public IReadOnlyList<OwnerSums> Owners { get; }

    public void Line(int line, List<LayerSpans> layers)
    {
        _open.Clear();
        _open.Add(0);
        _open.Add(_grid.Face.Places);
        for (var i = layers.Count - 1; i >= 0 && _open.Count > 0; i--)
        {
            Lay(line, layers[i].Layer, layers[i].On(line));
        }
    }

    public GreyRaster Finish() =>
        GreyRaster.FromLevels(_grid.Face.Columns, _grid.Face.Rows, LinearLight.White * FaceGrid.PlacesInCell * FaceGrid.PlacesInCell, _levels);

    private void Lay(int line, FlatLayer layer, ReadOnlySpan<int> spans)
    {
        if (spans.IsEmpty)
        {
            return;
        }

        _left.Clear();
        var next = 0;
        for (var i = 0; i < _open.Count; i += 2)
        {
            var (from, to) = (_open[i], _open[i + 1]);
            while (next < spans.Length && spans[next + 1] <= from)
            {
                next += 2;
            }

            // A span may reach into the next open stretch, so it is not used up here.
            for (var at = next; at < spans.Length && spans[at] < to; at += 2)
            {
                var (start, end) = (Math.Max(from, spans[at]), Math.Min(to, spans[at + 1]));
                if (start >= end)
                {
                    continue;
                }

                if (from < start)
                {
                    _left.Add(from);
                    _left.Add(start);
                }

                Paint(line, layer, start, end);
                from = end;
            }

            if (from < to)
            {
                _left.Add(from);
                _left.Add(to);
            }
        }

        (_open, _left) = (_left, _open);
    }

    private void Paint(int line, FlatLayer layer, int from, int to)
    {
        var (row, height) = (_grid.RowOf(line), _grid.HeightOf(line));
        var cells = _levels.AsSpan(row * _grid.Face.Columns, _grid.Face.Columns);
        var (cover, across, light, lightAcross) = (0L, 0L, 0L, 0L);
        var down = layer.Picture is null ? 0 : _grid.DownOf(line);
        for (var cell = from / FaceGrid.PlacesInCell; cell * FaceGrid.PlacesInCell < to; cell++)
        {
            var start = cell * FaceGrid.PlacesInCell;
            var covered = (Math.Min(to, start + FaceGrid.PlacesInCell) - Math.Max(from, start)) * height;
            var grey = layer.Picture is null ? layer.Grey : layer.Picture.GreyAt(_grid.Face.MiddleOfColumn(cell), down, layer.Grey);
            var sent = grey * covered;
            cells[cell] += sent;
            cover += covered;
            across += (long)covered * ((2 * cell) + 1);
            light += sent;
            lightAcross += (long)sent * ((2 * cell) + 1);
        }

        Owners[layer.Owner + 1].Add(cover, across, (2 * row) + 1, light, lightAcross);
    }
}
