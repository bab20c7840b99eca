using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>Chooses dies from a drawer, among those made in the unit of the format where there are any.</summary>
internal sealed class DieChooser(Drawer drawer, LengthUnit unit)
{
    /// <summary>Whether the drawer has a die for that kind at all.</summary>
    public bool Has(PieceKind kind) => DiesFor(kind).Count > 0;

    /// <summary>The sizes of the dies of a kind with one size (circle, square), ascending.</summary>
    public IReadOnlyList<Rational> OneSize(PieceKind kind) =>
        [.. DiesFor(kind).Select(die => (Rational)die.Width.Nanometres).Distinct().Order()];

    /// <summary>The die of that size.</summary>
    public Die OfSize(PieceKind kind, Length size) => DiesFor(kind).First(die => die.Width == size);

    /// <summary>
    /// The die nearest to a size: the least sum of both differences, then the smaller die. A die may be laid either way round.
    /// </summary>
    public Die Nearest(PieceKind kind, Rational width, Rational height) => BothWays(kind)
        .OrderBy(die => (die.Width.Nanometres - width).Abs() + (die.Height.Nanometres - height).Abs())
        .ThenBy(die => die.Width.Nanometres + die.Height.Nanometres)
        .ThenBy(die => die.Width)
        .First();

    /// <summary>
    /// The die that leaves the same reveal on all sides of another, nearest to the one wished. Where there is none, the next larger
    /// die, which then cannot keep the reveals even and shows up as a clash.
    /// </summary>
    public Die NearestAround(PieceKind kind, Die inner, Length reveal) => BothWays(kind)
        .Where(die => die.Width > inner.Width && die.Height > inner.Height)
        .OrderBy(die => die.Width - inner.Width == die.Height - inner.Height ? 0 : 1)
        .ThenBy(die => (die.Width - inner.Width - (2 * reveal)).Abs())
        .FirstOrDefault() ?? inner;

    private IEnumerable<Die> BothWays(PieceKind kind) => DiesFor(kind).SelectMany(die =>
        die.Width == die.Height ? [die] : new[] { die, die with { Width = die.Height, Height = die.Width } });

    private List<Die> DiesFor(PieceKind kind)
    {
        var shape = kind is PieceKind.Strip or PieceKind.Image ? PieceKind.Panel : kind;
        var all = drawer.Dies.Where(die => die.Kind == shape).ToList();
        var ruler = unit == LengthUnit.Inch ? Length.FromInches(1, LengthText.FinestInchFraction) : Length.FromMillimetres(1);
        var inUnit = all.FindAll(die => die.Width.IsMultipleOf(ruler) && die.Height.IsMultipleOf(ruler));
        return inUnit.Count > 0 ? inUnit : all;
    }
}
