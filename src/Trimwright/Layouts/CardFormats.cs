using System.Text.Json;
using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>A format that was read, and the way it is held if its text says so.</summary>
/// <param name="Format">The format.</param>
/// <param name="AsWritten">For a size written width first, which way that holds it; null for a name and for a square.</param>
public sealed record FormatReading(CardFormat Format, Holding? AsWritten);

/// <summary>The catalogue of card formats. The sizes, their envelopes and their sources stand in <c>formats.json</c>.</summary>
public static class CardFormats
{
    private const string SquareWord = "square";

    private static readonly Lazy<(IReadOnlyList<CardFormat> All, IReadOnlyDictionary<string, CardFormat> ByName)> Catalogue = new(Load);

    /// <summary>All formats of the catalogue, the inch formats first, in the order of the catalogue.</summary>
    public static IReadOnlyList<CardFormat> All => Catalogue.Value.All;

    /// <summary>
    /// The format of that name or size; null if the text is neither. Names are compared without regard to case, spaces and points. Sizes
    /// may be any: <c>4 x 6 in</c>, <c>square 4 1/2 in</c>.
    /// </summary>
    /// <param name="text">The text.</param>
    /// <param name="unit">The unit of a size that names none.</param>
    public static CardFormat? Find(string text, LengthUnit unit) => Read(text, unit).Reading?.Format;

    /// <summary>Reads a format by name or size.</summary>
    /// <returns>The format, or what is wrong with the text; exactly one of the two.</returns>
    public static (FormatReading? Reading, LengthProblem? Problem) Read(string text, LengthUnit unit)
    {
        if (Catalogue.Value.ByName.TryGetValue(Key(text), out var known))
        {
            return (new(known, null), null);
        }

        var trimmed = text.Trim();
        if (trimmed.StartsWith(SquareWord, StringComparison.OrdinalIgnoreCase) && trimmed.Length > SquareWord.Length)
        {
            return ReadSquare(trimmed, text.IndexOf(trimmed, StringComparison.Ordinal), unit);
        }

        if (SizeText.LooksLikeSize(text))
        {
            var (size, problem) = SizeText.Read(text, unit);
            return size is { } found ? (OwnSize(found, trimmed), null) : (null, problem);
        }

        var near = NearNames.Nearest(trimmed, All.Select(format => format.Name));
        return (null, new(
            $"`{trimmed}` is no format of the catalogue",
            near is null ? "use a name that `trimwright formats` lists, such as `A2`, or a size such as `4 x 6 in`" : $"did you mean `{near}`?",
            0));
    }

    private static (FormatReading? Reading, LengthProblem? Problem) ReadSquare(string text, int start, LengthUnit unit)
    {
        var (side, problem) = LengthReader.Read(text[SquareWord.Length..], unit);
        if (side is not { } found)
        {
            return (null, problem! with { Start = problem.Start + SquareWord.Length + start });
        }

        if (found.Value <= Length.Zero || found.Strength != Strength.Should)
        {
            return (null, new("the side of a square format is a plain length of more than 0", "write it like `square 5 in`", start));
        }

        var known = All.FirstOrDefault(format => format.IsSquare && format.ShortSide == found.Value && format.Unit == found.Unit);
        return (new(known ?? OwnSize(new(found.Value, found.Value, found.Unit), text).Format, null), null);
    }

    private static FormatReading OwnSize(WrittenSize size, string name)
    {
        var format = new CardFormat(
            name, Length.Min(size.Width, size.Height), Length.Max(size.Width, size.Height), size.Unit, null, "the maker's own size");
        return new(format, format.IsSquare ? null : size.Width < size.Height ? Holding.Portrait : Holding.Landscape);
    }

    private static string Key(string name) =>
        string.Concat(name.Where(letter => !char.IsWhiteSpace(letter) && letter != '.')).ToUpperInvariant();

    private static (IReadOnlyList<CardFormat> All, IReadOnlyDictionary<string, CardFormat> ByName) Load()
    {
        using var stream = EmbeddedFiles.Open("formats.json");
        using var document = JsonDocument.Parse(stream, new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
        var all = new List<CardFormat>();
        var byName = new Dictionary<string, CardFormat>(StringComparer.Ordinal);
        foreach (var entry in document.RootElement.EnumerateArray())
        {
            var card = Size(entry.GetProperty("card").GetString()!);
            (Length, Length)? envelope = entry.TryGetProperty("envelope", out var written) ? Sides(Size(written.GetString()!)) : null;
            var (shortSide, longSide) = Sides(card);
            var format = new CardFormat(
                entry.GetProperty("name").GetString()!, shortSide, longSide, card.Unit, envelope, entry.GetProperty("source").GetString()!);
            all.Add(format);
            byName.Add(Key(format.Name), format);
            if (entry.TryGetProperty("also", out var others))
            {
                foreach (var other in others.EnumerateArray())
                {
                    byName.Add(Key(other.GetString()!), format);
                }
            }
        }

        return (all, byName);
    }

    private static WrittenSize Size(string text) => SizeText.Read(text, LengthUnit.Inch).Size
        ?? throw new InvalidOperationException($"the catalogue holds the size '{text}', which cannot be read");

    private static (Length ShortSide, Length LongSide) Sides(WrittenSize size) =>
        (Length.Min(size.Width, size.Height), Length.Max(size.Width, size.Height));
}
