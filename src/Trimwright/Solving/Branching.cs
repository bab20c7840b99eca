using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// A portion that falls apart once a few sizes have their values: those values are searched, and for each of them the pieces are solved
/// alone. So the work adds up over the pieces where a plain search would multiply it.
/// </summary>
/// <remarks>
/// Branch and bound over the separators of a <see cref="Separation"/>, with the linear program of the whole as the bound; R. Marinescu
/// and R. Dechter, "AND/OR branch-and-bound search for combinatorial optimization in graphical models", Artificial Intelligence 173
/// (2009), search by the same idea. All values that share the least sum are kept, with the pieces that go with them, and every later
/// step keeps those of them that share its least: what is left at the end is exactly what a search of the whole would leave.
/// A piece is solved once for the values of the separators that it touches, whatever the others are.
/// </remarks>
internal sealed class Branching : IPortion
{
    private readonly Separation _separation;
    private readonly Group _group;
    private readonly Portions _portions;
    private readonly Dictionary<string, IPortion?> _known = [];
    private readonly Stack<Node> _nodes = [];
    private List<Choice>? _choices;
    private GroupModel? _model;
    private bool _isOpen;

    /// <summary>Prepares a group.</summary>
    public Branching(Group group, Separation separation, Portions portions)
    {
        _group = group;
        _separation = separation;
        _portions = portions;
    }

    private readonly record struct Node(int Mark, int Variable, Rational? Least, Rational? Most);

    /// <summary>Values of the separators, and the pieces that go with them.</summary>
    private sealed record Choice(Rational[] Values, List<IPortion> Pieces, Dictionary<int, Rational> Misses)
    {
        public Rational Figure { get; set; }
    }

    /// <inheritdoc/>
    public (Strength Level, Rational Gap)? Unproved { get; private set; }

    /// <inheritdoc/>
    public bool CanTrade(Strength level) => _choices!.Count > 1 || _choices[0].Pieces.Exists(p => p.CanTrade(level));

    /// <inheritdoc/>
    public Rational? SumBound(Strength level)
    {
        if (_choices is not null)
        {
            return LowerSum(level, out var sum) == SearchEnd.Proved ? sum : null;
        }

        return Model(level).Simplex.Reoptimise() ? _model!.Simplex.Objective() : null;
    }

    /// <inheritdoc/>
    public SearchEnd LowerSum(Strength level, out Rational sum)
    {
        if (_choices is null)
        {
            return Explore(level, out sum);
        }

        foreach (var choice in _choices)
        {
            choice.Figure = SumOfRest(choice, level);
            foreach (var piece in choice.Pieces)
            {
                piece.LowerSum(level, out var part);
                choice.Figure += part;
            }
        }

        sum = KeepLeast();
        NoteUnproved();
        return SearchEnd.Proved;
    }

    /// <inheritdoc/>
    public Rational LeastLargest(WishSet wishes)
    {
        foreach (var choice in _choices!)
        {
            choice.Figure = default;
            foreach (var (wish, miss) in choice.Misses)
            {
                choice.Figure = wishes.Statements.Contains(wish) ? Rational.Max(choice.Figure, miss) : choice.Figure;
            }

            foreach (var piece in choice.Pieces)
            {
                choice.Figure = Rational.Max(choice.Figure, piece.LeastLargest(wishes));
            }
        }

        NoteUnproved();
        return _choices.Min(c => c.Figure);
    }

    /// <inheritdoc/>
    public void Cap(WishSet wishes, Rational most)
    {
        _choices!.RemoveAll(c => c.Figure > most);
        foreach (var piece in _choices.SelectMany(c => c.Pieces))
        {
            piece.Cap(wishes, most);
        }
    }

    /// <inheritdoc/>
    public Rational? LowerOne(int wish)
    {
        foreach (var choice in _choices!)
        {
            Rational? least = choice.Misses.TryGetValue(wish, out var miss) ? miss : null;
            for (var i = 0; i < choice.Pieces.Count && least is null; i++)
            {
                least = choice.Pieces[i].LowerOne(wish);
            }

            if (least is not { } figure)
            {
                return null;
            }

            choice.Figure = figure;
        }

        NoteUnproved();
        return KeepLeast();
    }

    /// <inheritdoc/>
    public Rational? MissOf(int wish)
    {
        if (_choices![0].Misses.TryGetValue(wish, out var miss))
        {
            return miss;
        }

        foreach (var piece in _choices[0].Pieces)
        {
            if (piece.MissOf(wish) is { } found)
            {
                return found;
            }
        }

        return null;
    }

    /// <inheritdoc/>
    public void Write(Rational[] values)
    {
        for (var i = 0; i < _separation.Separators.Count; i++)
        {
            values[MeasureOf(i)] = _choices![0].Values[i];
        }

        _choices![0].Pieces.ForEach(p => p.Write(values));
    }

    private int MeasureOf(int separator) => _separation.Separators[separator].Target.Form.Unknowns[0];

    private Rational KeepLeast()
    {
        var least = _choices!.Min(c => c.Figure);
        _choices!.RemoveAll(c => c.Figure > least);
        return least;
    }

    private void NoteUnproved()
    {
        foreach (var piece in _choices!.SelectMany(c => c.Pieces))
        {
            Unproved ??= piece.Unproved;
        }
    }

    private Rational SumOfRest(Choice choice, Strength level)
    {
        Rational sum = default;
        foreach (var wish in _separation.Rest.Wishes)
        {
            sum += wish.Strength == level ? choice.Misses[wish.Statement] : default;
        }

        return sum;
    }

