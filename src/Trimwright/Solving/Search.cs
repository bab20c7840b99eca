using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>A variable of the simplex that must lie on a lattice.</summary>
internal readonly record struct Stepped(int Variable, Lattice Lattice);

/// <summary>How a search ended.</summary>
internal enum SearchEnd
{
    /// <summary>The best point was found, with proof.</summary>
    Proved,

    /// <summary>No point is within the bounds and on the lattices.</summary>
    Nothing,

    /// <summary>The cost goes down without end.</summary>
    Endless,

    /// <summary>The budget ended first.</summary>
    OutOfBudget,

    /// <summary>No point costs as little as was asked for.</summary>
    Dear,
}

/// <summary>
/// Branch and bound over the lattices of one group: A. H. Land, A. G. Doig, "An automatic method of solving discrete programming
/// problems", Econometrica 28 (1960). Depth first, on the first variable in order of declaration that is off its lattice, its
/// nearer side first (the lower of two equal ones): so the way down is also a dive that fixes parents before what they hold.
/// </summary>
/// <remarks>Every variable with a lattice has two bounds, so the tree is finite; the budget only guards against a large one.</remarks>
internal sealed class Search(Simplex simplex, IReadOnlyList<Stepped> stepped, SearchBudget budget)
{
    private const int Patience = 8;
    private const int MostCandidates = 8;

    private readonly List<Branch> _branches = [];
    private readonly List<int> _off = [];
    private Rational[] _point = [];
    private int _seen;

    private readonly record struct Branch(int Mark, int Variable, Rational? Other, bool OtherIsAbove);

    /// <summary>Whether lattices count; without them the search is one linear program.</summary>
    public bool MindsLattices { get; set; }

    /// <summary>While no point is known: what a point may cost at most to be of use, or null.</summary>
    public Rational? Most { get; set; }

    /// <summary>Whether a point is known that lies within the bounds, and on the lattices where they count.</summary>
    public bool HasPoint { get; private set; }

    /// <summary>After a search: the least cost that the linear program without lattices allows.</summary>
    public Rational Bound { get; private set; }

    /// <summary>After a search: the cost of the point.</summary>
    public Rational Best { get; private set; }

    /// <summary>The value of a variable at the best point known.</summary>
    public Rational At(int variable) => _point[variable];

