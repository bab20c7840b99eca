using Trimwright.Measures;
using Trimwright.Variants;

namespace Trimwright.Balance;

/// <summary>By which of the two published measures variants are put in order.</summary>
public enum BalanceMeasure
{
    /// <summary>The Deviation of the Centre of Mass, which follows how balanced people say a picture is.</summary>
    Deviation,

    /// <summary>The Assessment of Preference for Balance, which follows how much people like it.</summary>
    Preference,
}

/// <summary>A variant with its weight and its place.</summary>
/// <param name="Place">Its place, from 1; those that tie share one, and the next place is as many further on.</param>
/// <param name="Tied">Whether others share its place.</param>
/// <param name="Variant">The variant; its card is there.</param>
/// <param name="Weight">Its weight, or null where its face has none; it then comes last.</param>
public sealed record RankedVariant(int Place, bool Tied, Variant Variant, FaceWeight? Weight);

/// <summary>Variants in order of balance, the best balanced first.</summary>
/// <remarks>
/// The measures advise and do not decide: they explain a part of what people call balanced, and nothing of what the card is meant to say.
/// </remarks>
public sealed record BalanceRanking
{
    /// <summary>
    /// Scores no further apart than this count as equal: twice what the render may be off by, which the tests hold it to.
    /// </summary>
    public static Rational TieWithin { get; } = Rational.From(1, 20);

    /// <summary>The measure they are ordered by.</summary>
    public required BalanceMeasure Measure { get; init; }

    /// <summary>What all were weighed against: the ground of the layout as drawn.</summary>
    public required GroundTone Ground { get; init; }

    /// <summary>The variants that fit, the best balanced first; those that tie in the order given.</summary>
    public required IReadOnlyList<RankedVariant> Ranked { get; init; }

    /// <summary>The variants that could not be fitted, in the order given.</summary>
    public required IReadOnlyList<Variant> NotFitted { get; init; }

    /// <summary>The layout as drawn, wherever it ended up; null where it does not fit.</summary>
    public required RankedVariant? AsDrawn { get; init; }

    /// <summary>Weighs variants and puts them in order.</summary>
    /// <param name="variants">The variants; the first is the layout as drawn.</param>
    /// <param name="pictures">The pictures on their pieces.</param>
    /// <param name="measure">What to order them by.</param>
    /// <param name="cancel">Ends the work early.</param>
    /// <exception cref="ArgumentException">There is no variant.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static BalanceRanking Of(
        IReadOnlyList<Variant> variants, FacePictures pictures, BalanceMeasure measure = BalanceMeasure.Deviation, CancellationToken cancel = default)
    {
        if (variants.Count == 0)
        {
            throw new ArgumentException("at least the layout as drawn is ranked", nameof(variants));
        }

        var fitted = variants.Where(variant => variant.Card is not null).ToList();
        var ground = fitted.Count == 0 ? GroundTone.Light : Weighing.GroundOf(FaceRender.Draw(fitted[0].Card!, pictures).Grey);

        // Each weight depends on its card alone, so they may be found in any order and by several processors.
        var weights = new FaceWeight?[fitted.Count];
        Parallel.For(0, fitted.Count, new ParallelOptions { CancellationToken = cancel }, i =>
            weights[i] = FaceWeight.Of(fitted[i].Card!, pictures, ground));
        var ranked = Placed([.. fitted.Zip(weights)], measure);
        return new()
        {
            Measure = measure,
            Ground = ground,
            Ranked = ranked,
            NotFitted = [.. variants.Where(variant => variant.Card is null)],
            AsDrawn = ranked.FirstOrDefault(entry => ReferenceEquals(entry.Variant, variants[0])),
        };
    }

    /// <summary>The score of a weight by a measure; the less, the better balanced.</summary>
    public static Rational ScoreOf(FaceWeight weight, BalanceMeasure measure) =>
        measure == BalanceMeasure.Deviation ? weight.Whole.Deviation : weight.Whole.Preference;

    // A group of ties begins with the best that is left and takes in all within the tie of it, so that no chain of small steps ties ends
    // that lie apart.
    private static List<RankedVariant> Placed(List<(Variant Variant, FaceWeight? Weight)> weighed, BalanceMeasure measure)
    {
        var order = weighed.Select((entry, index) => (entry.Variant, entry.Weight, Index: index, Score: entry.Weight is null ? (Rational?)null : ScoreOf(entry.Weight, measure)))
            .OrderBy(entry => entry.Score is null).ThenBy(entry => entry.Score ?? Rational.Zero).ThenBy(entry => entry.Index).ToList();
        var ranked = new List<RankedVariant>(order.Count);
        while (ranked.Count < order.Count)
        {
            var best = order[ranked.Count].Score;
            var group = order.Skip(ranked.Count)
                .TakeWhile(entry => best is null || (entry.Score is { } score && score - best.Value <= TieWithin))
                .OrderBy(entry => entry.Index).ToList();
            var place = ranked.Count + 1;
            ranked.AddRange(group.Select(entry => new RankedVariant(place, group.Count > 1, entry.Variant, entry.Weight)));
        }

        return ranked;
    }
}
