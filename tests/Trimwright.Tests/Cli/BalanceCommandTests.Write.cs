using System.Globalization;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Cli;

/// <summary>What <c>--write</c> writes of the variants that were chosen.</summary>
public sealed partial class BalanceCommandTests
{
    [Fact]
    public void The_variant_chosen_is_written_as_fit_writes_a_card()
    {
        using var json = Json("balance", File("watering-can"), "--out", Out(), "--json");
        var number = json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray()
            .Single(variant => variant.GetProperty("asDrawn").GetBoolean()).GetProperty("number").GetInt32().ToString(CultureInfo.InvariantCulture);
        var (code, output, errors) = Run("balance", File("watering-can"), "--write", number, "4", "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("Before you cut", output, StringComparison.Ordinal);

        // As drawn, the files are those of the verb fit, but for their names; the other is another card.
        var fit = Path.Combine(_folder, "fit");
        Assert.Equal(0, Run("fit", File("watering-can"), "--out", fit).Code);
        var endings = Names(fit).Where(name => name[0] != '.').Select(name => name["watering-can-a7-landscape".Length..]).ToList();
        Assert.True(endings.Count >= 7);
        foreach (var ending in endings)
        {
            Assert.Equal(
                System.IO.File.ReadAllBytes(Path.Combine(fit, "watering-can-a7-landscape" + ending)),
                System.IO.File.ReadAllBytes(Written($"-variant-{number}{ending}")));
        }

        Assert.NotEqual(System.IO.File.ReadAllText(Written($"-variant-{number}-face.svg")), System.IO.File.ReadAllText(Written("-variant-4-face.svg")));
    }

    // The same pages as those of the verb worksheet, but for the lines that say which variant they are of.
    [Fact]
    public void A_variant_chosen_has_its_worksheet_and_the_screen_says_what_to_print()
    {
        var (code, output, errors) = Run("balance", File("watering-can"), "--write", "1", "2", "--paper", "a4", "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("To print:\n  watering-can-a7-landscape-variant-1-worksheet.pdf: the worksheet of no. 1, ", output, StringComparison.Ordinal);
        Assert.Contains("\n  watering-can-a7-landscape-variant-2-worksheet.pdf: the worksheet of no. 2, ", output, StringComparison.Ordinal);
        Assert.Contains("\nWorksheets on A4 paper, ", output, StringComparison.Ordinal);
        Assert.Contains(" pages. Print the PDFs at 100 %", output, StringComparison.Ordinal);
        Assert.StartsWith("%PDF-", System.IO.File.ReadAllText(Written("-variant-2-worksheet.pdf")), StringComparison.Ordinal);

        using var json = Json("balance", File("watering-can"), "--out", Out(), "--json");
        var drawn = json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray()
            .Single(variant => variant.GetProperty("asDrawn").GetBoolean()).GetProperty("number").GetInt32().ToString(CultureInfo.InvariantCulture);
        var alone = Path.Combine(_folder, "alone");
        Assert.Equal(0, Run("worksheet", File("watering-can"), "--paper", "a4", "--out", alone).Code);
        Assert.Contains("pages. Print the PDF at 100 %", Run("balance", File("watering-can"), "--write", drawn, "--paper", "a4", "--out", Out()).Output, StringComparison.Ordinal);
        var variant = System.IO.File.ReadAllText(Written($"-variant-{drawn}-worksheet.html"));
        Assert.Contains($", variant {drawn}</h1>", variant, StringComparison.Ordinal);
        Assert.Equal(
            System.IO.File.ReadAllText(Path.Combine(alone, "watering-can-a7-landscape-worksheet.html")),
            variant.Replace($", variant {drawn}", "", StringComparison.Ordinal).Replace("As drawn. ", "", StringComparison.Ordinal));
    }

    // Written, fitted again with the words that the screen names, and the files of the two compared but for the line that says where a size comes from.
    [Theory]
    [InlineData("watering-can", "a7-landscape")]
    [InlineData("scarecrow", "a2-portrait")]
    [InlineData("garden-gate", "a7-landscape", "--format", "A7", "--held", "landscape")]
    public void The_layout_file_of_a_variant_fits_to_the_card_that_was_written(string demo, string format, params string[] with)
    {
        var (code, output, errors) = Run(["balance", File(demo), "--write", "2", "--out", Out(), .. with]);
        Assert.Equal((0, ""), (code, errors));
        var layout = Path.Combine(Out(), $"{demo}-{format}-variant-2-layout.json");
        Assert.Contains($"\n  trimwright fit {layout}{string.Concat(with.Select(word => " " + word))}\n", output, StringComparison.Ordinal);
        var again = Path.Combine(_folder, "again");
        Assert.Equal((0, ""), (Run(["fit", layout, "--out", again, .. with]) is var fit ? fit.Code : 0, fit.Errors));
        var endings = Names(again).Where(name => name[0] != '.').ToList();
        Assert.True(endings.Count >= 7);
        Assert.All(endings, name => Assert.Equal(
            System.IO.File.ReadAllText(Path.Combine(Out(), name.Replace($"-layout-{format}", "", StringComparison.Ordinal))),
            System.IO.File.ReadAllText(Path.Combine(again, name))));
    }

    [Fact]
    public void A_variant_that_no_layout_file_can_say_is_told()
    {
        var file = Path.Combine(_folder, "own.json");
        System.IO.File.WriteAllText(file, Layout(
            string.Join(", ", Enumerable.Range(1, 20).Select(i => $$"""
                { "name": "bed-{{i}}", "kind": "panel", "paper": "p", "width": "1", "height": "1/8", "place": { "from-left": "1/8", "from-top": "{{i}}/8" } },
                { "name": "seed-{{i}}", "kind": "panel", "paper": "p", "on": "bed-{{i}}", "accent": true, "width": "1/8", "height": "1/8", "place": { "from-top": 0 } }
                """)),
            $$"""{ "may": "{{string.Join(" + ", Enumerable.Range(1, 20).Select(i => $"seed-{i}.left"))}} = 3 in" }"""));
        using var json = Json("balance", file, "--out", Out(), "--json");
        var number = json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray()
            .First(variant => variant.GetProperty("changed").GetString() == "accents alone mirrored").GetProperty("number").GetInt32().ToString(CultureInfo.InvariantCulture);
        Assert.Empty(json.RootElement.GetProperty("withoutLayoutFile").EnumerateArray());
        var (code, output, errors) = Run("balance", file, "--write", number, "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains($"No layout file could be written of:\n  no. {number}, ", output, StringComparison.Ordinal);
        Assert.DoesNotContain(Names(Out()), name => name.EndsWith("-layout.json", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("seed swap")]
    [InlineData("beds(2)&more")]
    public void A_name_that_a_shell_would_take_apart_is_told_in_quotes(string name)
    {
        var folder = Path.Combine(_folder, name);
        var layout = Path.Combine(folder, "trellis-a7-portrait-variant-1-layout.json");
        Assert.Contains($"\n  trimwright fit \"{layout}\"\n", Run("balance", File("trellis"), "--write", "1", "--out", folder).Output, StringComparison.Ordinal);
        Assert.True(System.IO.File.Exists(layout));
    }
}
