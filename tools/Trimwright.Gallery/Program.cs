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
    var stem = Path.GetFileNameWithoutExtension(layout);
    if (args.Length > 0 && !args.Contains(stem))
    {
        continue;
    }

    var folder = Path.Combine(renders, stem);
    if (Directory.Exists(folder))
    {
        Directory.Delete(folder, recursive: true);
    }

    Directory.CreateDirectory(folder);
    foreach (var (name, content) in GalleryFiles.For(layout))
    {
        File.WriteAllBytes(Path.Combine(renders, name), content);
    }

    Console.WriteLine(stem);
}

return 0;
