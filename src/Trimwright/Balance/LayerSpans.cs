namespace Trimwright.Balance;

/// <summary>Where a flat sheet covers each scan line of a raster: pairs of places between which it does.</summary>
internal sealed class LayerSpans
{
    private readonly int[] _start;
    private readonly int[] _places;

    private LayerSpans(FlatLayer layer, int[] start, int[] places) => (Layer, _start, _places) = (layer, start, places);

    /// <summary>The sheet.</summary>
    public FlatLayer Layer { get; }

    /// <summary>The places on a scan line, in order; the sheet covers from the first to the second, from the third to the fourth ...</summary>
    public ReadOnlySpan<int> On(int line) => _places.AsSpan(_start[line].._start[line + 1]);

    /// <summary>Cuts a sheet into spans. An edge counts for a line from its upper end on and no longer at its lower end.</summary>
    /// <param name="layer">The sheet.</param>
    /// <param name="loops">Its closed lines on the raster.</param>
    /// <param name="grid">The scan lines.</param>
    public static LayerSpans Of(FlatLayer layer, IReadOnlyList<RasterPoint[]> loops, ScanGrid grid)
    {
        var edges = new List<(RasterPoint Upper, RasterPoint Lower, int First, int Last)>();
        var start = new int[grid.Lines + 1];
        foreach (var loop in loops)
        {
            var before = loop[^1];
            foreach (var here in loop)
            {
                var (upper, lower) = before.Y <= here.Y ? (before, here) : (here, before);
                var (first, last) = (grid.FirstLineFrom(upper.Y), grid.FirstLineFrom(lower.Y) - 1);
                if (first <= last)
                {
                    edges.Add((upper, lower, first, last));
                    for (var line = first; line <= last; line++)
                    {
                        start[line + 1]++;
                    }
                }

                before = here;
            }
        }

        for (var line = 0; line < grid.Lines; line++)
        {
            start[line + 1] += start[line];
        }

        var places = new int[start[^1]];
        var filled = start[..^1];
        foreach (var (upper, lower, first, last) in edges)
        {
            for (var line = first; line <= last; line++)
            {
                places[filled[line]++] = grid.Across(upper, lower, line);
            }
        }

        for (var line = 0; line < grid.Lines; line++)
        {
            // Nearly every sheet crosses a line twice, and a sort of two takes longer to call than to do.
            var own = places.AsSpan(start[line]..start[line + 1]);
            if (own.Length > 2)
            {
                own.Sort();
            }
            else if (own.Length == 2 && own[0] > own[1])
            {
                (own[0], own[1]) = (own[1], own[0]);
            }
        }

        return new(layer, start, places);
    }
}
