using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Finds a smallest clash of musts that grids have no part in.</summary>
/// <remarks>
/// Every must is a row as it was said, nothing is reduced, and the bounds of the rows come in one after another: those of measures and
/// structure first, then the statements in order of declaration. The first that cannot come in ends it. The dead row is then a Farkas
/// certificate (Dutertre and de Moura, section 3.2): it writes one row by others, and the basis makes that the only dependence between
/// them, so no part of the set clashes by itself. What it does not say is whether a bound outside the set could take the place of a
/// statement in it; a deletion filter over the few statements of the set settles that, later statements first, structure last.
/// </remarks>
internal sealed class LinearClash
{
    private readonly WishSystem _system;
    private readonly CancellationToken _cancel;
    private readonly FormBuilder _builder;
    private List<int> _statements = [];
    private List<int> _bounds = [];

    private LinearClash(WishSystem system, CancellationToken cancel)
    {
        _system = system;
        _cancel = cancel;
        _builder = new(system.MeasureCount);
    }

    /// <summary>The clash, or null when the musts can hold without grids.</summary>
    public static Clash? Find(WishSystem system, CancellationToken cancel)
    {
        for (var m = 0; m < system.MeasureCount; m++)
        {
            if (system.BoundsOf(new(m)) is ({ } least, { } most) && least > most)
            {
                return new([], [], []) { Bounds = [new(m)] };
            }
        }

        var clash = new LinearClash(system, cancel);
        var musts = Enumerable.Range(0, system.Statements.Count).Where(s => system.Statements[s].Strength == Strength.Must);
        if (!clash.Clashes(musts.OrderBy(s => system.Statements[s].IsStructure ? 0 : 1)))
        {
            return null;
        }

        clash.Filter();
        return new(
            clash._statements.Where(s => !system.Statements[s].IsStructure).Order().ToList(),
            clash._statements.Where(s => system.Statements[s].IsStructure).Order().ToList(),
            [])
        {
            Bounds = clash._bounds.Order().Select(m => new Measure(m)).ToList(),
        };
    }

    private void Filter()
    {
        var order = _statements.OrderBy(s => _system.Statements[s].IsStructure ? 1 : 0).ThenByDescending(s => s).ToArray();
        foreach (var member in order)
        {
            if (_statements.Contains(member))
            {
                Clashes(_statements.Where(s => s != member).ToArray());
            }
        }
    }

    /// <summary>Whether statements clash; if so the part of them that does is kept.</summary>
    private bool Clashes(IEnumerable<int> statements)
    {
        var simplex = new Simplex { Cancel = _cancel };
        var variableOf = new Dictionary<int, int>();
        var measureOf = new Dictionary<int, int>();
        var statementOf = new Dictionary<int, int>();
        foreach (var s in statements)
        {
            var statement = _system.Statements[s];
            foreach (var term in statement.Terms)
            {
                _builder.Add(term.Measure.Index, term.Factor);
            }

            var form = _builder.Take();
            var variables = new int[form.Unknowns.Length];
            for (var i = 0; i < variables.Length; i++)
            {
                var measure = form.Unknowns[i];
                if (!variableOf.TryGetValue(measure, out variables[i]))
                {
                    var (least, most) = _system.BoundsOf(new(measure));
                    variables[i] = simplex.AddVariable(least, most);
                    variableOf.Add(measure, variables[i]);
                    measureOf.Add(variables[i], measure);
                }
            }

            var row = simplex.AddRow(variables, form.Factors, null, null);
            statementOf.Add(row, s);
            if (statement.Relation != Relation.AtMost)
            {
                simplex.Raise(row, statement.Right);
            }

            if (statement.Relation != Relation.AtLeast)
            {
                simplex.Lower(row, statement.Right);
            }

            if (!simplex.Reoptimise())
            {
                var members = simplex.RowOf(simplex.DeadVariable).Append(simplex.DeadVariable).ToList();
                _statements = members.Where(statementOf.ContainsKey).Select(v => statementOf[v]).ToList();
                _bounds = members.Where(measureOf.ContainsKey).Select(v => measureOf[v]).ToList();
                return true;
            }
        }

        return false;
    }
}
