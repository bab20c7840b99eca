using Trimwright.Diagnostics;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>Puts clashes into a maker's words: what cannot hold together, the arithmetic that shows it, and changes that were tried and work.</summary>
internal sealed class ClashReport(SystemBuilder builder, string format, LengthUnit unit, CancellationToken cancel)
{
    // A layout with more clashes than this has one cause that is better seen in the first few.
    private const int MostClashes = 8;

    /// <summary>
    /// One diagnostic for each clash: after the first, the member written last is left out and the rest is solved again, until it holds.
    /// </summary>
    public IReadOnlyList<Diagnostic> ExplainAll(Clash first)
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
            clash = WishSolver.Solve(ClashRemedies.MustsOf(builder.System, -1, null, leftOut), null, cancel).Clash;
        }

        var remedies = new ClashRemedies(builder, unit, cancel);
        return [.. clashes.Select((clash, i) => Explain(clash, remedies.Find(clash, [.. leftOut.Where((_, j) => j != i)])))];
    }

    private Diagnostic Explain(Clash clash, string? remedy)
    {
        var members = Distinct(clash.Statements);
        var structure = Distinct(clash.Structure);
        var notes = structure.ConvertAll(saying => $"taken as given: {saying.Text}");
        if (ClashSum.Of(builder, clash, unit) is { } sum)
        {
            notes.Add(sum);
        }

        if (clash.Grids.Count > 0)
        {
            notes.AddRange(OffScale(clash));
        }

        return FitMessages.Clash(format, members.Count > 0 ? members : structure, notes, remedy);
    }

    /// <summary>What the sizes would have to be without the scale, and that they must be on it.</summary>
    private IEnumerable<string> OffScale(Clash clash)
    {
        var members = new WishSystem();
        for (var m = 0; m < builder.System.MeasureCount; m++)
        {
            var (least, most) = builder.System.BoundsOf(new(m));
            members.AddMeasure(null, least, most);
        }

        foreach (var statement in clash.Statements.Concat(clash.Structure).Select(s => builder.System.Statements[s]))
        {
            members.Add(statement.Terms, statement.Relation, statement.Right, Strength.Must);
        }

        var free = WishSolver.Solve(members, null, cancel);
        var loose = free.Loose.Select(found => found.Measure).ToHashSet();
        foreach (var grid in clash.Grids.DistinctBy(grid => builder.Unknowns[grid.Index].Text))
        {
            if (!loose.Contains(grid))
            {
                yield return $"without a scale, {builder.Unknowns[grid.Index].Text} would be {LengthText.Write(new Position(free.Values[grid.Index]), unit)}";
            }
        }

        foreach (var text in FitWords.OnGrids(clash.Grids, builder, unit))
        {
            yield return text;
        }
    }

    private List<Saying> Distinct(IReadOnlyList<int> statements) =>
        [.. statements.Select(index => builder.Sayings[index]).DistinctBy(saying => (saying.Source, saying.Text))];
}
