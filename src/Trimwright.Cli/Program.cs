using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text;
using Trimwright.Cli.Commands;

namespace Trimwright.Cli;

/// <summary>The command line.</summary>
public static class Program
{
    /// <summary>The exit code after success.</summary>
    public const int Done = 0;

    /// <summary>The exit code for a layout, or a drawer, that is not right.</summary>
    public const int BadLayout = 1;

    /// <summary>The exit code for a call that is not right: unknown words, missing files, files in the way.</summary>
    public const int BadUse = 2;

    /// <summary>The exit code after Ctrl+C where there was nothing yet to keep: 128 and the number of the signal, as shells have it.</summary>
    public const int Stopped = 130;

    /// <summary>Runs the command line on the console.</summary>
    public static int Main(string[] args)
    {
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        using var stop = new CancellationTokenSource();

        // The first Ctrl+C ends a search and keeps what it found; the second ends the program, and so does the first where nobody listens.
        Console.CancelKeyPress += (_, pressed) =>
        {
            pressed.Cancel = args is [BatchCommand.Verb, ..] && !stop.IsCancellationRequested;
            stop.Cancel();
        };
        return Run(args, Console.Out, Console.Error, isTerminal: !Console.IsOutputRedirected, cancel: stop.Token);
    }

    /// <summary>Runs the command line on any two writers.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <param name="output">Where results go.</param>
    /// <param name="errors">Where complaints go.</param>
    /// <param name="isTerminal">Whether results go to a terminal, where tables are drawn.</param>
    /// <param name="patience">How long work may take before a terminal is told how far it is; one second if left out.</param>
    /// <param name="cancel">Ends a search early: the best plan found until then is kept.</param>
    /// <returns>The exit code.</returns>
    public static int Run(
        string[] args, TextWriter output, TextWriter errors, bool isTerminal, TimeSpan? patience = null, CancellationToken cancel = default)
    {
        var screen = new Screen(output, errors, isTerminal, patience ?? TimeSpan.FromSeconds(1));
        var root = new RootCommand(
            "Trimwright turns a card layout into exact cut sizes: a drawing with dimensions and a list of what to cut.")
        {
            FitCommand.Create(screen),
            MirrorCommand.Create(screen),
            ResizeCommand.Create(screen),
            WorksheetCommand.Create(screen),
            CheckCommand.Create(screen),
            BalanceCommand.Create(screen),
            BatchCommand.Create(screen),
            FormatsCommand.Create(screen),
            DrawerCommand.Create(screen),
        };
        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            foreach (var error in parsed.Errors)
            {
                errors.Write($"trimwright: {Told(error)}\n");
            }

            errors.Write("Try `trimwright --help`, or `trimwright fit --help` for one verb.\n");
            return BadUse;
        }

        try
        {
            // Without a time limit of its own for Ctrl+C: the best plan is written first.
            var settings = new InvocationConfiguration { Output = output, Error = errors, EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null };
            return parsed.InvokeAsync(settings, cancel).GetAwaiter().GetResult();
        }
        catch (OperationCanceledException)
        {
            errors.Write("trimwright: stopped before there was a plan; nothing was written\n");
            return Stopped;
        }
        catch (UsageException problem)
        {
            errors.Write($"trimwright: {problem.Message}\n");
            return BadUse;
        }
    }

    // The library would name the type that it wanted.
    private static string Told(ParseError error)
    {
        var result = error.SymbolResult is ArgumentResult { Parent: OptionResult parent } ? parent : error.SymbolResult as OptionResult;
        if (result?.Option.ValueType is not { } type || (type != typeof(int) && type != typeof(int[])))
        {
            return error.Message;
        }

        return result.Tokens.FirstOrDefault(token => !int.TryParse(token.Value, NumberStyles.None, CultureInfo.InvariantCulture, out _)) is { } wrong
            ? $"{result.Option.Name} takes {(type == typeof(int) ? "a whole number" : "whole numbers, one after another")}, and `{wrong.Value}` is none"
            : error.Message;
    }
}
