using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>
/// Carries the measures of a layout from the format it was drawn for to another, each along its own axis.
/// </summary>
/// <remarks>
/// A carried measure aims at the setting nearest to its exact proportion: a whole increment for a size, half an increment for a place.
/// The rounding happens to the aim, before anything is solved, so that what is solved is exact and falls on the ruler; both values
/// are reported. <c>exactly</c> and reveals are never carried.
/// </remarks>
internal sealed class Carrying
{
    private readonly Length _increment;

    public Carrying(Layout layout, Length width, Length height, Length increment)
    {
        var (drawnWidth, drawnHeight) = layout.Format.Held(layout.Holding);
        Across = width / drawnWidth;
        UpDown = height / drawnHeight;
        _increment = increment;
    }

    /// <summary>New width over drawn width.</summary>
    public Rational Across { get; }

    /// <summary>New height over drawn height.</summary>
    public Rational UpDown { get; }

    /// <summary>For what has no axis of its own, such as a diameter: the lesser of the two, so that it cannot outgrow the card.</summary>
    public Rational Both => Rational.Min(Across, UpDown);

    public Rational Along(Axis? axis) => axis switch
    {
        Axis.Across => Across,
        Axis.UpDown => UpDown,
        _ => Both,
    };

    /// <summary>The aim of a size: at least one increment.</summary>
    public Rational Size(Rational nanometres, Axis? axis) =>
        Rational.Max(Nearest(nanometres, axis, _increment.Nanometres), Along(axis) == 1 ? nanometres : _increment.Nanometres);

    /// <summary>The aim of a distance or a gap.</summary>
    public Rational Distance(Rational nanometres, Axis? axis) =>
        Nearest(nanometres, axis, Rational.From(_increment.Nanometres, 2));

    // Halves go to the lesser setting: a piece a little small can still be placed, one too large cannot.
    private Rational Nearest(Rational nanometres, Axis? axis, Rational step)
    {
        var ratio = Along(axis);
        if (ratio == 1)
        {
            return nanometres;
        }

        var steps = nanometres * ratio / step;
        return step * Rational.From((steps - Rational.From(1, 2)).Ceiling(), 1);
    }
}
