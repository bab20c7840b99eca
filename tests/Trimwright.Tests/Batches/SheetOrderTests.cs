using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Tests.Worksheets;

namespace Trimwright.Tests.Batches;

/// <summary>In which order sheets are cut, held against what can be found by trying every order.</summary>
public class SheetOrderTests
{
    // Every set of cuts that may have been made is looked at.
    private const int MostCuts = 16;

    public static TheoryData<string> Batches => [.. Repository.BatchNames(), "windows", "many kinds", "large sheets", "millimetres"];

    [Theory]
    [MemberData(nameof(Batches))]
    public void A_sheet_is_cut_to_the_end_before_the_next_is_begun_and_letters_follow_the_steps(string name)
    {
        var schedule = BatchSamples.Schedule(name);
        var taken = schedule.Steps.Select(step => step.Sheet).ToList();
        var changes = taken.Skip(1).Zip(taken).Count(pair => pair.First != pair.Second);
        Assert.Equal(taken.Distinct().Count() - 1, changes);

        // Those that are a piece as they are have no step.
        Assert.Equal(schedule.Sheets.Select(sheet => sheet.Letter).Where(taken.Contains), taken.Distinct());
    }

    [Theory]
    [MemberData(nameof(Batches))]
    public void No_order_of_the_cuts_of_a_sheet_sets_the_fence_less_often(string name)
    {
        var schedule = BatchSamples.Schedule(name);
        var tried = 0;
        foreach (var sheet in schedule.Sheets)
        {
            var cuts = sheet.Plan.Root.Walk().OfType<CutInTwo>().ToList();
            if (cuts.Count is 0 or > MostCuts)
            {
                continue;
            }

            tried++;
            var settings = schedule.Steps.Where(step => step.Sheet == sheet.Letter && !step.IsTrueing).Select(step => step.Setting).ToList();
            Assert.Equal(FewestSettings(cuts), 1 + settings.Skip(1).Zip(settings).Count(pair => pair.First != pair.Second));
        }

        Assert.True(tried > 1, "hardly a sheet was small enough to try");
    }

    [Fact]
    public void The_next_sheet_begins_where_the_fence_stands_if_it_can()
    {
        // By hand: the first and the last are cut once at 4 in, the other, which is named between them, once at 5 1/4 in.
        var stock = """
            { "name": "first", "size": "6 x 5 1/4", "count": 1, "paper": "dots" }, { "name": "other", "size": "4 x 6", "count": 1, "paper": "dots" },
            { "name": "last", "size": "6 1/2 x 5 1/4", "count": 1, "paper": "dots" },
            """ + BatchMaker.Kraft;
        var schedule = BatchMaker.Schedule(BatchMaker.Text(stock, """{ "layout": "card.json", "count": 3 }"""));
        var steps = schedule.Steps.Where(step => schedule.Sheets.Single(sheet => sheet.Letter == step.Sheet).FaceUp == "dots").Select(step => step.Setting).ToList();
        Assert.Equal(3, steps.Count);
        Assert.Equal(1, steps.Skip(1).Zip(steps).Count(pair => pair.First != pair.Second));
    }

    // The fewest settings for each set of cuts made, over all that can be the last setting. A cut is made at the width of either part that is not waste, once
    // the cut that gave its part is made.
    private static int FewestSettings(List<CutInTwo> cuts)
    {
        var parents = cuts.ConvertAll(cut => cuts.FindIndex(other => ReferenceEquals(other.First, cut) || ReferenceEquals(other.Second, cut)));
        var ways = cuts.ConvertAll(Ways);
        var fewest = new Dictionary<long, int>[1 << cuts.Count];
        fewest[0] = new() { [0] = 0 };
        for (var made = 0; made < fewest.Length - 1; made++)
        {
            foreach (var (last, count) in fewest[made] ?? [])
            {
                for (var i = 0; i < cuts.Count; i++)
                {
                    if ((made & (1 << i)) != 0 || (parents[i] >= 0 && (made & (1 << parents[i])) == 0))
                    {
                        continue;
                    }

                    var next = fewest[made | (1 << i)] ??= [];
                    foreach (var way in ways[i])
                    {
                        next[way] = Math.Min(next.GetValueOrDefault(way, int.MaxValue), count + (way == last ? 0 : 1));
                    }
                }
            }
        }

        return fewest[^1].Values.Min();

        static List<long> Ways(CutInTwo cut)
        {
            var second = cut.Direction == CutDirection.Upright ? cut.Second?.Width : cut.Second?.Height;
            List<long> ways = cut.First is CutPiece or CutInTwo ? [cut.At.Nanometres] : [];
            return cut.Second is CutPiece or CutInTwo ? [.. ways, second!.Value.Nanometres] : ways;
        }
    }
}
