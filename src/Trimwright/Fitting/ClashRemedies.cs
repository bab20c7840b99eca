using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>
/// Finds changes of one measure that end a clash. Each was tried: the musts of the whole layout, with that one measure changed, hold.
/// </summary>
internal sealed class ClashRemedies(SystemBuilder builder, LengthUnit unit, CancellationToken cancel)
{
    private const int MostOffered = 3;

    /// <summary>The smallest changes, as one sentence without its end; null when no change of a single measure helps.</summary>
    /// <param name="clash">The clash.</param>
    /// <param name="leftOut">Statements to leave out: one of each other clash of the same layout.</param>
    public string? Find(Clash clash, IReadOnlyList<int> leftOut)
    {
        var found = new List<(Rational Change, string Words)>();
        foreach (var member in clash.Statements.DistinctBy(s => builder.Sayings[s]))
        {
            var saying = builder.Sayings[member];
            if (saying is { Quantity: { } quantity, What: { } what })
            {
                AddNearest(found, member, quantity, what, leftOut);
            }
            else if (ShortenedSpan(saying, leftOut) is { } shortened)
            {
                found.Add(shortened);
            }
        }

        var offered = found.OrderBy(change => change.Change).Take(MostOffered).Select(change => change.Words).ToList();
        return offered.Count switch
        {
            0 => Without(clash, leftOut),
            1 => $"{offered[0]}, which fits",
            _ => $"{string.Join(", or ", offered)}; each of these fits",
        };
    }

    /// <summary>The nearest values on either side for the quantity of a member.</summary>
    private void AddNearest(
        List<(Rational Change, string Words)> found, int member, Fitting.LinearForm quantity, string what, IReadOnlyList<int> leftOut)
    {
        if (Nearest(builder, member, null, leftOut) is not { } values)
        {
            return;
        }

        var first = quantity.At(values);
        var aim = Aim(member, first, values);
        if (builder.Sayings[member].IsRule)
        {
            found.Add(((first - aim).Abs(), $"write `should` for the rule {builder.Sayings[member].Text}: {what} is then {Text(first)}"));
            return;
        }

        // What a layout cannot say, such as a width that the shape of a picture makes, is not offered: the measure is left to follow.
        if (!CanBeSaid(first))
        {
            found.Add(((first - aim).Abs(), $"take out that {builder.Sayings[member].Text}: {what} can then be {Text(first)}"));
            return;
        }

        var texts = new List<string>();
        if (first.Sign >= 0)
        {
            texts.Add(Text(first));
        }

        // On the other side too, unless it is far beyond: what is not written below nothing is not offered there.
        var beyond = first < aim ? Relation.AtLeast : Relation.AtMost;
        if (builder.System.Statements[member].Relation == Relation.Equal
            && Nearest(builder, member, (quantity, beyond, aim), leftOut) is { } others
            && quantity.At(others) is { Sign: >= 0 } second && CanBeSaid(second) && (second - aim).Abs() <= 2 * (first - aim).Abs())
        {
            texts.Add(Text(second));
        }

        if (texts.Count > 0)
        {
            found.Add(((first - aim).Abs(), $"make {what} {string.Join(" or ", texts)}"));
        }
    }

    private static bool CanBeSaid(Rational nanometres) => new Position(nanometres).TryToLength(out _);

    private string Text(Rational nanometres) => LengthText.Write(new Position(nanometres), unit);

    /// <summary>What the quantity of a member would be if the member held where the rest stands.</summary>
    private Rational Aim(int member, Rational got, IReadOnlyList<Rational> values)
    {
        var statement = builder.System.Statements[member];
        var left = statement.Terms.Aggregate(Rational.Zero, (sum, term) => sum + (term.Factor * values[term.Measure.Index]));
        return got - ((left - statement.Right) * builder.Sayings[member].Sense);
    }

