using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Variants;

/// <summary>A layout fitted in one of several ways.</summary>
/// <param name="Name">What sets it apart: the mirror, or the format with its holding.</param>
/// <param name="Card">The fitted card, or null where it cannot be done.</param>
/// <param name="Diagnostics">Why not, and warnings.</param>
public sealed record Variant(string Name, FittedCard? Card, IReadOnlyList<Diagnostic> Diagnostics)
{
    /// <summary>What lies over what and does not as drawn, as sentences, such as <c>`sun` lies over `bed`</c>; empty where that was not looked for.</summary>
    public IReadOnlyList<string> NewOverlaps { get; init; } = [];
}

/// <summary>Fits a layout in several ways.</summary>
public static class VariantFits
{
    /// <summary>
    /// The layout as drawn and all its mirrored variants, each a full fit to the same format. The accents alone are left out where the
    /// layout marks none.
    /// </summary>
    public static IReadOnlyList<Variant> Mirrored(
        Layout layout, CardFormat format, Holding holding, Drawer drawer, CancellationToken cancel = default)
    {
        var variants = new List<Variant> { Fit("as drawn", layout, format, holding, drawer, cancel) };
        foreach (var mirror in Enum.GetValues<Mirror>())
        {
            if (mirror != Mirror.AccentsAlone || Mirroring.HasAccents(layout))
            {
                variants.Add(Fit(Mirroring.NameOf(mirror), Mirroring.Apply(layout, mirror), format, holding, drawer, cancel));
            }
        }

        return variants;
    }

    /// <summary>The layout fitted to several formats, in the order given.</summary>
    public static IReadOnlyList<Variant> Resized(
        Layout layout, IEnumerable<(CardFormat Format, Holding Holding)> formats, Drawer drawer, CancellationToken cancel = default) =>
        [.. formats.Select(to => Fit(Fitter.FormatWords(to.Format, to.Holding), layout, to.Format, to.Holding, drawer, cancel))];

    private static Variant Fit(
        string name, Layout layout, CardFormat format, Holding holding, Drawer drawer, CancellationToken cancel)
    {
        var result = Fitter.Fit(layout, format, holding, drawer, cancel);
        return new(name, result.Card, result.Diagnostics);
    }
}
