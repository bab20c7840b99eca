using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>A form of the reduced system that must stay between two bounds, or on a lattice, or both. The constant of the form is zero.</summary>
internal sealed class BoundedForm(LinearForm form)
{
    /// <summary>The form.</summary>
    public LinearForm Form { get; } = form;

    /// <summary>Its least value, or null.</summary>
    public Rational? Least { get; private set; }

    /// <summary>Its greatest value, or null.</summary>
    public Rational? Most { get; private set; }

    /// <summary>Its least value as the statements and the ranges of measures give it, before it is drawn in to a lattice.</summary>
    public Rational? SaidLeast { get; private set; }

    /// <summary>Its greatest value as the statements and the ranges of measures give it.</summary>
    public Rational? SaidMost { get; private set; }

    /// <summary>The variable of the simplex that stands for the form, while its group is solved.</summary>
    public int Variable { get; set; }

    /// <summary>Keeps the form at or above a value.</summary>
    public void Raise(Rational least)
    {
        SaidLeast = Greater(SaidLeast, least);
        DrawUp(least);
    }

    /// <summary>Keeps the form at or below a value.</summary>
    public void Lower(Rational most)
    {
        SaidMost = Lesser(SaidMost, most);
        DrawDown(most);
    }

    /// <summary>Keeps the form at or above a value for the sake of a lattice.</summary>
    public void DrawUp(Rational least) => Least = Greater(Least, least);

    /// <summary>Keeps the form at or below a value for the sake of a lattice.</summary>
    public void DrawDown(Rational most) => Most = Lesser(Most, most);

    /// <summary>
    /// Draws the bounds of a sum in to the values that it can take, where all its measures have lattices: 2a + 4b &lt;= 5 is 2a + 4b &lt;= 4.
    /// </summary>
    /// <param name="lattices">The lattice of each measure, or null.</param>
    public void DrawIn(Lattice?[] lattices)
    {
        if (Form.Unknowns.Length < 2 || Lattice.OfForm(Form, lattices) is not { } lattice)
        {
            return;
        }

        Least = Least is { } least ? lattice.Above(least) : null;
        Most = Most is { } most ? lattice.Below(most) : null;
    }

    /// <summary>Whether no value is left.</summary>
    public bool IsEmpty => Least is { } least && Most is { } most && least > most;

    /// <summary>
    /// The only value that is said, or null. One that only a lattice leaves does not count: what hangs together must not change with a
    /// rule that others imply, and only a rule that is written down is drawn in.
    /// </summary>
    public Rational? Only => SaidLeast is { } least && SaidMost is { } most && least == most ? least : null;

    private static Rational Greater(Rational? now, Rational bound) => now is { } value && value >= bound ? value : bound;

    private static Rational Lesser(Rational? now, Rational bound) => now is { } value && value <= bound ? value : bound;
}

/// <summary>A lattice that a bounded form must lie on, with the measure that it comes from.</summary>
internal readonly record struct SteppedForm(int Measure, BoundedForm Target, Lattice Lattice);

/// <summary>A should or may of the reduced system: a form, related to zero.</summary>
/// <param name="Statement">The number of the statement.</param>
/// <param name="Form">Left minus right.</param>
/// <param name="Relation">Its relation to zero.</param>
/// <param name="Strength">Should or may.</param>
internal readonly record struct ReducedWish(int Statement, LinearForm Form, Relation Relation, Strength Strength)
{
    /// <summary>By how much the wish is missed where its form has a value.</summary>
    public Rational MissAt(Rational excess) => Relation switch
    {
        Relation.AtMost => Rational.Max(excess, default),
        Relation.AtLeast => Rational.Max(-excess, default),
        _ => excess.Abs(),
    };
}

/// <summary>What one group adds to the value of a measure.</summary>
/// <param name="Measure">The measure.</param>
/// <param name="Form">The part of its form, without a constant.</param>
/// <param name="IsWhole">Whether no other group adds to it.</param>
/// <param name="Lattice">The lattice of the part, where it is whole and the measure has a grid; or null.</param>
/// <param name="Constant">What the value of the measure adds to the part, where it is whole; or zero.</param>
internal readonly record struct MeasurePart(int Measure, LinearForm Form, bool IsWhole, Lattice? Lattice, Rational Constant);

/// <summary>A part of the reduced system that shares no measure with any other part, so that it is solved alone.</summary>
internal sealed class Group
{
    /// <summary>The free measures, in order of declaration.</summary>
    public List<int> Measures { get; } = [];

    /// <summary>Forms with bounds; one over a single measure is that measure itself.</summary>
    public List<BoundedForm> Bounded { get; } = [];

    /// <summary>What must lie on lattices, in order of declaration of the measures.</summary>
    public List<SteppedForm> Stepped { get; } = [];

    /// <summary>The shoulds and mays, in order of declaration.</summary>
    public List<ReducedWish> Wishes { get; } = [];

    /// <summary>
    /// The measures, in order of declaration, whose value the group decides, wholly or in part.
    /// </summary>
    public List<MeasurePart> Parts { get; } = [];
}
