using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>What a card is, in words.</summary>
internal static class CardWords
{
    /// <summary>Format and holding, such as <c>A2, portrait</c>.</summary>
    public static string FormatHeld(FittedCard card) =>
        card.Format.IsSquare ? card.Format.Name : $"{card.Format.Name}, {(card.Holding == Holding.Portrait ? "portrait" : "landscape")}";

    /// <summary>Format, holding and size, such as <c>A2, portrait, 4 1/4 x 5 1/2 in</c>.</summary>
    public static string Describe(FittedCard card) => $"{FormatHeld(card)}, {LengthText.WriteSize(card.Width, card.Height, card.Unit)}";
}
