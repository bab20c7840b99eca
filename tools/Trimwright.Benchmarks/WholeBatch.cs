using System.Diagnostics;
using Trimwright.Batches;
using Trimwright.Layouts;

namespace Trimwright.Benchmarks;

/// <summary>A batch from its bytes to its schedule, with the time that each stage took.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Ticks">Ticks of the stopwatch for reading, fitting, planning and putting the cuts in order.</param>
internal sealed record WholeBatch(TrimSchedule Schedule, IReadOnlyList<long> Ticks)
{
    /// <summary>Reads, fits, plans and schedules.</summary>
    /// <param name="path">The batch file, from the folder of the project.</param>
    public static WholeBatch Run(string path)
    {
        var file = Path.Combine(Samples.Folder(), path);
        (string, byte[])? Open(string name) => (name, File.ReadAllBytes(Path.Combine(Path.GetDirectoryName(file)!, name)));
        var ticks = new List<long>();
        var watch = Stopwatch.StartNew();
        var batch = Timed(() => BatchReader.Read(Path.GetFileName(file), File.ReadAllBytes(file), Open).Batch!);
        var fitted = Timed(() => BatchFitter.Fit(batch, Drawer.Default, Open).Batch!);
        var plan = Timed(() => BatchPlanner.Plan(fitted).Plan!);
        var schedule = Timed(() => TrimSchedule.FromPlan(plan));
        return new(schedule, ticks);

        T Timed<T>(Func<T> stage)
        {
            watch.Restart();
            var result = stage();
            ticks.Add(watch.ElapsedTicks);
            return result;
        }
    }
}
