using System.Globalization;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>Makes the worksheet of a fitted card.</summary>
public static class WorksheetMaker
{
    /// <summary>Makes it.</summary>
    /// <param name="card">The card.</param>
    /// <param name="paper">The paper that it is to be printed on.</param>
    /// <param name="cancel">Stops the search for what made wishes give way.</param>
    /// <exception cref="OperationCanceledException">The search was stopped.</exception>
    public static Worksheet Make(FittedCard card, PaperSize paper, CancellationToken cancel = default)
    {
        var list = TrimList.FromCard(card);
        var numbered = new NumberedFace(list, MeasuredDrawing.Draw(card));
        var left = numbered.Unnumbered.Count == 0 ? "" : $" Too small to be numbered here: {string.Join(", ", numbered.Unnumbered)}.";
        List<WorksheetSection> sections =
        [
            new("", [new WorksheetFigure("face", FaceDrawing.Draw(card), "The card as it will look.", IsMeasuredOn: false)]),
            new("Before you cut", [new WorksheetItems(TakeCare.Lines, IsNumbered: false, IsAside: true)]),
            new("What to cut", [Cuts(list)]),
            new("Putting it together", [new WorksheetItems(AssemblyOrder.Of(list), IsNumbered: true)]),
            new("The face, measured",
            [
                new WorksheetFigure(
                    "measured", numbered.Drawing,
                    $"Sizes in {(card.Unit == LengthUnit.Inch ? "inches" : "millimetres")}. Ringed numbers are those of the list; where a piece has mats, theirs come first.{left}",
                    IsMeasuredOn: true),
            ]),
        ];
        foreach (var (heading, lines) in FitReport.Of(card, cancel))
        {
            sections.Add(new(Capital(heading), [new WorksheetItems([.. lines.Select(line => line.Trim())], IsNumbered: false)]));
        }

        return new()
        {
            Title = card.Layout.Title,
            Summary = Capital(TrimSheet.Headline(list)),
            Paper = paper,
            Sections = sections,
        };
    }

    private static WorksheetTable Cuts(TrimList list)
    {
        var table = TrimTable.FromList(list);
        var unit = LengthText.Symbol(list.Card.Unit);
        return new(
            $"All pieces, width before height, in {(unit == "in" ? "inches" : "millimetres")}",
            ["No.", "Piece", "How many", $"Size ({unit})", "Paper", "Cut with", "Done"],
            [
                .. list.Lines.Select((line, i) => new WorksheetRow(
                    [
                        line.Layer.ToString(CultureInfo.InvariantCulture), line.Name, line.Count.ToString(CultureInfo.InvariantCulture),
                        table.Rows[i][3], line.Paper, table.Rows[i][5], "",
                    ],
                    line.Notes)),
            ]);
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
