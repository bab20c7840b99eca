using System.Text;
using System.Text.RegularExpressions;
using Trimwright.Batches;
using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Layouts;
using Trimwright.Tests.Layouts;
using Xunit;

namespace Trimwright.Tests.Diagnostics;

/// <summary>Holds docs/diagnostics.md to the code.</summary>
public partial class DiagnosticDocumentTests
{
    // Too large for a page, or not text at all: E0102 and E0103 are tried in SyntaxTests. The search limit is tried in the
    // solver's tests; E0501, which takes 64 MiB, in PictureReaderTests, and E0505 on a bare machine there. Too many kinds of sheets,
    // too many pieces and a variant that does not fit, which is told beside its reasons, are tried in the tests of batches.
    private static readonly string[] WithoutExample = ["E0102", "E0103", "E0303", "W0302", "E0501", "E0505", "E0602", "E0617", "E0623"];

    private static string Page => File.ReadAllText(Path.Combine(Sample.Root(), "docs", "diagnostics.md"));

    public static TheoryData<string> Codes => [.. Sections().Select(section => section.Code).Except(WithoutExample)];

    [Fact]
    public void Every_code_that_the_source_uses_has_its_section_and_no_section_is_left_over()
    {
        var used = Directory.EnumerateFiles(Path.Combine(Sample.Root(), "src"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(path => CodeInSource().Matches(File.ReadAllText(path)).Select(match => match.Groups[1].Value))
            .Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(used, Sections().Select(section => section.Code).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_section_says_what_and_why_and_how_to_fix_it()
    {
        Assert.All(Sections(), section =>
        {
            Assert.Contains("\nWhat: ", section.Text, StringComparison.Ordinal);
            Assert.Contains("\nWhy: ", section.Text, StringComparison.Ordinal);
            Assert.Contains("\nFix: ", section.Text, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void The_frame_of_the_examples_is_a_layout_without_problems() => Sample.Good(Frame());

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_example_of_a_section_gives_exactly_its_code(string code)
    {
        var section = Sections().Single(section => section.Code == code);
        var example = Fence().Match(section.Text);
        Assert.True(example.Success, $"{code} has no example");
        var text = example.Groups[2].Value;
        var diagnostics = IsOfFitting(code) ? Fitted(text) : example.Groups[1].Value.Trim() switch
        {
            "picture" => OfPicture(text),
            "drawer" => DrawerReader.Read("drawer.json", Encoding.UTF8.GetBytes(text)).Diagnostics,
            "pieces" => Sample.Read(Frame().Replace("\"paper\": \"kraft\" }\n  ]", $"\"paper\": \"kraft\" }},\n{text}\n  ]", StringComparison.Ordinal), OpenPicture).Diagnostics,
            "rules" => Sample.Read(Frame().Replace("\"rules\": []", $"\"rules\": [{text}]", StringComparison.Ordinal)).Diagnostics,
            "batch" => Planned(text),
            "stock" => Planned(InList("stock", text)),
            "cards" => Planned(InList("cards", text)),
            "head" => Sample.Read(FormatLine().Replace(Frame(), _ => text)).Diagnostics,
            _ => Sample.Read(text).Diagnostics,
        };
        Assert.True(diagnostics.Count == 1 && diagnostics[0].Code == code, $"{code} gave:\n{Sample.Lines(diagnostics)}");
        Assert.Equal(code[0] == 'E' ? Severity.Error : Severity.Warning, diagnostics[0].Severity);
        Assert.NotNull(diagnostics[0].Remedy);
    }

    // No picture stands beside the frame, but for one that is locked.
    private static PictureFile OpenPicture(string name) => name == "locked.png" ? new(null, "access is denied") : PictureFile.NotThere;

    private static IReadOnlyList<Diagnostic> OfPicture(string text)
    {
        var example = System.Text.Json.JsonDocument.Parse(text).RootElement;
        var (name, place) = (example.GetProperty("file").GetString()!, SourcePlace.WholeFile("card.json"));
        var reading = PictureReader.Read(name, Convert.FromHexString(example.GetProperty("bytes").GetString()!), place);
        return reading.Picture is null
            ? reading.Diagnostics
            : [.. reading.Diagnostics, .. PictureTracer.Trace(name, reading.Picture, TraceOptions.Default, place).Diagnostics];
    }

    private static bool IsOfFitting(string code) => code[1..3] == "03";

    private static IReadOnlyList<Diagnostic> Fitted(string piece)
    {
        var reading = Sample.Read(Frame().Replace("\"paper\": \"kraft\" }\n  ]", $"\"paper\": \"kraft\" }},\n{piece}\n  ]", StringComparison.Ordinal));
        Assert.Empty(reading.Diagnostics);
        return Trimwright.Fitting.Fitter.Fit(reading.Layout!, Drawer.Default).Diagnostics;
    }

    // The layout of the frame stands beside the batch; so do some strips of a paper with a top.
    private static IReadOnlyList<Diagnostic> Planned(string batch)
    {
        (string, byte[])? Open(string name) => name switch
        {
            "card.json" => (name, Encoding.UTF8.GetBytes(Frame())),
            "panel.json" => (name, """
                { "title": "p", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "kraft" }, "papers": { "kraft": {}, "dots": {} },
                  "pieces": [
                    { "name": "bed", "kind": "panel", "paper": "dots", "place": { "fill": true } },
                    { "name": "twine", "kind": "strip", "runs": "up-and-down", "width": "1/8", "paper": "kraft", "on": "bed", "place": { "span": "up-and-down", "center": "across" } } ] }
                """u8.ToArray()),
            "strips.json" => (name, """
                { "title": "strips", "units": "in", "papers": { "kraft": { "one-way": true } },
                  "stock": [ { "name": "strips", "size": "12 x 12", "count": 6, "paper": "kraft" } ] }
                """u8.ToArray()),
            _ => null,
        };
        var reading = BatchReader.Read("batch.json", Encoding.UTF8.GetBytes(batch), Open);
        if (reading.Batch is null)
        {
            return reading.Diagnostics;
        }

        var fitting = BatchFitter.Fit(reading.Batch, Drawer.Default, Open);
        return [.. reading.Diagnostics, .. fitting.Diagnostics, .. fitting.Batch is { } fitted ? BatchPlanner.Plan(fitted).Diagnostics : []];
    }

    private static string InList(string key, string item) => Regex.Replace(
        Fence().Matches(Page).First(match => match.Groups[1].Value.Trim() == "batch").Groups[2].Value,
        $"\"{key}\": \\[\n.*?\n  \\]", _ => $"\"{key}\": [ {item} ]", RegexOptions.Singleline);

    private static string Frame() => Fence().Matches(Page).First(match => match.Groups[1].Value.Trim() == "frame").Groups[2].Value;

    private static List<(string Code, string Text)> Sections()
    {
        var heads = Heading().Matches(Page);
        return [.. heads.Select((head, i) => (
            head.Groups[1].Value, Page[head.Index..(i + 1 < heads.Count ? heads[i + 1].Index : Page.Length)]))];
    }

    [GeneratedRegex("^## ([EW][0-9]{4}): ", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex("^```jsonc([a-z ]*)\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex("\"([EW][0-9]{4})\"")]
    private static partial Regex CodeInSource();

    [GeneratedRegex("^  \"format\".*$", RegexOptions.Multiline)]
    private static partial Regex FormatLine();
}
