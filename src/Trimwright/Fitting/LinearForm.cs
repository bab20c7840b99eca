using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>A sum of terms and a constant, in nanometres. Immutable.</summary>
internal sealed class LinearForm
{
    private readonly Term[] _terms;

    private LinearForm(Term[] terms, Rational constant)
    {
        _terms = terms;
        Constant = constant;
    }

    public IReadOnlyList<Term> Terms => _terms;

    public Rational Constant { get; }

    public static LinearForm FromConstant(Rational constant) => new([], constant);

    public static LinearForm FromMeasure(Measure measure) => new([new(measure, Rational.One)], Rational.Zero);

    public static LinearForm operator +(LinearForm a, LinearForm b) => Combine(a, b, Rational.One);

    public static LinearForm operator -(LinearForm a, LinearForm b) => Combine(a, b, -Rational.One);

    public static LinearForm operator +(LinearForm a, Rational b) => b.IsZero ? a : new(a._terms, a.Constant + b);

    public LinearForm Times(Rational factor)
    {
        var terms = new Term[_terms.Length];
        for (var i = 0; i < terms.Length; i++)
        {
            terms[i] = _terms[i] with { Factor = _terms[i].Factor * factor };
        }

        return new(terms, Constant * factor);
    }

    /// <summary>The value at a solution.</summary>
    public Rational At(IReadOnlyList<Rational> values)
    {
        var sum = Constant;
        foreach (var term in _terms)
        {
            sum += term.Factor * values[term.Measure.Index];
        }

        return sum;
    }

    // Terms stay few (a piece, its mats, its parent), so a search by hand beats a dictionary.
    private static LinearForm Combine(LinearForm a, LinearForm b, Rational factor)
    {
        if (b._terms.Length == 0)
        {
            return a + (b.Constant * factor);
        }

        var terms = new List<Term>(a._terms.Length + b._terms.Length);
        terms.AddRange(a._terms);
        foreach (var term in b._terms)
        {
            var at = terms.FindIndex(known => known.Measure == term.Measure);
            if (at < 0)
            {
                terms.Add(term with { Factor = term.Factor * factor });
                continue;
            }

            var sum = terms[at].Factor + (term.Factor * factor);
            if (sum.IsZero)
            {
                terms.RemoveAt(at);
            }
            else
            {
                terms[at] = term with { Factor = sum };
            }
        }

        return new([.. terms], a.Constant + (b.Constant * factor));
    }
}
