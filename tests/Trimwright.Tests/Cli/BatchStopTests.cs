using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Trimwright.Cli;

namespace Trimwright.Tests.Cli;

/// <summary>Batches that take long: what a terminal is told, and what is kept when someone presses Ctrl+C.</summary>
public sealed partial class BatchStopTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("trimwright-test-").FullName;

    private string Out => Path.Combine(_folder, "out");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Ctrl_C_in_the_middle_writes_the_best_plan_so_far_and_says_so()
    {
        using var stop = new CancellationTokenSource();

        // Once twenty sheets are told of, a plan with fewer cards has been found: the count of cards is doubled from one.
        using var output = new ListeningWriter(text => Sheets().Matches(text).Any(match => int.Parse(match.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture) >= 20), stop.Cancel);
        using var errors = new StringWriter();
        var code = Program.Run(["batch", Long(), "--out", Out], output, errors, isTerminal: true, TimeSpan.Zero, stop.Token);
        Assert.True(code == Program.Done, errors.ToString());
        Assert.Contains("stopped early", output.ToString(), StringComparison.Ordinal);
        Assert.Contains("stopped early", File.ReadAllText(Path.Combine(Out, "long-schedule.md")), StringComparison.Ordinal);
        Assert.NotEmpty(Directory.GetFiles(Out, "*-sheet-*.svg"));
        Assert.Empty(Directory.GetFiles(Out, "*.part"));
    }

    [Fact]
    public void Ctrl_C_before_there_is_a_plan_writes_nothing()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Program.Stopped, Program.Run(["batch", Demo(), "--out", Out], output, errors, isTerminal: false, cancel: stop.Token));
        Assert.Equal(("", "trimwright: stopped before there was a plan; nothing was written\n"), (output.ToString(), errors.ToString()));
        Assert.False(Directory.Exists(Out));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Only_a_terminal_is_told_how_far_a_long_plan_is(bool isTerminal)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Program.Done, Program.Run(["batch", Demo(), "--out", Out], output, errors, isTerminal, TimeSpan.Zero));
        Assert.Equal(isTerminal, output.ToString().Contains("planning", StringComparison.Ordinal));
        Assert.Equal("", errors.ToString());
    }

    [Fact]
    public void A_terminal_is_not_told_how_far_a_short_plan_is()
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Program.Done, Program.Run(["batch", Demo(), "--out", Out], output, errors, isTerminal: true, TimeSpan.FromHours(1)));
        Assert.DoesNotContain("planning", output.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_JSON_says_whether_a_plan_was_stopped_early()
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Program.Done, Program.Run(["batch", Demo(), "--json", "--out", Out], output, errors, isTerminal: false));
        using var json = JsonDocument.Parse(output.ToString());
        Assert.False(json.RootElement.GetProperty("schedule").GetProperty("stoppedEarly").GetBoolean());
    }

    private static string Demo() => Repository.Path("layouts", "batches", "seed-swap.json");

    private string Long()
    {
        var file = Path.Combine(_folder, "long.json");
        File.WriteAllText(file, File.ReadAllText(Demo()).Replace("\"count\": 12", "\"count\": \"as-many-as-possible\"", StringComparison.Ordinal)
            .Replace("\"count\": 18", "\"count\": 4000", StringComparison.Ordinal).Replace("\"count\": 10,", "\"count\": 4000,", StringComparison.Ordinal)
            .Replace("\"count\": 6,", "\"count\": 3000,", StringComparison.Ordinal)
            .Replace("../bean-row.json", "bean-row.json", StringComparison.Ordinal));
        File.Copy(Repository.Path("layouts", "bean-row.json"), Path.Combine(_folder, "bean-row.json"));
        return file;
    }

    /// <summary>A writer that acts once on what has been written.</summary>
    private sealed class ListeningWriter(Func<string, bool> isHeard, Action act) : StringWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value)
        {
            base.Write(value);
            Hear();
        }

        public override void Write(string? value)
        {
            base.Write(value);
            Hear();
        }

        public override void Write(char[] buffer, int index, int count)
        {
            base.Write(buffer, index, count);
            Hear();
        }

        private void Hear()
        {
            if (isHeard(ToString()))
            {
                act();
            }
        }
    }

    [GeneratedRegex("([0-9]+) sheets so far")]
    private static partial Regex Sheets();
}
