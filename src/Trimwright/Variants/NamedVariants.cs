using Trimwright.Layouts;

namespace Trimwright.Variants;

/// <summary>Finds a variant of a layout by the name under which it is shown.</summary>
public static class NamedVariants
{
    private const string Then = "then ";

    /// <summary>
    /// The layout as the variant of that name has it, or null if there is none. The names are those of <see cref="VariantSearch"/>, such as
    /// <c>mirrored left-right, then `tag` to the bottom left</c>, and those of <see cref="VariantFits.Mirrored"/>, such as <c>left-right</c>. Backticks, upper case,
    /// the order of the accents and whether it says "then" make no difference.
    /// </summary>
    /// <param name="layout">The layout as drawn.</param>
    /// <param name="name">The name.</param>
    public static Layout? Find(Layout layout, string name)
    {
        var parts = Plain(name).Split(',', StringSplitOptions.TrimEntries);
        if (parts.Length > 1 && parts[1].StartsWith(Then, StringComparison.Ordinal))
        {
            parts[1] = parts[1][Then.Length..];
        }

        foreach (var mirror in VariantPlans.MirrorsOf(layout))
        {
            var isMirrored = mirror is not null || parts[0] == VariantPlan.AsDrawn;
            if (mirror is { } how ? parts[0] != VariantPlan.Changed(how) && parts[0] != Mirroring.NameOf(how) : isMirrored && parts.Length > 1)
            {
                continue;
            }

            // A move that another mirror has, too, may lead elsewhere there: what may move is asked of the mirrored layout.
            var moves = AccentSpots.Of(mirror is { } known ? Mirroring.Apply(layout, known) : layout)
                .SelectMany(accent => accent.Others.Select(spot => (accent.Name, To: spot)))
                .Where(move => parts.Skip(isMirrored ? 1 : 0).Contains($"{move.Name} to the {move.To}")).ToList();
            if (moves.Count == parts.Length - (isMirrored ? 1 : 0) && moves.Select(move => move.Name).Distinct().Count() == moves.Count)
            {
                return new VariantPlan(mirror, moves).Apply(layout);
            }
        }

        return null;
    }

    /// <summary>The names of the variants of a layout, fewest changes first, whether they fit or not; without backticks.</summary>
    /// <param name="layout">The layout as drawn.</param>
    /// <param name="most">The most names.</param>
    public static IReadOnlyList<string> Names(Layout layout, int most = VariantSearch.UsualMost) =>
    [
        .. VariantPlans.For(layout).Take(most).Select(plan => Plain(plan.Name)),
        .. VariantPlans.MirrorsOf(layout).OfType<Mirror>().Select(Mirroring.NameOf),
    ];

    /// <summary>A name without its backticks, in lower case, its words one space apart.</summary>
    public static string Plain(string name) =>
        string.Join(' ', name.Replace("`", "", StringComparison.Ordinal).ToLowerInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
