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
    private readonly int[] _steps;

    // What is not covered yet on the line in hand, as pairs of places; and the same without the sheet in hand.
    private List<int> _open = [];
    private List<int> _left = [];

    public FacePainting(ScanGrid grid, int owners)
    {
        _grid = grid;
        _levels = new int[grid.Face.Columns * grid.Face.Rows];
        _steps = new int[grid.Face.Columns + 1];
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

        if (line + 1 == _grid.Lines || _grid.RowOf(line + 1) != _grid.RowOf(line))
        {
            SumUpRuns(_grid.RowOf(line));
        }
    }

    /// <summary>The finished cells; nothing is painted afterwards.</summary>
    public GreyRaster Finish() => GreyRaster.FromOwned(
        _grid.Face.Columns, _grid.Face.Rows, LinearLight.White * FaceGrid.PlacesInCell * FaceGrid.PlacesInCell, _levels);

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
        var owner = Owners[layer.Owner + 1];
        var (first, last) = ((from + FaceGrid.PlacesInCell - 1) / FaceGrid.PlacesInCell, to / FaceGrid.PlacesInCell);
        if (layer.Picture is { } picture)
        {
            for (var cell = from / FaceGrid.PlacesInCell; cell * FaceGrid.PlacesInCell < to; cell++)
            {
                PaintPart(owner, row, cell, from, to, height, picture.GreyAt(_grid.Face.MiddleOfColumn(cell), _grid.DownOf(line), layer.Grey));
            }
        }
        else if (first >= last)
        {
            for (var cell = from / FaceGrid.PlacesInCell; cell * FaceGrid.PlacesInCell < to; cell++)
            {
                PaintPart(owner, row, cell, from, to, height, layer.Grey);
            }
        }
        else
        {
            if (from < first * FaceGrid.PlacesInCell)
            {
                PaintPart(owner, row, first - 1, from, to, height, layer.Grey);
            }

            if (to > last * FaceGrid.PlacesInCell)
            {
                PaintPart(owner, row, last, from, to, height, layer.Grey);
            }

            PaintRun(owner, row, first, last, height, layer.Grey);
        }
    }

    // One cell, as far as it lies between two places.
    private void PaintPart(OwnerSums owner, int row, int cell, int from, int to, int height, int grey)
    {
        var start = cell * FaceGrid.PlacesInCell;
        var covered = (Math.Min(to, start + FaceGrid.PlacesInCell) - Math.Max(from, start)) * height;
        var sent = grey * covered;
        _levels[(row * _grid.Face.Columns) + cell] += sent;
        owner.Add(covered, (long)covered * ((2 * cell) + 1), (2 * row) + 1, sent, (long)sent * ((2 * cell) + 1));
    }

    // Whole cells of one grey: only the steps at both ends are noted, and summed up when the row is done.
    private void PaintRun(OwnerSums owner, int row, int first, int last, int height, int grey)
    {
        var covered = FaceGrid.PlacesInCell * height;
        var sent = grey * covered;
        _steps[first] += sent;
        _steps[last] -= sent;

        // The odd numbers 2 first + 1 to 2 last - 1 add up to last^2 - first^2.
        var across = ((long)last * last) - ((long)first * first);
        owner.Add((long)covered * (last - first), covered * across, (2 * row) + 1, (long)sent * (last - first), (Int128)sent * across);
    }

    private void SumUpRuns(int row)
    {
        var cells = _levels.AsSpan(row * _grid.Face.Columns, _grid.Face.Columns);
        var level = 0;
        for (var cell = 0; cell < cells.Length; cell++)
        {
            level += _steps[cell];
            cells[cell] += level;
        }

        Array.Clear(_steps);
    }
}
