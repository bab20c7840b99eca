using System.Text;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>A trim list as a Markdown page to keep at the cutting mat: the list, what the fit did, and the usual cautions.</summary>
public static class TrimSheet
{
    /// <summary>The usual cautions for cutting paper, one sentence each.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Measure the sheet before the first cut: pads and boxes differ by a millimetre or two.",
        "Keep fingers behind the guard or the ruler; cut away from yourself; close and latch the blade before you pick up the pieces.",
        "A sharp blade needs less force than a blunt one: change it in time, and keep it out of children's reach.",
        "The list gives sizes only; safe use of blades, heat and adhesives is the maker's own care.",
    ];

    /// <summary>Writes the page with LF line ends.</summary>
    public static string Write(TrimList list)
    {
        var card = list.Card;
        var text = new StringBuilder();
        text.Append("# ").Append(card.Layout.Title).Append("\n\n");
        text.Append(Headline(list)).Append("\n\n");
        if (PicturePrint.Of(card) is { Count: > 0 } prints)
        {
            text.Append("Before all else:\n\n");
            AppendLines(text, prints.Select(print => print.Sentence));
            text.Append('\n');
        }

        text.Append(TrimTable.FromList(list).ToMarkdown());
        text.Append('\n').Append(Layers(list)).Append('\n');
        foreach (var (heading, lines) in FitReport.Of(card))
        {
            text.Append("\n## ").Append(char.ToUpperInvariant(heading[0])).Append(heading, 1, heading.Length - 1).Append("\n\n");
            AppendLines(text, lines);
        }

        text.Append("\n## Before you cut\n\n");
        AppendLines(text, Cautions);
        return text.ToString();
    }

    /// <summary>The card in one sentence, such as <c>A2 portrait, 4 1/4 x 5 1/2 in; sizes on the 1/16 in scale; 9 pieces to cut.</c></summary>
    public static string Headline(TrimList list)
    {
        var card = list.Card;
        var envelope = card.Format.Envelope is { } size
            ? $"; envelope {LengthText.WriteSize(size.ShortSide, size.LongSide, card.Unit)}"
            : "";
        return FormattableString.Invariant(
            $"{Fitter.FormatWords(card.Format, card.Holding)}, {LengthText.WriteSize(card.Width, card.Height, card.Unit)}{envelope}; sizes on the {LengthText.Write(card.Increment, card.Unit)} scale, width first; {list.PieceCount} pieces to cut.");
    }

    private static string Layers(TrimList list) =>
        "From the bottom up: " + string.Join(", ", list.Lines.Select(line => line.Name)) + ".";

    private static void AppendLines(StringBuilder text, IEnumerable<string> lines)
    {
        foreach (var line in lines)
        {
            // A reason is set in under what it explains.
            var sentence = line.TrimStart();
            text.Append(sentence.Length < line.Length ? "  - " : "- ").Append(sentence).Append('\n');
        }
    }
}
