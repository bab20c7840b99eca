using System.Globalization;
using System.Text;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>A trim list as comma-separated values (RFC 4180: CRLF line ends, quotes doubled inside quoted fields).</summary>
public static class TrimCsv
{
    private static readonly string[] Headings =
    [
        "layer", "piece", "count", "shape", "paper", "width", "height", "unit", "cut", "die", "blank width", "blank height", "mount on",
        "foam mm", "tilt degrees", "notes",
    ];

    /// <summary>Writes the list. Sizes are exact: mixed fractions of an inch, or millimetres, as the unit column says.</summary>
    public static string Write(TrimList list)
    {
        var text = new StringBuilder();
        CsvText.Append(text, Headings);
        foreach (var line in list.Lines)
        {
            CsvText.Append(text, Fields(line, list.Card.Unit));
        }

        return text.ToString();
    }

    private static string[] Fields(TrimLine line, LengthUnit unit)
    {
        string Size(Length length) => LengthText.WriteBare(length, unit);
        return
        [
            line.Layer.ToString(CultureInfo.InvariantCulture),
            line.Name,
            line.Count.ToString(CultureInfo.InvariantCulture),
            line.Shape,
            line.Paper,
            Size(line.Width),
            Size(line.Height),
            LengthText.Symbol(unit),
            TrimWords.Cut(line.Cut),
            line.Die is { } die ? (die.Width == die.Height ? Size(die.Width) : $"{Size(die.Width)} x {Size(die.Height)}") : "",
            line.Blank is { } blank ? Size(blank.Width) : "",
            line.Blank is { } high ? Size(high.Height) : "",
            line.On ?? "",
            line.Foam is { } foam ? LengthText.WriteBare(foam, LengthUnit.Millimetre) : "",
            line.Tilts.All(tilt => tilt.IsZero) ? "" : string.Join("; ", line.Tilts.Select(tilt => tilt.ToString().TrimEnd('°'))),
            string.Join("; ", line.Notes),
        ];
    }
}
