using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Solves must equalities for measures: each equality defines one measure by those that stay free (Gauss and Jordan).
/// </summary>
/// <remarks>
/// The measure declared last goes, so that what was declared first - what the rest is built on - stays. Measures without a grid go
/// first: an equality in which only measures on grids are left is one between whole numbers, and is kept for
/// <see cref="WholeEqualities"/> as well.
/// </remarks>
internal sealed class Elimination(int measureCount, Lattice?[] lattices, FormBuilder builder)
{
    private readonly LinearForm?[] _defined = new LinearForm?[measureCount];
    private readonly List<int>?[] _users = new List<int>?[measureCount];
    private readonly bool[] _impliedWhole = new bool[measureCount];

    /// <summary>The equalities between measures on grids, as forms that are zero.</summary>
    public List<LinearForm> Whole { get; } = [];

    /// <summary>Whether an equality between measures on grids has no factor of one, so that whole numbers may fail where fractions do not.</summary>
    public bool WholeIsHard { get; private set; }

    /// <summary>The definition of a measure by free ones, or null where it is free.</summary>
    public LinearForm? DefinitionOf(int measure) => _defined[measure];

    /// <summary>Whether a defined measure is on its grid whenever the others are.</summary>
    public bool IsImpliedWhole(int measure) => _impliedWhole[measure];

    /// <summary>Adds a multiple of a measure, by free ones, to the builder.</summary>
    public void AddTo(int measure, Rational factor)
    {
        if (_defined[measure] is { } form)
        {
            builder.Add(form, factor);
        }
        else
        {
            builder.Add(measure, factor);
        }
    }

    /// <summary>Makes a form over free measures zero. False when it is a constant other than zero, or a lone measure off its grid.</summary>
    public bool MakeZero(LinearForm form)
    {
        if (form.IsConstant)
        {
            return form.Constant.IsZero;
        }

        var at = -1;
        for (var i = form.Unknowns.Length - 1; i >= 0 && at < 0; i--)
        {
            at = lattices[form.Unknowns[i]] is null ? i : -1;
        }

        if (at < 0)
        {
            if (form.Unknowns.Length == 1)
            {
                var (measure, value) = (form.Unknowns[0], -form.Constant / form.Factors[0]);
                if (!lattices[measure]!.Holds(value))
                {
                    return false;
                }
            }

            Whole.Add(form);
            at = ChooseWhole(form);
        }

        Define(form, at);
        return true;
    }

    /// <summary>
    /// Chooses among measures on grids: the last declared, those on lists of values last. With all factors in whole steps and in lowest
    /// terms, one with factor 1 is whole whenever the others are, so its grid need not be searched.
    /// </summary>
    /// <remarks>
    /// By order and nothing else: so what stays free is the same whichever statements say it, and however often (the reduced echelon form
    /// of a set of equalities does not depend on how they are written).
    /// </remarks>
    private int ChooseWhole(LinearForm form)
    {
        var steps = WholeEqualities.InSteps(form, lattices, out _);
        var at = steps.Length - 1;
        for (var i = at; i >= 0; i--)
        {
            if (!lattices[form.Unknowns[i]]!.IsList)
            {
                at = i;
                break;
            }
        }

        var measure = form.Unknowns[at];
        _impliedWhole[measure] = !lattices[measure]!.IsList && BigInteger.Abs(steps[at]).IsOne && WholeEqualities.RightIsWhole(form, lattices);
        WholeIsHard |= form.Unknowns.Length > 1 && !_impliedWhole[measure];
        return at;
    }

    private void Define(LinearForm form, int at)
    {
        var measure = form.Unknowns[at];
        var factor = -form.Factors[at];
        var unknowns = new int[form.Unknowns.Length - 1];
        var factors = new Rational[unknowns.Length];
        for (int i = 0, k = 0; i < form.Unknowns.Length; i++)
        {
            if (i != at)
            {
                unknowns[k] = form.Unknowns[i];
                factors[k++] = form.Factors[i] / factor;
            }
        }

        var definition = new LinearForm(unknowns, factors, form.Constant / factor);
        _defined[measure] = definition;
        Note(measure, definition);
        if (_users[measure] is { } users)
        {
            foreach (var user in users)
            {
                var old = _defined[user]!;
                var share = old.FactorOf(measure);
                if (share.IsZero)
                {
                    continue;
                }

                builder.Add(old, Rational.One);
                builder.Add(measure, -share);
                builder.Add(definition, share);
                _defined[user] = builder.Take();
                Note(user, definition);
            }

            _users[measure] = null;
        }
    }

    private void Note(int user, LinearForm definition)
    {
        foreach (var unknown in definition.Unknowns)
        {
            var users = _users[unknown] ??= [];
            if (users.Count == 0 || users[^1] != user)
            {
                users.Add(user);
            }
        }
    }
}
