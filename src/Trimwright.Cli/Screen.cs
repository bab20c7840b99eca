using Spectre.Console;
using Trimwright.Diagnostics;

namespace Trimwright.Cli;

/// <summary>Where results and complaints go: tables on a terminal, plain text elsewhere.</summary>
internal sealed class Screen(TextWriter output, TextWriter errors, bool isTerminal)
{
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

    /// <summary>Does work that may take a while, with a line on a terminal that tells how far it is once a second has gone by.</summary>
    public T WithProgress<T>(string task, Func<Action<Cutting.CuttingProgress>?, T> work)
    {
        if (!isTerminal)
        {
            return work(null);
        }

        var result = default(T);
        var watch = System.Diagnostics.Stopwatch.StartNew();
        AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Output) }).Status().Start(task, status =>
        {
            result = work(progress =>
            {
                if (watch.ElapsedMilliseconds > 1000)
                {
                    status.Status(FormattableString.Invariant($"{task}: {progress.Sheets} sheets so far, part {progress.Lot} of {progress.Lots}; Ctrl+C keeps the best plan found"));
                }
            });
        });
        return result!;
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
