using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Variants;

/// <summary>The variants that were found.</summary>
/// <param name="Found">
/// The layout as drawn first, then those that fit and differ from all before, with fewer changes first.
/// </param>
/// <param name="Tried">How many were fitted, the layout as drawn among them.</param>
/// <param name="NotTried">How many more combinations there are beyond the number asked for.</param>
public sealed record VariantsFound(IReadOnlyList<Variant> Found, int Tried, long NotTried);

/// <summary>Finds variants of a layout: mirrored, with accents moved, and both.</summary>
public static class VariantSearch
{
    /// <summary>How many are tried where no number is given.</summary>
    public const int UsualMost = 64;

    /// <summary>
    /// Fits the layout as drawn, its mirrored variants, its accents moved to every free corner and edge, and combinations of these, with
    /// fewer changes first.
    /// </summary>
    /// <remarks>
    /// A variant is left out where it does not fit; where wishes of a strength miss by more, in all, than as drawn; where an accent was
    /// moved and accents meet pieces that they do not meet as drawn (a corner is free only if it is empty); and where it looks like one
    /// before it.
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
        var seen = new HashSet<string>(StringComparer.Ordinal);
        if (asDrawn.Card is { } drawn)
        {
            seen.Add(Looks(drawn));
        }

        for (var i = 1; i < tried.Count; i++)
        {
            if (results[i].Card is { } card && (asDrawn.Card is null || IsAllowed(card, asDrawn.Card, tried[i])) && seen.Add(Looks(card)))
            {
                found.Add(new(tried[i].Name, card, results[i].Diagnostics));
            }
        }

        return new(found, tried.Count, VariantPlans.CountFor(layout) - tried.Count);
    }

    private static bool IsAllowed(FittedCard card, FittedCard asDrawn, VariantPlan plan) =>
        KeepsWishes(card, asDrawn) && (plan.Moves.Count == 0 || AccentsAreFree(card, asDrawn));

    // Each strength by itself: no more is missed in all than as drawn.
    private static bool KeepsWishes(FittedCard card, FittedCard asDrawn) => Enum.GetValues<Strength>().All(strength =>
        Missed(card, strength) <= Missed(asDrawn, strength));

    private static Rational Missed(FittedCard card, Strength strength) => card.GaveWay
        .Where(note => note.Strength == strength)
        .Aggregate(Rational.Zero, (sum, note) => sum + note.Miss.Nanometres.Abs());

    private static bool AccentsAreFree(FittedCard card, FittedCard asDrawn) => card.Pieces
        .Where(piece => piece.Source.Accent)
        .All(piece => card.Pieces
            .Where(other => other.Name != piece.Name && Meet(card, piece.Name, other.Name))
            .All(other => Meet(asDrawn, piece.Name, other.Name)));

    // Boxes before any tilt, mats included: near enough to say whether a corner is taken. But beside a figure that is cut out along its edge
    // there is room within its box: there the edge counts.
    private static bool Meet(FittedCard card, string one, string other)
    {
        var (first, second) = (card.PieceNamed(one), card.PieceNamed(other));
        var (a, b) = (Reach(first), Reach(second));
        return a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom
            && (first.Source.CutOut is null || OutlineMeeting.Meets(Outermost(first), b))
            && (second.Source.CutOut is null || OutlineMeeting.Meets(Outermost(second), a));
    }

    // Around a picture the box of a mat is that of its outline, which has too many corners to be gone through for every pair.
    private static Box Reach(FittedPiece piece) =>
        piece.Mats.Count == 0 ? piece.Box : piece.Source.CutOut is null ? piece.Mats[^1].Outline.Bounds : piece.Mats[^1].Box;

    private static Outline Outermost(FittedPiece piece) => piece.Mats.Count == 0 ? piece.Outline : piece.Mats[^1].Outline;

    // What the eye can tell apart: a flip shows on a picture (paper is not printed anew for it, so a pattern stays as it is), the side that
    // it hangs from on a banner and on a tag.
    private static string Looks(FittedCard card) => string.Join('|', card.Pieces.Select(piece =>
    {
        var flip = piece.Source.Flipped && piece.Source.Kind == PieceKind.Image;
        var hangs = piece.Source.Kind is PieceKind.Banner or PieceKind.Tag ? piece.Source.HangsFrom : default;
        return $"{piece.Box.Left.Nanometres} {piece.Box.Top.Nanometres} {piece.Box.Right.Nanometres} {piece.Box.Bottom.Nanometres} {piece.Source.Tilt.Degrees} {flip} {hangs}";
    }));
}
