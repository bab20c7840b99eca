using Trimwright.Cli;

namespace Trimwright.Tests.Cli;

public sealed class WorksheetCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("trimwright-test-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void It_writes_one_PDF_and_one_page_of_HTML_and_says_how_to_print()
    {
        var (code, output, errors) = Run("worksheet", Demo, "--paper", "A4", "--out", Out);
        Assert.Equal((0, ""), (code, errors));
        Assert.Equal(
            [".trimwright-wrote", "bean-row-a2-portrait-worksheet.html", "bean-row-a2-portrait-worksheet.pdf"],
            Directory.GetFiles(Out).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains("A4 paper", output, StringComparison.Ordinal);
        Assert.Contains("100 %", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_paper_is_refused_with_those_there_are()
    {
        var (code, _, errors) = Run("worksheet", Demo, "--paper", "foolscap", "--out", Out);
        Assert.Equal(2, code);
        Assert.Contains("`foolscap`", errors, StringComparison.Ordinal);
        Assert.Contains("`letter` or `a4`", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out));
    }

    [Fact]
    public void A_layout_that_is_not_right_is_refused_and_nothing_is_written()
    {
        var file = Path.Combine(_folder, "bad.json");
        File.WriteAllText(file, File.ReadAllText(Demo).Replace("\"height\"", "\"heigth\"", StringComparison.Ordinal));
        var (code, _, errors) = Run("worksheet", file, "--out", Out);
        Assert.Equal(1, code);
        Assert.Contains("heigth", errors, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Out));
    }

    [Fact]
    public void A_file_that_someone_changed_is_not_replaced()
    {
        Assert.Equal(0, Run("worksheet", Demo, "--out", Out).Code);
        var page = Path.Combine(Out, "bean-row-a2-portrait-worksheet.html");
        File.AppendAllText(page, "<!-- mine -->");
        Assert.Equal(2, Run("worksheet", Demo, "--out", Out).Code);
        Assert.EndsWith("<!-- mine -->", File.ReadAllText(page), StringComparison.Ordinal);
    }

    [Fact]
    public void Its_help_has_an_example()
    {
        var (code, output, _) = Run("worksheet", "--help");
        Assert.Equal(0, code);
        Assert.Contains("Example: trimwright worksheet", output, StringComparison.Ordinal);
    }

    private static string Demo => Repository.Path("layouts", "bean-row.json");

    private string Out => Path.Combine(_folder, "out");

    private static (int Code, string Output, string Errors) Run(params string[] args)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        return (Program.Run(args, output, errors, isTerminal: false), output.ToString(), errors.ToString());
    }
}
