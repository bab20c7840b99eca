using Spectre.Console;
using Trimwright.Diagnostics;

namespace Trimwright.Cli;

/// <summary>Where results and complaints go: tables on a terminal, plain text elsewhere.</summary>
/// <param name="output">Where results go.</param>
/// <param name="errors">Where complaints go.</param>
/// <param name="isTerminal">Whether results go to a terminal.</param>
/// <param name="patience">How long work may take before it is told how far it is.</param>
internal sealed class Screen(TextWriter output, TextWriter errors, bool isTerminal, TimeSpan patience)
{
    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(200);

    public TextWriter Output { get; } = output;

    public void Line(string text = "") => Output.Write(text + "\n");

    public void Lines(string heading, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        Line();
        Line($"{char.ToUpperInvariant(heading[0])}{heading[1..]}:");
        foreach (var line in lines)
        {
            Line($"  {line}");
        }
    }

    /// <summary>A table: drawn on a terminal, otherwise as the plain text given.</summary>
    public void Table(IReadOnlyList<string> headings, IReadOnlyList<IReadOnlyList<string>> rows, string plain)
    {
        if (!isTerminal)
        {
            Output.Write(plain);
            return;
        }

        var table = new Table { Border = TableBorder.Rounded };
        foreach (var heading in headings)
        {
            table.AddColumn(new TableColumn(new Text(heading, new Style(decoration: Decoration.Bold))));
        }

        foreach (var row in rows)
        {
            table.AddRow(row.Select(cell => new Text(cell)));
        }

        AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Output) }).Write(table);
    }

    /// <summary>Prints one JSON object.</summary>
    public void WriteJson(Action<System.Text.Json.Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = Trimming.CardJson.NewWriter(stream))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }

        Line(System.Text.Encoding.UTF8.GetString(stream.ToArray()));
    }

    /// <summary>Does work that may take a while; on a terminal a line tells how far it is, once patience has run out.</summary>
    public T WithProgress<T>(string task, Func<Action<Cutting.CuttingProgress>?, T> work)
    {
        if (!isTerminal)
        {
            return work(null);
        }

        var told = task;
        var running = Task.Run(() => work(progress => Volatile.Write(
            ref told,
            FormattableString.Invariant($"{task}: {progress.Sheets} sheets so far, part {progress.Lot} of {progress.Lots}; Ctrl+C keeps the best plan found"))));
        if (!IsDone(running, patience))
        {
            AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Output) }).Status().Start(task, status =>
            {
                do
                {
                    status.Status(Volatile.Read(ref told));
                }
                while (!IsDone(running, Glance));
            });
        }

        return running.GetAwaiter().GetResult();

        static bool IsDone(Task running, TimeSpan wait) => Task.WaitAny([running], wait) >= 0;
    }

    public void Complain(IReadOnlyList<Diagnostic> diagnostics, IReadOnlyDictionary<string, string> sources)
    {
        DiagnosticText.Write(errors, diagnostics, sources);
        var wrong = diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Error);
        if (wrong > 0)
        {
            errors.Write(FormattableString.Invariant($"{wrong} {(wrong == 1 ? "error" : "errors")}; nothing was written.\n"));
        }
    }

    public void Warn(string text) => errors.Write($"trimwright: {text}\n");
}
