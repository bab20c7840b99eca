using CsCheck;
using Trimwright.Diagnostics;
using Xunit;

namespace Trimwright.Tests.Diagnostics;

public class DiagnosticTextTests
{
    private static string Write(Diagnostic diagnostic, string? source)
    {
        using var writer = new StringWriter();
        DiagnosticText.Write(writer, [diagnostic], source is null
            ? new Dictionary<string, string>()
            : new Dictionary<string, string> { [diagnostic.Place.File] = source });
        return writer.ToString();
    }

    [Fact]
    public void A_diagnostic_shows_its_line_a_mark_related_places_notes_and_help()
    {
        var diagnostic = new Diagnostic("E0207", Severity.Error, "the name `sun` is taken", new("bean.json", 12, 3, 5))
        {
            Related = [new(new("bean.json", 2, 3, 5), "by what stands here")],
            Notes = ["names are unique"],
            Remedy = "give one of the two another name",
        };
        Assert.Equal(
            """
            error[E0207]: the name `sun` is taken
              --> bean.json:12:3
               |
            12 |   "sun",
               |   ^^^^^
              --> bean.json:2:3
               |
             2 |   "sun": 1
               |   ----- by what stands here
               = note: names are unique
               = help: give one of the two another name


            """.ReplaceLineEndings("\n"),
            Write(diagnostic, "{\n  \"sun\": 1\r\n" + new string('\n', 9) + "  \"sun\",\n"));
    }

    [Fact]
    public void A_diagnostic_of_a_whole_file_or_of_a_file_not_at_hand_names_the_place_alone()
    {
        Assert.Equal(
            "warning[W0001]: odd\n --> a.json\n\n", Write(new("W0001", Severity.Warning, "odd", SourcePlace.WholeFile("a.json")), "text"));
        Assert.Equal(" --> a.json:9:1: so", Write(
            new("W0001", Severity.Warning, "odd", new("a.json", 3, 2, 1)) { Related = [new(new("a.json", 9, 1, 1), "so")] }, null).Split('\n')[2]);
        Assert.Equal("error[E1]: odd\n --> a.json:9:1\n\n", Write(new("E1", Severity.Error, "odd", new("a.json", 9, 1, 1)), "text"));
    }

    [Fact]
    public void Of_a_long_line_the_part_round_the_place_is_shown()
    {
        var lines = Write(new("E1", Severity.Error, "m", new("a", 1, 501, 4)), new string('a', 500) + "here" + new string('b', 500)).Split('\n');
        Assert.Equal("1 | ..." + new string('a', 30) + "here" + new string('b', 66) + "...", lines[3]);
        Assert.Equal("  | " + new string(' ', 33) + "^^^^", lines[4]);
    }

    [Fact]
    public void A_mark_goes_no_further_than_what_is_shown()
    {
        var lines = Write(new("E1", Severity.Error, "m", new("a", 1, 1, 5000)), new string('a', 5000)).Split('\n');
        Assert.Equal("  | " + new string('^', 100), lines[4]);
    }

    [Fact]
    public void Tabs_escapes_and_changes_of_direction_are_made_harmless()
    {
        var text = Write(new("E1", Severity.Error, "a\u001b[31mb\nc", new("a\u0007", 1, 2, 1)), "\tx\u202Ey");
        Assert.Contains("error[E1]: a\uFFFD[31mb\uFFFDc\n", text, StringComparison.Ordinal);
        Assert.Contains("\n1 |  x\uFFFDy\n  |  ^\n", text, StringComparison.Ordinal);
        Assert.Contains("--> a\uFFFD:1:2\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mark_stands_below_its_character_behind_characters_of_two_units()
    {
        // The bean sprout is one character and two UTF-16 units.
        var lines = Write(new("E1", Severity.Error, "m", new("a", 1, 4, 2)), "\"🌱é\"").Split('\n');
        Assert.Equal(["1 | \"🌱é\"", "  |   ^^"], lines[3..5]);
    }

    [Fact]
    public void A_byte_order_mark_takes_no_column()
    {
        var lines = Write(new("E1", Severity.Error, "m", new("a", 1, 2, 1)), "\uFEFFabc").Split('\n');
        Assert.Equal(["1 | abc", "  |  ^"], lines[3..5]);
    }

    [Fact]
    public void One_line_is_what_editors_read() => Assert.Equal(
        "bean.json:4:7: error E0201: `width` is 0 in",
        DiagnosticText.OneLine(new("E0201", Severity.Error, "`width` is 0 in", new("bean.json", 4, 7, 1)) { Remedy = "make it more than 0" }));

    [Fact]
    public void Any_place_in_any_text_can_be_written_in_lines_of_bounded_length() =>
        Gen.Select(Gen.String[0, 300], Gen.Int[0, 5], Gen.Int[-2, 400], Gen.Int[-2, 400]).Hold((source, line, column, length) =>
            Write(new("E1", Severity.Error, "m", new("a", line, column, length)), source).Split('\n').All(shown => shown.Length < 220));

    [Fact]
    public void Diagnostics_are_put_into_file_order_and_what_is_said_twice_is_said_once()
    {
        Diagnostic At(int line, int column, string message, int length = 1) => new("E1", Severity.Error, message, new("a", line, column, length));
        Assert.Equal(
            [At(1, 2, "x", 9), At(1, 2, "y"), At(2, 1, "x"), At(2, 10, "x")],
            DiagnosticList.InFileOrder([At(2, 10, "x"), At(1, 2, "x", 9), At(2, 1, "x"), At(1, 2, "y"), At(2, 1, "x"), At(1, 2, "x", 9)]));
    }

    [Fact]
    public void Only_errors_count_as_errors()
    {
        var warning = new Diagnostic("W1", Severity.Warning, "w", SourcePlace.WholeFile("a"));
        Assert.False(new[] { warning }.HasErrors());
        Assert.True(new[] { warning, warning with { Severity = Severity.Error } }.HasErrors());
    }

    [Theory]
    [InlineData("", new[] { "" })]
    [InlineData("a\nb\r\nc\rd", new[] { "a", "b", "c", "d" })]
    [InlineData("a\n\r\n", new[] { "a", "", "" })]
    public void Lines_end_at_LF_CR_LF_and_CR(string text, string[] lines) => Assert.Equal(lines, SourceLines.Split(text));
}
