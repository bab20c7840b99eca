using System.Text.Json;
using Trimwright.Cli;

namespace Trimwright.Tests.Cli;

public sealed class CommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("trimwright-test-").FullName;

    public static TheoryData<string> Demos() => Repository.Demos();

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Fit_writes_drawings_and_lists_and_shows_the_list()
    {
        var (code, output, errors) = Run("fit", Demo("bean-row"), "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        Assert.Equal(
            [
                ".trimwright-wrote", "bean-row-a2-portrait-base.svg", "bean-row-a2-portrait-face.svg", "bean-row-a2-portrait-layers.svg",
                "bean-row-a2-portrait-measured.svg", "bean-row-a2-portrait-pieces.svg", "bean-row-a2-portrait-trim-list.csv",
                "bean-row-a2-portrait-trim-list.md",
            ],
            Directory.GetFiles(Out()).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("ground", output, StringComparison.Ordinal);
        Assert.Contains("4 x 5 1/4", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_carries_a_layout_to_another_format_and_holding()
    {
        var (code, output, _) = Run("fit", Demo("bean-row"), "--format", "A7 landscape", "--out", Out());
        Assert.Equal(0, code);
        Assert.Contains("A7 landscape, 7 x 5 in", output, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(Out(), "bean-row-a7-landscape-measured.svg")));
    }

    [Fact]
    public void Batch_writes_maps_schedule_and_leftovers_and_shows_the_first_of_many_steps_and_where_the_rest_is()
    {
        var (code, output, errors) = Run("batch", Repository.Path("layouts", "batches", "seed-swap.json"), "--out", Out());
        Assert.Equal((0, ""), (code, errors));
        var written = Directory.GetFiles(Out()).Select(path => Path.GetFileName(path)).ToList();
        Assert.Contains("seed-swap-sheet-a.svg", written);
        Assert.Contains("seed-swap-schedule.md", written);
        Assert.Contains("seed-swap-schedule.csv", written);
        Assert.Contains("seed-swap-schedule.html", written);
        var pdf = System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(Path.Combine(Out(), "seed-swap-schedule.pdf")));
        Assert.Contains("/MediaBox [0 0 612 792]", pdf, StringComparison.Ordinal);
        Assert.Contains("A worksheet on Letter paper", output, StringComparison.Ordinal);
        Assert.Contains("seed-swap-left-over.json", written);
        Assert.Contains("pad: 12 sheets; no plan uses fewer", output, StringComparison.Ordinal);
        Assert.Contains("edge at the fence", output, StringComparison.Ordinal);

        // Ten rows, and as many more as the spreadsheet has lines after its heading.
        var lines = output.Split('\n').Select(line => line.Trim()).ToList();
        var table = lines.FindIndex(line => line.StartsWith("step ", StringComparison.Ordinal));
        var rest = lines.FindIndex(line => line.StartsWith("... and ", StringComparison.Ordinal));
        Assert.Equal(10, lines[table..rest].Count(line => line.Length > 0 && char.IsAsciiDigit(line[0])));
        var steps = File.ReadAllLines(Path.Combine(Out(), "seed-swap-schedule.csv")).Length - 1;
        Assert.Equal($"... and {steps - 10} steps more: all {steps} are in seed-swap-schedule.pdf, .html and .md", lines[rest]);
        Assert.Matches("A worksheet on Letter paper, [0-9]+ pages", output);
    }

    [Fact]
    public void A_batch_with_a_picture_says_before_the_paper_how_often_and_at_what_size_to_print_it()
    {
        Directory.CreateDirectory(_folder);
        var file = Path.Combine(_folder, "crows.json");
        string[] papers = ["kraft", "cream", "leaf", "moss", "beet", "white"];
        File.WriteAllText(file, $$"""
            { "title": "Crows", "units": "in", "papers": { {{string.Join(", ", papers.Select(paper => $"\"{paper}\": {{}}"))}} },
              "stock": [ {{string.Join(", ", papers.Select(paper => $$"""{ "name": "{{paper}}-sheets", "size": "8 1/2 x 11", "count": 9, "paper": "{{paper}}" }"""))}} ],
              "cards": [ { "layout": {{JsonSerializer.Serialize(Repository.Path("layouts", "scarecrow.json"))}}, "count": 4 } ] }
            """);
        var (code, output, errors) = Run("batch", file, "--out", Out());
        Assert.True(code == 0, errors);

        // By hand, the pixels counted apart from this project: of 760 x 880 pixels the scarecrow is 860 high, which become 3 3/8 in. So 880 become 221 sixty-fourths, and 760 190.9.
        const string told = "print scarecrow.png 4 times, the whole picture ~2 63/64 x ~3 29/64 in";
        var page = File.ReadAllText(Path.Combine(Out(), "crows-schedule.md"));
        Assert.Contains(told, output, StringComparison.Ordinal);
        Assert.InRange(page.IndexOf(told, StringComparison.Ordinal), 1, page.IndexOf("## Take these sheets", StringComparison.Ordinal));
        Assert.Contains("Print first", File.ReadAllText(Path.Combine(Out(), "crows-schedule.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_batch_is_printed_on_the_paper_that_is_asked_for_and_on_no_other()
    {
        var batch = Repository.Path("layouts", "batches", "seed-swap.json");
        var (code, output, _) = Run("batch", batch, "--paper", "a4", "--out", Out());
        Assert.Equal(0, code);
        Assert.Contains("A worksheet on A4 paper", output, StringComparison.Ordinal);
        (code, _, var errors) = Run("batch", batch, "--paper", "foolscap", "--out", Path.Combine(_folder, "other"));
        Assert.Equal(2, code);
        Assert.Contains("`letter` or `a4`", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(_folder, "other")));
    }

    [Theory]
    [InlineData("worksheet")]
    [InlineData("fit")]
    public void A_batch_file_given_to_a_verb_for_layouts_is_told_apart(string verb)
    {
        var batch = Repository.Path("layouts", "batches", "seed-swap.json");
        var (code, _, errors) = Run(verb, batch, "--out", Out());
        Assert.Equal(2, code);
        Assert.Contains($"`trimwright batch {batch}` plans it and writes its worksheet", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Fact]
    public void A_layout_given_to_batch_is_told_apart()
    {
        var layout = Repository.Path("layouts", "bean-row.json");
        var (code, _, errors) = Run("batch", layout, "--out", Out());
        Assert.Equal(2, code);
        Assert.Contains($"`trimwright worksheet {layout}`", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Fact]
    public void Batch_as_json_has_the_steps_and_the_cut_trees()
    {
        var (code, output, _) = Run("batch", Repository.Path("layouts", "batches", "seed-swap.json"), "--out", Out(), "--json");
        Assert.Equal(0, code);
        using var json = JsonDocument.Parse(output);
        var schedule = json.RootElement.GetProperty("schedule");
        Assert.True(schedule.GetProperty("provedCheapest").GetBoolean());
        Assert.NotEqual(0, schedule.GetProperty("steps").GetArrayLength());
        Assert.All(schedule.GetProperty("sheets").EnumerateArray(), sheet => Assert.Contains(sheet.GetProperty("cut").GetProperty("cut").GetString(), (string[])["upright", "level"]));
    }

    [Fact]
    public void A_picture_is_found_from_the_folder_of_its_layout_and_a_lost_one_is_told_with_nothing_written()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "mine"));
        var file = Path.Combine(_folder, "mine", "card.json");
        File.Copy(Repository.Path("layouts", "pictures", "scarecrow.png"), Path.Combine(_folder, "mine", "robin.png"));
        File.WriteAllText(file, """
            { "title": "t", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "p" }, "papers": { "p": {} },
              "pieces": [ { "name": "robin", "kind": "image", "paper": "p", "picture": "robin.png", "height": "3", "place": { "center": "both" } } ] }
            """);
        Assert.Equal(0, Run("fit", file, "--out", Out()).Code);
        Assert.Contains("data:image/png;base64,", File.ReadAllText(Path.Combine(Out(), "card-a2-portrait-face.svg")), StringComparison.Ordinal);

        File.Delete(Path.Combine(_folder, "mine", "robin.png"));
        var lost = Path.Combine(_folder, "lost");
        var (code, _, errors) = Run("fit", file, "--out", lost);
        Assert.Equal(1, code);
        Assert.Contains("there is no picture `robin.png`", errors, StringComparison.Ordinal);
        Assert.Contains(":2:76", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(lost));
    }

    [Fact]
    public void A_bad_batch_is_refused_with_the_line_it_is_about_and_nothing_is_written()
    {
        var file = Path.Combine(_folder, "batch.json");
        File.WriteAllText(file, """
            { "title": "t", "units": "in", "papers": { "kraft": {} },
              "stock": [ { "name": "pad", "size": "6 x 6", "count": 2, "paper": "kraft" } ],
              "cards": [ { "layout": "lost.json", "count": 2 } ] }
            """);
        var (code, _, errors) = Run("batch", file, "--out", Out());
        Assert.Equal(1, code);
        Assert.Contains("E0611", errors, StringComparison.Ordinal);
        Assert.Contains("\"layout\": \"lost.json\"", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Theory]
    [InlineData("fit")]
    [InlineData("mirror")]
    [InlineData("resize", "--to", "A2")]
    public void Dual_gives_each_length_in_the_other_unit_as_well(params string[] verb)
    {
        Assert.Equal(0, Run([verb[0], Demo("bean-row"), .. verb[1..], "--dual", "--out", Out()]).Code);
        var drawing = File.ReadAllText(Directory.GetFiles(Out(), "*-measured.svg").Order(StringComparer.Ordinal).First());

        // A2 is 5 1/2 in high, which is 139.7 mm.
        Assert.Contains("[139.7]", drawing, StringComparison.Ordinal);
        Assert.Contains("in [mm to the nearest 0.1], width x height", drawing, StringComparison.Ordinal);
    }

    [Fact]
    public void Fit_writes_as_many_measured_sheets_as_can_be_read()
    {
        var file = Path.Combine(_folder, "pebbles.json");
        var pebbles = Enumerable.Range(0, 20).Select(i => FormattableString.Invariant($$"""
            { "name": "pebble-{{i}}", "kind": "panel", "paper": "grit", "width": "exactly {{8 + i}}/32", "height": "exactly 1/4", "place": { "from-left": "exactly {{1 + (i % 4)}}/2", "from-top": "exactly {{1 + (i / 4)}}" } }
            """));
        File.WriteAllText(file, $$"""
            {
              "title": "Pebbles", "format": "A7", "held": "portrait", "units": "in", "reveal": "1/8",
              "base": { "paper": "grit", "fold": "left" }, "papers": { "grit": { "kind": "cardstock", "tone": "#c9b48f" } },
              "pieces": [ {{string.Join(",\n", pebbles)}} ]
            }
            """);
        var drawer = Path.Combine(_folder, "drawer.json");
        File.WriteAllText(drawer, """{ "units": "in", "inch-increment": "1/32" }""");

        var (code, _, errors) = Run("fit", file, "--drawer", drawer, "--out", Out());
        Assert.True(code == 0, errors);
        var sheets = Directory.GetFiles(Out(), "*-measured*.svg").Select(Path.GetFileName).ToArray();
        Assert.Contains("pebbles-a7-portrait-measured.svg", sheets);
        Assert.Contains("pebbles-a7-portrait-measured-2.svg", sheets);
        Assert.Contains("pebbles-a7-portrait-measured-3.svg", sheets);
        Assert.DoesNotContain("legibly", errors, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Check_passes_every_demo_without_writing(string demo)
    {
        var (code, _, errors) = Run("check", Demo(demo));
        Assert.Equal((0, ""), (code, errors));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void Mirror_and_resize_work_on_every_demo(string demo)
    {
        var (mirrored, _, _) = Run("mirror", Demo(demo), "--out", Out());
        Assert.Equal(0, mirrored);
        Assert.Contains(Directory.GetFiles(Out()), path => path.EndsWith("-mirrored.svg", StringComparison.Ordinal));
        var (resized, output, _) = Run("resize", Demo(demo), "--to", "A2", "A7 landscape", "square 5 1/4 in", "ISO A6", "--out", Out());
        Assert.Equal(0, resized);
        Assert.True(File.Exists(Path.Combine(Out(), $"{demo}-resized.svg")));
        Assert.Contains("A7 landscape", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_second_run_replaces_what_the_first_wrote_but_not_what_someone_changed()
    {
        Assert.Equal(0, Run("fit", Demo("bean-row"), "--out", Out()).Code);
        Assert.Equal(0, Run("fit", Demo("bean-row"), "--out", Out()).Code);
        var list = Path.Combine(Out(), "bean-row-a2-portrait-trim-list.md");
        File.AppendAllText(list, "my own remark\n");

        var (code, _, errors) = Run("fit", Demo("bean-row"), "--out", Out());
        Assert.Equal(2, code);
        Assert.Contains("--force", errors, StringComparison.Ordinal);
        Assert.EndsWith("my own remark\n", File.ReadAllText(list), StringComparison.Ordinal);

        Assert.Equal(0, Run("fit", Demo("bean-row"), "--out", Out(), "--force").Code);
        Assert.DoesNotContain("my own remark", File.ReadAllText(list), StringComparison.Ordinal);
    }

    [Fact]
    public void A_bad_layout_is_refused_with_all_its_problems_and_nothing_is_written()
    {
        var file = Path.Combine(_folder, "bad.json");
        File.WriteAllText(file, File.ReadAllText(Demo("bean-row"))
            .Replace("\"height\": \"1 3/8\"", "\"heigth\": \"1/3 in\"", StringComparison.Ordinal)
            .Replace("\"from-left\": \"1/4\"", "\"from-left\": \"1/3\"", StringComparison.Ordinal));
        var (code, _, errors) = Run("fit", file, "--out", Out());
        Assert.Equal(1, code);
        Assert.Contains("height", errors, StringComparison.Ordinal);
        Assert.Contains("5/16 in or 3/8 in", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out()));
    }

    [Fact]
    public void A_clash_is_exit_code_1_and_names_lines()
    {
        var file = Path.Combine(_folder, "clash.json");
        File.WriteAllText(file, File.ReadAllText(Demo("bean-row")).Replace("\"height\": \"1 3/8\"", "\"height\": \"exactly 6\"", StringComparison.Ordinal));
        var (code, _, errors) = Run("fit", file, "--out", Out());
        Assert.Equal(1, code);
        Assert.Contains("E0301", errors, StringComparison.Ordinal);
        Assert.Contains("clash.json:", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("fit")]
    [InlineData("fit", "no-such-file.json")]
    [InlineData("fitt", "x.json")]
    [InlineData("resize", "DEMO", "--to", "A77")]
    [InlineData("fit", "DEMO", "--held", "upside-down")]
    [InlineData("fit", "DEMO", "--dpi", "5")]
    public void A_call_that_is_not_right_is_exit_code_2(params string[] args)
    {
        var (code, _, errors) = Run([.. args.Select(arg => arg == "DEMO" ? Demo("bean-row") : arg)]);
        Assert.Equal(2, code);
        Assert.NotEmpty(errors);
    }

    [Fact]
    public void The_JSON_of_a_fit_and_of_an_error_can_be_parsed()
    {
        var (_, output, _) = Run("fit", Demo("bean-row"), "--json", "--out", Out());
        using var good = JsonDocument.Parse(output);
        Assert.Equal("A2", good.RootElement.GetProperty("card").GetProperty("format").GetString());
        Assert.Equal(7, good.RootElement.GetProperty("files").GetArrayLength());

        var file = Path.Combine(_folder, "empty.json");
        File.WriteAllText(file, "");
        var (code, complaint, _) = Run("check", file, "--json");
        using var bad = JsonDocument.Parse(complaint);
        Assert.Equal(1, code);
        Assert.Equal("error", bad.RootElement.GetProperty("diagnostics")[0].GetProperty("severity").GetString());
    }

    [Fact]
    public void The_list_of_formats_names_the_sizes_and_their_sources()
    {
        var (code, output, _) = Run("formats");
        Assert.Equal(0, code);
        Assert.Contains("4 1/4 x 5 1/2 in", output, StringComparison.Ordinal);
        Assert.Contains("105 x 148 mm", output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_printed_drawer_can_be_used_as_a_drawer()
    {
        var (_, drawer, _) = Run("drawer");
        var file = Path.Combine(_folder, "drawer.json");
        File.WriteAllText(file, drawer);
        Assert.Equal(0, Run("check", Demo("trellis"), "--drawer", file).Code);
    }

    [Theory]
    [InlineData("fit")]
    [InlineData("mirror")]
    [InlineData("resize")]
    [InlineData("check")]
    [InlineData("formats")]
    [InlineData("drawer")]
    public void Every_verb_has_an_example_in_its_help(string verb)
    {
        var (code, output, _) = Run(verb, "--help");
        Assert.Equal(0, code);
        Assert.Contains($"Example: trimwright {verb}", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Pictures_come_out_at_the_resolution_asked_for()
    {
        Assert.Equal(0, Run("fit", Demo("bean-row"), "--png", "--dpi", "100", "--out", Out()).Code);
        Assert.True(File.Exists(Path.Combine(Out(), "bean-row-a2-portrait-face.png")));
    }

    private static string Demo(string name) => Repository.Path("layouts", name + ".json");

    private string Out() => Path.Combine(_folder, "out");

    private static (int Code, string Output, string Errors) Run(params string[] args)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        return (Program.Run(args, output, errors, isTerminal: false), output.ToString(), errors.ToString());
    }
}
