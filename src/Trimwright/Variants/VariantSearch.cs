using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Variants;

/// <summary>Why a variant was left out.</summary>
public enum LeftOutFor
{
    /// <summary>It does not fit.</summary>
    DoesNotFit,

    /// <summary>Wishes of a strength miss by more, in all, than as drawn.</summary>
    Misses,

    /// <summary>Lettering or a picture would be covered that is not as drawn.</summary>
    Covers,

    /// <summary>A moved accent would overlap what it does not as drawn.</summary>
    SpotTaken,

    /// <summary>It looks like one before it.</summary>
    LooksAlike,
}

/// <summary>A variant that was tried and left out.</summary>
/// <param name="Name">What was changed.</param>
/// <param name="IsMirrorAlone">Whether it is a mirror and no more.</param>
/// <param name="Why">Why it was left out.</param>
/// <param name="Reason">The same as half a sentence, such as <c>`sun` would lie over `thanks`</c>.</param>
public sealed record LeftOutVariant(string Name, bool IsMirrorAlone, LeftOutFor Why, string Reason);

/// <summary>The variants that were found.</summary>
/// <param name="Found">
/// The layout as drawn first, then those that fit and differ from all before, with fewer changes first.
/// </param>
/// <param name="LeftOut">The others that were tried, in that order.</param>
/// <param name="NotTried">How many more combinations there are beyond the number asked for.</param>
public sealed record VariantsFound(IReadOnlyList<Variant> Found, IReadOnlyList<LeftOutVariant> LeftOut, long NotTried)
{
    /// <summary>How many were fitted, the layout as drawn among them.</summary>
    public int Tried => Found.Count + LeftOut.Count;
}

/// <summary>Finds variants of a layout: mirrored, with accents moved, and both.</summary>
public static class VariantSearch
{
    /// <summary>How many are tried where no number is given.</summary>
    public const int UsualMost = 64;

    /// <summary>The most that are worth trying in one go: a maker looks at a dozen.</summary>
    public const int Most = 1000;

    /// <summary>
    /// Fits the layout as drawn, its mirrored variants, its accents moved to every free corner and edge, and combinations of these, with
    /// fewer changes first.
    /// </summary>
    /// <remarks>
    /// A variant is left out where it does not fit; where wishes of a strength miss by more, in all, than as drawn; where lettering or a picture is covered by
    /// what does not cover it as drawn; where an accent was moved and accents overlap pieces that they do not overlap as drawn (a corner is free only if it is
    /// empty); and where it looks like one before it. Any other overlap that is new is told with the variant.
    /// </remarks>
    /// <param name="layout">The layout.</param>
    /// <param name="format">The format.</param>
    /// <param name="holding">How it is held.</param>
    /// <param name="drawer">The maker's tools.</param>
    /// <param name="most">The most that are tried, the layout as drawn among them.</param>
    /// <param name="cancel">Ends the work early.</param>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static VariantsFound Find(
        Layout layout, CardFormat format, Holding holding, Drawer drawer, int most = UsualMost, CancellationToken cancel = default)
    {
        if (most < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(most), most, "at least the layout as drawn is tried");
        }

        var plans = VariantPlans.For(layout);
        var tried = plans.Take(most).ToList();
        var results = new FitResult[tried.Count];
        Parallel.For(0, tried.Count, new ParallelOptions { CancellationToken = cancel }, i =>
            results[i] = Fitter.Fit(tried[i].Apply(layout), format, holding, drawer, cancel));

        var asDrawn = results[0];
        var found = new List<Variant> { new(VariantPlan.AsDrawn, asDrawn.Card, asDrawn.Diagnostics) };
        var leftOut = new List<LeftOutVariant>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        if (asDrawn.Card is { } drawn)
        {
            seen.Add(Looks(drawn));
        }

        var judge = new Judge(asDrawn.Card);
        var judged = new ((LeftOutFor, string)? Refusal, IReadOnlyList<string> NewOverlaps)[tried.Count];
        Parallel.For(1, tried.Count, new ParallelOptions { CancellationToken = cancel }, i =>
            judged[i] = results[i].Card is { } card ? judge.Of(card, tried[i]) : ((LeftOutFor.DoesNotFit, "it does not fit"), []));
        for (var i = 1; i < tried.Count; i++)
        {
            var (plan, card) = (tried[i], results[i].Card);
            var (refusal, overlaps) = judged[i];
            if (refusal is null && !seen.Add(Looks(card!)))
            {
                refusal = (LeftOutFor.LooksAlike, "it looks like one before it");
            }

            if (refusal is var (why, reason))
            {
                leftOut.Add(new(plan.Name, plan is { Mirror: not null, Moves.Count: 0 }, why, reason));
            }
            else
            {
                found.Add(new(plan.Name, card, results[i].Diagnostics) { NewOverlaps = overlaps });
            }
        }

        return new(found, leftOut, VariantPlans.CountFor(layout) - tried.Count);
    }

    // Compares variants with the layout as drawn. Where that does not fit, there is nothing to compare with.
    private sealed class Judge(FittedCard? asDrawn)
    {
        private readonly Overlaps? _drawn = asDrawn is null ? null : new(asDrawn);

        public ((LeftOutFor Why, string Reason)? Refusal, IReadOnlyList<string> NewOverlaps) Of(FittedCard card, VariantPlan plan)
        {
            if (asDrawn is null)
            {
                return (null, []);
            }

            if (!KeepsWishes(card, asDrawn))
            {
                return ((LeftOutFor.Misses, "wishes would miss by more than as drawn"), []);
            }

            var overlaps = new Overlaps(card).NewSince(_drawn!).ToList();
            if (overlaps.Find(pair => Covering.IsSeenFirst(pair.Lower)) is { Upper: { } over, Lower: var under })
            {
                return ((LeftOutFor.Covers, $"`{over.Name}` would lie over `{under.Name}`"), []);
            }

            return plan.Moves.Count > 0 && overlaps.Exists(pair => pair.Upper.Source.Accent || pair.Lower.Source.Accent)
                ? ((LeftOutFor.SpotTaken, "an accent would lie where another piece is"), [])
                : (null, Overlaps.Told(overlaps));
        }
    }

    // Each strength by itself: no more is missed in all than as drawn.
    private static bool KeepsWishes(FittedCard card, FittedCard asDrawn) => Enum.GetValues<Strength>().All(strength =>
        Missed(card, strength) <= Missed(asDrawn, strength));

    private static Rational Missed(FittedCard card, Strength strength) => card.GaveWay
        .Where(note => note.Strength == strength)
        .Aggregate(Rational.Zero, (sum, note) => sum + note.Miss.Nanometres.Abs());

    // What the eye can tell apart: a flip shows on a picture (paper is not printed anew for it, so a pattern stays as it is), the side that
    // it hangs from on a banner and on a tag.
    private static string Looks(FittedCard card) => string.Join('|', card.Pieces.Select(piece =>
    {
        var flip = piece.Source.Flipped && piece.Source.Kind == PieceKind.Image;
        var hangs = piece.Source.Kind is PieceKind.Banner or PieceKind.Tag ? piece.Source.HangsFrom : default;
        return $"{piece.Box.Left.Nanometres} {piece.Box.Top.Nanometres} {piece.Box.Right.Nanometres} {piece.Box.Bottom.Nanometres} {piece.Source.Tilt.Degrees} {flip} {hangs}";
    }));
}
