using System.Text;
using Trimwright.Batches;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Tests.Cutting;
using Trimwright.Tests.Layouts;

namespace Trimwright.Tests.Batches;

/// <summary>Short ways to plan batches in tests. Every schedule is followed, and every proof checked again, before a test looks at it.</summary>
internal static class BatchMaker
{
    /// <summary>A front of 4 x 5 1/4 in dots on a kraft base.</summary>
    public const string Front = """
        { "title": "Front", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" },
          "papers": { "kraft": {}, "dots": { "kind": "patterned" } },
          "pieces": [ { "name": "front", "kind": "panel", "paper": "dots", "place": { "fill": true } } ] }
        """;

    /// <summary>As many kraft sheets as are needed, to follow other stock.</summary>
    public const string Kraft = """{ "name": "kraft-sheets", "size": "8 1/2 x 11", "count": "enough", "paper": "kraft" }""";

    /// <summary>A batch of one layout, <c>card.json</c>.</summary>
    public static string Text(string stock, string cards = """{ "layout": "card.json", "count": 1 }""", string papers = "", string head = "") => $$"""
        { "title": "Seed-swap day", "units": "in", {{head}}
          "papers": { "kraft": {}, "dots": {}{{papers}} },
          "stock": [ {{stock}} ],
          "cards": [ {{cards}} ] }
        """;

    /// <summary>The diagnostics of a batch from reading to planning, and its plan.</summary>
    public static (BatchPlan? Plan, IReadOnlyList<Diagnostic> Diagnostics) Try(
        string batch, string layout = Front, Drawer? drawer = null, Func<string, (string, byte[])?>? open = null)
    {
        open ??= name => name == "card.json" ? (name, Encoding.UTF8.GetBytes(layout)) : null;
        var reading = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(batch), open);
        if (reading.Batch is null)
        {
            return (null, reading.Diagnostics);
        }

        var fitting = BatchFitter.Fit(reading.Batch, drawer ?? Drawer.Default, open);
        var planning = fitting.Batch is { } fitted ? BatchPlanner.Plan(fitted) : new(null, []);
        return (planning.Plan, [.. reading.Diagnostics, .. fitting.Diagnostics, .. planning.Diagnostics]);
    }

    /// <summary>A schedule that has been followed.</summary>
    public static TrimSchedule Schedule(
        string batch, string layout = Front, Drawer? drawer = null, Func<string, (string, byte[])?>? open = null)
    {
        var (plan, diagnostics) = Try(batch, layout, drawer, open);
        Assert.True(plan is not null && !diagnostics.HasErrors(), Sample.Lines(diagnostics));
        return Followed(plan);
    }

    /// <summary>The schedule of a plan, followed; the plan itself is replayed and its proofs are checked as well.</summary>
    public static TrimSchedule Followed(BatchPlan plan)
    {
        Replay.Check(plan.Job, plan.Cutting);
        Certificates.Check(plan.Job, plan.Cutting);
        var schedule = TrimSchedule.FromPlan(plan);
        ScheduleReplay.Check(schedule);
        return schedule;
    }

    /// <summary>The only diagnostic of a batch.</summary>
    public static Diagnostic Refused(string batch, string layout = Front, Drawer? drawer = null)
    {
        var (plan, diagnostics) = Try(batch, layout, drawer);
        Assert.Null(plan);
        Assert.True(diagnostics.Count == 1, Sample.Lines(diagnostics));
        return diagnostics[0];
    }
}
