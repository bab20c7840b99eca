namespace Trimwright.Diagnostics;

/// <summary>How much a diagnostic matters.</summary>
public enum Severity
{
    /// <summary>There is no result; exit code 1.</summary>
    Error,

    /// <summary>There is a result that the maker should look at.</summary>
    Warning,
}
