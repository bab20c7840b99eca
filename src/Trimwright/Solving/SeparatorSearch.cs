using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Values of the separators of a group, and the pieces that go with them.</summary>
/// <param name="Values">The value of each separator.</param>
/// <param name="Pieces">The pieces, solved for these values.</param>
/// <param name="Misses">The misses of the wishes that speak of separators only.</param>
internal sealed record Choice(Rational[] Values, IReadOnlyList<IPortion> Pieces, Dictionary<int, Rational> Misses)
{
    /// <summary>What the step at work makes of it.</summary>
    public Rational Figure { get; set; }
}

/// <summary>Finds all values of the separators of a group that share the least sum of a level.</summary>
/// <remarks>
/// The linear program of the whole bounds a node. As soon as all separators that a piece touches are fixed, the piece has nothing to do
/// with the rest of the program, so what the program makes of it may be replaced by what it costs in truth: that lifts the bound, and
/// where all separators are fixed the bound is the sum itself. (So no cut of the program may tie two pieces together.) A piece is
/// solved once for the values that it touches.
/// </remarks>
internal sealed class SeparatorSearch
{
    private const int Grace = 64;
    private const int MostChoices = 24;

    private readonly Separation _separation;
    private readonly Portions _portions;
    private readonly Strength _level;
    private readonly GroupModel _model;
    private readonly Simplex _simplex;
    private readonly List<int> _variables;
    private readonly List<WishColumns>[] _wishes;
    private readonly Dictionary<Key, IPortion?> _known = [];
    private readonly Stack<Node> _nodes = [];
    private readonly Rational? _most;
    private readonly Rational _bound;
    private IPortion[] _pieces = [];

    /// <summary>Prepares a search.</summary>
    /// <param name="separation">The separators and pieces.</param>
    /// <param name="portions">Makes portions of pieces.</param>
    /// <param name="level">The level whose sum counts.</param>
    /// <param name="model">The whole, with that sum as its cost.</param>
    /// <param name="most">What the sum may be at most to be of use, or null.</param>
    public SeparatorSearch(Separation separation, Portions portions, Strength level, GroupModel model, Rational? most)
    {
        (_separation, _portions, _level, _model, _simplex) = (separation, portions, level, model, model.Simplex);
        _most = most;
        _bound = model.Simplex.Objective();
        IsCrowded = model.Wishes.Count == 0;
        _variables = separation.Separators.ConvertAll(s => model.VariableOf(s.Target.Form.Unknowns[0]));
        var columns = model.Wishes.ToDictionary(w => w.Wish.Statement);
        _wishes = Array.ConvertAll(
            separation.Pieces,
            p => p.Wishes.FindAll(w => w.Strength == level).ConvertAll(w => columns[w.Statement]));
    }

    private readonly record struct Key(int Piece, Rational First, Rational Second, Rational Third, Rational Fourth);

    private readonly record struct Node(int Mark, int Variable, Rational? Least, Rational? Most);

    /// <summary>The least sum, once found.</summary>
    public Rational? Best { get; private set; }

    /// <summary>Whether the budget ended before all was seen.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>The values that share the least sum.</summary>
    public List<Choice> Choices { get; } = [];

    /// <summary>Whether too many values share the least sum to keep them all: then only one of them is kept.</summary>
    public bool IsCrowded { get; private set; }

    private Rational? Limit => Best ?? _most;

    /// <summary>Searches. The simplex has to stand at its least cost.</summary>
    public void Run()
    {
        var root = _simplex.Mark();
        var grace = Grace;
        Look();
        while (!(IsCrowded && Best == _bound) && _nodes.TryPop(out var node))
        {
            _simplex.UndoTo(node.Mark);
            if (!_portions.Budget.Pay(_simplex) && (Best is not null || --grace < 0))
            {
                IsOpen = true;
                break;
            }

            if ((node.Least is not { } least || _simplex.Raise(node.Variable, least))
                && (node.Most is not { } most || _simplex.Lower(node.Variable, most))
                && _simplex.Reoptimise())
            {
                Look();
            }
        }

        _simplex.UndoTo(root);
        var kept = Choices.SelectMany(c => c.Pieces).ToHashSet();
        foreach (var portion in _known.Values)
        {
            if (portion is not null && !kept.Contains(portion))
            {
                portion.Release();
            }
        }
    }

