namespace Trimwright.Balance;

/// <summary>A corner on a raster: across in 65536ths of a cell, down in 64ths.</summary>
internal readonly record struct RasterPoint(long X, long Y);

/// <summary>A raster over a card.</summary>
/// <param name="Columns">Cells across.</param>
/// <param name="Rows">Cells down.</param>
/// <param name="CardWidth">The width of the card in nanometres.</param>
/// <param name="CardHeight">The height of the card in nanometres.</param>
internal sealed record FaceGrid(int Columns, int Rows, long CardWidth, long CardHeight)
{
    /// <summary>Places in a cell, along both axes.</summary>
    public const int PlacesInCell = 64;

    /// <summary>Corners are placed across in these parts of a cell, so that slanting edges keep their slant.</summary>
    public const long Fine = 1 << 16;

    /// <summary>How many places there are across.</summary>
    public int Places => Columns * PlacesInCell;

    /// <summary>A corner on the raster, to the nearest.</summary>
    public RasterPoint Place((long X, long Y) corner) =>
        new(Nearest(corner.X, Columns * Fine, CardWidth), Nearest(corner.Y, (long)Rows * PlacesInCell, CardHeight));

    /// <summary>The middle of a column of cells, in nanometres from the left edge of the card.</summary>
    public long MiddleOfColumn(int column) => ((2L * column) + 1) * CardWidth / (2L * Columns);

    private static long Nearest(long nanometres, long parts, long size)
    {
        var scaled = (Int128)nanometres * parts;
        var half = size / 2;
        return (long)((scaled >= 0 ? scaled + half : scaled - half) / size);
    }
}

/// <summary>
/// The scan lines of a raster: strips, four to a row of cells and cut further where a sheet has a level edge. A line runs in the middle of
/// its strip and counts for its height, so that upright sheets are exact and slanting edges are as exact as their middle.
/// </summary>
internal sealed class ScanGrid
{
    private const int StripsInRow = 4;

    private readonly int[] _edges;

    public ScanGrid(FaceGrid face, IEnumerable<RasterPoint[]> loops)
    {
        Face = face;
        var end = face.Rows * FaceGrid.PlacesInCell;
        var isEdge = new bool[end + 1];
        for (var at = 0; at <= end; at += FaceGrid.PlacesInCell / StripsInRow)
        {
            isEdge[at] = true;
        }

        foreach (var loop in loops)
        {
            var before = loop[^1];
            foreach (var here in loop)
            {
                if (here.Y == before.Y && here.Y > 0 && here.Y < end)
                {
                    isEdge[here.Y] = true;
                }

                before = here;
            }
        }

        _edges = [.. Enumerable.Range(0, end + 1).Where(at => isEdge[at])];
    }

    /// <summary>The raster.</summary>
    public FaceGrid Face { get; }

    /// <summary>How many scan lines there are.</summary>
    public int Lines => _edges.Length - 1;

    /// <summary>The row of cells that a line runs through.</summary>
    public int RowOf(int line) => _edges[line] / FaceGrid.PlacesInCell;

    /// <summary>The height of the strip of a line, in 64ths of a cell.</summary>
    public int HeightOf(int line) => _edges[line + 1] - _edges[line];

    /// <summary>The place down of a line, in nanometres.</summary>
    public long DownOf(int line) =>
        ((long)_edges[line] + _edges[line + 1]) * Face.CardHeight / (2L * FaceGrid.PlacesInCell * Face.Rows);

    /// <summary>The first line at or below a place down, or the number of lines.</summary>
    public int FirstLineFrom(long y)
    {
        var (low, high) = (0, Lines);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = _edges[middle] + _edges[middle + 1] < 2 * y ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    /// <summary>Where an edge crosses a line, to the nearest place, kept within the card.</summary>
    public int Across(RasterPoint upper, RasterPoint lower, int line)
    {
        const long Place = FaceGrid.Fine / FaceGrid.PlacesInCell;
        var twiceDown = _edges[line] + _edges[line + 1] - (2 * upper.Y);
        var x = upper.X + (long)((Int128)(lower.X - upper.X) * twiceDown / (2 * (lower.Y - upper.Y)));
        return (int)Math.Clamp((x + (Place / 2)) / Place, 0, Face.Places);
    }
}
