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
/// Orders the cuts of one sheet. A cut comes after the one that gave its part. Once set, the fence stays until no cut can be made at that setting: to do
/// all that can be done never makes it come again sooner. So only the settings are chosen, and they are searched in width: the orders that set the fence
/// least often are found, of these the one with the fewest steps, and then that which makes its longest cuts first, so that a slip costs a strip and not
/// a small piece that is nearly done.
/// </summary>
internal sealed class CutOrder
{
    // No sheet of the demos, nor of a batch of 35 cards, has as many ways to be in parts after so many settings: it only bounds the search.
    private const int MostStates = 400;

    private readonly IReadOnlyList<CutKind> _kinds;
    private readonly Dictionary<CutKind, int> _places = new(ReferenceEqualityComparer.Instance);

    private CutOrder(IReadOnlyList<CutKind> kinds)
    {
        _kinds = kinds;
        for (var i = 0; i < kinds.Count; i++)
        {
            _places[kinds[i]] = i;
        }
    }

    /// <summary>The best orders for a sheet: for each setting that can come first and each that can come last, at most one.</summary>
    /// <param name="kinds">The kinds of parts of the sheet, the whole sheet first; at least one.</param>
    public static IReadOnlyList<IReadOnlyList<OrderedCut>> Best(IReadOnlyList<CutKind> kinds)
    {
        var order = new CutOrder(kinds);
        var found = kinds[0].Ways.Select(way => order.Find(way.Setting)).ToList();
        var least = found.Min(ends => ends[0].Settings);
        return [.. found.SelectMany(ends => ends).Where(end => end.Settings == least).Select(end => end.Path())];
    }

    /// <summary>A sheet in parts, after everything was cut at some settings.</summary>
    /// <param name="Before">Before the last of them; null for the whole sheet.</param>
    /// <param name="Cuts">What was cut at the last of them.</param>
    /// <param name="Waiting">How many parts of each kind are still to be cut.</param>
    /// <param name="Settings">How many settings there were.</param>
    /// <param name="Steps">How many cuts, those one after the other through what the first left counted once.</param>
    private sealed record State(State? Before, IReadOnlyList<OrderedCut> Cuts, int[] Waiting, int Settings, int Steps)
    {
        public bool IsDone => Array.TrueForAll(Waiting, count => count == 0);

        public List<OrderedCut> Path()
        {
            var path = Before?.Path() ?? [];
            path.AddRange(Cuts);
            return path;
        }
    }

    /// <summary>Orders that begin with a setting: the best for each setting that can be the last.</summary>
    private List<State> Find(Length first)
    {
        var whole = new int[_kinds.Count];
        whole[0] = _kinds[0].Nodes.Count;
        List<State> states = [CutAll(new(null, [], whole, 0, 0), first)];
        while (true)
        {
            var done = states.Where(state => state.IsDone).GroupBy(state => state.Cuts[^1].Setting).Select(ends => ends.MinBy(end => end.Steps)!).ToList();
            if (done.Count > 0)
            {
                return done;
            }

            // The ways to come to the same parts are as good as one another but for their steps; the first has the longest cuts first.
            states = [.. states.SelectMany(state => Settings(state).Select(setting => CutAll(state, setting)))
                .GroupBy(state => (Waiting: string.Join(' ', state.Waiting), Last: state.IsDone ? state.Cuts[^1].Setting : Length.Zero))
                .Select(alike => alike.MinBy(state => state.Steps)!)];
            if (states.Count > MostStates)
            {
                var kept = states.OrderBy(state => state.Waiting.Sum()).ThenBy(state => state.Steps).Take(MostStates).ToHashSet(ReferenceEqualityComparer.Instance);
                states.RemoveAll(state => !kept.Contains(state));
            }
        }
    }

    /// <summary>The settings that may come next, that with the longest cut first.</summary>
    private IEnumerable<Length> Settings(State state) => Enumerable.Range(0, _kinds.Count).Where(i => state.Waiting[i] > 0)
        .SelectMany(i => _kinds[i].Ways.Select(way => (way.Setting, _kinds[i].Length)))
        .GroupBy(way => way.Setting, way => way.Length).OrderByDescending(ways => ways.Max()).ThenByDescending(ways => ways.Key).Select(ways => ways.Key);

    /// <summary>Makes all cuts that can be made at a setting: what is left of the part just cut while it can be cut again, else the longest cut.</summary>
    private State CutAll(State state, Length setting)
    {
        var waiting = state.Waiting.ToArray();
        var cuts = new List<OrderedCut>();
        var steps = state.Steps;
        while (Next() is { } kind)
        {
            var count = waiting[_places[kind]];
            waiting[_places[kind]] = 0;
            var cut = new OrderedCut(kind, count, setting, kind.Ways.First(way => way.Setting == setting).FromFarEdge);
            steps += cuts.Count > 0 && cuts[^1].GoesOnWith(cut) ? 0 : 1;
            cuts.Add(cut);
            foreach (var part in (CutKind?[])[kind.First, kind.Second])
            {
                if (part is not null)
                {
                    waiting[_places[part]] += count;
                }
            }
        }

        return new(state, cuts, waiting, state.Settings + 1, steps);

        CutKind? Next() => cuts is [.., { Rest: { } rest }] && IsReady(rest) ? rest : _kinds.Where(IsReady).MaxBy(kind => kind.Length);

        bool IsReady(CutKind kind) => waiting[_places[kind]] > 0 && kind.CanBeMadeAt(setting);
    }
}
