using System.CommandLine;
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

    /// <summary>Runs the command line on the console.</summary>
    public static int Main(string[] args)
    {
        Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        return Run(args, Console.Out, Console.Error, isTerminal: !Console.IsOutputRedirected);
    }

    /// <summary>Runs the command line on any two writers.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <param name="output">Where results go.</param>
    /// <param name="errors">Where complaints go.</param>
    /// <param name="isTerminal">Whether results go to a terminal, where tables are drawn.</param>
    /// <returns>The exit code.</returns>
    public static int Run(string[] args, TextWriter output, TextWriter errors, bool isTerminal)
    {
        var screen = new Screen(output, errors, isTerminal);
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
                errors.Write($"trimwright: {error.Message}\n");
            }

            errors.Write("Try `trimwright --help`, or `trimwright fit --help` for one verb.\n");
            return BadUse;
        }

        try
        {
            return parsed.Invoke(new InvocationConfiguration { Output = output, Error = errors, EnableDefaultExceptionHandler = false });
        }
        catch (UsageException problem)
        {
            errors.Write($"trimwright: {problem.Message}\n");
            return BadUse;
        }
    }
}
