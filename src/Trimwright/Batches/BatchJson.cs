using System.Text;
using System.Text.Json;
using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Batches;

/// <summary>Schedules and leftovers as JSON for other programs, lengths as in <see cref="CardJson"/>.</summary>
public static class BatchJson
{
    /// <summary>Writes a schedule as a JSON object.</summary>
    public static void Write(Utf8JsonWriter json, TrimSchedule schedule)
    {
        var plan = schedule.Plan;
        var unit = plan.Batch.Batch.Unit;
        json.WriteStartObject();
        json.WriteString("title", plan.Batch.Batch.Title);
        json.WriteString("unit", LengthText.Symbol(unit));
        json.WriteBoolean("provedCheapest", plan.Cutting.State == PlanState.ProvedCheapest);
        json.WriteBoolean("stoppedEarly", plan.IsStoppedEarly);
        json.WriteNumber("newSheets", plan.NewSheets);
        json.WriteNumber("cost", plan.Cutting.Cost);
        json.WriteNumber("costAtLeast", plan.Cutting.Bound);
        WriteArray(json, "cards", plan.Cards, made =>
        {
            json.WriteString("card", made.Card.Words);
            json.WriteNumber("count", made.Count);
        });
        WriteArray(json, "sheets", schedule.Sheets, sheet =>
        {
            json.WriteString("letter", sheet.Letter);
            json.WriteString("take", sheet.Words);
            json.WriteNumber("count", sheet.Plan.Repeats);
            json.WriteString("faceUp", sheet.FaceUp);
            json.WritePropertyName("cut");
            WriteNode(json, schedule, sheet, sheet.Plan.Root, unit);
        });
        WriteArray(json, "steps", schedule.Steps, step =>
        {
            json.WriteNumber("number", step.Number);
            CardJson.Write(json, "setting", step.Setting, unit);
            json.WriteString("sheet", step.Sheet);
            json.WriteString("mark", step.Mark);
            json.WriteString("edgeAtFence", ScheduleText.EdgeWord(step.AtFence));
            json.WriteNumber("parts", step.Count);
            json.WriteNumber("times", step.Times);
            json.WriteNumber("strokes", step.Strokes);
            json.WriteBoolean("trueing", step.IsTrueing);
            json.WriteString("held", ScheduleCsv.Named(step.Held));
            json.WriteString("comesOff", step.ComesOff is { } off ? ScheduleCsv.Named(off) : "");
        });
        WriteArray(json, "pieced", plan.Pieced, panel =>
        {
            json.WriteString("card", panel.Card.Words);
            json.WriteString("panel", panel.Panel.Line.Name);
            json.WriteNumber("count", panel.Count);
            json.WriteString("paper", panel.Paper);
            json.WriteString("seamsRun", panel.Direction == Axis.UpDown ? "up-and-down" : "across");
            WriteArray(json, "strips", panel.Strips, strip =>
            {
                CardJson.Write(json, "width", strip.Width, unit);
                CardJson.Write(json, "height", strip.Height, unit);
            });
            WriteArray(json, "seams", panel.Seams, seam =>
            {
                CardJson.Write(json, "at", seam.At, unit);
                CardJson.Write(json, "overlap", seam.Overlap, unit);
                CardJson.WriteTexts(json, "covers", seam.Covers.Select(cover => cover.Name));
            });
        });
        CardJson.WriteTexts(json, "summary", ScheduleText.Summary(schedule));
        CardJson.WriteTexts(json, "leftovers", ScheduleText.Leftovers(schedule));
        CardJson.WriteTexts(json, "untouched", StockText.Untouched(schedule));
        json.WriteEndObject();
    }

