using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>
/// Chooses seams for a panel out of all the places where they would be hidden: every set of them where there are few such places. Where there are
/// many, single seams and pairs in the middle and at the ends of what is hidden and where strips use up the sheets in stock, and chains of strips as wide
/// as the sheets give.
/// </summary>
internal sealed class SeamChoice
{
    private const int FewPlaces = 5;
    private const int MostPlaces = 14;
    private const int MostOfANumber = 16;
    private const int MostSlices = 4;

    private readonly FittedBatch _fitted;
    private readonly FittedCard _card;
    private readonly FittedPiece _panel;
    private readonly IReadOnlyList<PartSource> _sources;

    public SeamChoice(FittedBatch fitted, FittedCard card, FittedPiece panel, IReadOnlyList<PartSource> sources) =>
        (_fitted, _card, _panel, _sources) = (fitted, card, panel, sources);

    /// <summary>The sizes of the strips between some seams.</summary>
    public static IEnumerable<(Length Width, Length Height)> Strips(FittedPiece panel, IReadOnlyList<PanelSeam> seams)
    {
        var upright = seams[0].Direction == Axis.UpDown;
        var from = Length.Zero;
        foreach (var to in seams.Select(seam => seam.At).Append(upright ? panel.Width : panel.Height))
        {
            yield return upright ? (to - from, panel.Height) : (panel.Width, to - from);
            from = to;
        }
    }

    /// <summary>The sets of seams whose strips the stock can give: few seams first, then those that their covers hide most evenly, then from the left.</summary>
    public IReadOnlyList<IReadOnlyList<PanelSeam>> Find() =>
    [
        .. new[] { Axis.UpDown, Axis.Across }.SelectMany(Sets).Where(Fit)
            .OrderBy(seams => seams.Count).ThenByDescending(seams => seams.Min(seam => seam.Overlap)).ThenBy(seams => seams[0].Direction == Axis.UpDown ? 0 : 1)
            .ThenBy(seams => seams[0].At)
            .GroupBy(seams => seams.Count).SelectMany(same => same.Take(MostOfANumber)),
    ];

    /// <summary>The widest strip (the highest, where seams run across) that the stock gives at the full length of a seam; zero where it gives none.</summary>
    public Length WidestStrip(Axis direction) => Sides(direction).DefaultIfEmpty(Length.Zero).Max();

    private IEnumerable<IReadOnlyList<PanelSeam>> Sets(Axis direction)
    {
        // Strips of what no sheet is long enough for are of no use.
        if (WidestStrip(direction).IsZero)
        {
            return [];
        }

        var all = new SeamCovers(_card, _panel, direction, _fitted.Batch.SeamOverlap).All().ToList();
        var sets = new List<IReadOnlyList<PanelSeam>>();
        if (all.Count <= FewPlaces)
        {
            for (var set = 1; set < 1 << all.Count; set++)
            {
                sets.Add([.. all.Where((_, n) => (set & (1 << n)) != 0)]);
            }

            return sets;
        }

        var size = direction == Axis.UpDown ? _panel.Width : _panel.Height;
        var slices = Sides(direction).SelectMany(side => Enumerable.Range(1, MostSlices).Select(n => Length.FromNanometres(side.Nanometres / n))).Distinct().OrderDescending().ToList();
        var places = Places(all, slices, size);
        for (var a = 0; a < places.Count; a++)
        {
            sets.Add([places[a]]);
            for (var b = a + 1; b < places.Count; b++)
            {
                sets.Add([places[a], places[b]]);
            }
        }

        foreach (var slice in slices)
        {
            sets.AddRange(new[] { Chain(all, slice, size), Back(all, slice, size) }.OfType<IReadOnlyList<PanelSeam>>());
        }

        return sets.DistinctBy(seams => string.Join(' ', seams.Select(seam => seam.At)), StringComparer.Ordinal);
    }

    /// <summary>Places worth trying: the most even ones of each stretch, those where a strip is as wide as stock gives, and the ends of each stretch.</summary>
    private List<PanelSeam> Places(List<PanelSeam> all, List<Length> slices, Length size)
    {
        var stretches = new List<List<PanelSeam>>();
        foreach (var seam in all)
        {
            if (stretches.Count == 0 || stretches[^1][^1].At + _card.Increment != seam.At || !stretches[^1][^1].Covers.SequenceEqual(seam.Covers))
            {
                stretches.Add([]);
            }

            stretches[^1].Add(seam);
        }

        var chosen = stretches.Select(stretch => stretch.MaxBy(seam => seam.Overlap)!).ToList();
        foreach (var slice in slices)
        {
            chosen.AddRange(new[] { all.LastOrDefault(seam => seam.At <= slice), all.Find(seam => size - seam.At <= slice) }.OfType<PanelSeam>());
        }

        chosen.AddRange(stretches.SelectMany(stretch => new[] { stretch[0], stretch[^1] }));
        return [.. chosen.DistinctBy(seam => seam.At).Take(MostPlaces).OrderBy(seam => seam.At)];
    }

    /// <summary>As few seams as do for strips no wider than that, from the left; null where some stretch is not hidden.</summary>
    private static List<PanelSeam>? Chain(List<PanelSeam> all, Length widest, Length size)
    {
        var (chain, at) = (new List<PanelSeam>(), Length.Zero);
        while (size - at > widest)
        {
            if (all.LastOrDefault(seam => seam.At > at && seam.At - at <= widest) is not { } next)
            {
                return null;
            }

            chain.Add(next);
            at = next.At;
        }

        return chain.Count > 0 ? chain : null;
    }

    private static List<PanelSeam>? Back(List<PanelSeam> all, Length widest, Length size)
    {
        var (chain, at) = (new List<PanelSeam>(), size);
        while (at > widest)
        {
            if (all.Find(seam => seam.At < at && at - seam.At <= widest) is not { } next)
            {
                return null;
            }

            chain.Insert(0, next);
            at = next.At;
        }

        return chain.Count > 0 ? chain : null;
    }

    private bool Fit(IReadOnlyList<PanelSeam> seams) => Strips(_panel, seams).All(size =>
        Length.Min(size.Width, size.Height) >= Length.Max(_fitted.Drawer.SmallestPiece, _fitted.Batch.SeamOverlap) && _sources.Any(source =>
        {
            var (width, height) = Trued(source);
            return (source.Upright && size.Width <= width && size.Height <= height) || (source.Turned && size.Height <= width && size.Width <= height);
        }));

    // What is left of each sheet for the width of strips once their length has room on it.
    private IEnumerable<Length> Sides(Axis direction)
    {
        var length = direction == Axis.UpDown ? _panel.Height : _panel.Width;
        foreach (var source in _sources)
        {
            var (width, height) = Trued(source);
            var (along, across) = direction == Axis.UpDown ? (height, width) : (width, height);
            if (source.Upright && length <= along)
            {
                yield return across;
            }

            if (source.Turned && length <= across)
            {
                yield return along;
            }
        }
    }

    private (Length Width, Length Height) Trued(PartSource source)
    {
        var sheet = _fitted.Batch.Stock[source.Sheet];
        return (sheet.Width - (2 * sheet.TrueOff), sheet.Height - (2 * sheet.TrueOff));
    }
}
