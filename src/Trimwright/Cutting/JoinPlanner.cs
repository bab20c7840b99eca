namespace Trimwright.Cutting;

/// <summary>
/// Plans jobs in which pieces may be joined from others. A linear programme says how many of each join are worth making; whole numbers near that
/// are tried, and then changed one by one while that helps.
/// </summary>
internal sealed class JoinPlanner(CuttingOptions options, CancellationToken cancel)
{
    private const int MostTries = 60;
    private const int RoundsOfATry = 3_000;
    private const int WaysTried = 8;

    private readonly CuttingOptions _quick = options with { TidySteps = 0, Rounds = Math.Min(options.Rounds, RoundsOfATry) };

    /// <summary>What a choice of joins comes to; less is better, what comes first before all the rest.</summary>
    private sealed record Score(Int128 Missing, long Bought, long Parts, long Cost, long Ways, long Rank) : IComparable<Score>
    {
        public int CompareTo(Score? other) => other is null ? -1 : (Missing, Bought, Parts, Cost, Ways, Rank).CompareTo((other.Missing, other.Bought, other.Parts, other.Cost, other.Ways, other.Rank));
    }

    /// <summary>Plans.</summary>
    /// <param name="job">The job.</param>
    /// <param name="inFull">Whether to look for the best plan, or only for one that makes everything.</param>
    public CuttingResult Plan(CuttingJob job, bool inFull)
    {
        (job, var onlyJoined, var refusals) = JoinChecks.Check(job);
        if (refusals.Count > 0)
        {
            return new() { Refusals = refusals };
        }

        if (job.Joins.Count == 0)
        {
            return CuttingPlanner.PlanWhole(job, options, cancel);
        }

        var counts = new long[job.Joins.Count];
        var groups = Groups(job, onlyJoined);
        var searches = new List<JoinSearch>();
        foreach (var group in groups)
        {
            var search = new JoinSearch(group);
            searches.Add(search);
            var chosen = new Choice(this, group, onlyJoined, search).Make(inFull);
            for (var j = 0; j < chosen.Length; j++)
            {
                counts[IndexOf(job, group.Joins[j])] = chosen[j];
            }
        }

        var whole = CuttingPlanner.PlanWhole(WithJoined(job, counts), inFull ? options : _quick, cancel);
        return whole.Plan is not { } plan ? whole : whole with { Plan = Proved(job, plan, counts, groups, searches) };
    }

    private static int IndexOf(CuttingJob job, PieceJoin join) => Enumerable.Range(0, job.Joins.Count).First(j => ReferenceEquals(job.Joins[j], join));

    /// <summary>The job with so many pieces cut as their parts.</summary>
    private static CuttingJob WithJoined(CuttingJob job, IReadOnlyList<long> counts)
    {
        var changes = new Dictionary<string, long>(StringComparer.Ordinal);
        for (var j = 0; j < counts.Count; j++)
        {
            var join = job.Joins[j];
            changes[join.Piece] = changes.GetValueOrDefault(join.Piece) - counts[j];
            foreach (var part in join.Parts)
            {
                changes[part] = changes.GetValueOrDefault(part) + counts[j];
            }
        }

        return job with
        {
            Joins = [],
            Pieces = [.. job.Pieces.Select(piece => piece with { Count = piece.Count + changes.GetValueOrDefault(piece.Id) }).Where(piece => piece.Count > 0)],
        };
    }

    /// <summary>The parts of a job that joins tie together, each with its own pieces and stock.</summary>
    private static List<CuttingJob> Groups(CuttingJob job, HashSet<string> onlyJoined)
    {
        var cut = job with { Joins = [], Pieces = [.. job.Pieces.Where(piece => !onlyJoined.Contains(piece.Id)).Select(piece => piece with { Count = Math.Max(1, piece.Count) })] };
        var lots = LotMaker.Make(cut);
        var group = Enumerable.Range(0, lots.Count).ToArray();
        var lotOf = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var n = 0; n < lots.Count; n++)
        {
            foreach (var (piece, _) in lots[n].Shapes.SelectMany(shape => shape.Members))
            {
                lotOf[cut.Pieces[piece].Id] = n;
            }
        }

        foreach (var join in job.Joins)
        {
            var first = group[lotOf[join.Parts[0]]];
            foreach (var id in join.Parts.Append(join.Piece))
            {
                // A piece that is only joined belongs where the parts of its first join are.
                lotOf.TryAdd(id, lotOf[join.Parts[0]]);
                var old = group[lotOf[id]];
                group = Array.ConvertAll(group, other => other == old ? first : other);
            }
        }

