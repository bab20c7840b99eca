using System.Text;
using System.Text.Json;
using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>
/// A fitted card and its trim list as JSON for other programs. Every length stands twice: exactly in nanometres (a whole number, or a
/// fraction as a string) and as a maker reads it.
/// </summary>
public static class CardJson
{
    /// <summary>Writes one card as a JSON text with LF line ends.</summary>
    public static string Write(FittedCard card)
    {
        using var stream = new MemoryStream();
        using (var json = NewWriter(stream))
        {
            Write(json, card);
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>A writer with the settings that all JSON of this project is written with.</summary>
    public static Utf8JsonWriter NewWriter(Stream stream) => new(stream, new JsonWriterOptions
    {
        Indented = true,
        NewLine = "\n",
        // The text goes to files and pipes, never into a web page as it is; fractions and quotes stay readable.
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });

    /// <summary>Writes one card as a JSON object.</summary>
    public static void Write(Utf8JsonWriter json, FittedCard card)
    {
        var unit = card.Unit;
        json.WriteStartObject();
        json.WriteString("title", card.Layout.Title);
        json.WriteString("format", card.Format.Name);
        json.WriteString("held", card.Holding == Holding.Portrait ? "portrait" : "landscape");
        json.WriteString("unit", LengthText.Symbol(unit));
        Write(json, "width", card.Width, unit);
        Write(json, "height", card.Height, unit);
        Write(json, "increment", card.Increment, unit);
        json.WriteBoolean("provedBest", card.NotProvedWithin is null);
        WriteObjects(json, "pieces", card.Pieces, piece => WritePiece(json, piece, unit));
        WriteTrimList(json, TrimList.FromCard(card), unit);
        WriteNotes(json, card, unit);
        json.WriteEndObject();
    }

    /// <summary>Writes diagnostics as an array of objects.</summary>
    public static void Write(Utf8JsonWriter json, string name, IEnumerable<Diagnostic> diagnostics)
    {
        WriteObjects(json, name, diagnostics, diagnostic =>
        {
            json.WriteString("code", diagnostic.Code);
            json.WriteString("severity", diagnostic.Severity == Severity.Error ? "error" : "warning");
            json.WriteString("message", diagnostic.Message);
            WritePlace(json, diagnostic.Place);
            WriteTexts(json, "notes", diagnostic.Notes);
            WriteObjects(json, "related", diagnostic.Related, related =>
            {
                json.WriteString("note", related.Note);
                WritePlace(json, related.Place);
            });
            if (diagnostic.Remedy is { } remedy)
            {
                json.WriteString("remedy", remedy);
            }
        });
    }

    private static void WritePiece(Utf8JsonWriter json, FittedPiece piece, LengthUnit unit)
    {
        json.WriteString("name", piece.Name);
        json.WriteString("kind", TrimWords.Kind(piece.Source.Kind));
        json.WriteString("on", piece.Source.On ?? "card");
        json.WriteString("paper", piece.Source.Paper);
        Write(json, "left", piece.Box.Left, unit);
        Write(json, "top", piece.Box.Top, unit);
        Write(json, "width", piece.Width, unit);
        Write(json, "height", piece.Height, unit);
        if (piece.Source.Picture is { } picture)
        {
            json.WriteString("picture", picture.File);
        }

        if (piece.Source.CutOut is not null)
        {
            Write(json, "outlineWidth", piece.Box.Width, unit);
            Write(json, "outlineHeight", piece.Box.Height, unit);
        }

        json.WriteString("tiltDegrees", piece.Source.Tilt.Degrees.ToString());
        if (piece.Reveal is { } reveal)
        {
            Write(json, "reveal", reveal, unit);
        }

        WriteObjects(json, "mats", piece.Mats, mat =>
        {
            json.WriteString("paper", mat.Source.Paper);
            Write(json, "reveal", mat.Reveal, unit);
            Write(json, "width", mat.Width, unit);
            Write(json, "height", mat.Height, unit);
        });
    }

    private static void WriteTrimList(Utf8JsonWriter json, TrimList list, LengthUnit unit)
    {
        WriteObjects(json, "trimList", list.Lines, line =>
        {
            json.WriteNumber("layer", line.Layer);
            json.WriteString("piece", line.Name);
            json.WriteNumber("count", line.Count);
            json.WriteString("shape", line.Shape);
            json.WriteString("paper", line.Paper);
            Write(json, "width", line.Width, unit);
            Write(json, "height", line.Height, unit);
            json.WriteString("cut", TrimWords.Cut(line.Cut));
            if (line.Die is { } die)
            {
                Write(json, "dieWidth", die.Width, unit);
                Write(json, "dieHeight", die.Height, unit);
            }

            if (line.Blank is { } blank)
            {
                Write(json, "blankWidth", blank.Width, unit);
                Write(json, "blankHeight", blank.Height, unit);
            }

            if (line.On is { } on)
            {
                json.WriteString("mountOn", on);
            }

            if (line.Foam is { } foam)
            {
                Write(json, "foam", foam, unit);
            }

            WriteTexts(json, "notes", line.Notes);
        });
    }

    private static void WriteNotes(Utf8JsonWriter json, FittedCard card, LengthUnit unit)
    {
        var reasons = FitExplainer.Explain(card);
        WriteObjects(json, "gaveWay", card.GaveWay.Select((note, i) => (Note: note, Reasons: i < reasons.Count ? reasons[i] : null)), entry =>
        {
            var note = entry.Note;
            json.WriteString("what", note.What);
            json.WriteString("strength", note.Strength == Strength.Should ? "should" : "may");
            Write(json, "wanted", note.Wanted, unit);
            Write(json, "got", note.Got, unit);
            Write(json, "miss", note.Miss, unit);
            if (note.Because is { } because)
            {
                json.WriteString("because", because);
            }

            WritePlace(json, note.Source);
            WriteObjects(json, "reasons", entry.Reasons ?? [], reason =>
            {
                json.WriteString("text", reason.Text);
                json.WriteBoolean("gaveWayToo", reason.GaveWayToo);
                if (reason.Source is { } place)
                {
                    WritePlace(json, place);
                }
            });
        });
        WriteObjects(json, "loose", card.Loose, note =>
        {
            json.WriteString("what", note.What);
            Write(json, "least", note.Least, unit);
            Write(json, "most", note.Most, unit);
            Write(json, "chosen", note.Chosen, unit);
            WritePlace(json, note.Source);
        });
        WriteObjects(json, "carried", card.Carried, note =>
        {
            json.WriteString("what", note.What);
            Write(json, "drawn", note.Drawn, unit);
            Write(json, "inProportion", note.InProportion, unit);
            Write(json, "got", note.Got, unit);
            WritePlace(json, note.Source);
        });
    }

    private static void WriteObjects<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
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

    /// <summary>Writes texts as an array of strings.</summary>
    public static void WriteTexts(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }

    private static void WritePlace(Utf8JsonWriter json, SourcePlace place)
    {
        json.WriteString("file", place.File);
        if (place.Line > 0)
        {
            json.WriteNumber("line", place.Line);
            json.WriteNumber("column", place.Column);
        }
    }

    internal static void Write(Utf8JsonWriter json, string name, Length length, LengthUnit unit) =>
        Write(json, name, Position.FromLength(length), unit);

    private static void Write(Utf8JsonWriter json, string name, Position position, LengthUnit unit)
    {
        json.WriteStartObject(name);
        if (position.TryToLength(out var length))
        {
            json.WriteNumber("nm", length.Nanometres);
        }
        else
        {
            json.WriteString("nm", position.Nanometres.ToString());
        }

        json.WriteString("text", LengthText.Write(position, unit));
        json.WriteEndObject();
    }
}
