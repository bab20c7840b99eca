namespace Trimwright.Worksheets.Pdf;

/// <summary>Something that is drawn across a page as a whole, so that no page break goes through it.</summary>
/// <param name="Height">Its height in millimetres.</param>
/// <param name="Draw">Draws it on a page with its upper side at a height.</param>
internal sealed record Slab(double Height, Action<PageInk, double> Draw)
{
    /// <summary>Air above it, left out at the head of a page.</summary>
    public double Gap { get; init; }

    /// <summary>Whether it stays on one page with what follows.</summary>
    public bool KeepsNext { get; init; }

    /// <summary>What is drawn before it where it begins a page, such as the headings of its table, or null.</summary>
    public Slab? Lead { get; init; }

    /// <summary>Sets slabs on pages: each page's slabs with their heights.</summary>
    /// <param name="slabs">The slabs in order.</param>
    /// <param name="top">Where pages begin.</param>
    /// <param name="bottom">Where they end.</param>
    public static List<List<(Slab Slab, double At)>> OnPages(IReadOnlyList<Slab> slabs, double top, double bottom)
    {
        List<List<(Slab, double)>> pages = [[]];
        var at = top;
        for (var i = 0; i < slabs.Count; i++)
        {
            // What begins a page and keeps this with it is more than a page: a break here would leave it alone.
            var isKept = pages[^1].TrueForAll(before => before.Item1.KeepsNext);
            var height = isKept ? slabs[i].Height : HeightWithNext(slabs, i, bottom - top);
            if (pages[^1].Count > 0 && at + slabs[i].Gap + height > bottom)
            {
                pages.Add([]);
                at = top;
                if (slabs[i].Lead is { } lead)
                {
                    pages[^1].Add((lead, at));
                    at += lead.Height;
                }
            }

            at += pages[^1].Count == 0 ? 0 : slabs[i].Gap;
            pages[^1].Add((slabs[i], at));
            at += slabs[i].Height;
        }

        return pages;
    }

    /// <summary>The height of a slab with all that it keeps with it; of itself alone where those are more than a page.</summary>
    private static double HeightWithNext(IReadOnlyList<Slab> slabs, int first, double page)
    {
        var height = slabs[first].Height;
        for (var i = first; slabs[i].KeepsNext && i + 1 < slabs.Count; i++)
        {
            height += slabs[i + 1].Gap + slabs[i + 1].Height;
        }

        return height <= page ? height : slabs[first].Height;
    }
}