    /// <summary>Looks at a node: cuts it off, takes it as an answer, or branches on the first separator that is not fixed.</summary>
    /// <remarks>What is the same as the best so far is looked into as well: the later steps choose among such answers.</remarks>
    private void Look()
    {
        if (IsTooMuch(_simplex.Objective()))
        {
            return;
        }

        var open = -1;
        for (var i = 0; i < _variables.Count; i++)
        {
            var value = _simplex.Value(_variables[i]);
            if (!_separation.Separators[i].Lattice.Holds(value))
            {
                var lattice = _separation.Separators[i].Lattice;
                var (below, above) = (lattice.Below(value), lattice.Above(value));
                var lowerFirst = below is { } low && (above is not { } high || value - low <= high - value);
                Push(_variables[i], lowerFirst ? null : below, lowerFirst ? above : null);
                Push(_variables[i], lowerFirst ? below : null, lowerFirst ? null : above);
                return;
            }

            open = open < 0 && !IsFixed(i) ? i : open;
        }

        if (Lifted(open < 0) is not { } sum || IsTooMuch(sum))
        {
            return;
        }

        if (open < 0)
        {
            Take(sum);
            return;
        }

        var at = _simplex.Value(_variables[open]);
        Push(_variables[open], _separation.Separators[open].Lattice.BelowNext(at), null);
        Push(_variables[open], null, _separation.Separators[open].Lattice.AboveNext(at));
        _nodes.Push(new(_simplex.Mark(), _variables[open], at, at));
    }

    private bool IsTooMuch(Rational sum) => sum > Limit || (IsCrowded && sum == Best);

    private void Push(int variable, Rational? below, Rational? above)
    {
        if (below is not null || above is not null)
        {
            _nodes.Push(new(_simplex.Mark(), variable, above, below));
        }
    }

    private bool IsFixed(int separator) =>
        _simplex.Least(_variables[separator]) is { } least && _simplex.Most(_variables[separator]) is { } most && least == most;

    /// <summary>
    /// The cost of the program with the true sums of the pieces whose separators are all fixed; null when that is too much or cannot be.
    /// </summary>
    private Rational? Lifted(bool isFull)
    {
        var fixedOnes = new bool[_variables.Count];
        var any = false;
        for (var i = 0; i < fixedOnes.Length; i++)
        {
            any |= fixedOnes[i] = IsFixed(i);
        }

        var sum = _simplex.Objective();
        if (!any || (Best is null && !isFull))
        {
            return sum;
        }

        _pieces = new IPortion[_separation.Pieces.Length];
        for (var i = 0; i < _pieces.Length; i++)
        {
            if (!_separation.Pieces[i].Touches.All(t => fixedOnes[t]))
            {
                continue;
            }

            var others = sum - PartOf(i);
            if (PieceAt(i) is not { } piece)
            {
                return null;
            }

            var end = piece.LowerSum(_level, Limit - others, out var part);
            IsOpen |= end == SearchEnd.OutOfBudget;
            if (end != SearchEnd.Proved)
            {
                return null;
            }

            _pieces[i] = piece;
            sum = others + part;
            if (IsTooMuch(sum))
            {
                return null;
            }
        }

        return sum;
    }

    /// <summary>What the program makes of a piece.</summary>
    private Rational PartOf(int piece)
    {
        Rational sum = default;
        foreach (var (_, _, over, under) in _wishes[piece])
        {
            sum += over >= 0 ? _simplex.Value(over) : default;
            sum += under >= 0 ? _simplex.Value(under) : default;
        }

        return sum;
    }

    private IPortion? PieceAt(int index)
    {
        var piece = _separation.Pieces[index];
        var at = new Rational[4];
        var place = 0;
        foreach (var touched in piece.Touches)
        {
            at[place++] = _simplex.Value(_variables[touched]);
        }

        var key = new Key(index, at[0], at[1], at[2], at[3]);
        if (!_known.TryGetValue(key, out var portion))
        {
            portion = Pinned().Group(piece) is { } group ? _portions.Of(group) : null;
            Clean();
            _known.Add(key, portion);
        }

        return portion;
    }

    private Pinned Pinned()
    {
        for (var i = 0; i < _variables.Count; i++)
        {
            _portions.Scratch[_separation.MeasureOf(i)] = _simplex.Value(_variables[i]);
        }

        return new(_portions.Scratch);
    }

    private void Clean()
    {
        for (var i = 0; i < _variables.Count; i++)
        {
            _portions.Scratch[_separation.MeasureOf(i)] = null;
        }
    }

    private void Take(Rational sum)
    {
        var rest = Pinned().Group(_separation.Rest);
        Clean();
        if (rest is null)
        {
            return;
        }

        if (sum != Best)
        {
            Choices.Clear();
            Best = sum;
        }
        else if (Choices.Count == MostChoices)
        {
            Choices.RemoveRange(1, MostChoices - 1);
            IsCrowded = true;
            return;
        }

        var misses = rest.Wishes.ToDictionary(w => w.Statement, w => w.MissAt(w.Form.Constant));
        Choices.Add(new([.. _variables.Select(_simplex.Value)], _pieces, misses));
    }
}