    /// <summary>
    /// Writes what is there when the batch is cut, as a file in the form of a batch: papers and stock, for <c>stock-from</c> of the next one. Read again,
    /// it gives exactly that stock: sheets that were not touched with all that was said of them, offcuts that were not used, and new ones.
    /// </summary>
    public static string WriteLeftovers(TrimSchedule schedule)
    {
        var batch = schedule.Plan.Batch.Batch;
        var left = LeftoverStock.After(schedule);
        using var stream = new MemoryStream();
        using (var json = CardJson.NewWriter(stream))
        {
            json.WriteStartObject();
            json.WriteString("title", $"Left over from {batch.Title}");
            json.WriteString("units", LengthText.Symbol(batch.Unit));
            json.WriteStartObject("papers");
            foreach (var paper in batch.Papers.Where(paper => left.Any(sheet => sheet.Shows(paper.Name))))
            {
                WritePaper(json, paper, batch.Unit);
            }

            json.WriteEndObject();
            WriteArray(json, "stock", left, sheet => WriteSheet(json, sheet, batch.Unit));
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    private static void WritePaper(Utf8JsonWriter json, Paper paper, LengthUnit unit)
    {
        json.WriteStartObject(paper.Name);
        json.WriteString("kind", paper.Kind == PaperKind.Patterned ? "patterned" : "cardstock");
        json.WriteString("tone", paper.Colour.ToString());
        if (paper.OneWay)
        {
            json.WriteBoolean("one-way", true);
        }

        if (paper.Grammage is { } grammage)
        {
            WriteDecimal(json, "grammage", grammage);
        }

        if (paper.Caliper is { } caliper)
        {
            json.WriteString("caliper", LengthText.Write(caliper, unit));
        }

        json.WriteEndObject();
    }

    private static void WriteSheet(Utf8JsonWriter json, StockSheet sheet, LengthUnit unit)
    {
        json.WriteString("name", sheet.Name);
        json.WriteString("size", LengthText.WriteSize(sheet.Width, sheet.Height, unit));
        if (sheet.Count is { } count)
        {
            json.WriteNumber("count", count);
        }
        else
        {
            json.WriteString("count", "enough");
        }

        if (sheet.SideB == sheet.SideA)
        {
            json.WriteString("paper", sheet.SideA);
        }
        else
        {
            json.WriteString("side-a", sheet.SideA);
            if (sheet.SideB is { } other)
            {
                json.WriteString("side-b", other);
            }
        }

        if (sheet.Grain is { } grain)
        {
            json.WriteString("grain", grain == Axis.Across ? "across" : "up-and-down");
        }

        if (!sheet.TrueOff.IsZero)
        {
            json.WriteString("true-off", LengthText.Write(sheet.TrueOff, unit));
        }

        if (sheet.Cost is { } cost)
        {
            WriteDecimal(json, "cost", cost);
        }

        if (sheet.IsOffcut)
        {
            json.WriteBoolean("offcut", true);
        }
    }

    // A number of a file is a decimal of at most so many digits.
    private static void WriteDecimal(Utf8JsonWriter json, string name, Rational number)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(LengthText.WriteDecimal(number, LengthValues.LongestNumber));
    }

    private static void WriteNode(Utf8JsonWriter json, TrimSchedule schedule, ScheduledSheet sheet, CutNode node, LengthUnit unit)
    {
        json.WriteStartObject();
        CardJson.Write(json, "left", node.Left, unit);
        CardJson.Write(json, "top", node.Top, unit);
        CardJson.Write(json, "width", node.Width, unit);
        CardJson.Write(json, "height", node.Height, unit);
        switch (node)
        {
            case CutInTwo cut:
                json.WriteNumber("step", schedule.Numbers[cut]);
                json.WriteString("cut", cut.Direction == CutDirection.Upright ? "upright" : "level");
                CardJson.Write(json, "at", cut.At, unit);
                json.WritePropertyName("first");
                WriteNode(json, schedule, sheet, cut.First, unit);
                if (cut.Second is { } second)
                {
                    json.WritePropertyName("second");
                    WriteNode(json, schedule, sheet, second, unit);
                }

                break;
            case CutPiece piece:
                json.WriteBoolean("turned", piece.Turned);
                CardJson.WriteTexts(json, "pieces", ScheduleMaker.PieceNames(schedule.Plan, sheet, [piece]));
                break;
            default:
                json.WriteBoolean("keep", node is CutOffcut);
                break;
        }

        json.WriteEndObject();
    }

    private static void WriteArray<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
