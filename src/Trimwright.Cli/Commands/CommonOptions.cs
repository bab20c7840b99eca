using System.CommandLine;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;

namespace Trimwright.Cli.Commands;

/// <summary>The words that several verbs share.</summary>
internal sealed class CommonOptions
{
    public Argument<string> Layout { get; } = new("layout") { Description = "The layout file (JSON)." };

    public Option<string?> Format { get; } = new("--format")
    {
        Description = "The card format: a name from `trimwright formats`, or a size such as \"4 x 6 in\". Default: the layout's own.",
    };

    public Option<string?> Held { get; } = Choice("--held", "How the card is held: portrait or landscape. Default: as the layout is.", "portrait", "landscape");

    public Option<string?> DrawerFile { get; } = new("--drawer")
    {
        Description = "A file with your own tools: trimmer increment, dies, foam (see `trimwright drawer`).",
    };

    public Option<string> Out { get; } = new("--out")
    {
        Description = "The folder to write into; it is made if it is not there.",
        DefaultValueFactory = _ => "cut",
    };

    public Option<bool> Png { get; } = new("--png") { Description = "Write pictures (PNG) of the drawings as well." };

    public Option<bool> Dual { get; } = new("--dual")
    {
        Description = "Give each length of the measured drawings in the other unit as well, in brackets.",
    };

    public Option<int> Dpi { get; } = new("--dpi")
    {
        Description = "Dots per inch of the pictures, 36 to 1200.",
        DefaultValueFactory = _ => 300,
    };

    public Option<bool> Json { get; } = new("--json") { Description = "Print the result as JSON for another program." };

    public Option<bool> Force { get; } = new("--force")
    {
        Description = "Replace files in the folder even if this program did not write them.",
    };

    public Option<bool> NoBalance { get; } = new("--no-balance") { Description = "Say nothing about the balance of the card." };

    /// <summary>The format and holding asked for, or those of the layout.</summary>
    public (CardFormat Format, Holding Holding) FormatFor(ParseResult parsed, Layout layout)
    {
        var held = Holding(parsed.GetValue(Held));
        return parsed.GetValue(Format) is { } text
            ? ReadFormat(text, held, layout)
            : (layout.Format, held ?? layout.Holding);
    }

    /// <summary>Reads a format as written on the command line: a name or a size, with <c>portrait</c> or <c>landscape</c> behind it if wished.</summary>
    /// <exception cref="UsageException">There is no such format.</exception>
    public static (CardFormat Format, Holding Holding) ReadFormat(string text, Holding? held, Layout layout)
    {
        var name = text.Trim();
        foreach (var word in (string[])["portrait", "landscape"])
        {
            if (name.EndsWith(" " + word, StringComparison.OrdinalIgnoreCase))
            {
                held = Holding(word);
                name = name[..^(word.Length + 1)].Trim();
            }
        }

        var (reading, problem) = CardFormats.Read(name, layout.Unit);
        if (reading is not null)
        {
            return (reading.Format, held ?? reading.AsWritten ?? layout.Holding);
        }

        var near = NearNames.Nearest(text.Trim(), CardFormats.All.SelectMany(format => new[] { format.Name, $"{format.Name} portrait", $"{format.Name} landscape" }));
        throw new UsageException($"{problem!.Problem}; {(near is null ? problem.Remedy : $"did you mean `{near}`?")}");
    }

    public static Holding? Holding(string? word) => word?.ToUpperInvariant() switch
    {
        "PORTRAIT" => Layouts.Holding.Portrait,
        "LANDSCAPE" => Layouts.Holding.Landscape,
        _ => null,
    };

    private static Option<string?> Choice(string name, string description, params string[] values)
    {
        var option = new Option<string?>(name) { Description = description };
        option.AcceptOnlyFromAmong(values);
        return option;
    }

    /// <summary>Checks the resolution.</summary>
    public int DotsPerInch(ParseResult parsed) => parsed.GetValue(Dpi) is var dpi and >= 36 and <= 1200
        ? dpi
        : throw new UsageException("--dpi takes a whole number from 36 to 1200");

    /// <summary>The stem of the names of output files, such as <c>bean-row-a2-portrait</c>.</summary>
    public static string Stem(string layoutFile, CardFormat format, Holding holding) =>
        $"{Slug(Path.GetFileNameWithoutExtension(layoutFile))}-{Slug(Fitter.FormatWords(format, holding))}";

    /// <summary>A text as part of a file name: letters and digits, everything else as single hyphens.</summary>
    public static string Slug(string text)
    {
        var words = new string([.. text.Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-')])
            .Split('-', StringSplitOptions.RemoveEmptyEntries);
        return words.Length == 0 ? "layout" : string.Join('-', words);
    }
}