    /// <summary>The linear program of the whole, with the sum of a level as its cost.</summary>
    private GroupModel Model(Strength level)
    {
        if (_model is null)
        {
            _model = _portions.ModelOf(_group);
            new Leaf(_model, _portions.SearchOf(_model)).SumBound(level);
        }

        return _model;
    }

    /// <summary>Searches the values of the separators and keeps all that share the least sum.</summary>
    private SearchEnd Explore(Strength level, out Rational sum)
    {
        sum = default;
        var model = Model(level);
        var simplex = model.Simplex;
        if (!simplex.Reoptimise())
        {
            return SearchEnd.Nothing;
        }

        var variables = _separation.Separators.ConvertAll(s => model.VariableOf(s.Target.Form.Unknowns[0]));
        var bound = simplex.Objective();
        var root = simplex.Mark();
        Rational? best = null;
        List<Choice> choices = [];
        Look();
        var grace = 64;
        while (_nodes.TryPop(out var node))
        {
            simplex.UndoTo(node.Mark);
            if (!_portions.Budget.Pay(simplex) && (best is not null || --grace < 0))
            {
                _isOpen = true;
                break;
            }

            if ((node.Least is { } least && !simplex.Raise(node.Variable, least))
                || (node.Most is { } most && !simplex.Lower(node.Variable, most))
                || !simplex.Reoptimise())
            {
                continue;
            }

            Look();
        }

        _nodes.Clear();
        simplex.UndoTo(root);
        _model = null;
        _known.Clear();
        if (best is null)
        {
            return _isOpen ? SearchEnd.OutOfBudget : SearchEnd.Nothing;
        }

        sum = best.Value;
        _choices = choices;
        if (_isOpen || choices.SelectMany(c => c.Pieces).Any(p => p.Unproved is not null))
        {
            Unproved = (level, sum - bound);
            _choices = choices[..1];
        }

        return SearchEnd.Proved;

        // What is the same as the best so far is looked into as well: it is one of the answers that the later steps choose from.
        void Look()
        {
            if (simplex.Objective() > best)
            {
                return;
            }

            for (var i = 0; i < variables.Count; i++)
            {
                var (variable, lattice) = (variables[i], _separation.Separators[i].Lattice);
                var value = simplex.Value(variable);
                if (!lattice.Holds(value))
                {
                    var (below, above) = (lattice.Below(value), lattice.Above(value));
                    var lowerFirst = below is { } low && (above is not { } high || value - low <= high - value);
                    Push(!lowerFirst, variable, below, above);
                    Push(lowerFirst, variable, below, above);
                    return;
                }
            }

            Try([.. variables.Select(simplex.Value)], level, ref best, choices);
            for (var i = 0; i < variables.Count; i++)
            {
                var (variable, lattice) = (variables[i], _separation.Separators[i].Lattice);
                var value = simplex.Value(variable);
                if (simplex.Least(variable) is { } low && simplex.Most(variable) is { } high && low == high)
                {
                    continue;
                }

                Push(true, variable, lattice.BelowNext(value), null);
                Push(false, variable, null, lattice.AboveNext(value));
                _nodes.Push(new(simplex.Mark(), variable, value, value));
                return;
            }
        }

        void Push(bool isBelow, int variable, Rational? below, Rational? above)
        {
            if (isBelow ? below is not null : above is not null)
            {
                _nodes.Push(isBelow ? new(simplex.Mark(), variable, null, below) : new(simplex.Mark(), variable, above, null));
            }
        }
    }

    /// <summary>Solves the pieces for some values of the separators, as far as they can share the least sum.</summary>
    private void Try(Rational[] at, Strength level, ref Rational? best, List<Choice> choices)
    {
        if (choices.Exists(c => c.Values.AsSpan().SequenceEqual(at)))
        {
            return;
        }

        var choice = new Choice(at, [], []);
        var values = _portions.Scratch;
        for (var i = 0; i < at.Length; i++)
        {
            values[MeasureOf(i)] = at[i];
        }

        var pinned = new Pinned(values);
        var sum = TakeRest(pinned, choice) ? SumOfRest(choice, level) : (Rational?)null;
        var bounds = new List<Rational>();
        foreach (var piece in _separation.Pieces)
        {
            if (sum is null || sum > best || PieceAt(piece, at, pinned) is not { } portion || portion.SumBound(level) is not { } bound)
            {
                sum = null;
                break;
            }

            sum += bound;
            bounds.Add(bound);
            choice.Pieces.Add(portion);
        }

        for (var i = 0; i < at.Length; i++)
        {
            values[MeasureOf(i)] = null;
        }

        for (var i = 0; sum <= (best ?? sum) && i < choice.Pieces.Count; i++)
        {
            var end = choice.Pieces[i].LowerSum(level, out var part);
            _isOpen |= end == SearchEnd.OutOfBudget;
            sum = end == SearchEnd.Proved ? sum + (part - bounds[i]) : null;
        }

        if (sum is null || sum > best)
        {
            return;
        }

        if (sum != best)
        {
            choices.Clear();
            best = sum;
        }

        choices.Add(choice);
    }

    private bool TakeRest(Pinned pinned, Choice choice)
    {
        if (pinned.Group(_separation.Rest) is not { } rest)
        {
            return false;
        }

        foreach (var wish in rest.Wishes)
        {
            choice.Misses.Add(wish.Statement, wish.MissAt(wish.Form.Constant));
        }

        return true;
    }

    private IPortion? PieceAt(Separation.Piece piece, Rational[] at, Pinned pinned)
    {
        var key = $"{piece.Measures[0]} {string.Join(' ', piece.Touches.Select(t => at[t]))}";
        if (!_known.TryGetValue(key, out var portion))
        {
            portion = pinned.Group(piece) is { } group ? _portions.Of(group) : null;
            _known.Add(key, portion);
        }

        return portion;
    }
}
