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
        var measured = MeasuredDrawing.Sheets(card);
        var numbered = new NumberedFace(list, measured[0].Drawing);
        var left = numbered.Unnumbered.Count == 0 ? "" : $" Too small to be numbered here: {string.Join(", ", numbered.Unnumbered)}.";
        List<WorksheetSection> sections =
        [
            new("", [new WorksheetFigure("face", FaceDrawing.Draw(card), "The card as it will look.", IsMeasuredOn: false)]),
            new("Before you cut", [new WorksheetItems(TakeCare.Lines, IsNumbered: false, IsAside: true)]),
            .. PicturePrint.Of(card) is { Count: > 0 } prints
                ? [new("Print first", [new WorksheetItems([.. prints.Select(print => $"{Capital(print.Sentence)}.")], IsNumbered: false)])]
                : Array.Empty<WorksheetSection>(),
            new("What to cut", [Cuts(list)]),
            new("Putting it together", [new WorksheetItems(AssemblyOrder.Of(list), IsNumbered: true)]),
            new("The face, measured",
            [
                new WorksheetFigure(
                    "measured", numbered.Drawing,
                    $"Sizes in {(card.Unit == LengthUnit.Inch ? "inches" : "millimetres")}. Ringed numbers are those of the list; where a piece has mats, theirs come first.{left}",
                    IsMeasuredOn: true),
                .. measured.Skip(1).Select(sheet => new WorksheetFigure(
                    $"measured-{Whole(sheet.Number)}", sheet.Drawing, $"Sheet {Whole(sheet.Number)} of {Whole(measured.Count)}: {sheet.Shows}.", IsMeasuredOn: true)),
            ]),
        ];
        if (card.Pieces.Count > 0)
        {
            sections.Add(Several("Layer by layer", "layers", SheetPages.OfLayers(LayersDrawing.Draw(card), list, paper), "Glue is dashed, foam dotted.", isMeasuredOn: false));
            sections.Add(Several("The pieces, in outline", "pieces", SheetPages.OfPieces(PieceSheetDrawing.Draw(card), paper), "Lay what you cut on its outline to check it.", isMeasuredOn: true));
        }

        sections.Add(new("The base, laid open",
        [
            new WorksheetFigure("base", NumberedFace.WithoutBlock(BaseDrawing.Draw(card)), "The open base, seen from outside.", IsMeasuredOn: true),
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
            ScreenNote = $"On screen the drawings follow the window. Printed at 100 % on {paper.Name} paper they are true to size.",
            Sections = sections,
        };
    }

    private static WorksheetSection Several(string heading, string name, IReadOnlyList<DrawingList> drawings, string caption, bool isMeasuredOn) => new(
        heading, [.. drawings.Select((drawing, i) => new WorksheetFigure(i == 0 ? name : $"{name}-{Whole(i + 1)}", drawing, caption, isMeasuredOn) { MostScale = isMeasuredOn ? Rational.One : SheetPages.LayerScale })]);

    private static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    private static WorksheetTable Cuts(TrimList list)
    {
        var table = TrimTable.FromList(list);
        var unit = LengthText.Symbol(list.Card.Unit);
        return new(
            "pieces",
            $"All pieces, width before height, in {(unit == "in" ? "inches" : "millimetres")}",
            [
                new("No.", ColumnKind.Number), new("Piece", ColumnKind.About), new("How many", ColumnKind.Number), new($"Size ({unit})", ColumnKind.Size),
                new("Paper", ColumnKind.Words), new("Cut with", ColumnKind.Words), new("Done", ColumnKind.Ticks),
            ],
            [
                .. list.Lines.Select((line, i) => new WorksheetRow(
                    [
                        Whole(line.Layer), line.Name, Whole(line.Count),
                        table.Rows[i][3], line.Paper, table.Rows[i][5], "",
                    ],
                    line.Notes) { Ticks = (1, $"{line.Name} is cut") }),
            ]);
    }

    /// <summary>The sentences of a report: a reason is set in under what it explains, and here follows it.</summary>
    private static List<string> Told(IEnumerable<string> lines)
    {
        List<string> told = [];
        foreach (var line in lines.Select(WithQuotes))
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

    /// <summary>Names in quotes, where the terminal has backticks.</summary>
    internal static string WithQuotes(string line) => Quoted().Replace(line, "‘$1’");

    [GeneratedRegex("`([^`]*)`")]
    private static partial Regex Quoted();

    /// <summary>A text that begins with a capital letter.</summary>
    internal static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
