using System.Text;
using Spectre.Console;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Diagnostics;
using Trimwright.Layouts;

namespace Trimwright.Cli;

/// <summary>Reads a batch with its layouts and its drawer, and plans it.</summary>
internal sealed class BatchInputs
{
    private readonly Dictionary<string, string> _sources = new(StringComparer.Ordinal);
    private readonly List<Diagnostic> _diagnostics = [];

    /// <summary>The texts of the files, to show the lines that diagnostics point to.</summary>
    public IReadOnlyDictionary<string, string> Sources => _sources;

    public (BatchPlan? Plan, IReadOnlyList<Diagnostic> Diagnostics) Plan(string file, string? drawerFile, Screen screen, CancellationToken cancel)
    {
        Batch? batch = null;
        if (Inputs.Take(file, _sources, _diagnostics) is { } bytes)
        {
            (batch, var problems) = BatchReader.Read(file, bytes, name => Open(file, name));
            if (batch is null)
            {
                WhichFile.RefuseLayout(file, bytes);
            }

            _diagnostics.AddRange(problems);
        }

        var drawer = Inputs.ReadDrawer(drawerFile, _sources, _diagnostics);
        if (batch is null || drawer is null)
        {
            return (null, DiagnosticList.InFileOrder(_diagnostics));
        }

        var fitting = BatchFitter.Fit(batch, drawer, name => Open(file, name), Inputs.OpenPicture, cancel);
        _diagnostics.AddRange(fitting.Diagnostics);
        foreach (var (name, content) in fitting.Texts)
        {
            _sources[name] = Encoding.UTF8.GetString(content);
        }

        if (fitting.Batch is not { } fitted)
        {
            return (null, DiagnosticList.InFileOrder(_diagnostics));
        }

        var planning = screen.WithProgress("planning", progress => BatchPlanner.Plan(fitted, new() { Progress = progress }, cancel));
        _diagnostics.AddRange(planning.Diagnostics);
        return (planning.Plan, DiagnosticList.InFileOrder(_diagnostics));
    }

    private (string Name, byte[] Content)? Open(string batchFile, string name)
    {
        var path = Path.Combine(Path.GetDirectoryName(batchFile) ?? "", name);
        return File.Exists(path) && Inputs.Take(path, _sources, _diagnostics) is { } content ? (path, content) : null;
    }
}
