using Trimwright.Layouts;

namespace Trimwright.Variants;

/// <summary>A mirror, or none, and accents moved after it.</summary>
/// <param name="Mirror">The mirror, or null.</param>
/// <param name="Moves">Which accents go where.</param>
internal sealed record VariantPlan(Mirror? Mirror, IReadOnlyList<(string Name, Spot To)> Moves)
{
    public const string AsDrawn = "as drawn";

    /// <summary>Its name, such as <c>mirrored left-right, then `tag` to the bottom left</c>: what was changed, in that order.</summary>
    public string Name
    {
        get
        {
            var moves = string.Join(", ", Moves.Select(move => $"`{move.Name}` to the {move.To}"));
            return Mirror is not { } mirror ? moves.Length == 0 ? AsDrawn : moves
                : moves.Length == 0 ? Changed(mirror) : $"{Changed(mirror)}, then {moves}";
        }
    }

    /// <summary>What a mirror does to a layout, in a word or two.</summary>
    public static string Changed(Mirror mirror) => mirror switch
    {
        Variants.Mirror.HalfTurn => "turned half round",
        Variants.Mirror.AccentsAlone => "accents alone mirrored",
        _ => $"mirrored {Mirroring.NameOf(mirror)}",
    };

    public Layout Apply(Layout layout) => Moves.Aggregate(
        Mirror is { } mirror ? Mirroring.Apply(layout, mirror) : layout, (moved, move) => AccentSpots.Move(moved, move.Name, move.To));
}

/// <summary>Every plan for a layout, those with fewer changes first.</summary>
internal static class VariantPlans
{
    public static IEnumerable<VariantPlan> For(Layout layout)
    {
        var mirrors = MirrorsOf(layout);
        var movable = mirrors.ConvertAll(mirror => AccentSpots.Of(mirror is { } how ? Mirroring.Apply(layout, how) : layout));
        var mostMoves = movable.Max(accents => accents.Count);

        // A mirror counts as one change, and so does each accent that is moved.
        for (var changes = 0; changes <= mostMoves + 1; changes++)
        {
            for (var i = 0; i < mirrors.Count; i++)
            {
                var moves = changes - (mirrors[i] is null ? 0 : 1);
                if (moves < 0)
                {
                    continue;
                }

                foreach (var combination in Combinations(movable[i], 0, moves))
                {
                    yield return new(mirrors[i], combination);
                }
            }
        }
    }

    public static long CountFor(Layout layout)
    {
        var sum = 0L;
        foreach (var mirror in MirrorsOf(layout))
        {
            var product = 1L;
            foreach (var accent in AccentSpots.Of(mirror is { } how ? Mirroring.Apply(layout, how) : layout))
            {
                // More than this is not counted further: no one tries them all.
                product = Math.Min(product * (accent.Others.Count + 1), 1L << 40);
            }

            sum += product;
        }

        return sum;
    }

    /// <summary>No mirror, and those that mean something for a layout.</summary>
    public static List<Mirror?> MirrorsOf(Layout layout) =>
    [
        null,
        .. Enum.GetValues<Mirror>().Where(mirror => mirror != Mirror.AccentsAlone || Mirroring.HasAccents(layout)).Select(mirror => (Mirror?)mirror),
    ];

    // Every way to move exactly so many of the accents from the given one on, in file order.
    private static IEnumerable<IReadOnlyList<(string Name, Spot To)>> Combinations(IReadOnlyList<MovableAccent> accents, int from, int count)
    {
        if (count == 0)
        {
            yield return [];
            yield break;
        }

        for (var i = from; i <= accents.Count - count; i++)
        {
            foreach (var spot in accents[i].Others)
            {
                foreach (var rest in Combinations(accents, i + 1, count - 1))
                {
                    yield return [(accents[i].Name, spot), .. rest];
                }
            }
        }
    }
}
