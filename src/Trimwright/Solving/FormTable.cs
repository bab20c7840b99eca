using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Keeps one <see cref="BoundedForm"/> for all forms that are multiples of each other, in the order in which they first came.</summary>
internal sealed class FormTable : IEqualityComparer<LinearForm>
{
    private readonly Dictionary<LinearForm, BoundedForm> _known;
    private readonly List<BoundedForm> _inOrder = [];

    /// <summary>An empty table.</summary>
    public FormTable() => _known = new(this);

    /// <summary>The entries, in the order in which they came.</summary>
    public IReadOnlyList<BoundedForm> InOrder => _inOrder;

    /// <summary>The entry of a form: the form is <paramref name="factor"/> times the entry, plus its own constant.</summary>
    public BoundedForm Get(LinearForm form, out Rational factor)
    {
        factor = form.Factors[0];
        if (factor != Rational.One || !form.Constant.IsZero)
        {
            var by = factor;
            form = new(form.Unknowns, factor == Rational.One ? form.Factors : Array.ConvertAll(form.Factors, f => f / by), default);
        }

        if (!_known.TryGetValue(form, out var entry))
        {
            entry = new(form);
            _known.Add(form, entry);
            _inOrder.Add(entry);
        }

        return entry;
    }

    /// <summary>Forgets all entries.</summary>
    public void Clear()
    {
        _known.Clear();
        _inOrder.Clear();
    }

    /// <inheritdoc/>
    public bool Equals(LinearForm? x, LinearForm? y) =>
        x!.Unknowns.AsSpan().SequenceEqual(y!.Unknowns) && x.Factors.AsSpan().SequenceEqual(y.Factors);

    /// <inheritdoc/>
    public int GetHashCode(LinearForm obj)
    {
        var hash = new HashCode();
        for (var i = 0; i < obj.Unknowns.Length; i++)
        {
            hash.Add(obj.Unknowns[i]);
            hash.Add(obj.Factors[i].GetHashCode());
        }

        return hash.ToHashCode();
    }
}
