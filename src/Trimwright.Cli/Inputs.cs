using System.Text;
using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Layouts;

namespace Trimwright.Cli;

/// <summary>A layout and a drawer as read from files.</summary>
/// <param name="Layout">The layout, or null after an error.</param>
/// <param name="LayoutBytes">What the layout was read from; empty if it was too large to be read.</param>
/// <param name="Drawer">The drawer, or null after an error.</param>
/// <param name="Diagnostics">All errors and warnings of both files.</param>
/// <param name="Sources">The texts of the files, to show the lines that diagnostics point to.</param>
internal sealed record Inputs(
    Layout? Layout, byte[] LayoutBytes, Drawer? Drawer, IReadOnlyList<Diagnostic> Diagnostics, IReadOnlyDictionary<string, string> Sources)
{
    public static Inputs Read(string layoutFile, string? drawerFile)
    {
        var sources = new Dictionary<string, string>(StringComparer.Ordinal);
        var diagnostics = new List<Diagnostic>();
        Layout? layout = null;
        var layoutBytes = Take(layoutFile, sources, diagnostics);
        if (layoutBytes is not null)
        {
            (layout, var problems) = LayoutReader.Read(layoutFile, layoutBytes, picture => OpenPicture(layoutFile, picture));
            if (layout is null)
            {
                WhichFile.RefuseBatch(layoutFile, layoutBytes);
            }

            diagnostics.AddRange(problems);
        }

        var drawer = ReadDrawer(drawerFile, sources, diagnostics);
        return new(layout, layoutBytes ?? [], drawer, diagnostics, sources);
    }

    /// <summary>The drawer of a file, or the usual one where none is named; null after an error.</summary>
    public static Drawer? ReadDrawer(string? drawerFile, Dictionary<string, string> sources, List<Diagnostic> diagnostics)
    {
        if (drawerFile is null)
        {
            return Drawer.Default;
        }

        if (Take(drawerFile, sources, diagnostics) is not { } bytes)
        {
            return null;
        }

        var (drawer, problems) = DrawerReader.Read(drawerFile, bytes);
        diagnostics.AddRange(problems);
        return drawer;
    }

    /// <summary>The bytes of a file, which is then known as a source; null, with a diagnostic, if it is too large.</summary>
    public static byte[]? Take(string file, Dictionary<string, string> sources, List<Diagnostic> diagnostics)
    {
        if (Bytes(file, LayoutReader.MaxBytes) is not { } bytes)
        {
            diagnostics.Add(LayoutReader.TooLarge(file));
            return null;
        }

        sources[file] = Encoding.UTF8.GetString(bytes);
        return bytes;
    }

    /// <summary>Opens a picture by its name as seen from the folder of a layout. Of one that is too large, only enough is read to tell.</summary>
    public static PictureFile OpenPicture(string layoutFile, string picture)
    {
        try
        {
            var path = Path.Combine(Path.GetDirectoryName(layoutFile) ?? "", picture);
            if (Directory.Exists(path))
            {
                return new(null, "it is a folder") { Others = Files(Path.GetDirectoryName(layoutFile) ?? "", [picture.TrimEnd('/', Path.DirectorySeparatorChar)]) };
            }

            if (!File.Exists(path))
            {
                return PictureFile.NotThere with { Others = Pictures(Path.GetDirectoryName(layoutFile) ?? "", Path.GetDirectoryName(picture) ?? "") };
            }

            using var file = File.OpenRead(path);
            var bytes = new byte[Math.Min(file.Length, PictureReader.MostBytes + 1L)];
            file.ReadExactly(bytes);
            return new(bytes);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            return new(null, problem.Message);
        }
    }

    // The files where a picture was looked for, beside the layout and in the folders there: enough to find one that was misspelt.
    private static List<string> Pictures(string folder, string lookedIn)
    {
        const int MostFolders = 100;
        var below = Directory.EnumerateDirectories(Here(folder)).Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal).Take(MostFolders);
        return Files(folder, new[] { lookedIn, "" }.Concat(below).Distinct(StringComparer.Ordinal));
    }

    private static List<string> Files(string folder, IEnumerable<string> below)
    {
        const int MostFiles = 10_000;
        return
        [
            .. below.Select(name => (Name: name, Path: Path.Combine(Here(folder), name))).Where(place => Directory.Exists(place.Path))
                .SelectMany(place => Directory.EnumerateFiles(place.Path).Select(path => Path.Combine(place.Name, Path.GetFileName(path)).Replace('\\', '/')).Order(StringComparer.Ordinal))
                .Take(MostFiles),
        ];
    }

    private static string Here(string folder) => folder.Length == 0 ? "." : folder;

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
