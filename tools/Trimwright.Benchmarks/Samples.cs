using Trimwright.Layouts;

namespace Trimwright.Benchmarks;

/// <summary>Layouts to measure with.</summary>
internal static class Samples
{
    /// <summary>The demo with twelve pieces, rows counted out.</summary>
    public const string TwelvePieces = "twelve";

    /// <summary>The folder of the project.</summary>
    public static string Folder()
    {
        var folder = AppContext.BaseDirectory;
        while (!Directory.Exists(Path.Combine(folder, "layouts")) || !File.Exists(Path.Combine(folder, "Trimwright.slnx")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("run this inside the project's folder");
        }

        return folder;
    }

    public static byte[] Bytes(string name)
    {
        var folder = Folder();
        return File.ReadAllBytes(name == TwelvePieces
            ? Path.Combine(folder, "tools", "Trimwright.Benchmarks", "twelve.json")
            : Path.Combine(folder, "layouts", name + ".json"));
    }

    public static Layout Read(string name) => LayoutReader.Read(name, Bytes(name)).Layout
        ?? throw new InvalidOperationException($"{name} cannot be read");
}
