using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Drawing.Measured;

/// <summary>Shares out what has to be said of a card among sheets, so that each can be read.</summary>
internal static class SheetPlan
{
    /// <summary>The most that one sheet says: what a page holds with lettering of 2.5 mm and leaders that do not cross.</summary>
    public const int MostWeight = 12;

    // What a sheet of several holds without lanes upon lanes, as tried with cards full of pieces: eleven callouts, or seven sizes
    // between lines.
    private const int MostLoad = 22;
    private const int MostAlike = 6;
    private const int LongestName = 30;

    /// <summary>What has to be said, from the bottom up: rows are said as one, and so are pieces that are alike in all.</summary>
    public static IReadOnlyList<SheetUnit> Units(CardIndex index, CalloutWriter writer)
    {
        List<(FittedRow? Row, List<FittedPiece> Pieces)> found = [];
        Dictionary<string, int> alike = [];
        HashSet<string> rows = [];
        foreach (var piece in index.Card.Pieces)
        {
            if (piece.Source.Row is { } name)
            {
                if (rows.Add(name))
                {
                    var row = index.Row(name)!;
                    found.Add((row, [.. row.Source.Pieces.Select(index.Piece)]));
                }

                continue;
            }

            var likeness = string.Join('|', [writer.Likeness(piece), .. Apart(piece.Source)]);
            if (alike.TryGetValue(likeness, out var at) && found[at].Pieces.Count < MostAlike)
            {
                found[at].Pieces.Add(piece);
            }
            else
            {
                alike[likeness] = found.Count;
                found.Add((null, [piece]));
            }
        }

        return [.. found.Select(unit => new SheetUnit(unit.Row?.Source.Name ?? NameOf(unit.Pieces), unit.Pieces, unit.Row))];
    }

    /// <summary>
    /// The units of each sheet where one cannot say all: layer by layer from the bottom, as they are glued, and within a layer by what
    /// they lie on. Few that lie on one another share a sheet.
    /// </summary>
    public static IReadOnlyList<IReadOnlyList<SheetUnit>> Groups(CardIndex index, IReadOnlyList<SheetUnit> units)
    {
        var order = new Dictionary<string, int>();
        foreach (var unit in units)
        {
            order.TryAdd(unit.On ?? "", order.Count);
        }

        var ordered = units
            .OrderBy(unit => index.DepthOn(unit.On)).ThenBy(unit => order[unit.On ?? ""])
            .ThenBy(unit => unit.Pieces[0].Box.Top).ThenBy(unit => unit.Pieces[0].Box.Left).ToList();
        // As few sheets as will do, about equally full.
        var all = ordered.Sum(unit => unit.Load);
        var enough = (double)all / ((all + MostLoad - 1) / MostLoad);
        List<IReadOnlyList<SheetUnit>> groups = [];
        List<SheetUnit> group = [];
        for (var i = 0; i < ordered.Count;)
        {
            // All on one parent, in equal parts where they are too many for a sheet.
            var parent = ordered[i].On;
            var family = ordered.Skip(i).TakeWhile(unit => unit.On == parent).ToList();
            i += family.Count;
            var load = family.Sum(unit => unit.Load);
            var before = group.Sum(unit => unit.Load);
            if (before >= enough || (before > 0 && before + load > MostLoad))
            {
                groups.Add(group);
                group = [];
            }

            var parts = (load + MostLoad - 1) / MostLoad;
            var share = (double)load / parts;
            var (part, filled) = (1, 0);
            foreach (var unit in family)
            {
                if (filled > 0 && filled + (unit.Load / 2.0) > part * share && part < parts)
                {
                    groups.Add(group);
                    group = [];
                    part++;
                }

                group.Add(unit);
                filled += unit.Load;
            }
        }

        if (group.Count > 0)
        {
            groups.Add(group);
        }

        return groups;
    }

    /// <summary>All but place and size in which pieces may differ.</summary>
    private static IEnumerable<string> Apart(Piece piece) =>
    [
        piece.On ?? "", piece.Paper, piece.Text ?? "", piece.Lift.ToString(), piece.Tilt.ToString(), piece.HangsFrom.ToString(),
        piece.Faces?.ToString() ?? "", piece.Flipped.ToString(), piece.Runs?.ToString() ?? "", .. piece.Mats.Select(mat => mat.Paper),
    ];

    private static string NameOf(List<FittedPiece> pieces)
    {
        var names = string.Join(", ", pieces.Select(piece => piece.Name));
        return names.Length <= LongestName || pieces.Count == 1 ? names : $"{pieces[0].Name} ... {pieces[^1].Name}";
    }
}
