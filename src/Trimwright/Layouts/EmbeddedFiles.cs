namespace Trimwright.Layouts;

/// <summary>The files that are built into the library.</summary>
internal static class EmbeddedFiles
{
    /// <summary>Opens a file of this room by name.</summary>
    public static Stream Open(string name) =>
        typeof(EmbeddedFiles).Assembly.GetManifestResourceStream($"{typeof(EmbeddedFiles).Namespace}.{name}")
        ?? throw new InvalidOperationException($"the library was built without {name}");
}
