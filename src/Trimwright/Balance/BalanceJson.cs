using System.Text;
using System.Text.Json;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Balance;

/// <summary>A comparison as JSON for other programs. Scores have six decimals, which is more than the render is exact to.</summary>
public static class BalanceJson
{
    private const int Digits = 6;

    /// <summary>Writes a comparison as a JSON text with LF line ends.</summary>
    public static string Write(BalanceComparison comparison)
    {
        using var stream = new MemoryStream();
        using (var json = CardJson.NewWriter(stream))
        {
            Write(json, comparison);
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }

    /// <summary>Writes a comparison as a JSON object.</summary>
    public static void Write(Utf8JsonWriter json, BalanceComparison comparison)
    {
        json.WriteStartObject();
        json.WriteString("title", comparison.AsDrawn.Card.Layout.Title);
        json.WriteString("format", comparison.AsDrawn.Card.Format.Name);
        json.WriteString("held", comparison.AsDrawn.Card.Holding == Layouts.Holding.Portrait ? "portrait" : "landscape");
        json.WriteString("orderedBy", comparison.Ranking.Measure == BalanceMeasure.Deviation ? "dcm" : "apb");
        json.WriteString("ground", comparison.Ranking.Ground == GroundTone.Light ? "light" : "dark");
        Write(json, "tieWithin", BalanceRanking.TieWithin);
        json.WriteNumber("tried", comparison.Tried);
        json.WriteNumber("notTried", comparison.NotTried);
        json.WriteStartArray("variants");
        foreach (var variant in comparison.Variants)
        {
            Write(json, variant, variant == comparison.AsDrawn);
        }

        json.WriteEndArray();
        json.WriteStartArray("leftOut");
        foreach (var variant in comparison.LeftOut)
        {
            json.WriteStartObject();
            json.WriteString("changed", variant.Name);
            json.WriteString("because", variant.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        CardJson.WriteTexts(json, "advice", BalanceReport.Worth);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, ComparedVariant variant, bool isAsDrawn)
    {
        json.WriteStartObject();
        json.WriteNumber("number", variant.Number);
        json.WriteNumber("place", variant.Ranked.Place);
        json.WriteStartArray("tiesWith");
        foreach (var other in variant.TiesWith)
        {
            json.WriteNumberValue(other);
        }

        json.WriteEndArray();
        json.WriteString("changed", variant.Name);
        json.WriteBoolean("asDrawn", isAsDrawn);
        if (variant.Weight is { } weight)
        {
            Write(json, "dcm", weight.Whole.Deviation);
            Write(json, "dx", weight.Whole.Dx);
            Write(json, "dy", weight.Whole.Dy);
            Write(json, "apb", weight.Whole.Preference);
            Write(json, "heaviness", weight.Whole.Heaviness);
            json.WriteStartArray("pieces");
            foreach (var piece in weight.Pieces)
            {
                json.WriteStartObject();
                json.WriteString("piece", piece.Piece);
                Write(json, "share", piece.Share);
                Write(json, "pullRight", piece.PullX);
                Write(json, "pullDown", piece.PullY);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        CardJson.WriteTexts(json, "looksOff", variant.LooksOff);
        CardJson.WriteTexts(json, "newOverlaps", variant.NewOverlaps);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, Rational value)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(BalanceText.Decimals(value, Digits));
    }
}
