using System.Text.Json;

namespace Trimwright.Cli;

/// <summary>
/// Tells layouts and batch files apart where one was given to the verb of the other. Asked only when a file could not be used: what can be read as the
/// one is never the other.
/// </summary>
internal static class WhichFile
{
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    /// <summary>Refuses a batch file where a layout is wanted.</summary>
    /// <exception cref="UsageException">It is one; the message names the verb.</exception>
    public static void RefuseBatch(string file, byte[] content)
    {
        if (Keys(content) is var keys && keys.Contains("cards") && !keys.Contains("pieces"))
        {
            throw new UsageException($"`{file}` is a batch file, not a layout; `trimwright batch {file}` plans it and writes its worksheet");
        }
    }

    /// <summary>Refuses a layout where a batch file is wanted.</summary>
    /// <exception cref="UsageException">It is one; the message names the verb.</exception>
    public static void RefuseLayout(string file, byte[] content)
    {
        if (Keys(content) is var keys && keys.Contains("pieces") && !keys.Contains("cards"))
        {
            throw new UsageException($"`{file}` is a layout, not a batch file; `trimwright worksheet {file}` writes the worksheet of one card, and `cards` of a batch file can name it");
        }
    }

    // What is no JSON at all is told of by the readers, with its place.
    private static HashSet<string> Keys(byte[] content)
    {
        try
        {
            using var document = JsonDocument.Parse(content, Lenient);
            return document.RootElement.ValueKind == JsonValueKind.Object
                ? [.. document.RootElement.EnumerateObject().Select(property => property.Name)] : [];
        }
        catch (JsonException)
        {
            return [];
        }
    }
}
