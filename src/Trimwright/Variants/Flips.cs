using Trimwright.Layouts;

namespace Trimwright.Variants;

/// <summary>Which pieces and rows a mirror flips along which axis.</summary>
internal sealed class Flips
{
    private readonly Dictionary<string, (bool X, bool Y)> _flips = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string?> _parents = new(StringComparer.Ordinal);

    public (bool X, bool Y) this[string name] => _flips[name];

    public static Flips Of(Layout layout, Mirror mirror)
    {
        var flips = new Flips();
        var rows = new Dictionary<string, (bool X, bool Y)>(StringComparer.Ordinal);
        foreach (var row in layout.Rows)
        {
            var accent = row.Pieces.All(name => layout.Pieces.Any(piece => piece.Name == name && piece.Accent));
            rows.Add(row.Name, Of(mirror, accent, row.Placements));
        }

        // The pieces of a row go with their row: they have no place of their own.
        foreach (var piece in layout.Pieces)
        {
            flips._parents.Add(piece.Name, piece.On);
            flips._flips.Add(piece.Name, piece.Row is { } row ? rows[row] : Of(mirror, piece.Accent, piece.Placements));
        }

        foreach (var row in layout.Rows)
        {
            flips._parents.Add(row.Name, row.On);
            flips._flips.Add(row.Name, rows[row.Name]);
        }

        return flips;
    }

    /// <summary>
    /// What a flipped piece is mirrored in: the nearest of the pieces it is placed on that is not flipped itself; null for the card.
    /// </summary>
    public string? MirroredIn(string name, bool across)
    {
        var parent = _parents[name];
        while (parent is not null && (across ? _flips[parent].X : _flips[parent].Y))
        {
            parent = _parents[parent];
        }

        return parent;
    }

    private static (bool X, bool Y) Of(Mirror mirror, bool accent, IReadOnlyList<Placement> placements)
    {
        // What hangs from the top goes on hanging from the top.
        var hangs = placements.Any(placement => placement is Hang { From: Edge.Top });
        return mirror switch
        {
            Mirror.LeftRight => (true, false),
            Mirror.TopBottom => (false, !hangs),
            Mirror.HalfTurn => (true, !hangs),
            _ => (accent, false),
        };
    }
}
