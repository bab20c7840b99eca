namespace Trimwright.Diagnostics;

/// <summary>A place that helps to understand a diagnostic, with what stands there.</summary>
public sealed record RelatedPlace(SourcePlace Place, string Note);

/// <summary>Something wrong, or worth a look, at a place in a file.</summary>
/// <param name="Code">The stable code, such as <c>E0203</c>; each has its section in docs/diagnostics.md.</param>
/// <param name="Severity">Error or warning.</param>
/// <param name="Message">What is wrong: lower-case start, no full stop, true on its own, names in backticks.</param>
/// <param name="Place">Where.</param>
public sealed record Diagnostic(string Code, Severity Severity, string Message, SourcePlace Place)
{
    /// <summary>Other places that take part, in file order.</summary>
    public IReadOnlyList<RelatedPlace> Related { get; init; } = [];

    /// <summary>Facts that explain, such as the arithmetic of a clash.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>What to change; a change known to work, or null.</summary>
    public string? Remedy { get; init; }
}
