using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>Says why a wish was not met.</summary>
/// <remarks>
/// The wish is made a must, beside all that may stand against it: the musts, the wishes that are stronger, and those of its own
/// strength, each held to what it got. That cannot hold: a point where it did would miss by less. So it is a clash, and the smallest
/// part of it is the reason. What may be left out is tried in this order: wishes that gave way themselves, wishes of the same
/// strength that were met, stronger wishes, musts - and among them later ones before earlier ones. So what stays is the firmest and
/// was said first.
/// </remarks>
public static class WishExplainer
{
    /// <summary>The reason why a wish was not met.</summary>
    /// <param name="system">The system.</param>
    /// <param name="solution">What <see cref="WishSolver"/> made of it, with that wish among those that gave way.</param>
    /// <param name="statement">The number of the wish.</param>
    /// <param name="options">Limits, or null for the usual ones.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <returns>
    /// The reason, or null when there is none to be had: the answer was not proved best and the wish might be met, or the search
    /// budget ended.
    /// </returns>
    /// <exception cref="ArgumentException">The statement is no wish of the system that gave way.</exception>
    /// <exception cref="OperationCanceledException">The search was stopped.</exception>
    public static Because? WhyMissed(
        WishSystem system, Solution solution, int statement, SolveOptions? options = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(system);
        ArgumentNullException.ThrowIfNull(solution);
        var misses = solution.GaveWay.ToDictionary(gave => gave.Statement, gave => gave.Miss);
        if (!misses.ContainsKey(statement))
        {
            throw new ArgumentException($"statement {statement} did not give way", nameof(statement));
        }

        var held = new HeldSystem(system, misses, statement);
        return WishSolver.Solve(held.System, options, cancel).Clash is { } clash ? held.Translate(clash, misses.ContainsKey) : null;
    }

    /// <summary>The system in which the wish is a must, cut down to what hangs together with it.</summary>
    private sealed class HeldSystem
    {
        private readonly List<int> _origins = [];
        private readonly List<Measure> _measures = [];
        private readonly int[] _indexOf;
        private readonly WishSystem _from;
        private readonly int _wish;

        public HeldSystem(WishSystem from, Dictionary<int, Rational> misses, int wish)
        {
            (_from, _wish) = (from, wish);
            _indexOf = new int[from.MeasureCount];
            Array.Fill(_indexOf, -1);
            var strength = from.Statements[wish].Strength;
            var counted = Enumerable.Range(0, from.Statements.Count).Where(s => from.Statements[s].Strength <= strength);
            var near = Near(counted.ToList());
            foreach (var s in near.OrderBy(s => s == wish ? -1 : Firmness(from.Statements[s], misses.ContainsKey(s))))
            {
                Hold(s, s == wish ? Rational.Zero : misses.GetValueOrDefault(s));
            }
        }

        public WishSystem System { get; } = new();

        public Because Translate(Clash clash, Func<int, bool> gaveWay)
        {
            var statements = clash.Statements.Select(s => _origins[s]).Where(s => s != _wish).Distinct().Order().ToList();
            return new(
                _wish, statements, statements.FindAll(s => gaveWay(s)), clash.Structure.Select(s => _origins[s]).Distinct().Order().ToList(),
                Back(clash.Grids), Back(clash.Bounds));
        }

        private List<Measure> Back(IReadOnlyList<Measure> measures) =>
            measures.Select(measure => _measures[measure.Index]).OrderBy(measure => measure.Index).ToList();

        // Musts, then stronger wishes, then those of the same strength, and last what gave way.
        private static int Firmness(Statement statement, bool gaveWay) => (2 * (int)statement.Strength) + (gaveWay ? 1 : 0);

        /// <summary>The statements that share measures with the wish, directly or through others, in order of declaration.</summary>
        private List<int> Near(List<int> counted)
        {
            var uses = new List<int>?[_from.MeasureCount];
            foreach (var s in counted)
            {
                foreach (var term in _from.Statements[s].Terms)
                {
                    (uses[term.Measure.Index] ??= []).Add(s);
                }
            }

            var isNear = new bool[_from.Statements.Count];
            var isReached = new bool[_from.MeasureCount];
            var open = new Stack<int>([_wish]);
            isNear[_wish] = true;
            while (open.TryPop(out var s))
            {
                foreach (var measure in _from.Statements[s].Terms.Select(term => term.Measure.Index).Where(m => !isReached[m]))
                {
                    isReached[measure] = true;
                    foreach (var other in uses[measure]!.Where(other => !isNear[other]))
                    {
                        isNear[other] = true;
                        open.Push(other);
                    }
                }
            }

            for (var m = 0; m < isReached.Length; m++)
            {
                if (isReached[m])
                {
                    var (least, most) = _from.BoundsOf(new(m));
                    _indexOf[m] = System.AddMeasure(_from.GridOf(new(m)), least, most).Index;
                    _measures.Add(new(m));
                }
            }

            return counted.FindAll(s => isNear[s]);
        }

        /// <summary>Adds a statement as a must that may miss by no more than it did.</summary>
        private void Hold(int s, Rational miss)
        {
            var statement = _from.Statements[s];
            var terms = statement.Terms.Select(term => term with { Measure = new(_indexOf[term.Measure.Index]) }).ToArray();
            if (statement.Relation == Relation.Equal && miss.IsZero)
            {
                Add(Relation.Equal, statement.Right);
                return;
            }

            if (statement.Relation != Relation.AtLeast)
            {
                Add(Relation.AtMost, statement.Right + miss);
            }

            if (statement.Relation != Relation.AtMost)
            {
                Add(Relation.AtLeast, statement.Right - miss);
            }

            void Add(Relation relation, Rational right)
            {
                System.Add(terms, relation, right, Strength.Must, statement.IsStructure && s != _wish);
                _origins.Add(s);
            }
        }
    }
}
