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
internal sealed class Branching(Group group, Separation separation, Portions portions) : IPortion
{
    private List<Choice>? _choices;
    private GroupModel? _model;
    private Rational? _bound;
    private Rational? _dear;
    private Leaf? _plain;

    /// <inheritdoc/>
    public (Strength Level, Rational Gap)? Unproved { get; private set; }

    /// <inheritdoc/>
    public bool CanTrade(Strength level) =>
        _plain?.CanTrade(level) ?? (_choices!.Count > 1 || _choices[0].Pieces.Any(p => p.CanTrade(level)));

    /// <inheritdoc/>
    public Rational? SumBound(Strength level)
    {
        if (_plain is not null)
        {
            return _plain.SumBound(level);
        }

        if (_choices is not null)
        {
            return LowerSum(level, null, out var sum) == SearchEnd.Proved ? sum : null;
        }

        if (_model is null)
        {
            _model = portions.ModelOf(group, separation);
            _bound = new Leaf(_model, portions.SearchOf(_model)).SumBound(level);
        }

        return _bound;
    }

    /// <inheritdoc/>
    public SearchEnd LowerSum(Strength level, Rational? most, out Rational sum)
    {
        if (_plain is not null)
        {
            return Noted(_plain.LowerSum(level, most, out sum));
        }

        if (_choices is null)
        {
            return Explore(level, most, out sum);
        }

        foreach (var choice in _choices)
        {
            choice.Figure = SumOfRest(choice, level);
            foreach (var piece in choice.Pieces)
            {
                piece.LowerSum(level, null, out var part);
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
        if (_plain is not null)
        {
            return Noted(_plain.LeastLargest(wishes));
        }

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
        if (_plain is not null)
        {
            _plain.Cap(wishes, most);
            return;
        }

        _choices!.RemoveAll(c => c.Figure > most);
        foreach (var piece in _choices.SelectMany(c => c.Pieces))
        {
            piece.Cap(wishes, most);
        }
    }

    /// <inheritdoc/>
    public Rational? LowerOne(int wish)
    {
        if (_plain is not null)
        {
            return Noted(_plain.LowerOne(wish));
        }

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
        if (_plain is not null)
        {
            return _plain.MissOf(wish);
        }

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
        if (_plain is not null)
        {
            _plain.Write(values);
            return;
        }

        for (var i = 0; i < separation.Separators.Count; i++)
        {
            values[separation.MeasureOf(i)] = _choices![0].Values[i];
        }

        foreach (var piece in _choices![0].Pieces)
        {
            piece.Write(values);
        }
    }

    /// <inheritdoc/>
    public void Release()
    {
        _plain?.Release();
        if (_model is not null)
        {
            portions.Release(_model.Simplex);
        }

        foreach (var piece in (_choices ?? []).SelectMany(c => c.Pieces).Distinct())
        {
            piece.Release();
        }
    }

    private Rational KeepLeast()
    {
        var least = _choices!.Min(c => c.Figure);
        _choices!.RemoveAll(c => c.Figure > least);
        return least;
    }

    private T Noted<T>(T result)
    {
        Unproved ??= _plain!.Unproved;
        return result;
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
        foreach (var wish in separation.Rest.Wishes)
        {
            sum += wish.Strength == level ? choice.Misses[wish.Statement] : default;
        }

        return sum;
    }

    private SearchEnd Explore(Strength level, Rational? most, out Rational sum)
    {
        sum = default;
        if (most <= _dear)
        {
            return SearchEnd.Dear;
        }

        if (SumBound(level) is not { } bound)
        {
            return SearchEnd.Nothing;
        }

        var search = new SeparatorSearch(separation, portions, level, _model!, most);
        search.Run();
        if (search.Best is not { } best)
        {
            _dear = search.IsOpen ? null : most;
            return search.IsOpen ? SearchEnd.OutOfBudget : most is null ? SearchEnd.Nothing : SearchEnd.Dear;
        }

        portions.Release(_model!.Simplex);
        _model = null;
        sum = best;
        _choices = search.Choices;
        if (search.IsOpen || _choices.Exists(c => c.Pieces.Any(p => p.Unproved is not null)))
        {
            Unproved = (level, sum - bound);
            _choices.RemoveRange(1, _choices.Count - 1);
        }

        if (search.IsCrowded && group.Wishes.Count > 0)
        {
            GoOnPlainly(level, sum);
        }

        return SearchEnd.Proved;
    }

    /// <summary>
    /// Where too many values share the least sum, a plain search goes on from it: that has much freedom then, and is seldom long.
    /// </summary>
    private void GoOnPlainly(Strength level, Rational sum)
    {
        var values = new Rational[group.Measures[^1] + 1];
        Write(values);
        Release();
        _choices = [];
        var model = portions.ModelOf(group);
        var leaf = new Leaf(model, portions.SearchOf(model), portions.Release);
        leaf.Accept(level, sum, values);
        _plain = leaf;
    }
}
