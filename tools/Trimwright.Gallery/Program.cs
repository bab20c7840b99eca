using Trimwright.Gallery;

// Writes renders/ anew from layouts/: dotnet run --project tools/Trimwright.Gallery [name ...]. Look at what changed before you commit it.
if (Environment.GetEnvironmentVariable("CI") == "true")
{
    Console.Error.WriteLine("renders are never rewritten by a build server");
    return 1;
}

var root = Directory.GetCurrentDirectory();
if (!Directory.Exists(Path.Combine(root, "layouts")))
{
    Console.Error.WriteLine("run this in the folder that holds layouts/ and renders/");
    return 2;
}

var renders = Path.Combine(root, "renders");
foreach (var layout in Directory.GetFiles(Path.Combine(root, "layouts"), "*.json").Order(StringComparer.Ordinal))
{
    Write(Path.GetFileNameWithoutExtension(layout), () => GalleryFiles.For(layout));
}

foreach (var batch in Directory.GetFiles(Path.Combine(root, "layouts", "batches"), "*.json").Order(StringComparer.Ordinal))
{
    Write("batches/" + Path.GetFileNameWithoutExtension(batch), () => GalleryFiles.ForBatch(batch));
}

return 0;

void Write(string name, Func<IReadOnlyList<(string Name, byte[] Content)>> make)
{
    if (args.Length > 0 && !args.Contains(name))
    {
        return;
    }

    var folder = Path.Combine(renders, name);
    if (Directory.Exists(folder))
    {
        Directory.Delete(folder, recursive: true);
    }

    Directory.CreateDirectory(folder);
    foreach (var (file, content) in make())
    {
        File.WriteAllBytes(Path.Combine(renders, file), content);
    }

    Console.WriteLine(name);
}
