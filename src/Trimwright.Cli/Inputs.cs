using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Layouts;

namespace Trimwright.Cli;

/// <summary>A layout and a drawer as read from files.</summary>
/// <param name="Layout">The layout, or null after an error.</param>
/// <param name="Drawer">The drawer, or null after an error.</param>
/// <param name="Diagnostics">All errors and warnings of both files.</param>
/// <param name="Sources">The texts of the files, to show the lines that diagnostics point to.</param>
internal sealed record Inputs(
    Layout? Layout, Drawer? Drawer, IReadOnlyList<Diagnostic> Diagnostics, IReadOnlyDictionary<string, string> Sources)
{
    public static Inputs Read(string layoutFile, string? drawerFile)
    {
        var sources = new Dictionary<string, string>(StringComparer.Ordinal);
        var diagnostics = new List<Diagnostic>();
        var layout = ReadLayout(layoutFile, sources, diagnostics);
        var drawer = drawerFile is null ? Drawer.Default : ReadDrawer(drawerFile, sources, diagnostics);
        return new(layout, drawer, diagnostics, sources);
    }

    private static Layout? ReadLayout(string file, Dictionary<string, string> sources, List<Diagnostic> diagnostics)
    {
        if (Bytes(file, LayoutReader.MaxBytes) is not { } bytes)
        {
            diagnostics.Add(LayoutReader.TooLarge(file));
            return null;
        }

        sources[file] = Encoding.UTF8.GetString(bytes);
        var reading = LayoutReader.Read(file, bytes);
        diagnostics.AddRange(reading.Diagnostics);
        return reading.Layout;
    }

    private static Drawer? ReadDrawer(string file, Dictionary<string, string> sources, List<Diagnostic> diagnostics)
    {
        if (Bytes(file, LayoutReader.MaxBytes) is not { } bytes)
        {
            diagnostics.Add(LayoutReader.TooLarge(file));
            return null;
        }

        sources[file] = Encoding.UTF8.GetString(bytes);
        var reading = DrawerReader.Read(file, bytes);
        diagnostics.AddRange(reading.Diagnostics);
        return reading.Drawer;
    }

    // Null when the file is larger than allowed: it is not read at all then.
    private static byte[]? Bytes(string file, long most)
    {
        try
        {
            var info = new FileInfo(file);
            if (Directory.Exists(file))
            {
                throw new UsageException($"`{file}` is a folder; name a layout file in it");
            }

            if (!info.Exists)
            {
                throw new UsageException($"there is no file `{file}`");
            }

            return info.Length > most ? null : File.ReadAllBytes(file);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UsageException($"`{file}` cannot be read: {problem.Message}", problem);
        }
    }
}
