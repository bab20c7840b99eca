using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;
using Trimwright.Gallery;

namespace Trimwright.Tests.Golden;

/// <summary>
/// The committed renders are what the program makes today. Accept a wanted change with the gallery writer in tools/, after looking at it.
/// </summary>
public class RenderTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    public static TheoryData<string> Batches() => [.. Repository.BatchNames()];

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_outputs_of_a_demo_are_the_ones_in_renders(string demo) => Compare(GalleryFiles.For(Repository.Path("layouts", demo + ".json")));

    [Theory]
    [MemberData(nameof(Batches))]
    public void The_outputs_of_a_batch_are_the_ones_in_renders(string batch) => Compare(GalleryFiles.ForBatch(Repository.Path("layouts", "batches", batch + ".json")));

    private static void Compare(IReadOnlyList<(string Name, byte[] Content)> files)
    {
        foreach (var (name, content) in files)
        {
            var path = Repository.Path("renders", name);
            Assert.True(File.Exists(path), $"renders/{name} is missing");
            var expected = File.ReadAllBytes(path);
            if (name.EndsWith(".png", StringComparison.Ordinal))
            {
                AssertSamePicture(expected, content, name);
            }
            else if (!expected.AsSpan().SequenceEqual(content))
            {
                File.WriteAllBytes(path + ".received", content);
                Assert.Fail($"renders/{name} differs from what is made now; see renders/{name}.received");
            }
        }
    }

    [Fact]
    public void Every_file_in_renders_belongs_to_a_demo()
    {
        var made = Repository.DemoNames()
            .SelectMany(demo => GalleryFiles.For(Repository.Path("layouts", demo + ".json")))
            .Concat(Repository.BatchNames().SelectMany(batch => GalleryFiles.ForBatch(Repository.Path("layouts", "batches", batch + ".json"))))
            .Select(file => file.Name.Replace('/', Path.DirectorySeparatorChar))
            .ToHashSet();
        var orphans = Directory.GetFiles(Repository.Path("renders"), "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Repository.Path("renders"), path))
            .Where(path => !path.EndsWith(".received", StringComparison.Ordinal) && !made.Contains(path));
        Assert.Empty(orphans);
    }

    // A processor with other vector units may round the last bit of an edge pixel differently, so pictures are compared as pictures:
    // the same size, and no channel of any pixel off by more than 8 of 255.
    private static void AssertSamePicture(byte[] expected, byte[] actual, string name)
    {
        using var a = Image.Load<Rgba32>(expected);
        using var b = Image.Load<Rgba32>(actual);
        Assert.Equal((a.Width, a.Height), (b.Width, b.Height));
        var worst = 0;
        for (var y = 0; y < a.Height; y++)
        {
            for (var x = 0; x < a.Width; x++)
            {
                var (p, q) = (a[x, y], b[x, y]);
                worst = Math.Max(worst, Math.Max(Math.Abs(p.R - q.R), Math.Max(Math.Abs(p.G - q.G), Math.Abs(p.B - q.B))));
            }
        }

        Assert.True(worst <= 8, $"renders/{name} differs by up to {worst} of 255");
    }
}