        return
        [
            .. job.Joins.Select(join => group[lotOf[join.Piece]]).Distinct().Order().Select(key =>
            {
                var stock = Enumerable.Range(0, lots.Count).Where(n => group[n] == key).SelectMany(n => lots[n].Stocks).Select(sheet => sheet.Index).Order()
                    .Select(s => job.Stock[s]).ToList();

                // A piece may name stock that it does not fit, and that is none of its group.
                return StockUse.OutOf(job with { Pieces = [.. job.Pieces.Where(piece => group[lotOf[piece.Id]] == key)] }, stock) with
                {
                    Joins = [.. job.Joins.Where(join => group[lotOf[join.Piece]] == key)],
                };
            }),
        ];
    }

    /// <summary>Puts the lots of each group together, with the proof that holds however many are joined.</summary>
    private static CuttingPlan Proved(CuttingJob job, CuttingPlan plan, long[] counts, List<CuttingJob> groups, List<JoinSearch> searches)
    {
        var lots = plan.Lots.ToList();
        for (var g = 0; g < groups.Count; g++)
        {
            var (group, search) = (groups[g], searches[g]);
            var stock = group.Stock.Select(sheet => sheet.Id).ToHashSet(StringComparer.Ordinal);
            var parts = lots.FindAll(lot => stock.Contains(lot.Stock[0]));
            if (parts.Count == 0 || search.Bound is not { } bound)
            {
                continue;
            }

            var pieces = group.Pieces.Select(piece => piece.Id).ToList();
            var isComplete = !plan.Missing.Any(missing => pieces.Contains(missing.Piece));
            var cost = parts.Sum(lot => lot.Cost);
            var at = lots.IndexOf(parts[0]);
            lots.RemoveAll(parts.Contains);
            lots.Insert(at, new(
                pieces, [.. group.Stock.Select(sheet => sheet.Id)],
                isComplete ? (cost == bound.Bound ? PlanState.ProvedCheapest : PlanState.WithinBound) : search.ShortProof is null ? PlanState.Incomplete : PlanState.ProvedIncomplete,
                parts.Sum(lot => lot.Sheets), cost, Written(bound))
            {
                ShortProof = isComplete || search.ShortProof is null ? null : Written(search.ShortProof),
            });
            BoundProof Written(WorthBound worths) => LotWriter.Write(group, search.Lot, worths) with { Joins = group.Joins };
        }

        return plan with
        {
            State = lots.Max(lot => lot.State),
            Lots = lots,
            Joined = [.. job.Joins.Select((join, j) => new JoinedPieces(join, counts[j])).Where(joined => joined.Count > 0)],
        };
    }

    /// <summary>Chooses how many of each join of one group to make.</summary>
    private sealed class Choice(JoinPlanner planner, CuttingJob group, HashSet<string> onlyJoined, JoinSearch search)
    {
        private readonly Dictionary<string, (Score Score, CuttingPlan Plan)> _known = new(StringComparer.Ordinal);
        private readonly List<string> _wholes = [.. group.Joins.Select(join => join.Piece).Distinct(StringComparer.Ordinal)];
        private int _tries;

        public long[] Make(bool inFull)
        {
            var guess = search.Solve(proveShort: false, planner.Cancel);
            if (search.LeavesOut && search.ShortProof is null)
            {
                search.Solve(proveShort: true, planner.Cancel);
            }

            var best = Starts(guess).MinBy(counts => Of(counts).Score)!;
            if (search.ShortProof is not null)
            {
                return OnlyComplete(best);
            }

            bool IsGood() => Of(best).Score.Missing == 0 && (!inFull || Of(best).Score is var score && (score.Bought == 0 || score.Cost <= search.Bound!.Bound));
            while (!IsGood() && Better(best, Moves(best, guess)) is { } next)
            {
                best = next;
            }

            while (inFull && Of(best).Score.Missing == 0 && Better(best, Nicer(best)) is { } next)
            {
                best = next;
            }

            return OnlyComplete(best);
        }

        private bool IsOver => _tries >= MostTries || planner.Cancel.IsCancellationRequested;

        private long[]? Better(long[] than, IEnumerable<long[]> others)
        {
            var score = Of(than).Score;
            return others.TakeWhile(_ => !IsOver).FirstOrDefault(other => Of(other).Score.CompareTo(score) < 0);
        }

        /// <summary>None but what must be, and whole numbers near those of the programme.</summary>
        private IEnumerable<long[]> Starts(long[] guess)
        {
            var starts = new List<long[]>();
            foreach (var up in new[] { 0, 1, 2 })
            {
                var counts = new long[guess.Length];
                foreach (var id in _wholes)
                {
                    var mine = Mine(id);
                    var sum = mine.Sum(j => guess[j]);
                    var wanted = onlyJoined.Contains(id) ? Demand(id) : Math.Clamp(up == 0 ? sum / 1_000_000 : up == 1 ? (sum + 500_000) / 1_000_000 : (sum + 999_000) / 1_000_000, 0, Demand(id));
                    foreach (var j in mine)
                    {
                        counts[j] = Math.Min(guess[j] / 1_000_000, wanted - mine.Sum(other => counts[other]));
                    }

                    // Largest remainders first; where the programme says nothing, the way liked best.
                    var open = mine.OrderByDescending(j => guess[j] - (counts[j] * 1_000_000)).ThenBy(j => j).ToList();
                    for (var n = 0; mine.Sum(j => counts[j]) < wanted; n = (n + 1) % open.Count)
                    {
                        var left = wanted - mine.Sum(j => counts[j]);
                        counts[open[n]] += guess[open[n]] > 0 && n < open.Count - 1 ? 1 : left;
                    }
                }

                starts.Add(counts);
            }

            // Nothing joined comes first: the fewest seams, where nothing is gained by them.
            starts.Insert(0, [.. guess.Select((_, j) => onlyJoined.Contains(group.Joins[j].Piece) ? starts[1][j] : 0)]);
            return starts.DistinctBy(Key, StringComparer.Ordinal);
        }

        /// <summary>One more joined, one less, or one joined another way; ways that the programme used first.</summary>
        private IEnumerable<long[]> Moves(long[] from, long[] guess)
        {
            foreach (var id in _wholes)
            {
                var mine = Mine(id);
                var promising = mine.Where(j => guess[j] > 0 || from[j] > 0).Concat(mine.Take(WaysTried)).Distinct().ToList();
                foreach (var j in promising)
                {
                    if (mine.Sum(other => from[other]) < Demand(id))
                    {
                        yield return Changed(from, (j, 1));
                    }
                }

                foreach (var j in promising.Where(j => from[j] > 0))
                {
                    foreach (var other in promising.Where(other => other != j))
                    {
                        yield return Changed(from, (j, -1), (other, 1));
                    }

                    if (!onlyJoined.Contains(id))
                    {
                        yield return Changed(from, (j, -1));
                    }
                }
            }
        }

        /// <summary>The same with fewer seams, or with seams that are liked better: all at once, or half of them, or one.</summary>
        private IEnumerable<long[]> Nicer(long[] from)
        {
            for (var j = from.Length - 1; j >= 0; j--)
            {
                foreach (var many in new[] { from[j], from[j] / 2, 1 }.Where(many => many > 0 && many <= from[j]).Distinct())
                {
                    if (!onlyJoined.Contains(group.Joins[j].Piece))
                    {
                        yield return Changed(from, (j, -many));
                    }

                    foreach (var other in Mine(group.Joins[j].Piece).Where(other => other != j && (other < j || from[other] > 0)).OrderBy(other => from[other] > 0 ? 0 : 1).Take(WaysTried))
                    {
                        yield return Changed(from, (j, -many), (other, many));
                    }
                }
            }
        }

        /// <summary>Where not all can be made: no part is cut of a piece that is not made whole.</summary>
        private long[] OnlyComplete(long[] counts)
        {
            counts = (long[])counts.Clone();
            while (Of(counts).Plan.Missing is { Count: > 0 } missing)
            {
                var broken = Enumerable.Range(0, counts.Length).Where(j => counts[j] > 0 && !onlyJoined.Contains(group.Joins[j].Piece)
                    && missing.Any(left => group.Joins[j].Parts.Contains(left.Piece))).ToList();
                if (broken.Count == 0)
                {
                    break;
                }

                counts[broken[^1]]--;
            }

            return counts;
        }

        private (Score Score, CuttingPlan Plan) Of(long[] counts)
        {
            if (_known.TryGetValue(Key(counts), out var known))
            {
                return known;
            }

            _tries++;
            var plan = CuttingPlanner.PlanWhole(WithJoined(group, counts), planner._quick, planner.Cancel).Plan!;
            var area = plan.Missing.Aggregate(Int128.Zero, (sum, missing) => sum + (missing.Count * AreaOf(missing.Piece)));
            var score = new Score(
                area, plan.Sheets.Sum(sheet => group.Stock.First(stock => stock.Id == sheet.Stock).Cost is var cost && cost > group.SmallCost ? cost * sheet.Repeats : 0),
                counts.Select((count, j) => count * (group.Joins[j].Parts.Count - 1)).Sum(), plan.Cost, counts.LongCount(count => count > 0), counts.Select((count, j) => count * j).Sum());
            return _known[Key(counts)] = (score, plan);
        }

        private Int128 AreaOf(string id)
        {
            var piece = group.Pieces.First(piece => piece.Id == id);
            return (Int128)piece.Width.Nanometres * piece.Height.Nanometres;
        }

        private List<int> Mine(string id) => [.. Enumerable.Range(0, group.Joins.Count).Where(j => group.Joins[j].Piece == id)];

        private long Demand(string id) => group.Pieces.First(piece => piece.Id == id).Count;

        private static long[] Changed(long[] counts, params (int Join, long By)[] changes)
        {
            var changed = (long[])counts.Clone();
            foreach (var (join, by) in changes)
            {
                changed[join] += by;
            }

            return changed;
        }

        private static string Key(long[] counts) => string.Join(',', counts);
    }

    private CancellationToken Cancel => cancel;
}
