using System.Globalization;
using Trimwright.Fitting;
using Trimwright.Measures;
using Trimwright.Variants;

namespace Trimwright.Balance;

/// <summary>What the weights of a face mean, as sentences for the maker.</summary>
public static class BalanceReport
{
    /// <summary>Said with every ranking.</summary>
    public const string Advice = "Numbers advise, the eye decides: they see dark and light and where, not what a picture shows.";

    /// <summary>What stands over <see cref="Worth"/>.</summary>
    public const string WorthHeading = "what the numbers are worth";

    /// <summary>What the columns of the table mean, one sentence each.</summary>
    public static IReadOnlyList<string> Key { get; } =
    [
        "DCM, Deviation of the Centre of Mass: how far the weight lies from the middle, in hundredths of the card. 0 is in the middle.",
        "dx and dy are its parts across and down. Above 0 the left or the top is heavier, below 0 the right or the bottom.",
        "APB, Assessment of Preference for Balance: how unevenly the weight is spread over halves, quarters and diagonals, from 0 for evenly to 100.",
        $"Scores within {LengthText.WriteDecimal(BalanceRanking.TieWithin, 2)} of one another tie and share a place (=), since they are not known any better.",
    ];

    /// <summary>
    /// What the numbers are worth, one sentence each. The published figures are those of docs/balance.md, with their sources there.
    /// </summary>
    public static IReadOnlyList<string> Worth { get; } =
    [
        Advice,
        "They explain a part of what people call balanced, not all of it: in a study of 2016 the deviation explained 67.5 % of how balanced 16 people found 130 pictures, and in one of 2005 the score explained 73 % and 78 % of which arrangements of circles and of hexagons were preferred. Those were plain black shapes, not cards.",
        "A card that is mirrored whole keeps its scores: mirror it to suit the picture, and move accents to suit the balance.",
        "Off the middle can be just what a card wants.",
    ];

    /// <summary>Pulls smaller than this, in hundredths of the card, are left out.</summary>
    private static readonly Rational LeastPull = Rational.From(1, 2);

