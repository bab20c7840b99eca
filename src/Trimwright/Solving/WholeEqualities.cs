using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>
/// Equalities between measures on grids, as equations in whole numbers of steps: whether they have a solution at all, and on which
/// of its steps each measure then lies.
/// </summary>
/// <remarks>
/// Euclid's algorithm on columns, as for the Hermite normal form (A. Schrijver, "Theory of Linear and Integer Programming", 1986,
/// sections 4.1 and 5.3): all solutions are k0 + N t with t whole, and one equation after another takes one column off N. Without this
/// test 2a - 2b = 1 would be searched step by step to the bounds.
/// </remarks>
internal static class WholeEqualities
{
    /// <summary>The factors of a form, as whole numbers without a common divisor, when each measure is counted in its steps.</summary>
    /// <param name="form">A form over measures on grids only.</param>
    /// <param name="lattices">The lattice of each measure.</param>
    /// <param name="right">What the whole factors add up to when the form is zero; not whole where no whole numbers do.</param>
    public static BigInteger[] InSteps(LinearForm form, Lattice?[] lattices, out Rational right)
    {
        var count = form.Unknowns.Length;
        var scaled = new Rational[count];
        right = -form.Constant;
        var (over, under) = (BigInteger.Zero, BigInteger.One);
        for (var i = 0; i < count; i++)
        {
            var lattice = lattices[form.Unknowns[i]]!;
            scaled[i] = form.Factors[i] * lattice.Step;
            right -= form.Factors[i] * lattice.Offset;
            under = under / BigInteger.GreatestCommonDivisor(under, scaled[i].Denominator) * scaled[i].Denominator;
        }

        var steps = new BigInteger[count];
        for (var i = 0; i < count; i++)
        {
            steps[i] = scaled[i].Numerator * (under / scaled[i].Denominator);
            over = BigInteger.GreatestCommonDivisor(over, steps[i]);
        }

        for (var i = 0; i < count; i++)
        {
            steps[i] /= over;
        }

        right *= Rational.From(under, over);
        return steps;
    }

    /// <summary>Whether one equation has a solution in whole numbers: its factors have no common divisor, so its right side must be whole.</summary>
    public static bool RightIsWhole(LinearForm form, Lattice?[] lattices)
    {
        InSteps(form, lattices, out var right);
        return right.IsWhole;
    }

    /// <summary>
    /// Solves the equations. False when no whole numbers do; otherwise the lattices of the measures are thinned to the steps that
    /// occur in a solution.
    /// </summary>
    public static bool Thin(IReadOnlyList<LinearForm> forms, Lattice?[] lattices)
    {
        var measures = new SortedSet<int>(forms.SelectMany(f => f.Unknowns)).ToArray();
        var start = new BigInteger[measures.Length];
        var columns = new List<BigInteger[]>();
        for (var i = 0; i < measures.Length; i++)
        {
            var unit = new BigInteger[measures.Length];
            unit[i] = BigInteger.One;
            columns.Add(unit);
        }

        foreach (var form in forms)
        {
            var steps = InSteps(form, lattices, out var right);
            var places = Array.ConvertAll(form.Unknowns, m => Array.BinarySearch(measures, m));
            if (!right.IsWhole || !Solve(steps, places, right.Numerator, start, columns))
            {
                return false;
            }
        }

        for (var i = 0; i < measures.Length; i++)
        {
            var every = columns.Aggregate(BigInteger.Zero, (gcd, column) => BigInteger.GreatestCommonDivisor(gcd, column[i]));
            if (every > BigInteger.One)
            {
                lattices[measures[i]] = lattices[measures[i]]!.Thin(every, start[i]);
            }
        }

        return true;
    }

    /// <summary>Brings one equation into the solution so far.</summary>
    private static bool Solve(BigInteger[] steps, int[] places, BigInteger right, BigInteger[] start, List<BigInteger[]> columns)
    {
        var rest = right - Product(steps, places, start);
        var lead = -1;
        var leadFactor = BigInteger.Zero;
        for (var c = 0; c < columns.Count; c++)
        {
            var factor = Product(steps, places, columns[c]);
            if (factor.IsZero)
            {
                continue;
            }

            if (lead < 0)
            {
                (lead, leadFactor) = (c, factor);
                continue;
            }

            // Euclid between this column and the leading one: their factors end as the common divisor and zero.
            while (!factor.IsZero)
            {
                var quotient = BigInteger.Divide(leadFactor, factor);
                Subtract(columns[lead], columns[c], quotient);
                (leadFactor, factor) = (factor, leadFactor - (quotient * factor));
                (columns[lead], columns[c]) = (columns[c], columns[lead]);
            }
        }

        if (lead < 0)
        {
            return rest.IsZero;
        }

        var count = BigInteger.DivRem(rest, leadFactor, out var remainder);
        if (!remainder.IsZero)
        {
            return false;
        }

        Subtract(start, columns[lead], -count);
        columns.RemoveAt(lead);
        return true;
    }

    private static BigInteger Product(BigInteger[] steps, int[] places, BigInteger[] column)
    {
        var sum = BigInteger.Zero;
        for (var i = 0; i < steps.Length; i++)
        {
            sum += steps[i] * column[places[i]];
        }

        return sum;
    }

    private static void Subtract(BigInteger[] from, BigInteger[] column, BigInteger times)
    {
        for (var i = 0; i < from.Length; i++)
        {
            from[i] -= times * column[i];
        }
    }
}
