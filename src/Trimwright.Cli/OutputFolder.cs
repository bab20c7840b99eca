using System.Security.Cryptography;
using System.Text;

namespace Trimwright.Cli;

/// <summary>
/// Writes a set of files into one folder, all or none. A file that is in the way is replaced only if this program wrote it and nobody
/// has changed it since, or if told to.
/// </summary>
/// <remarks>
/// What was written is remembered in a file of checksums in the same folder, one line a file, as sha256sum writes them.
/// </remarks>
internal sealed class OutputFolder(string folder)
{
    /// <summary>The name of the file of checksums.</summary>
    public const string Ledger = ".trimwright-wrote";

    private readonly List<(string Name, byte[] Content)> _files = [];

    public IReadOnlyList<string> Paths => [.. _files.Select(file => Path.Combine(folder, file.Name))];

    public void Add(string name, string content) => Add(name, Encoding.UTF8.GetBytes(content));

    public void Add(string name, byte[] content) => _files.Add((name, content));

    /// <summary>Writes all files that were added.</summary>
    /// <exception cref="UsageException">A file is in the way, or the folder cannot be written; nothing was changed.</exception>
    public void Write(bool force)
    {
        try
        {
            Directory.CreateDirectory(folder);
            var ledger = ReadLedger();
            if (!force)
            {
                RefuseForeignFiles(ledger);
            }

            foreach (var (name, content) in _files)
            {
                ledger[name] = Checksum(content);
            }

            Replace([.. _files, (Ledger, Encoding.UTF8.GetBytes(string.Concat(ledger.Select(entry => $"{entry.Value}  {entry.Key}\n"))))]);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new UsageException($"`{folder}` cannot be written: {problem.Message}", problem);
        }
    }

    private void RefuseForeignFiles(SortedDictionary<string, string> ledger)
    {
        var foreign = _files
            .Where(file => Path.Combine(folder, file.Name) is var path && (Directory.Exists(path) || File.Exists(path))
                && !(ledger.TryGetValue(file.Name, out var known) && File.Exists(path) && known == Checksum(File.ReadAllBytes(path))))
            .Select(file => Path.Combine(folder, file.Name))
            .ToList();
        if (foreign.Count > 0)
        {
            throw new UsageException(
                $"nothing was written, because these files are not, or no longer, as this program wrote them: {string.Join(", ", foreign.Select(path => $"`{path}`"))}. "
                + "Name another folder with --out, or replace them with --force");
        }
    }

    // Every file is complete under another name before the first one takes its place.
    private void Replace(IReadOnlyList<(string Name, byte[] Content)> files)
    {
        var written = new List<(string Temporary, string Path)>();
        try
        {
            foreach (var (name, content) in files)
            {
                var path = Path.Combine(folder, name);
                var temporary = path + ".part";
                written.Add((temporary, path));
                File.WriteAllBytes(temporary, content);
            }

            foreach (var (temporary, path) in written)
            {
                File.Move(temporary, path, overwrite: true);
            }
        }
        finally
        {
            foreach (var (temporary, _) in written)
            {
                File.Delete(temporary);
            }
        }
    }

    private SortedDictionary<string, string> ReadLedger()
    {
        var ledger = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var path = Path.Combine(folder, Ledger);
        if (File.Exists(path))
        {
            foreach (var line in File.ReadAllLines(path))
            {
                if (line.Split("  ", 2) is [var sum, var name])
                {
                    ledger[name] = sum;
                }
            }
        }

        return ledger;
    }

    private static string Checksum(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));
}
