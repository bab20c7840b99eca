using Trimwright.Fitting;
using Trimwright.Variants;

namespace Trimwright.Balance;

/// <summary>A variant as it stands in a comparison.</summary>
/// <param name="Number">Its number, from 1 in the order of the ranking, by which a maker names it. Places may be shared, numbers are not.</param>
/// <param name="Ranked">The variant with its weight and its place.</param>
/// <param name="TiesWith">The numbers of the others that share its place.</param>
/// <param name="LooksOff">The pieces that look off the card, as sentences.</param>
public sealed record ComparedVariant(int Number, RankedVariant Ranked, IReadOnlyList<int> TiesWith, IReadOnlyList<string> LooksOff)
{
    /// <summary>What was changed, such as <c>mirrored left-right, then `sun` to the top</c>.</summary>
    public string Name => Ranked.Variant.Name;

    /// <summary>What lies over what and does not as drawn, as sentences.</summary>
    public IReadOnlyList<string> NewOverlaps => Ranked.Variant.NewOverlaps;

    /// <summary>Its card; only variants that fit are compared.</summary>
    public FittedCard Card => Ranked.Variant.Card!;

    /// <summary>Its weight, or null where its face has none.</summary>
    public FaceWeight? Weight => Ranked.Weight;
}

/// <summary>All variants of a layout that were found, weighed, put in order and numbered: what is shown, written and chosen from.</summary>
public sealed record BalanceComparison
{
    private BalanceComparison(BalanceRanking ranking, VariantsFound found)
    {
        Ranking = ranking;
        (Tried, NotTried, LeftOut) = (found.Tried, found.NotTried, found.LeftOut);
        Variants = [.. ranking.Ranked.Select((entry, i) => new ComparedVariant(
            i + 1,
            entry,
            [.. ranking.Ranked.Index().Where(other => other.Item.Place == entry.Place && other.Index != i).Select(other => other.Index + 1)],
            FacingNotes.Of(entry.Variant.Card!)))];
        AsDrawn = Variants.First(variant => ReferenceEquals(variant.Ranked, ranking.AsDrawn));
    }

    /// <summary>The ranking.</summary>
    public BalanceRanking Ranking { get; }

    /// <summary>Every variant that fits, the best balanced first.</summary>
    public IReadOnlyList<ComparedVariant> Variants { get; }

    /// <summary>The layout as drawn, wherever it ended up.</summary>
    public ComparedVariant AsDrawn { get; }

    /// <summary>The first of the ranking.</summary>
    public ComparedVariant Best => Variants[0];

    /// <summary>Whether nothing sits better than the layout as drawn.</summary>
    public bool IsBestAsDrawn => AsDrawn.Ranked.Place == Best.Ranked.Place;

    /// <summary>How many combinations were fitted, the layout as drawn among them.</summary>
    public int Tried { get; }

    /// <summary>Those that were fitted and left out.</summary>
    public IReadOnlyList<LeftOutVariant> LeftOut { get; }

    /// <summary>How many more there are.</summary>
    public long NotTried { get; }

    /// <summary>Weighs and orders the variants that were found.</summary>
    /// <param name="found">The variants, the layout as drawn first.</param>
    /// <param name="pictures">The pictures on their pieces.</param>
    /// <param name="measure">What to order them by.</param>
    /// <param name="cancel">Ends the work early.</param>
    /// <exception cref="ArgumentException">The layout as drawn does not fit, so there is nothing to compare with.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static BalanceComparison Of(
        VariantsFound found, FacePictures pictures, BalanceMeasure measure = BalanceMeasure.Deviation, CancellationToken cancel = default)
    {
        if (found.Found.Count == 0 || found.Found[0].Card is null)
        {
            throw new ArgumentException("the layout as drawn does not fit", nameof(found));
        }

        return new(BalanceRanking.Of(found.Found, pictures, measure, cancel), found);
    }

    /// <summary>The best so many, and after them the layout as drawn where it is not among them.</summary>
    public IReadOnlyList<ComparedVariant> Shown(int count) =>
        [.. Variants.Take(count), .. AsDrawn.Number > count ? [AsDrawn] : Array.Empty<ComparedVariant>()];
}
