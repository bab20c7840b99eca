using System.Globalization;

namespace Trimwright.Batches;

/// <summary>The ids of parts in a cutting plan: the place of the card and of its part, such as <c>2/5</c>.</summary>
internal static class BatchIds
{
    private const string Window = "window ";
    private const string Inside = " inside";

    public static string Of(int card, int part) => string.Create(CultureInfo.InvariantCulture, $"{card}/{part}");

    public static string OfWindow(int card, int part) => Window + Of(card, part);

    /// <summary>The id of a part that has to come out of a window, where others of it do not.</summary>
    public static string OutOfWindow(string id) => id + Inside;

    /// <summary>Whether an id is that of a part, wherever it comes from.</summary>
    public static bool Is(string id, string part) => id == part || id == OutOfWindow(part);

    public static (BatchCard Card, BatchPart Part) PartOf(FittedBatch batch, string id)
    {
        var numbers = id.Replace(Inside, "", StringComparison.Ordinal).Split('/');
        var card = batch.Cards[int.Parse(numbers[0], CultureInfo.InvariantCulture)];
        return (card, card.Parts[int.Parse(numbers[1], CultureInfo.InvariantCulture)]);
    }
}
