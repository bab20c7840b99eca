using System.Globalization;
using System.Text.Json;
using SkiaSharp;
using Trimwright.Cli;
using Trimwright.Layouts;
using Trimwright.Tests.Balance;
using Trimwright.Tests.Images;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Cli;

public sealed partial class BalanceCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("trimwright-test-").FullName;

    public static TheoryData<string> Demos() => Repository.Demos();

    /// <summary>Those of flat papers alone, which outlines can weigh.</summary>
    public static TheoryData<string> FlatDemos() => [.. Repository.DemoNames().Where(name => Demo(name).Pieces.All(piece => piece.Picture is null))];

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void It_writes_a_sheet_a_page_and_a_table_and_says_why()
    {
        var (code, output, errors) = Run("balance", File("watering-can"), "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Equal(
            [".trimwright-wrote", "watering-can-a7-landscape-balance.csv", "watering-can-a7-landscape-balance.md", "watering-can-a7-landscape-balance.svg"],
            Names(Out()));
        Assert.Contains("as drawn", output, StringComparison.Ordinal);
        Assert.Contains("`can` pulls it", output, StringComparison.Ordinal);
        Assert.Contains("weight as drawn  pull as drawn", output, StringComparison.Ordinal);
        Assert.Contains("Numbers advise, the eye decides", output, StringComparison.Ordinal);
        Assert.Contains("They explain a part of what people call balanced", output, StringComparison.Ordinal);
    }

    // Polygons clipped by another library, no raster: they know the scores to within 0.025, and so places only to within what ties.
    [Theory]
    [MemberData(nameof(FlatDemos))]
    public void The_scores_and_the_order_are_those_of_the_outlines(string demo)
    {
        using var json = Json("balance", File(demo), "--out", Out(), "--json");
        var balance = json.RootElement.GetProperty("balance");
        Assert.Equal("light", balance.GetProperty("ground").GetString());
        var layout = Demo(demo);
        var cards = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default).Found.ToDictionary(variant => variant.Name, variant => variant.Card!);
        var told = balance.GetProperty("variants").EnumerateArray().ToList();
        Assert.Equal(cards.Keys.Order(StringComparer.Ordinal), told.Select(variant => variant.GetProperty("changed").GetString()).Order(StringComparer.Ordinal));
        var scores = new List<double>();
        foreach (var variant in told)
        {
            var (dx, dy, terms) = OutlineWeights.Of(cards[variant.GetProperty("changed").GetString()!]);
            Near(dx, variant.GetProperty("dx"));
            Near(dy, variant.GetProperty("dy"));
            Near(terms.Average(), variant.GetProperty("apb"));
            Near(Math.Sqrt((dx * dx) + (dy * dy)), variant.GetProperty("dcm"));
            scores.Add(Math.Sqrt((dx * dx) + (dy * dy)));
        }

        for (var i = 0; i < told.Count; i++)
        {
            Assert.Equal(i + 1, told[i].GetProperty("number").GetInt32());

            // Everything of a better place is better, but for what the raster may be off at both.
            var place = told[i].GetProperty("place").GetInt32();
            Assert.All(Enumerable.Range(0, place - 1), j => Assert.True(scores[j] < scores[i] + 0.05));
            var ties = told[i].GetProperty("tiesWith").EnumerateArray().Select(number => number.GetInt32()).ToList();
            Assert.Equal(Enumerable.Range(0, told.Count).Where(j => j != i && told[j].GetProperty("place").GetInt32() == place).Select(j => j + 1), ties);
            Assert.All(ties, number => Assert.InRange(Math.Abs(scores[number - 1] - scores[i]), 0, 0.1));
        }

        static void Near(double expected, JsonElement told) => Assert.InRange(told.GetDouble() - expected, -0.025, 0.025);
    }

    // A picture of which the left half is black and the right half clear, on white: the weight lies in the middle of the black half.
    [Fact]
    public void The_picture_that_a_layout_names_is_weighed()
    {
        var file = Path.Combine(_folder, "half.json");
        System.IO.File.WriteAllBytes(Path.Combine(_folder, "half.png"), TestPictures.Encode(
            TestPictures.Make(40, 40, (x, _) => x < 20 ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)255, (byte)255, (byte)255, (byte)255)), SKEncodedImageFormat.Png));
        System.IO.File.WriteAllText(file, Layout("""{ "name": "half", "kind": "image", "picture": "half.png", "cut": "trimmer", "paper": "p", "width": "exactly 2", "height": "exactly 2", "place": { "center": "both" } }"""));
        using var json = Json("balance", file, "--out", Out(), "--json");
        var drawn = json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray().Single(variant => variant.GetProperty("asDrawn").GetBoolean());

        // From 1 1/8 to 2 1/8 in of 4 1/4 in: the middle of it is half an inch off the middle of the card.
        Assert.Equal(100 * 0.5 / 4.25, drawn.GetProperty("dx").GetDouble(), 0.025);
        Assert.Equal(0, drawn.GetProperty("dy").GetDouble(), 0.025);
        Assert.Contains("11.8 % of the width left of the middle", Run("fit", file, "--out", Out()).Output, StringComparison.Ordinal);
        Assert.Equal(2, System.IO.File.ReadAllText(Written("-balance.svg")).Split("<use ").Length - 1);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void A_card_mirrored_left_to_right_has_the_mirrored_deviation_and_ties_with_it(string demo)
    {
        using var json = Json("balance", File(demo), "--out", Out(), "--json");
        var told = json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray().ToList();
        var drawn = told.Single(variant => variant.GetProperty("asDrawn").GetBoolean());
        Assert.Equal("as drawn", drawn.GetProperty("changed").GetString());
        if (told.FirstOrDefault(variant => variant.GetProperty("changed").GetString() == "mirrored left-right") is { ValueKind: JsonValueKind.Object } mirrored)
        {
            // To three decimals: a piece that does not lie on whole nanometres is laid to the nearest one on either side.
            Assert.Equal(-drawn.GetProperty("dx").GetDouble(), mirrored.GetProperty("dx").GetDouble(), 0.001);
            Assert.Equal(drawn.GetProperty("dy").GetDouble(), mirrored.GetProperty("dy").GetDouble(), 0.001);
            Assert.Equal(drawn.GetProperty("place").GetInt32(), mirrored.GetProperty("place").GetInt32());
        }
        else
        {
            // Left out only because it looks the same.
            Assert.Equal(0, drawn.GetProperty("dx").GetDouble(), 0.001);
        }
    }

    [Fact]
    public void The_pieces_weigh_and_pull_as_the_whole()
    {
        using var json = Json("balance", File("bean-row"), "--out", Out(), "--json");
        foreach (var variant in json.RootElement.GetProperty("balance").GetProperty("variants").EnumerateArray())
        {
            double Sum(string what) => variant.GetProperty("pieces").EnumerateArray().Sum(piece => piece.GetProperty(what).GetDouble());
            Assert.Equal(1, Sum("share"), 0.00001);
            Assert.Equal(-variant.GetProperty("dx").GetDouble(), Sum("pullRight"), 0.00001);
            Assert.Equal(-variant.GetProperty("dy").GetDouble(), Sum("pullDown"), 0.00001);
        }
    }

    [Fact]
    public void Page_table_and_screen_have_the_same_figures()
    {
        var (_, output, _) = Run("balance", File("compost-heap"), "--out", Out(), "--show", "200");
        var lines = System.IO.File.ReadAllText(Written("-balance.csv")).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var page = System.IO.File.ReadAllText(Written("-balance.md"));
        Assert.True(lines.Length > 2);
        foreach (var fields in lines[1..].Select(Fields))
        {
            var place = fields[1] + (fields[2].Length > 0 ? "=" : "");
            Assert.Contains($"| {fields[0]} | {place} | {fields[3]} | {string.Join(" | ", fields[5..9])} |", page, StringComparison.Ordinal);
            var row = Assert.Single(output.Split('\n'), line => line.TrimStart().StartsWith($"{fields[0]}  {place}", StringComparison.Ordinal));
            Assert.Equal([fields[0], place, .. fields[3].Split(' '), .. fields[5..9]], row.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        }
    }

    [Fact]
    public void It_can_order_by_the_other_measure()
    {
        using var json = Json("balance", File("bean-row"), "--by", "apb", "--out", Out(), "--json");
        var balance = json.RootElement.GetProperty("balance");
        Assert.Equal("apb", balance.GetProperty("orderedBy").GetString());
        var variants = balance.GetProperty("variants").EnumerateArray().ToList();
        for (var i = 1; i < variants.Count; i++)
        {
            // Within a tie the order is that of fewer changes.
            var sameScore = variants[i].GetProperty("place").GetInt32() == variants[i - 1].GetProperty("place").GetInt32();
            Assert.True(sameScore || variants[i].GetProperty("apb").GetDouble() > variants[i - 1].GetProperty("apb").GetDouble() - 0.05);
        }
    }

    [Fact]
    public void What_was_left_out_what_overlaps_anew_and_how_to_try_more_is_told()
    {
        var output = Run("balance", File("watering-can"), "--out", Out()).Output;
        Assert.Contains("Left out:\n  accents alone mirrored: `pennant-a` would lie over `can`\n  of the other combinations, 9 would cover lettering or a picture\n", output, StringComparison.Ordinal);
        Assert.Contains(", mirrored top-bottom: `pennant-a`, `pennant-b` and `pennant-c` lie over `low-strip`; ", output, StringComparison.Ordinal);
        Assert.DoesNotContain("To try more", output, StringComparison.Ordinal);
        Assert.EndsWith("To make one of them:\n  add its number, such as `--write 1`: its drawings, its trim list, a worksheet to print and a layout file are written\n", output, StringComparison.Ordinal);
        Assert.Contains("30 more combinations were not tried; `--most 40` tries all of them", Run("balance", File("garden-gate"), "--most", "10", "--out", Out()).Output, StringComparison.Ordinal);
        Assert.Contains("no piece is marked as an accent, so only mirrors were tried; write `\"accent\": true` in what may move", Run("balance", File("trellis"), "--out", Out()).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Sheets_after_the_first_are_not_named_like_variants()
    {
        Assert.Equal(0, Run("balance", File("garden-gate"), "--out", Out()).Code);
        Assert.Contains("garden-gate-a6-portrait-balance-sheet-2.svg", Names(Out()));
    }

    [Fact]
    public void A_picture_that_looks_off_the_card_is_told()
    {
        var (_, output, _) = Run("balance", File("watering-can"), "--out", Out());
        var rows = System.IO.File.ReadAllText(Written("-balance.csv")).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(Fields).ToList();

        // The can faces right and stands on the left: it looks into the card as drawn, and off it once it has changed sides.
        Assert.Equal("", rows.Single(fields => fields[3] == "as drawn")[9]);
        var mirrored = rows.Single(fields => fields[3] == "mirrored left-right");
        Assert.Equal("`can` faces right and stands nearer to the right edge, so it looks off the card", mirrored[9]);
        Assert.Contains($"no. {mirrored[0]}: {mirrored[9]}", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_writes_the_same_bytes_each_time()
    {
        var (one, other) = (Path.Combine(_folder, "one"), Path.Combine(_folder, "other"));
        var first = Run("balance", File("trellis"), "--write", "1", "--out", one);
        var second = Run("balance", File("trellis"), "--write", "1", "--out", other);
        Assert.Equal(0, first.Code);
        Assert.Equal(first.Output.Replace(one, other, StringComparison.Ordinal), second.Output);
        Assert.Equal(Names(one), Names(other));
        Assert.All(Names(one), name => Assert.Equal(System.IO.File.ReadAllBytes(Path.Combine(one, name)), System.IO.File.ReadAllBytes(Path.Combine(other, name))));
    }

    [Theory]
    [InlineData("`A77`", "--format", "A77")]
    [InlineData("--most takes a whole number from 1 to 1000", "--most", "0")]
    [InlineData("--most takes a whole number, and `many` is none", "--most", "many")]
    [InlineData("--write takes whole numbers, one after another, and `2,3` is none", "--write", "2,3")]
    [InlineData("did you mean `A7 landscape`?", "--format", "A7 lanscape")]
    [InlineData("use a name that `trimwright formats` lists", "--format", "no such thing")]
    [InlineData("--most takes a whole number from 1 to 1000", "--most", "1001")]
    [InlineData("--show takes a whole number from 1", "--show", "0")]
    [InlineData("--write takes numbers from 1 to", "--write", "900")]
    [InlineData("--write takes numbers from 1 to", "--write", "1", "0")]
    [InlineData("only the layout as drawn fits, as number 1", "--most", "1", "--write", "2")]
    [InlineData("'feel'", "--by", "feel")]
    [InlineData("there is no paper `foolscap`", "--paper", "foolscap")]
    [InlineData("--dpi takes a whole number", "--dpi", "5")]
    public void A_call_that_is_not_right_says_what_would_be(string told, params string[] words)
    {
        var (code, output, errors) = Run(["balance", File("bean-row"), "--out", Out(), .. words]);
        Assert.Equal((2, ""), (code, output));
        Assert.Contains(told, errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Fact]
    public void A_layout_that_does_not_fit_as_drawn_is_refused()
    {
        var file = Path.Combine(_folder, "clash.json");
        System.IO.File.WriteAllText(file, System.IO.File.ReadAllText(File("bean-row")).Replace("\"height\": \"1 3/8\"", "\"height\": \"exactly 6\"", StringComparison.Ordinal));
        var (code, _, errors) = Run("balance", file, "--out", Out());
        Assert.Equal(1, code);
        Assert.Contains("E0301", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Fact]
    public void Where_nothing_else_is_tried_the_layout_as_drawn_is_shown_alone()
    {
        var (code, output, _) = Run("balance", File("bean-row"), "--most", "1", "--out", Out());
        Assert.Equal(0, code);
        Assert.Contains("no variant fits but the layout as drawn; no other was tried, 14 more were not", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("fit", "scarecrow")]
    [InlineData("mirror", "bean-row")]
    public void One_line_tells_the_balance_and_one_switch_silences_it(string verb, string demo)
    {
        var (_, told, _) = Run(verb, File(demo), "--out", Out());
        var silent = Run(verb, File(demo), "--no-balance", "--out", Out());
        var line = Assert.Single(told.Split('\n'), line => line.Contains("balance", StringComparison.Ordinal));
        Assert.StartsWith("  the weight lies ", line, StringComparison.Ordinal);
        Assert.Equal(0, silent.Code);
        Assert.DoesNotContain("balance", silent.Output, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("weight", silent.Output, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("balance", Run(verb, File(demo), "--json", "--out", Out()).Output, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void The_line_tells_what_the_outlines_weigh()
    {
        var (_, told, _) = Run("mirror", File("bean-row"), "--out", Out());
        var (dx, dy, _) = OutlineWeights.Of(Fit(Demo("bean-row")));
        Assert.True(dx < 0 && dy > 0);
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"  the weight lies {-dx:0.0} % of the width right of the middle and {dy:0.0} % of the height above it (DCM "), told, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_says_nothing_of_balance_where_there_is_no_picture() =>
        Assert.DoesNotContain("balance", Run("fit", File("bean-row"), "--out", Out()).Output, StringComparison.OrdinalIgnoreCase);

    [Fact]
    public void A_face_that_is_all_ground_has_no_weight_and_no_balance_to_tell()
    {
        var file = Path.Combine(_folder, "white.json");
        System.IO.File.WriteAllText(file, Layout("""{ "name": "bed", "kind": "panel", "paper": "p", "accent": true, "width": "exactly 1", "height": "exactly 1", "place": { "from-left": "exactly 1/4", "from-top": "exactly 1/4" } }"""));
        Assert.DoesNotContain("balance", Run("fit", file, "--out", Out()).Output, StringComparison.Ordinal);
        var (code, output, errors) = Run("balance", file, "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("it has no weight to balance", output, StringComparison.Ordinal);
        Assert.DoesNotContain("pull as drawn", output, StringComparison.Ordinal);
        Assert.Contains(">1: as drawn<", System.IO.File.ReadAllText(Written("-balance.svg")), StringComparison.Ordinal);
        Assert.Contains(">no weight<", System.IO.File.ReadAllText(Written("-balance.svg")), StringComparison.Ordinal);
    }

    [Fact]
    public void On_a_dark_ground_what_is_light_weighs()
    {
        var file = Path.Combine(_folder, "night.json");
        System.IO.File.WriteAllText(file, """
            {
              "title": "night", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "night" },
              "papers": { "night": { "tone": "black" }, "moon": { "tone": "white" } },
              "pieces": [ { "name": "moon", "kind": "panel", "paper": "moon", "width": "exactly 2 1/8", "height": "exactly 2 3/4", "place": { "from-left": "0", "from-top": "0" } } ]
            }
            """);
        using var json = Json("balance", file, "--out", Out(), "--json");
        var balance = json.RootElement.GetProperty("balance");
        Assert.Equal("dark", balance.GetProperty("ground").GetString());

        // A quarter of the card in its upper left corner: its middle lies a quarter off both ways, 100 d is 35.355.
        var drawn = balance.GetProperty("variants").EnumerateArray().Single(variant => variant.GetProperty("asDrawn").GetBoolean());
        Assert.Equal((25, 25, 35.355339), (drawn.GetProperty("dx").GetDouble(), drawn.GetProperty("dy").GetDouble(), drawn.GetProperty("dcm").GetDouble()));
        Assert.Contains("what is light on it weighs", Run("balance", file, "--out", Out()).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Its_help_has_an_example() =>
        Assert.Contains("Example: trimwright balance", Run("balance", "--help").Output, StringComparison.Ordinal);

    private static string File(string demo) => Repository.Path("layouts", demo + ".json");

    private static IEnumerable<string> Names(string folder) => Directory.GetFiles(folder).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal);

    private string Out() => Path.Combine(_folder, "out");

    private string Written(string ending) => Assert.Single(Directory.GetFiles(Out()), file => file.EndsWith(ending, StringComparison.Ordinal));

    // Quoted fields may hold commas (RFC 4180); no name here holds a quote.
    private static string[] Fields(string line)
    {
        List<string> fields = [""];
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                fields.Add("");
            }
            else
            {
                fields[^1] += c;
            }
        }

        return [.. fields];
    }

    private static JsonDocument Json(params string[] args)
    {
        var (code, output, errors) = Run(args);
        Assert.Equal((0, ""), (code, errors));
        return JsonDocument.Parse(output);
    }

    private static (int Code, string Output, string Errors) Run(params string[] args)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        return (Program.Run(args, output, errors, isTerminal: false), output.ToString(), errors.ToString());
    }
}