    /// <summary>
    /// What was compared, such as <c>A2 portrait: 23 variants, the best balanced first by DCM; 64 combinations were tried, 120 more were not</c>.
    /// </summary>
    public static string Headline(BalanceComparison comparison)
    {
        var card = comparison.AsDrawn.Card;
        var count = comparison.Variants.Count;
        var variants = count == 1
            ? "no variant fits but the layout as drawn"
            : string.Create(CultureInfo.InvariantCulture, $"{count} variants, the best balanced first by {(comparison.Ranking.Measure == BalanceMeasure.Deviation ? "DCM" : "APB")}");
        var tried = comparison.Tried == 1
            ? "no other was tried"
            : string.Create(CultureInfo.InvariantCulture, $"{comparison.Tried} combinations were tried");
        var rest = comparison.NotTried <= 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", {comparison.NotTried} more were not");
        return $"{Fitter.FormatWords(card.Format, card.Holding)}: {variants}; {tried}{rest}";
    }

    /// <summary>Why the variants stand in that order, and what looks off the card, under headings; empty headings are left out.</summary>
    public static IReadOnlyList<(string Heading, IReadOnlyList<string> Lines)> Of(BalanceComparison comparison)
    {
        var sections = new List<(string, IReadOnlyList<string>)>
        {
            ("why", [.. Why(comparison)]),
            ("looks off the card", [.. comparison.Variants.SelectMany(variant => variant.LooksOff.Select(note =>
                string.Create(CultureInfo.InvariantCulture, $"no. {variant.Number}: {note}")))]),
            ("overlaps that the layout as drawn does not have", [.. comparison.Variants.Where(variant => variant.NewOverlaps.Count > 0).Select(variant =>
                string.Create(CultureInfo.InvariantCulture, $"no. {variant.Number}, {variant.Name}: {string.Join("; ", variant.NewOverlaps)}"))]),
            ("left out", LeftOut.Of(comparison.LeftOut)),
            ("to try more", [.. ToTryMore(comparison)]),
        };
        return sections.FindAll(section => section.Item2.Count > 0);
    }

    /// <summary>Where the weight lies, such as <c>the weight lies 3.1 % of the card left of the middle and 0.4 % below it</c>.</summary>
    public static string Where(FaceWeight weight) =>
        Joined("left of", "right of", -weight.Whole.Dx, "above", "below", -weight.Whole.Dy) is { } where
            ? $"the weight lies {where}"
            : "the weight lies in the middle";

    /// <summary>Where the weight lies, and the score, such as <c>the weight lies in the middle (DCM 0.02, APB 31.50)</c>.</summary>
    public static string Brief(FaceWeight weight) =>
        $"{Where(weight)} (DCM {BalanceText.Score(weight.Whole.Deviation)}, APB {BalanceText.Score(weight.Whole.Preference)})";

    /// <summary>
    /// Which pieces pull the weight where, the strongest first, such as <c>`poles` pulls it 2.4 % to the left and 0.8 % down</c>. What shows
    /// of the card itself is called the card.
    /// </summary>
    public static IReadOnlyList<string> Pulls(FaceWeight weight) =>
    [
        .. weight.Pieces
            .Where(piece => Larger(piece) >= LeastPull)
            .OrderByDescending(Larger)
            .Select(piece => $"{(piece.Piece is null ? "the card" : $"`{piece.Piece}`")} pulls it {Directions(piece)}"),
    ];

    /// <summary>
    /// Why one sits better than the layout as drawn, or not, such as
    /// <c>3.2 off the middle instead of 5.6: `poles` now pulls 1.9 % to the right instead of 2.4 % to the left</c>.
    /// </summary>
    public static string Against(FaceWeight variant, FaceWeight asDrawn, BalanceMeasure measure)
    {
        var (now, then) = (BalanceRanking.ScoreOf(variant, measure), BalanceRanking.ScoreOf(asDrawn, measure));
        var head = measure == BalanceMeasure.Deviation
            ? $"{Tenths(now)} % off the middle instead of {Tenths(then)} %"
            : $"a score of {Tenths(now)} instead of {Tenths(then)}";
        var before = asDrawn.Pieces.Where(piece => piece.Piece is not null).ToDictionary(piece => piece.Piece!, StringComparer.Ordinal);
        var moved = variant.Pieces
            .Where(piece => piece.Piece is not null && before.ContainsKey(piece.Piece))
            .Select(piece => (Now: piece, Then: before[piece.Piece!]))
            .Select(pair => (pair.Now, pair.Then, Change: Rational.Max((pair.Now.PullX - pair.Then.PullX).Abs(), (pair.Now.PullY - pair.Then.PullY).Abs())))
            .Where(pair => pair.Change >= LeastPull)
            .OrderByDescending(pair => pair.Change)
            .Take(2)
            .Select(pair => $"`{pair.Now.Piece}` now pulls {Directions(pair.Now)} instead of {Directions(pair.Then)}")
            .ToList();
        return moved.Count == 0 ? head : $"{head}: {string.Join("; ", moved)}";
    }

    private static IEnumerable<string> ToTryMore(BalanceComparison comparison)
    {
        if (!Mirroring.HasAccents(comparison.AsDrawn.Card.Layout))
        {
            yield return "no piece is marked as an accent, so only mirrors were tried; write `\"accent\": true` in what may move (a banner, a tag, a small circle), and other corners and edges are tried for it";
        }

        if (comparison.NotTried > 0)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{comparison.NotTried} more combinations were not tried; `--most {Math.Min(comparison.Tried + comparison.NotTried, VariantSearch.Most)}` tries {(comparison.Tried + comparison.NotTried <= VariantSearch.Most ? "all of them" : "as many as it takes at most")}");
        }
    }

    // What was drawn, what pulls it most, and what the best does otherwise.
    private static IEnumerable<string> Why(BalanceComparison comparison)
    {
        const int MostPulls = 3;
        if (comparison.AsDrawn.Weight is not { } drawn)
        {
            yield return "as drawn, nothing on the face is told from its ground by its grey, so it has no weight to balance";
            yield break;
        }

        if (comparison.Ranking.Ground == GroundTone.Dark)
        {
            yield return "more than half of the face is dark, so what is light on it weighs";
        }

        yield return $"as drawn, {Where(drawn)}";
        foreach (var pull in Pulls(drawn).Take(MostPulls))
        {
            yield return pull;
        }

        var best = comparison.Best;
        yield return comparison.IsBestAsDrawn
            ? "no variant that was tried is better balanced than as drawn, by more than the numbers can tell"
            : string.Create(CultureInfo.InvariantCulture, $"no. {best.Number}, {best.Name}{(BalanceText.Tie(best) is { } tie ? $" ({tie})" : "")}: {Against(best.Weight!, drawn, comparison.Ranking.Measure)}");
    }

    private static Rational Larger(PieceWeight piece) => Rational.Max(piece.PullX.Abs(), piece.PullY.Abs());

    /// <summary>Where a piece pulls the weight, for a table, such as <c>2.4 % left, 0.8 % up</c>, or <c>nowhere</c>.</summary>
    internal static string ShortDirections(PieceWeight piece) => Directions(piece, "", ", ") ?? "nowhere";

    private static string Directions(PieceWeight piece) => Directions(piece, "to the ", " and ") ?? "neither way";

    private static string? Directions(PieceWeight piece, string toThe, string and)
    {
        List<string> parts = [];
        if (!IsNought(piece.PullX))
        {
            parts.Add($"{Tenths(piece.PullX.Abs())} % {toThe}{(piece.PullX.Sign < 0 ? "left" : "right")}");
        }

        if (!IsNought(piece.PullY))
        {
            parts.Add($"{Tenths(piece.PullY.Abs())} % {(piece.PullY.Sign < 0 ? "up" : "down")}");
        }

        return parts.Count == 0 ? null : string.Join(and, parts);
    }

    private static string? Joined(string less, string more, Rational across, string lessDown, string moreDown, Rational down)
    {
        var x = IsNought(across) ? null : $"{Tenths(across.Abs())} % of the width {(across.Sign < 0 ? less : more)} the middle";
        var y = IsNought(down) ? null : $"{Tenths(down.Abs())} % of the height {(down.Sign < 0 ? lessDown : moreDown)} {(x is null ? "the middle" : "it")}";
        return x is null ? y : y is null ? x : $"{x} and {y}";
    }

    private static bool IsNought(Rational value) => value.Abs() < Rational.From(1, 20);

    // To the nearest tenth, halves up; never negative here.
    private static string Tenths(Rational value) =>
        LengthText.WriteDecimal(Rational.From(((value * 10) + Rational.From(1, 2)).Floor(), 10), 1);
}
