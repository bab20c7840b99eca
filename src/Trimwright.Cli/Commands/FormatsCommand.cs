using System.CommandLine;
using System.Text;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Cli.Commands;

/// <summary><c>formats</c>: the catalogue.</summary>
internal static class FormatsCommand
{
    public static Command Create(Screen screen)
    {
        var json = new Option<bool>("--json") { Description = "Print the list as JSON for another program." };
        var command = new Command("formats", """
            List the card formats, with their envelopes and where the sizes come from. A size of your own, such as "4 x 6 in", works too.

            Example: trimwright formats
            """)
        {
            json,
        };
        command.SetAction(parsed => Run(parsed.GetValue(json), screen));
        return command;
    }

    private static int Run(bool asJson, Screen screen)
    {
        if (asJson)
        {
            WriteJson(screen);
            return Program.Done;
        }

        string[] headings = ["format", "card", "envelope", "source"];
        var rows = CardFormats.All.Select(format => (IReadOnlyList<string>)
        [
            format.Name,
            LengthText.WriteSize(format.ShortSide, format.LongSide, format.Unit),
            format.Envelope is { } envelope ? LengthText.WriteSize(envelope.ShortSide, envelope.LongSide, format.Unit) : "-",
            format.Source,
        ]).ToList();
        screen.Table(headings, rows, TextTable.Plain(headings, rows));
        return Program.Done;
    }

    private static void WriteJson(Screen screen)
    {
        using var stream = new MemoryStream();
        using (var json = CardJson.NewWriter(stream))
        {
            json.WriteStartArray();
            foreach (var format in CardFormats.All)
            {
                json.WriteStartObject();
                json.WriteString("name", format.Name);
                json.WriteString("card", LengthText.WriteSize(format.ShortSide, format.LongSide, format.Unit));
                json.WriteNumber("shortSideNm", format.ShortSide.Nanometres);
                json.WriteNumber("longSideNm", format.LongSide.Nanometres);
                if (format.Envelope is { } envelope)
                {
                    json.WriteString("envelope", LengthText.WriteSize(envelope.ShortSide, envelope.LongSide, format.Unit));
                }

                json.WriteString("source", format.Source);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        screen.Line(Encoding.UTF8.GetString(stream.ToArray()));
    }
}