    /// <summary>Whether the best point known lies on all lattices.</summary>
    public bool PointIsOnLattices()
    {
        foreach (var (variable, lattice) in stepped)
        {
            if (!lattice.Holds(_point[variable]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Forgets the point known.</summary>
    public void Forget() => HasPoint = false;

    /// <summary>A copy of the point known.</summary>
    public Rational[] Copy() => _point.AsSpan(0, Math.Min(_point.Length, simplex.Count)).ToArray();

    /// <summary>Takes a point as known.</summary>
    public void Restore(Rational[] point)
    {
        point.CopyTo(_point, 0);
        HasPoint = true;
    }

    /// <summary>Tells the value that a variable added since has at the point known.</summary>
    public void Teach(int variable, Rational value)
    {
        if (_point.Length <= variable)
        {
            Array.Resize(ref _point, simplex.Count * 2);
        }

        _point[variable] = value;
    }

    /// <summary>Takes the point that was taught as known.</summary>
    public void Recall() => HasPoint = true;

    /// <summary>Pins all variables with lattices where they are at the point known, and minds lattices no more.</summary>
    public void Freeze()
    {
        foreach (var (variable, _) in stepped)
        {
            simplex.Pin(variable, _point[variable]);
        }

        MindsLattices = false;
    }

    /// <summary>Looks for any point.</summary>
    public SearchEnd Find() => Minimise([], [], null);

    /// <summary>
    /// Lowers a cost as far as it goes. The bounds are left as they were; where <see cref="Best"/> equals <see cref="Bound"/> the simplex
    /// is left at a best point of the linear program, ready for <see cref="Simplex.PinFace"/>.
    /// </summary>
    /// <param name="variables">The variables of the cost.</param>
    /// <param name="factors">Their factors.</param>
    /// <param name="along">A lattice that the cost itself lies on, or null.</param>
    public SearchEnd Minimise(ReadOnlySpan<int> variables, ReadOnlySpan<Rational> factors, Lattice? along)
    {
        if (!MindsLattices)
        {
            along = null;
        }

        if (HasPoint)
        {
            Best = CostAtPoint(variables, factors);
        }

        var root = simplex.Mark();
        var end = Start(variables, factors, along);
        if (end is { } early)
        {
            return early;
        }

        end = Walk(along);
        simplex.UndoTo(root);
        if (HasPoint && Best == Bound)
        {
            simplex.Reoptimise();
        }

        return end ?? (HasPoint ? SearchEnd.Proved : Most is null ? SearchEnd.Nothing : SearchEnd.Dear);
    }

    /// <summary>Solves the root; null when branches are needed.</summary>
    private SearchEnd? Start(ReadOnlySpan<int> variables, ReadOnlySpan<Rational> factors, Lattice? along)
    {
        simplex.SetCost(variables, factors);
        simplex.TrustCost();
        if (!simplex.TryReoptimise(out var endless))
        {
            return SearchEnd.Nothing;
        }

        if (endless)
        {
            return HasPoint || !MindsLattices || Find() == SearchEnd.Proved ? SearchEnd.Endless : SearchEnd.Nothing;
        }

        var lowest = simplex.Objective();
        if ((along is null ? lowest : along.Above(lowest)) is not { } bound)
        {
            return SearchEnd.Nothing;
        }

        Bound = bound;
        if (!HasPoint && bound > Most)
        {
            return SearchEnd.Dear;
        }

        if (HasPoint && Best == bound)
        {
            // With a lattice along the cost the linear program may lie lower: its face is then not the wanted one, and nobody asks.
            return SearchEnd.Proved;
        }

        if (FirstOff() < 0)
        {
            Take();
            return SearchEnd.Proved;
        }

        return null;
    }

    /// <summary>Walks the tree below the root as it stands. Null when the whole tree was seen.</summary>
    private SearchEnd? Walk(Lattice? along)
    {
        _branches.Clear();
        _seen = 0;
        var first = FirstOff();
        Split(first, simplex.Value(stepped[first].Variable));
        var grace = (4 * stepped.Count) + 16;
        while (_branches.Count > 0)
        {
            // Once the budget is spent, one way down may still be gone to its end, so that there is an answer.
            if (!budget.Pay(simplex) && (HasPoint || --grace < 0))
            {
                return SearchEnd.OutOfBudget;
            }

            var (mark, variable, other, isAbove) = _branches[^1];
            _branches.RemoveAt(_branches.Count - 1);
            simplex.UndoTo(mark);
            if (other is not { } side)
            {
                continue;
            }

            if (!(isAbove ? simplex.Raise(variable, side) : simplex.Lower(variable, side)) || !simplex.Reoptimise())
            {
                continue;
            }

            var cost = simplex.Objective();
            if ((along is null ? cost : along.Above(cost)) is not { } bound || (HasPoint ? bound >= Best : bound > Most))
            {
                continue;
            }

            if (FirstOff() is var off and >= 0)
            {
                var at = simplex.Value(stepped[off].Variable);
                if (++_seen > Patience)
                {
                    (off, at) = Telling(off, along);
                }

                if (off >= 0)
                {
                    Split(off, at);
                }

                continue;
            }

            Take();
            if (Best == Bound)
            {
                return null;
            }
        }

        return null;
    }

    /// <summary>
    /// The variable off its lattice whose weaker side raises the cost most, the first of equals; -1 where one has no side left that is of
    /// use. Costs two linear programs each, so it is asked only in searches that go on; what is best does not depend on it.
    /// </summary>
    /// <returns>
    /// The variable and the value to split at. The simplex may have come back to another of several best points by then, at which the variable
    /// lies on its lattice: splitting there would change nothing, again and again.
    /// </returns>
    private (int Off, Rational At) Telling(int first, Lattice? along)
    {
        _off.Clear();
        for (var i = first; i < stepped.Count && _off.Count < MostCandidates; i++)
        {
            if (!stepped[i].Lattice.Holds(simplex.Value(stepped[i].Variable)))
            {
                _off.Add(i);
            }
        }

        var values = _off.ConvertAll(i => simplex.Value(stepped[i].Variable));
        if (_off.Count == 1)
        {
            return (first, values[0]);
        }

        var mark = simplex.Mark();
        var (best, gain) = (-1, default(Rational));
        for (var i = 0; i < values.Count; i++)
        {
            var (variable, lattice) = stepped[_off[i]];
            var below = Side(variable, null, lattice.Below(values[i]), along, mark);
            var above = Side(variable, lattice.Above(values[i]), null, along, mark);
            if (below is null && above is null)
            {
                return (-1, default);
            }

            if (below is null || above is null)
            {
                best = i;
                break;
            }

            var least = Rational.Min(below.Value, above.Value);
            if (best < 0 || least > gain)
            {
                (best, gain) = (i, least);
            }
        }

        simplex.Reoptimise();
        return (_off[best], values[best]);
    }

    /// <summary>The cost on one side of a branch; null when there is nothing of use.</summary>
    private Rational? Side(int variable, Rational? least, Rational? most, Lattice? along, int mark)
    {
        if (least is null && most is null)
        {
            return null;
        }

        var holds = (least is not { } low || simplex.Raise(variable, low)) && (most is not { } high || simplex.Lower(variable, high));
        Rational? cost = holds && simplex.Reoptimise() ? simplex.Objective() : null;
        simplex.UndoTo(mark);
        var bound = cost is { } value && along is not null ? along.Above(value) : cost;
        return (HasPoint ? bound >= Best : bound > Most) ? null : bound;
    }

    /// <summary>Puts the two sides of a value that is off the lattice of its variable on the stack, the nearer one on top.</summary>
    private void Split(int off, Rational value)
    {
        var (variable, lattice) = stepped[off];
        var (below, above) = (lattice.Below(value), lattice.Above(value));
        var lowerFirst = below is { } low && (above is not { } high || value - low <= high - value);
        var mark = simplex.Mark();
        _branches.Add(lowerFirst ? new(mark, variable, above, true) : new(mark, variable, below, false));
        _branches.Add(lowerFirst ? new(mark, variable, below, false) : new(mark, variable, above, true));
    }

    private int FirstOff()
    {
        for (var i = 0; MindsLattices && i < stepped.Count; i++)
        {
            if (!stepped[i].Lattice.Holds(simplex.Value(stepped[i].Variable)))
            {
                return i;
            }
        }

        return -1;
    }

    private void Take()
    {
        if (_point.Length < simplex.Count)
        {
            _point = new Rational[simplex.Count * 2];
        }

        for (var i = 0; i < simplex.Count; i++)
        {
            _point[i] = simplex.Value(i);
        }

        HasPoint = true;
        Best = simplex.Objective();
    }

    private Rational CostAtPoint(ReadOnlySpan<int> variables, ReadOnlySpan<Rational> factors)
    {
        Rational sum = default;
        for (var i = 0; i < variables.Length; i++)
        {
            sum += factors[i] * _point[variables[i]];
        }

        return sum;
    }
}
