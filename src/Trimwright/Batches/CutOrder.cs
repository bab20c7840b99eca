using Trimwright.Measures;

namespace Trimwright.Batches;

/// <summary>A cut in the order found: which kind of part, how many of it, and how it is held.</summary>
internal sealed record OrderedCut(CutKind Kind, int Count, Length Setting, bool FromFarEdge)
{
    /// <summary>What lies beyond the blade is cut into again; null if it is done.</summary>
    public CutKind? Rest => FromFarEdge ? Kind.First : Kind.Second;

    /// <summary>Whether a cut takes another part like the one held off what this one left.</summary>
    public bool GoesOnWith(OrderedCut next) =>
        ReferenceEquals(Rest, next.Kind) && Count == next.Count && Setting == next.Setting && FromFarEdge == next.FromFarEdge
        && Kind.Cut.Direction == next.Kind.Cut.Direction && HeldKey == next.HeldKey;

    private string HeldKey => FromFarEdge ? Kind.SecondKey : Kind.FirstKey;
}

/// <summary>
/// Orders cuts. A cut comes after the one that gave its part. Once set, the fence stays until no cut can be made at that setting; then several
/// ways to choose the next are tried, and the order that sets the fence least often is kept: settings that need not come again, settings that serve
/// most cuts, and the longest cut first, so that a slip costs a strip and not a small piece that is nearly done.
/// </summary>
internal sealed class CutOrder
{
    private readonly IReadOnlyList<CutKind> _roots;
    private readonly Func<Candidate, long[]> _rank;
    private readonly Dictionary<CutKind, int> _waiting = [];
    private readonly Dictionary<Length, int> _onlyAt = [];
    private readonly List<OrderedCut> _order = [];

    private CutOrder(IReadOnlyList<CutKind> roots, IEnumerable<CutKind> all, Func<Candidate, long[]> rank)
    {
        (_roots, _rank) = (roots, rank);
        foreach (var kind in all.Where(kind => kind.Ways.Count == 1))
        {
            _onlyAt[kind.Ways[0].Setting] = _onlyAt.GetValueOrDefault(kind.Ways[0].Setting) + kind.Nodes.Count;
        }
    }

    /// <summary>A setting that may come next.</summary>
    /// <param name="Setting">The setting.</param>
    /// <param name="Longest">The longest cut waiting for it.</param>
    /// <param name="Cuts">How many cuts are made before the fence moves again.</param>
    /// <param name="Left">How many cuts that can be made at no other setting are still to come after that.</param>
    private sealed record Candidate(Length Setting, Length Longest, int Cuts, int Left);

    /// <summary>Finds an order for the cuts of some sheets.</summary>
    /// <param name="sheets">The kinds of parts of each sheet, the whole sheet first.</param>
    /// <param name="setting">How the fence stands, or null.</param>
    public static IReadOnlyList<OrderedCut> Find(IReadOnlyList<IReadOnlyList<CutKind>> sheets, Length? setting)
    {
        Func<Candidate, long[]>[] ranks =
        [
            next => [next.Longest.Nanometres],
            next => [next.Left == 0 ? 1 : 0, next.Longest.Nanometres],
            next => [next.Left == 0 ? 1 : 0, next.Cuts, next.Longest.Nanometres],
            next => [-next.Left, next.Longest.Nanometres],
            next => [-next.Left, next.Cuts, next.Longest.Nanometres],
            next => [next.Cuts, next.Longest.Nanometres],
        ];
        var roots = sheets.Where(kinds => kinds.Count > 0).Select(kinds => kinds[0]).ToList();
        var all = sheets.SelectMany(kinds => kinds).ToList();
        return ranks.Select(rank => new CutOrder(roots, all, rank).Make(setting)).MinBy(Settings)!;
    }

    private static int Settings(List<OrderedCut> order) => order.Where((cut, n) => n == 0 || order[n - 1].Setting != cut.Setting).Count();

    private List<OrderedCut> Make(Length? setting)
    {
        foreach (var root in _roots)
        {
            _waiting[root] = root.Nodes.Count;
        }

        while (_waiting.Count > 0)
        {
            if (setting is not { } kept || Next(kept) is not { } kind)
            {
                setting = Candidates().OrderByDescending(_rank, Comparer<long[]>.Create(Compare)).ThenByDescending(next => next.Setting).First().Setting;
                continue;
            }

            Cut(kind, kept);
        }

        return _order;
    }

    /// <summary>
    /// What is left of the part just cut, while it can be cut again; else the waiting part with the longest cut at that setting, and of equal ones that
    /// of the first sheet.
    /// </summary>
    private CutKind? Next(Length setting) =>
        _order.Count > 0 && _order[^1].Rest is { } rest && _waiting.ContainsKey(rest) && rest.CanBeMadeAt(setting) ? rest : _waiting.Keys.Where(kind => kind.CanBeMadeAt(setting)).OrderByDescending(kind => kind.Length).ThenBy(kind => kind.Sheet.Place).FirstOrDefault();

    private void Cut(CutKind kind, Length setting)
    {
        var count = _waiting[kind];
        _waiting.Remove(kind);
        _order.Add(new(kind, count, setting, kind.Ways.First(way => way.Setting == setting).FromFarEdge));
        if (kind.Ways.Count == 1)
        {
            _onlyAt[setting] -= count;
        }

        foreach (var part in (CutKind?[])[kind.First, kind.Second])
        {
            if (part is not null)
            {
                _waiting[part] = _waiting.GetValueOrDefault(part) + count;
            }
        }
    }

    private IEnumerable<Candidate> Candidates() => _waiting.Keys.SelectMany(kind => kind.Ways).Select(way => way.Setting).Distinct().Select(setting =>
    {
        var (cuts, only) = (0, 0);
        var open = new Stack<(CutKind Kind, int Count)>(_waiting.Where(entry => entry.Key.CanBeMadeAt(setting)).Select(entry => (entry.Key, entry.Value)));
        var longest = open.Max(entry => entry.Kind.Length);
        while (open.TryPop(out var entry))
        {
            cuts += entry.Count;
            only += entry.Kind.Ways.Count == 1 ? entry.Count : 0;
            foreach (var part in (CutKind?[])[entry.Kind.First, entry.Kind.Second])
            {
                if (part is not null && part.CanBeMadeAt(setting))
                {
                    open.Push((part, entry.Count));
                }
            }
        }

        return new Candidate(setting, longest, cuts, _onlyAt.GetValueOrDefault(setting) - only);
    });

    private static int Compare(long[] a, long[] b)
    {
        for (var n = 0; n < a.Length; n++)
        {
            if (a[n] != b[n])
            {
                return a[n].CompareTo(b[n]);
            }
        }

        return 0;
    }
}
