using System.Runtime.CompilerServices;
using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Layouts;

/// <summary>The sample layouts beside this file, and short ways to read layouts in tests.</summary>
internal static class Sample
{
    public static string Folder([CallerFilePath] string path = "") => Path.Combine(Path.GetDirectoryName(path)!, "Samples");

    /// <summary>The root of the repository.</summary>
    public static string Root([CallerFilePath] string path = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(path)!, "..", "..", ".."));

    public static IReadOnlyList<string> Files => [.. Directory.GetFiles(Folder(), "*.json").Order(StringComparer.Ordinal)];

    public static byte[] Bytes(string name) => File.ReadAllBytes(Path.Combine(Folder(), name));

    public static LayoutReading Read(string text, Func<string, PictureFile>? openPicture = null) =>
        LayoutReader.Read("test.json", Encoding.UTF8.GetBytes(text), openPicture);

    /// <summary>The layout; the test fails with all diagnostics if there are any.</summary>
    public static Layout Good(string text)
    {
        var reading = Read(text);
        Assert.True(reading.Diagnostics.Count == 0, Lines(reading.Diagnostics));
        return reading.Layout!;
    }

    public static string Lines(IEnumerable<Diagnostic> diagnostics) => string.Join('\n', diagnostics.Select(DiagnosticText.OneLine));

    /// <summary>A small layout with some pieces and rules.</summary>
    public static string With(string pieces, string rules = "", string head = "") => $$"""
        { "title": "t", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "p" }, "papers": { "p": {} }, {{head}}
        "pieces": [
        {{pieces}}
        ],
        "rules": [
        {{rules}}
        ] }
        """;
}
