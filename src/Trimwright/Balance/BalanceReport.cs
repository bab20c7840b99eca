using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>What the weights of a face mean, as sentences for the maker.</summary>
public static class BalanceReport
{
    /// <summary>Said with every ranking.</summary>
    public const string Advice = "numbers advise, the eye decides: they see dark and light and where, not what a picture shows";

    /// <summary>Pulls smaller than this, in hundredths of the card, are left out.</summary>
    private static readonly Rational LeastPull = Rational.From(1, 2);

    /// <summary>Where the weight lies, such as <c>the weight lies 3.1 % of the card left of the middle and 0.4 % below it</c>.</summary>
    public static string Where(FaceWeight weight) =>
        Joined("left of", "right of", -weight.Whole.Dx, "above", "below", -weight.Whole.Dy) is { } where
            ? $"the weight lies {where}"
            : "the weight lies in the middle";

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

    private static Rational Larger(PieceWeight piece) => Rational.Max(piece.PullX.Abs(), piece.PullY.Abs());

    private static string Directions(PieceWeight piece)
    {
        List<string> parts = [];
        if (!IsNought(piece.PullX))
        {
            parts.Add($"{Tenths(piece.PullX.Abs())} % to the {(piece.PullX.Sign < 0 ? "left" : "right")}");
        }

        if (!IsNought(piece.PullY))
        {
            parts.Add($"{Tenths(piece.PullY.Abs())} % {(piece.PullY.Sign < 0 ? "up" : "down")}");
        }

        return parts.Count == 0 ? "neither way" : string.Join(" and ", parts);
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
