using System.Globalization;
using Trimwright.Cutting;
using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>Parts of one sheet that are cut alike, down to the last piece: they share a mark and are cut in one step.</summary>
internal sealed class CutKind(CutInTwo cut)
{
    /// <summary>One of the parts.</summary>
    public CutInTwo Cut { get; } = cut;

    /// <summary>All of the parts.</summary>
    public List<CutInTwo> Nodes { get; } = [];

    /// <summary>The mark, once it has one.</summary>
    public string? Mark { get; set; }

    /// <summary>What the first part that a cut gives is cut into again; null if it is done.</summary>
    public CutKind? First { get; private set; }

    /// <summary>The same for the second part.</summary>
    public CutKind? Second { get; private set; }

    /// <summary>Equal for first parts that are alike.</summary>
    public string FirstKey { get; private set; } = "";

    /// <summary>Equal for second parts that are alike.</summary>
    public string SecondKey { get; private set; } = "";

    /// <summary>How long the cut is.</summary>
    public Length Length => Cut.Direction == CutDirection.Upright ? Cut.Height : Cut.Width;

    /// <summary>The settings at which it can be made: waste is never held, since what is wanted is measured.</summary>
    public IReadOnlyList<(Length Setting, bool FromFarEdge)> Ways { get; } = WaysOf(cut);

    /// <summary>Whether it can be made at that setting.</summary>
    public bool CanBeMadeAt(Length setting) => Ways.Any(way => way.Setting == setting);

    /// <summary>The kinds of parts of a sheet; the whole sheet comes first. None if it is not cut at all.</summary>
    public static IReadOnlyList<CutKind> Of(SheetPlan plan)
    {
        var kinds = new List<CutKind>();
        Find(plan.Root, kinds, new(StringComparer.Ordinal));
        kinds.Reverse();
        return kinds;
    }

    // Children first; so the list is turned round in the end.
    private static (CutKind? Kind, string Key) Find(CutNode node, List<CutKind> kinds, Dictionary<string, CutKind> known)
    {
        var size = string.Create(CultureInfo.InvariantCulture, $"{node.Width.Nanometres}x{node.Height.Nanometres}");
        if (node is not CutInTwo cut)
        {
            return (null, node is CutPiece { Turned: true } ? "turned " + size : $"{node.GetType().Name} {size}");
        }

        var (second, secondKey) = cut.Second is { } other ? Find(other, kinds, known) : (null, "");
        var (first, firstKey) = Find(cut.First, kinds, known);
        var key = string.Create(CultureInfo.InvariantCulture, $"{cut.Direction} {size}({firstKey},{secondKey})");
        if (!known.TryGetValue(key, out var kind))
        {
            kind = new(cut) { First = first, Second = second, FirstKey = firstKey, SecondKey = secondKey };
            known.Add(key, kind);
            kinds.Add(kind);
        }

        kind.Nodes.Add(cut);
        return (kind, key);
    }

    private static List<(Length Setting, bool FromFarEdge)> WaysOf(CutInTwo cut)
    {
        var ways = new List<(Length, bool)>();
        if (!IsWaste(cut.First))
        {
            ways.Add((cut.At, false));
        }

        if (cut.Second is { } second && !IsWaste(second))
        {
            var far = cut.Direction == CutDirection.Upright ? second.Width : second.Height;
            if (ways.Count == 0 || far != cut.At)
            {
                ways.Add((far, true));
            }
        }

        return ways;
    }

    private static bool IsWaste(CutNode node) => node is CutOffcut or CutSliver;
}
