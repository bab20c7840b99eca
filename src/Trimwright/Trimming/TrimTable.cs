using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>A trim list as a table of texts, one row a line, for the screen and for Markdown.</summary>
/// <param name="Headings">The headings.</param>
/// <param name="Rows">The cells, row by row.</param>
public sealed record TrimTable(IReadOnlyList<string> Headings, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>Makes the table. Sizes are in the unit of the card's format, which the heading names once.</summary>
    public static TrimTable FromList(TrimList list)
    {
        var unit = list.Card.Unit;
        string[] headings = ["layer", "piece", "count", $"size ({LengthText.Symbol(unit)})", "paper", "how to cut", "mount on", "notes"];
        return new(headings, [.. list.Lines.Select(line => Row(line, unit))]);
    }

    private static string[] Row(TrimLine line, LengthUnit unit) =>
    [
        Whole(line.Layer),
        line.Name,
        Whole(line.Count),
        SizeText(line, unit),
        line.Paper,
        CutText(line, unit),
        MountOn(line),
        string.Join("; ", line.Notes),
    ];

    private static string Whole(int value) => value.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static string SizeText(TrimLine line, LengthUnit unit) => line.Shape == "circle"
        ? $"{LengthText.WriteBare(line.Width, unit)} across"
        : $"{LengthText.WriteBare(line.Width, unit)} x {LengthText.WriteBare(line.Height, unit)}";

    private static string CutText(TrimLine line, LengthUnit unit)
    {
        string Blank() => $"{LengthText.WriteBare(line.Blank!.Value.Width, unit)} x {LengthText.WriteBare(line.Blank.Value.Height, unit)}";
        return line.Blank is null ? TrimWords.Cut(line.Cut) : $"{BesideTheTrimmer(line, unit)} from a blank {Blank()}";
    }

    /// <summary>What cuts a line out of its blank, such as <c>die 1 1/4 x 1 3/4</c>; null where the trimmer cuts it to its size.</summary>
    internal static string? BesideTheTrimmer(TrimLine line, LengthUnit unit)
    {
        if (line.Die is { } die)
        {
            var size = line.Shape is "circle" or "square"
                ? LengthText.WriteBare(die.Width, unit)
                : $"{LengthText.WriteBare(die.Width, unit)} x {LengthText.WriteBare(die.Height, unit)}";
            return $"die {size}";
        }

        return line.Blank is null ? null : "scissors";
    }

    /// <summary>What a line is mounted on, with its foam and its tilt; empty for the base.</summary>
    internal static string MountOn(TrimLine line)
    {
        if (line.On is null)
        {
            return "";
        }

        var foam = line.Foam is { } thickness
            ? $" on {LengthText.Write(thickness, LengthText.NaturalUnit(thickness))} foam"
            : "";
        return line.Tilts.All(tilt => tilt.IsZero) ? line.On + foam : $"{line.On}{foam}, tilted {string.Join(", ", line.Tilts.Distinct().Count() == 1 ? line.Tilts.Take(1) : line.Tilts)}";
    }

    /// <summary>The table in plain text with aligned columns and LF line ends.</summary>
    public string ToPlainText() => TextTable.Plain(Headings, Rows, IsNumber);

    /// <summary>The table in Markdown with LF line ends.</summary>
    public string ToMarkdown() => TextTable.Markdown(Headings, Rows, IsNumber);

    private static bool IsNumber(int column) => column is 0 or 2;
}
