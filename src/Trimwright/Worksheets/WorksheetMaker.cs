using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>Makes the worksheet of a fitted card.</summary>
public static partial class WorksheetMaker
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
        sections.Add(new("The base, open",
        [
            new WorksheetFigure(
                "base", BaseDrawing.Draw(card, withTitle: false), "The open base, seen from outside: score along the dashed line.", IsMeasuredOn: true),
        ]));
        sections.Add(new("Layer by layer",
        [
            .. LayersDrawing.Sheets(card).Select((layer, i) => new WorksheetFigure(
                Numbered("layer", i), layer, i == 0 ? "What is glued where, from the base up: dashes are glue, dots are foam." : "", IsMeasuredOn: false)),
        ]));
        sections.Add(new("Every piece",
        [
            .. PieceSheetDrawing.Sheets(card, paper.Width - PrintMargin, paper.Height - PrintFurniture).Select((sheet, i) => new WorksheetFigure(
                Numbered("pieces", i), sheet, i == 0 ? "The outlines of all pieces: lay your paper on them to compare." : "", IsMeasuredOn: true)),
        ]));
        foreach (var (heading, lines) in FitReport.Of(card, cancel))
        {
            sections.Add(new(Capital(heading), [new WorksheetItems(Told(lines), IsNumbered: false, IsAside: true)]));
        }

        return new()
        {
            Title = card.Layout.Title,
            Summary = Capital(TrimSheet.Headline(list)),
            Paper = paper,
            Sections = sections,
        };
    }

    // What the edges of a page, and its heading, caption and bars, take off the room for a drawing.
    private static readonly Length PrintMargin = Length.FromMillimetres(32);
    private static readonly Length PrintFurniture = Length.FromMillimetres(62);

    private static string Numbered(string name, int index) => string.Create(CultureInfo.InvariantCulture, $"{name}-{index + 1}");

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

    /// <summary>The sentences of a report: a reason is set in under what it explains, and here follows it.</summary>
    private static List<string> Told(IEnumerable<string> lines)
    {
        List<string> told = [];
        foreach (var line in lines.Select(line => Quoted().Replace(line, "‘$1’")))
        {
            if (line.StartsWith(' ') && told.Count > 0)
            {
                told[^1] += ", " + line.Trim();
            }
            else
            {
                told.Add(Capital(line.Trim()));
            }
        }

        return told;
    }

    [GeneratedRegex("`([^`]*)`")]
    private static partial Regex Quoted();

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
