using Trimwright.Measures;

namespace Trimwright.Solving;

/// <content>Cuts: rows that every point on the lattices keeps and the present point breaks.</content>
internal sealed partial class Simplex
{
    /// <summary>Longer cuts cost more than they bring.</summary>
    private const int LongestCut = 16;

    private const int AnyPart = -1;
    private const int ManyParts = -2;

    private int[]? _tiesOfPart;

    /// <summary>
    /// Says how variables fall into parts, but for a few that tie them together: no cut then speaks of two parts, or of a tie that has
    /// nothing to do with its part.
    /// </summary>
    /// <param name="partOf">The part of each of the first variables, or -1 for a tie.</param>
    /// <param name="tieOf">The bit of each of the first variables, where it is a tie; or 0.</param>
    /// <param name="tiesOfPart">The bits of the ties that each part has to do with; the last part is that of misses of ties alone.</param>
    public void Part(ReadOnlySpan<int> partOf, ReadOnlySpan<int> tieOf, int[] tiesOfPart)
    {
        partOf.CopyTo(_partOf);
        tieOf.CopyTo(_tieOf);
        _tiesOfPart = tiesOfPart;
    }

    /// <summary>Puts a row and the misses in it into the part of its form.</summary>
    public void PutMisses(int row, int over, int under)
    {
        if (_tiesOfPart is null)
        {
            return;
        }

        var part = _partOf[row] == AnyPart ? _tiesOfPart.Length - 1 : _partOf[row];
        foreach (var variable in (ReadOnlySpan<int>)[row, over, under])
        {
            if (variable >= 0)
            {
                (_partOf[variable], _tieOf[variable]) = (part, _tieOf[row]);
            }
        }
    }

    private bool MayCut(int part, int ties) => part switch
    {
        AnyPart => true,
        ManyParts => false,
        _ => (ties & ~_tiesOfPart![part]) == 0,
    };

    private static int Join(int part, int other) => part == AnyPart || part == other ? other : other == AnyPart ? part : ManyParts;

    /// <summary>
    /// Adds a cut for each basic variable that is off its lattice, where one can be had. False when none was added. It holds for all
    /// points within the bounds as they stand, so bounds must only be drawn in from here on, or taken back to here.
    /// </summary>
    /// <remarks>
    /// R. E. Gomory, "An algorithm for the mixed integer problem", RAND RM-2597 (1960). Such a variable is k steps from its lattice's
    /// offset, k = b + sum a_j t_j over distances t_j of the others from the bounds that they stand at, all zero now; f is the part of
    /// b behind the whole number. Then sum c_j t_j is at least 1, with c_j as <see cref="Weight"/> has them.
    /// </remarks>
    /// <param name="stepped">The variables that must lie on lattices.</param>
    /// <param name="whole">Those, and all others that then do.</param>
    public bool Cut(IReadOnlyList<Stepped> stepped, IReadOnlyList<Stepped> whole)
    {
        var latticeOf = new Lattice?[Count];
        foreach (var (variable, lattice) in whole)
        {
            latticeOf[variable] = lattice;
        }

        foreach (var row in _waiting)
        {
            if (row.Variable >= 0)
            {
                latticeOf[row.Variable] = LatticeOf(row, latticeOf);
            }
        }

        var cuts = new List<(int[] Variables, Rational[] Factors, Rational Least)>();
        foreach (var (variable, lattice) in stepped)
        {
            if (_rowOf[variable] >= 0 && FractionOf((_value[variable] - lattice.Offset) / lattice.Step) is { IsZero: false } fraction
                && CutOf(_rowOf[variable], lattice.Step, fraction, latticeOf) is { } cut)
            {
                cuts.Add(cut);
            }
        }

        cuts.ForEach(c => AddRow(c.Variables, c.Factors, c.Least, null));
        return cuts.Count > 0;
    }

    /// <summary>The lattice of a row over variables that all have one; null for others.</summary>
    private static Lattice? LatticeOf(in WaitingRow row, Lattice?[] latticeOf)
    {
        var (offset, step) = (default(Rational), default(Rational));
        for (var i = 0; i < row.Variables.Length; i++)
        {
            if (latticeOf[row.Variables[i]] is not { } lattice)
            {
                return null;
            }

            offset += row.Factors[i] * lattice.Offset;
            step = Lattice.CommonStep(step, row.Factors[i] * lattice.Step);
        }

        return Lattice.From(Grid.FromStep(step)).Through(Rational.One, -offset);
    }

    private static Rational FractionOf(Rational value) => value.IsWhole ? default : value - Rational.From(value.Floor(), 1);

    private (int[] Variables, Rational[] Factors, Rational Least)? CutOf(int row, Rational step, Rational fraction, Lattice?[] latticeOf)
    {
        var (variables, factors) = (new List<int>(), new List<Rational>());
        var (least, part, ties) = (Rational.One, AnyPart, 0);
        for (var i = 0; i < _length[row]; i++)
        {
            var variable = _columns[row][i];
            if (IsFixed(variable))
            {
                continue;
            }

            var isLow = _hasLeast[variable] && _value[variable] == _least[variable];
            if (!isLow && !(_hasMost[variable] && _value[variable] == _most[variable]))
            {
                return null;
            }

            // The distance from its bound is a whole number of steps where it has a lattice and the bound lies on it.
            var lattice = latticeOf[variable];
            var unit = lattice is not null && ((_value[variable] - lattice.Offset) / lattice.Step).IsWhole ? lattice.Step : (Rational?)null;
            var factor = _factors[row][i] / (isLow ? step : -step);
            var weight = Weight(-factor * (unit ?? Rational.One), unit is not null, fraction) / (unit ?? Rational.One);
            if (weight.IsZero)
            {
                continue;
            }

            // weight x (value - bound), or weight x (bound - value).
            var signed = isLow ? weight : -weight;
            part = Join(part, _partOf[variable]);
            ties |= _tieOf[variable];
            variables.Add(variable);
            factors.Add(signed);
            least += signed * _value[variable];
        }

        return variables.Count is > 0 and <= LongestCut && MayCut(part, ties) ? ([.. variables], [.. factors], least) : null;
    }

    /// <summary>The weight of a distance in a cut: what the tableau of k + sum a t = b has for it, and whether it is a whole number.</summary>
    private static Rational Weight(Rational factor, bool isWhole, Rational fraction)
    {
        if (isWhole)
        {
            var part = FractionOf(factor);
            return part <= fraction ? part / fraction : (Rational.One - part) / (Rational.One - fraction);
        }

        return factor.Sign > 0 ? factor / fraction : -factor / (Rational.One - fraction);
    }
}
