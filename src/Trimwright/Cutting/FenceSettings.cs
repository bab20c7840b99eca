using Trimwright.Measures;

namespace Trimwright.Cutting;

/// <summary>
/// Chooses for each cut which part is held to the fence, so that few distances are used: over and over the distance that serves most of the
/// cuts that have none yet. A part that is waste is never held: what is wanted is measured, and what is left is left.
/// </summary>
internal static class FenceSettings
{
    public static List<SheetPlan> Choose(List<SheetPlan> sheets)
    {
        var open = sheets.SelectMany(sheet => sheet.Root.Walk().OfType<CutInTwo>()).Select(Distances).ToList();
        var chosen = new List<Length>();
        while (open.Count > 0)
        {
            var votes = new SortedDictionary<Length, int>();
            foreach (var distance in open.SelectMany(distances => distances.Distinct()))
            {
                votes[distance] = votes.GetValueOrDefault(distance) + 1;
            }

            var best = votes.MaxBy(vote => vote.Value).Key;
            chosen.Add(best);
            open.RemoveAll(distances => distances.Contains(best));
        }

        var rank = chosen.Select((distance, n) => (distance, n)).ToDictionary(item => item.distance, item => item.n);
        return [.. sheets.Select(sheet => sheet with { Root = Turn(sheet.Root, rank) })];
    }

    private static CutNode Turn(CutNode node, Dictionary<Length, int> rank)
    {
        if (node is not CutInTwo cut)
        {
            return node;
        }

        var held = Distances(cut).MinBy(distance => rank.GetValueOrDefault(distance, int.MaxValue));
        return cut with
        {
            First = Turn(cut.First, rank),
            Second = cut.Second is null ? null : Turn(cut.Second, rank),
            FromFarEdge = IsWaste(cut.First) || held != cut.At,
        };
    }

    private static List<Length> Distances(CutInTwo cut)
    {
        var distances = new List<Length>();
        if (!IsWaste(cut.First))
        {
            distances.Add(cut.At);
        }

        if (cut.Second is { } second && !IsWaste(second))
        {
            distances.Add(cut.Direction == CutDirection.Upright ? second.Width : second.Height);
        }

        return distances;
    }

    private static bool IsWaste(CutNode node) => node is CutOffcut or CutSliver;
}
