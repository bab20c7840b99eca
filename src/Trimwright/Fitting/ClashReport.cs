using Trimwright.Diagnostics;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>Puts a clash into a maker's words, with a change that was tried and works.</summary>
internal static class ClashReport
{
    // A layout with more clashes than this has one cause that is better seen in the first few.
    private const int MostClashes = 8;

    /// <summary>
    /// One diagnostic for each clash: after the first, the member written last is left out and the rest is solved again, until it holds.
    /// </summary>
    public static IReadOnlyList<Diagnostic> ExplainAll(
        SystemBuilder builder, Clash first, string format, LengthUnit unit, Length increment, CancellationToken cancel)
    {
        var clashes = new List<Clash>();
        var leftOut = new List<int>();
        for (Clash? clash = first; clash is not null && clashes.Count < MostClashes;)
        {
            clashes.Add(clash);
            if (clash.Statements.Count == 0)
            {
                break;
            }

            leftOut.Add(clash.Statements[^1]);
            clash = WishSolver.Solve(Changed(builder.System, -1, leftOut), null, cancel).Clash;
        }

        return
        [
            .. clashes.Select((clash, i) =>
                Explain(builder, clash, format, unit, increment, Remedy(builder, clash, [.. leftOut.Where((_, j) => j != i)], unit, cancel))),
        ];
    }

    private static Diagnostic Explain(
        SystemBuilder builder, Clash clash, string format, LengthUnit unit, Length increment, string? remedy)
    {
        var members = Distinct(clash.Statements, builder);
        var structure = Distinct(clash.Structure, builder);
        var notes = structure.ConvertAll(saying => $"taken as given: {saying.Text}");
        if (clash.Grids.Count > 0)
        {
            var grids = clash.Grids.Select(grid => builder.Unknowns[grid.Index].Text).Distinct();
            notes.Add($"sizes lie on the scale in use ({LengthText.Write(increment, unit)}, or the dies in the drawer): {string.Join(", ", grids)}");
        }

        return FitMessages.Clash(format, members.Count > 0 ? members : structure, notes, remedy);
    }

    // One member after the other is turned into a should, and the system solved again: the change with the least miss is offered.
    private static string? Remedy(SystemBuilder builder, Clash clash, IReadOnlyList<int> otherClashes, LengthUnit unit, CancellationToken cancel)
    {
        (Rational Miss, string Words)? best = null;
        foreach (var member in clash.Statements)
        {
            var saying = builder.Sayings[member];
            if (saying.Quantity is null || saying.What is null)
            {
                continue;
            }

            var solution = WishSolver.Solve(Changed(builder.System, member, otherClashes), null, cancel);
            if (solution.Outcome is Outcome.Clash or Outcome.Unknown)
            {
                continue;
            }

            var gave = solution.GaveWay.FirstOrDefault(wish => wish.Statement == member);
            if (gave is not null && (best is null || gave.Miss < best.Value.Miss))
            {
                var value = LengthText.Write(new Position(saying.Quantity.At(solution.Values)), unit);
                best = (gave.Miss, $"make {saying.What} {value}, which fits");
            }
        }

        return best?.Words;
    }

    // The system with one statement (or none, -1) turned into a should and some into `0 = 0`, so that all keep their numbers.
    private static WishSystem Changed(WishSystem system, int weakened, IReadOnlyList<int> leftOut)
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
            var isLeftOut = leftOut.Contains(i);
            copy.Add(
                isLeftOut ? [] : statement.Terms, isLeftOut ? Relation.Equal : statement.Relation, isLeftOut ? 0 : statement.Right,
                i == weakened ? Strength.Should : statement.Strength, statement.IsStructure);
        }

        return copy;
    }

    private static List<Saying> Distinct(IReadOnlyList<int> statements, SystemBuilder builder) =>
        [.. statements.Select(index => builder.Sayings[index]).DistinctBy(saying => (saying.Source, saying.Text))];
}
