using System.Text.Json;
using Trimwright.Cutting;
using Xunit.Abstractions;

namespace Trimwright.Tests.Cutting;

/// <summary>Published instances: what we plan is never better than a proved optimum, and what we prove never above it.</summary>
public class PublishedTests(ITestOutputHelper output)
{
    public static TheoryData<string, bool, int, int[][], int> OneSheet => PublishedCases.OneSheet();

    public static TheoryData<string, bool, int, int[][], int> FewestSheets => PublishedCases.FewestSheets();

    [Theory]
    [MemberData(nameof(OneSheet))]
    public void The_most_valuable_sheet_is_worth_the_published_optimum(string name, bool mayTurn, int sheet, int[][] pieces, int optimum)
    {
        Assert.NotEmpty(name);
        CheckOneSheet(mayTurn, sheet, sheet, pieces, optimum);
    }

    [Theory]
    [MemberData(nameof(FewestSheets))]
    public void A_published_batch_of_twenty_takes_the_published_number_of_sheets(string name, bool mayTurn, int sheet, int[][] pieces, int optimum)
    {
        Assert.NotEmpty(name);
        var job = Job(mayTurn, sheet, sheet, pieces);
        var plan = Planned.Check(job);
        Assert.Equal(optimum, plan.SheetCount);
        Assert.True(plan.Bound <= optimum);
    }

    [PublishedFact]
    public void All_most_valuable_sheets_in_the_published_folder_are_met()
    {
        foreach (var item in Cases("one-sheet-optima.json"))
        {
            CheckOneSheet(item.MayTurn, item.Width, item.Height, item.Pieces, item.Optimum);
        }
    }

    [PublishedFact]
    public void No_bound_is_above_and_no_plan_below_a_published_fewest_number_of_sheets()
    {
        var (met, proved, all) = (0, 0, 0);
        foreach (var item in Cases("fewest-sheets-optima.json").Where(item => PublishedFact.RunAll || item.Pieces.Sum(piece => piece[2]) <= 40))
        {
            var plan = Planned.Check(Job(item.MayTurn, item.Width, item.Height, item.Pieces));
            Assert.True(plan.Bound <= item.Optimum, $"{item.Name}: bound {plan.Bound} above the optimum {item.Optimum}");
            Assert.True(plan.SheetCount >= item.Optimum, $"{item.Name}: {plan.SheetCount} sheets below the optimum {item.Optimum}");
            all++;
            met += plan.SheetCount == item.Optimum ? 1 : 0;
            proved += plan.State == PlanState.ProvedCheapest ? 1 : 0;
        }

        output.WriteLine($"{met} of {all} met, {proved} proved");

        // What was measured when this was written, so that a search that grows weaker is noticed.
        Assert.True(met * 100 >= all * 90 && proved * 100 >= all * 80, $"only {met} of {all} met, {proved} proved");
    }

    private static void CheckOneSheet(bool mayTurn, int width, int height, int[][] pieces, int optimum)
    {
        var job = Job(mayTurn, width, height, [.. pieces.Select(piece => new[] { piece[0], piece[1], 1 })]);
        var best = BestSheet.Find(job, [.. pieces.Select(piece => (long)piece[2])]);
        Assert.Equal(optimum, best.Worth);
        var made = Replay.CheckSheet(job, new("sheet", 1, best.Root));
        Assert.Equal(optimum, made.Sum(item => item.Value * pieces[int.Parse(item.Key, System.Globalization.CultureInfo.InvariantCulture)][2]));
    }

    private static CuttingJob Job(bool mayTurn, int width, int height, int[][] pieces) => new(
        [.. pieces.Select((piece, n) => Planned.Piece(FormattableString.Invariant($"{n}"), piece[0], piece[1], piece[2]) with { MayTurn = mayTurn })],
        [Planned.Sheets("sheet", width, height)],
        new());

    private static IEnumerable<(string Name, bool MayTurn, int Width, int Height, int[][] Pieces, int Optimum)> Cases(string file)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(PublishedFact.Folder!, file)));
        foreach (var item in document.RootElement.GetProperty("cases").EnumerateArray())
        {
            var sheet = item.GetProperty("sheet");
            yield return (
                item.GetProperty("name").GetString()!,
                item.GetProperty("turn").GetBoolean(),
                sheet[0].GetInt32(),
                sheet[1].GetInt32(),
                [.. item.GetProperty("pieces").EnumerateArray().Select(piece => piece.EnumerateArray().Select(side => side.GetInt32()).ToArray())],
                (item.TryGetProperty("optimum", out var optimum) ? optimum : item.GetProperty("sheets")).GetInt32());
        }
    }
}

/// <summary>
/// A test that needs a folder of published instances: <c>TRIMWRIGHT_PUBLISHED</c> names it, or it stands as <c>shared/published</c> beside the
/// repository. Without one the test says that it was skipped. <c>TRIMWRIGHT_PUBLISHED_ALL=1</c> runs the large instances too.
/// </summary>
public sealed class PublishedFact : FactAttribute
{
    public PublishedFact()
    {
        if (Folder is null)
        {
            Skip = "no folder of published instances: set TRIMWRIGHT_PUBLISHED";
        }
    }

    public static string? Folder { get; } =
        new[] { Environment.GetEnvironmentVariable("TRIMWRIGHT_PUBLISHED"), Repository.Path("..", "shared", "published") }
            .FirstOrDefault(folder => folder is not null && File.Exists(Path.Combine(folder, "fewest-sheets-optima.json")));

    public static bool RunAll => Environment.GetEnvironmentVariable("TRIMWRIGHT_PUBLISHED_ALL") == "1";
}
