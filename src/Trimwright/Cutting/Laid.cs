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
        return new(
            root, Merge(first.Offcuts, second.Offcuts), first.Cuts + second.Cuts + 1,
            first.OddCuts + second.OddCuts + (IsOdd(sides, upright, first.Root, second.Root) ? 1 : 0));
    }

    private static bool IsOdd(HashSet<int> sides, bool upright, Part first, Part second)
    {
        return !sides.Contains(Size(first.IsWaste ? second : first)) && (second.IsWaste || !sides.Contains(Size(second)));

        int Size(Part part) => upright ? part.Width : part.Height;
    }

    /// <summary>Whether two parts joined would be better than what is known, without joining them.</summary>
    public static bool Betters(HashSet<int> sides, bool upright, Laid first, Laid second, Laid? known)
    {
        if (known is null)
        {
            return true;
        }

        // Both lists run from the largest down: merged on the way, up to the first difference.
        var (a, b, count) = (0, 0, first.Offcuts.Length + second.Offcuts.Length);
        for (var n = 0; n < Math.Min(count, known.Offcuts.Length); n++)
        {
            var next = b == second.Offcuts.Length || (a < first.Offcuts.Length && first.Offcuts[a] >= second.Offcuts[b]) ? first.Offcuts[a++] : second.Offcuts[b++];
            if (next != known.Offcuts[n])
            {
                return next > known.Offcuts[n];
            }
        }

        var cuts = first.Cuts + second.Cuts + 1;
        return count != known.Offcuts.Length ? count > known.Offcuts.Length
            : cuts != known.Cuts ? cuts < known.Cuts
            : first.OddCuts + second.OddCuts + (IsOdd(sides, upright, first.Root, second.Root) ? 1 : 0) < known.OddCuts;
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
