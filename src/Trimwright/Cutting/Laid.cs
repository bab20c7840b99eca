namespace Trimwright.Cutting;

/// <summary>A cut tree with what counts once the cost is settled.</summary>
internal sealed class Laid : IComparable<Laid>
{
    private Laid(Part root, long[] offcuts, int cuts, int oddCuts)
    {
        Root = root;
        Offcuts = offcuts;
        Cuts = cuts;
        OddCuts = oddCuts;
    }

    public Part Root { get; }

    /// <summary>The areas of the leftovers worth keeping, largest first.</summary>
    public long[] Offcuts { get; }

    public int Cuts { get; }

    /// <summary>Cuts at a distance that is no side of a piece, so that the fence has to be set for it alone.</summary>
    public int OddCuts { get; }

    public static Laid Leaf(Lot lot, Part part) =>
        new(part, part.IsWaste && lot.IsOffcut(part.Width, part.Height) ? [lot.TrueArea(part.Width, part.Height)] : [], 0, 0);

    public static Laid Join(HashSet<int> sides, bool upright, Laid first, Laid second)
    {
        var root = Part.Join(upright, first.Root, second.Root);
        var odd = sides.Contains(Size(first.Root.IsWaste ? second.Root : first.Root)) || (!second.Root.IsWaste && sides.Contains(Size(second.Root)));
        return new(root, Merge(first.Offcuts, second.Offcuts), first.Cuts + second.Cuts + 1, first.OddCuts + second.OddCuts + (odd ? 0 : 1));

        int Size(Part part) => upright ? part.Width : part.Height;
    }

    /// <summary>Sizes up a tree as it is.</summary>
    public static Laid From(Lot lot, HashSet<int> sides, Part root) => root.First is null
        ? Leaf(lot, root)
        : Join(sides, root.Upright, From(lot, sides, root.First), From(lot, sides, root.Second!));

    /// <summary>
    /// Better is greater: the larger leftovers, the largest first, then the fewer cuts, then the fewer odd ones. Putting the same
    /// tree beside two others does not change which of them is better, so that parts can be chosen on their own.
    /// </summary>
    public int CompareTo(Laid? other)
    {
        if (other is null)
        {
            return 1;
        }

        for (var n = 0; n < Math.Min(Offcuts.Length, other.Offcuts.Length); n++)
        {
            if (Offcuts[n] != other.Offcuts[n])
            {
                return Offcuts[n].CompareTo(other.Offcuts[n]);
            }
        }

        return Offcuts.Length != other.Offcuts.Length ? Offcuts.Length.CompareTo(other.Offcuts.Length)
            : Cuts != other.Cuts ? other.Cuts.CompareTo(Cuts)
            : other.OddCuts.CompareTo(OddCuts);
    }

    private static long[] Merge(long[] a, long[] b)
    {
        if (a.Length == 0 || b.Length == 0)
        {
            return a.Length == 0 ? b : a;
        }

        long[] all = [.. a, .. b];
        Array.Sort(all, (x, y) => y.CompareTo(x));
        return all;
    }
}
