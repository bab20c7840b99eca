namespace Trimwright.Worksheets;

/// <summary>The files of this room that are built into the library.</summary>
internal static class SheetFiles
{
    /// <summary>The bytes of a file by name.</summary>
    public static byte[] Read(string name)
    {
        using var stream = typeof(SheetFiles).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"the library was built without {name}");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
