using System.Text;
using System.Text.RegularExpressions;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Layouts;

/// <summary>Holds docs/layout-file.md to the code.</summary>
public partial class LayoutDocumentTests
{
    private static string Page => File.ReadAllText(Path.Combine(Sample.Root(), "docs", "layout-file.md"));

    [Fact]
    public void The_worked_example_is_a_layout_without_problems()
    {
        var layout = Sample.Good(Fence().Match(Page).Groups[1].Value);
        Assert.Equal(7, layout.Pieces.Count);
    }

    [Fact]
    public void The_example_of_a_drawer_is_a_drawer_without_problems()
    {
        var reading = DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes(DrawerFence().Match(Page).Groups[1].Value));
        Assert.Empty(reading.Diagnostics);
        Assert.Equal(4, reading.Drawer!.Dies.Count);
    }

    [Fact]
    public void Every_key_is_explained()
    {
        var keys = LayoutKeys.Layout.Concat(LayoutKeys.Base).Concat(LayoutKeys.Paper).Concat(LayoutKeys.Piece).Concat(LayoutKeys.Mat)
            .Concat(LayoutKeys.Row).Concat(LayoutKeys.Place).Concat(LayoutKeys.Beside).Concat(LayoutKeys.Rule).Concat(LayoutKeys.Drawer)
            .Concat(LayoutKeys.Die).Distinct();
        Assert.All(keys, key => Assert.Contains($"`{key}`", Page, StringComparison.Ordinal));
    }

    [Fact]
    public void The_table_of_formats_is_the_catalogue()
    {
        string Row(CardFormat format) => $"| `{format.Name}` | {LengthText.WriteSize(format.ShortSide, format.LongSide, format.Unit)} | "
            + $"{LengthText.WriteSize(format.Envelope!.Value.ShortSide, format.Envelope.Value.LongSide, format.Unit)} |";
        var table = Page[Page.IndexOf("| name | card | envelope |", StringComparison.Ordinal)..].TrimEnd().Split('\n');
        Assert.Equal(["| name | card | envelope |", "|---|---|---|", .. CardFormats.All.Select(Row)], table);
    }

    [GeneratedRegex("^```jsonc\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex("^```jsonc drawer\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex DrawerFence();
}