    /// <summary>
    /// A span without a distance has no measure of its own: it may be given one, how far it stops short of the edges.
    /// </summary>
    private (Rational Change, string Words)? ShortenedSpan(Saying saying, IReadOnlyList<int> leftOut)
    {
        var shortest = new Wish(
            Length.FromNanometres(builder.Increment.Nanometres / 2), Strength.May, unit, saying.Source);
        var (layout, name) = WithShortSpan(builder.Layout, saying, shortest);
        if (name is null)
        {
            return null;
        }

        var changed = builder.With(layout);
        var leftOutToo = leftOut.Select(s => builder.Sayings[s]).Select(said => (said.Source, said.Text)).ToHashSet();
        int[] numbers = [.. Enumerable.Range(0, changed.Sayings.Count).Where(s => leftOutToo.Contains((changed.Sayings[s].Source, changed.Sayings[s].Text)))];
        var wish = Enumerable.Range(0, changed.Sayings.Count)
            .First(s => changed.Sayings[s] is { Quantity: not null } said && said.Source == saying.Source && changed.System.Statements[s].Strength == Strength.May);
        return Nearest(changed, wish, null, numbers) is { } values && changed.Sayings[wish].Quantity!.At(values) is var shortBy
            ? (2 * shortBy, $"let `{name}` stop {Text(shortBy)} short of the edges (`short-by`)")
            : null;
    }

    private static (Layout Layout, string? Name) WithShortSpan(Layout layout, Saying saying, Wish shortest)
    {
        string? name = null;
        IReadOnlyList<Placement> Shortened(IReadOnlyList<Placement> placements, string of) =>
        [
            .. placements.Select(placement =>
            {
                if (placement is not Span { ShortBy: null } span || span.Source != saying.Source || !saying.Text.StartsWith($"`{of}` spans", StringComparison.Ordinal))
                {
                    return placement;
                }

                name = of;
                return span with { ShortBy = shortest };
            }),
        ];
        return (layout with
        {
            Pieces = [.. layout.Pieces.Select(piece => piece with { Placements = Shortened(piece.Placements, piece.Name) })],
            Rows = [.. layout.Rows.Select(row => row with { Placements = Shortened(row.Placements, row.Name) })],
        }, name);
    }

    /// <summary>When nothing else helps: a member without which the rest holds, the last in the file first.</summary>
    private string? Without(Clash clash, IReadOnlyList<int> leftOut)
    {
        foreach (var saying in clash.Statements.Reverse().Select(s => builder.Sayings[s]).Distinct())
        {
            int[] all = [.. leftOut, .. clash.Statements.Where(s => builder.Sayings[s] == saying)];
            if (Values(MustsOf(builder.System, -1, null, all)) is not null)
            {
                return FormattableString.Invariant($"take out that {saying.Text} (line {saying.Source.Line}): without it the rest fits, and no change of a single measure does");
            }
        }

        return null;
    }

    /// <summary>The values at which a member misses by as little as it can; null when the rest does not hold either.</summary>
    private IReadOnlyList<Rational>? Nearest(
        SystemBuilder from, int member, (Fitting.LinearForm Quantity, Relation Relation, Rational Right)? side, IReadOnlyList<int> leftOut) =>
        Values(MustsOf(from.System, member, side, leftOut));

    private IReadOnlyList<Rational>? Values(WishSystem system) =>
        WishSolver.Solve(system, null, cancel) is { Outcome: Outcome.Best or Outcome.BestFound } solution ? solution.Values : null;

    /// <summary>The musts of a system, but for some, with one member as the only wish. Other wishes would pull at what it can be.</summary>
    public static WishSystem MustsOf(
        WishSystem system, int weakened, (Fitting.LinearForm Quantity, Relation Relation, Rational Right)? side, IReadOnlyCollection<int> leftOut)
    {
        var copy = new WishSystem();
        for (var i = 0; i < system.MeasureCount; i++)
        {
            var (least, most) = system.BoundsOf(new(i));
            copy.AddMeasure(system.GridOf(new(i)), least, most);
        }

        for (var i = 0; i < system.Statements.Count; i++)
        {
            var statement = system.Statements[i];
            var counts = i == weakened || (statement.Strength == Strength.Must && !leftOut.Contains(i));

            // What does not count becomes `0 = 0`, so that all keep their numbers.
            copy.Add(
                counts ? statement.Terms : [], counts ? statement.Relation : Relation.Equal, counts ? statement.Right : 0,
                i == weakened ? Strength.Should : Strength.Must, statement.IsStructure);
        }

        if (side is var (quantity, relation, right))
        {
            copy.Add(quantity.Terms, relation, right - quantity.Constant, Strength.Must);
        }

        return copy;
    }
}
