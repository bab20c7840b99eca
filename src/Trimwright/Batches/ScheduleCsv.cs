using System.Globalization;
using System.Text;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>A trim schedule as comma-separated values (RFC 4180: CRLF line ends, quotes doubled inside quoted fields).</summary>
public static class ScheduleCsv
{
    private static readonly string[] Headings =
    [
        "cut", "setting", "unit", "sheet", "mark", "edge at the fence", "length of cut", "parts", "times", "strokes", "trueing", "held", "held width",
        "held height", "held count", "comes off", "off width", "off height", "off count",
    ];

    /// <summary>Writes the cuts. Sizes are exact: mixed fractions of an inch, or millimetres, as the unit column says.</summary>
    public static string Write(TrimSchedule schedule)
    {
        var unit = schedule.Plan.Batch.Batch.Unit;
        string Size(Length? length) => length is { } known ? LengthText.WriteBare(known, unit) : "";
        var text = new StringBuilder();
        CsvText.Append(text, Headings);
        foreach (var step in schedule.Steps)
        {
            CsvText.Append(text,
            [
                step.Number.ToString(CultureInfo.InvariantCulture), Size(step.Setting), LengthText.Symbol(unit), step.Sheet, step.Mark,
                ScheduleText.EdgeWord(step.AtFence), Size(step.Length), step.Count.ToString(CultureInfo.InvariantCulture), step.Times.ToString(CultureInfo.InvariantCulture),
                step.Strokes.ToString(CultureInfo.InvariantCulture), step.IsTrueing ? "yes" : "no", Named(step.Held), Size(step.Held.Width),
                Size(step.Held.Height), step.Held.Count.ToString(CultureInfo.InvariantCulture), step.ComesOff is { } off ? Named(off) : "", Size(step.ComesOff?.Width), Size(step.ComesOff?.Height),
                step.ComesOff?.Count.ToString(CultureInfo.InvariantCulture) ?? "",
            ]);
        }

        return text.ToString();
    }

    internal static string Named(CutYield yield) => yield.Kind switch
    {
        YieldKind.Piece => string.Join("; ", yield.Names),
        YieldKind.Part => yield.Mark!,
        YieldKind.Offcut => "offcut",
        _ => "scrap",
    };
}
