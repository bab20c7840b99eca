using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A group from which a few measures are taken out, and the pieces that it then falls into: once a sheet and a mat have their sizes,
/// what lies in one corner has nothing to do with the rest.
/// </summary>
internal sealed class Separation
{
    /// <summary>The most measures that are taken out.</summary>
    public const int MostSeparators = 4;

    private const int FewestSizes = 16;

    private readonly Group _group;
    private readonly Dictionary<int, int> _placeOf = [];
    private readonly List<LinearForm> _forms;
    private readonly int[] _pieceOf;
    private readonly int[] _separatorOf;

    private Separation(Group group)
    {
        _group = group;
        for (var i = 0; i < group.Measures.Count; i++)
        {
            _placeOf.Add(group.Measures[i], i);
        }

        _pieceOf = new int[group.Measures.Count];
        _separatorOf = Enumerable.Repeat(-1, group.Measures.Count).ToArray();
        _forms = group.Bounded.ConvertAll(b => b.Form);
        _forms.AddRange(group.Wishes.ConvertAll(w => w.Form));
        _forms.RemoveAll(f => f.Unknowns.Length < 2);
    }

    /// <summary>The measures taken out, with their lattices.</summary>
    public List<SteppedForm> Separators { get; } = [];

    /// <summary>The measure of a separator.</summary>
    public int MeasureOf(int separator) => Separators[separator].Target.Form.Unknowns[0];

    /// <summary>Tells a simplex, whose first variables are the measures of the group, how they fall apart.</summary>
    public void Tell(Simplex simplex) => simplex.Part(
        _pieceOf,
        Array.ConvertAll(_separatorOf, s => s < 0 ? 0 : 1 << s),
        Array.ConvertAll([.. Pieces, Rest], p => p.Touches.Aggregate(0, (bits, t) => bits | (1 << t))));

    /// <summary>What is left of the group, piece by piece.</summary>
    public Piece[] Pieces { get; private set; } = [];

    /// <summary>What of the group speaks of separators only.</summary>
    public Piece Rest { get; } = new();

    /// <summary>A piece: what of the group has a measure in it.</summary>
    public sealed class Piece
    {
        /// <summary>Its measures.</summary>
        public List<int> Measures { get; } = [];

        /// <summary>Its bounded forms, as the group has them.</summary>
        public List<BoundedForm> Bounded { get; } = [];

        /// <summary>Its forms on lattices, as the group has them.</summary>
        public List<SteppedForm> Stepped { get; } = [];

        /// <summary>Its wishes, as the group has them.</summary>
        public List<ReducedWish> Wishes { get; } = [];

        /// <summary>The places of the separators that it touches.</summary>
        public SortedSet<int> Touches { get; } = [];
    }

    /// <summary>
    /// Finds measures on lattices that a group falls apart without: those that most rules speak of, until no piece has more than half of
    /// the sizes. Null when it is too small to be worth it or does not fall apart.
    /// </summary>
    public static Separation? Of(Group group)
    {
        if (group.Stepped.Count < FewestSizes)
        {
            return null;
        }

        var separation = new Separation(group);
        foreach (var candidate in separation.Candidates())
        {
            separation._separatorOf[separation._placeOf[candidate.Target.Form.Unknowns[0]]] = separation.Separators.Count;
            separation.Separators.Add(candidate);
            if (separation.Split() * 2 <= group.Stepped.Count)
            {
                separation.Share();
                return separation;
            }
        }

        return null;
    }

    /// <summary>The sizes that most rules and wishes speak of, the first declared of equals first.</summary>
    private IEnumerable<SteppedForm> Candidates()
    {
        var mentions = new int[_group.Measures.Count];
        foreach (var form in _forms)
        {
            Array.ForEach(form.Unknowns, u => mentions[_placeOf[u]]++);
        }

        return _group.Stepped
            .FindAll(s => s.Target.Form.Unknowns.Length == 1)
            .DistinctBy(s => s.Target)
            .OrderByDescending(s => mentions[_placeOf[s.Target.Form.Unknowns[0]]])
            .ThenBy(s => s.Target.Form.Unknowns[0])
            .Take(MostSeparators)
            .ToList();
    }

    /// <summary>Numbers the pieces and gives the most sizes that one of them has; all of them when there is no piece.</summary>
    private int Split()
    {
        var parent = new int[_pieceOf.Length];
        for (var i = 0; i < parent.Length; i++)
        {
            parent[i] = i;
        }

        int Find(int i) => parent[i] == i ? i : parent[i] = Find(parent[i]);
        foreach (var form in _forms)
        {
            var first = Inside(form);
            for (var i = 0; first >= 0 && i < form.Unknowns.Length; i++)
            {
                var place = _placeOf[form.Unknowns[i]];
                if (_separatorOf[place] < 0)
                {
                    var (a, b) = (Find(first), Find(place));
                    parent[Math.Max(a, b)] = Math.Min(a, b);
                }
            }
        }

        var count = 0;
        for (var i = 0; i < parent.Length; i++)
        {
            // A root comes before all that it stands for.
            _pieceOf[i] = _separatorOf[i] >= 0 ? -1 : Find(i) == i ? count++ : _pieceOf[Find(i)];
        }

        if (count == 0)
        {
            return _group.Stepped.Count;
        }

        var sizes = new int[count];
        foreach (var (_, target, _) in _group.Stepped)
        {
            if (Inside(target.Form) is var place and >= 0)
            {
                sizes[_pieceOf[place]]++;
            }
        }

        return sizes.Max();
    }

    private void Share()
    {
        Pieces = new Piece[_pieceOf.Max() + 1];
        for (var i = 0; i < Pieces.Length; i++)
        {
            Pieces[i] = new();
        }

        for (var i = 0; i < _pieceOf.Length; i++)
        {
            if (_pieceOf[i] >= 0)
            {
                Pieces[_pieceOf[i]].Measures.Add(_group.Measures[i]);
            }
        }

        _group.Bounded.ForEach(b => PieceOf(b.Form).Bounded.Add(b));
        _group.Stepped.ForEach(s => PieceOf(s.Target.Form).Stepped.Add(s));
        _group.Wishes.ForEach(w => PieceOf(w.Form).Wishes.Add(w));
    }

    private Piece PieceOf(LinearForm form)
    {
        var place = Inside(form);
        var piece = place < 0 ? Rest : Pieces[_pieceOf[place]];
        foreach (var unknown in form.Unknowns)
        {
            if (_separatorOf[_placeOf[unknown]] is var separator and >= 0)
            {
                piece.Touches.Add(separator);
            }
        }

        return piece;
    }

    /// <summary>The place of the first measure of a form that is not taken out, or -1.</summary>
    private int Inside(LinearForm form)
    {
        foreach (var unknown in form.Unknowns)
        {
            var place = _placeOf[unknown];
            if (_separatorOf[place] < 0)
            {
                return place;
            }
        }

        return -1;
    }
}
