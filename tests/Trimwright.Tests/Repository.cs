using System.Runtime.CompilerServices;

namespace Trimwright.Tests;

/// <summary>The files of the project, found from where this source file stands.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Path(params string[] parts) => System.IO.Path.Combine([Root, .. parts]);

    /// <summary>The names of the demo layouts, without their ending.</summary>
    public static IEnumerable<string> DemoNames() =>
        Directory.GetFiles(Path("layouts"), "*.json").Select(System.IO.Path.GetFileNameWithoutExtension).Order(StringComparer.Ordinal)!;

    /// <summary>The names of the demo batches, without their ending.</summary>
    public static IEnumerable<string> BatchNames() =>
        Directory.GetFiles(Path("layouts", "batches"), "*.json").Select(System.IO.Path.GetFileNameWithoutExtension).Order(StringComparer.Ordinal)!;

    public static TheoryData<string> Demos() => [.. DemoNames()];

    private static string FindRoot([CallerFilePath] string here = "") =>
        System.IO.Path.GetFullPath(System.IO.Path.Combine(System.IO.Path.GetDirectoryName(here)!, "..", ".."));
}
