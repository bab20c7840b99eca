using System.Globalization;

namespace Trimwright.Batches;

/// <summary>The ids of parts in a cutting plan: the place of the card and of its part, such as <c>2/5</c>.</summary>
internal static class BatchIds
{
    private const string Window = "window ";

    public static string Of(int card, int part) => string.Create(CultureInfo.InvariantCulture, $"{card}/{part}");

    public static string OfWindow(int card, int part) => Window + Of(card, part);

    public static bool IsWindow(string id) => id.StartsWith(Window, StringComparison.Ordinal);

    public static (BatchCard Card, BatchPart Part) PartOf(FittedBatch batch, string id)
    {
        var numbers = id.Split('/');
        var card = batch.Cards[int.Parse(numbers[0], CultureInfo.InvariantCulture)];
        return (card, card.Parts[int.Parse(numbers[1], CultureInfo.InvariantCulture)]);
    }
}
