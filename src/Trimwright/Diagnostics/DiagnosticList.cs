namespace Trimwright.Diagnostics;

/// <summary>What is common to every list of diagnostics.</summary>
public static class DiagnosticList
{
    /// <summary>
    /// The diagnostics in the order of their places, those of one place in the order given; what was said before at the same place with
    /// the same code and message is left out.
    /// </summary>
    public static IReadOnlyList<Diagnostic> InFileOrder(IEnumerable<Diagnostic> diagnostics)
    {
        var said = new HashSet<(string Code, string Message, SourcePlace Place)>();
        return [.. diagnostics
            .OrderBy(diagnostic => diagnostic.Place, Comparer<SourcePlace>.Create(CompareStarts))
            .Where(diagnostic => said.Add((diagnostic.Code, diagnostic.Message, diagnostic.Place)))];
    }

    /// <summary>Whether there is an error among them.</summary>
    public static bool HasErrors(this IEnumerable<Diagnostic> diagnostics) =>
        diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);

    // A wider place that begins where a narrower one does must not be moved behind it: the sort is stable and looks at starts alone.
    private static int CompareStarts(SourcePlace a, SourcePlace b) =>
        SourcePlace.Compare(a with { Length = 0 }, b with { Length = 0 });
}
