using System.Globalization;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>Which of the pieces that were cut go to which cards, layer by layer, so that they can be set aside in piles.</summary>
internal static class BatchSorting
{
    /// <summary>A table for each kind of card.</summary>
    public static IEnumerable<WorksheetTable> Of(TrimSchedule schedule)
    {
        var cut = CutPieces(schedule).ToLookup(piece => piece.Id);
        var unit = schedule.Plan.Batch.Batch.Unit;
        for (var card = 0; card < schedule.Plan.Batch.Cards.Count; card++)
        {
            var cards = schedule.Plan.Batch.Cards[card];
            var made = schedule.Plan.Cards.First(made => made.Card.Wanted == cards.Wanted).Count;
            if (made == 0)
            {
                continue;
            }

            var rows = new List<WorksheetRow>();
            for (var part = 0; part < cards.Parts.Count; part++)
            {
                var pieces = cut[BatchIds.Of(card, part)].ToList();
                if (pieces.Count > 0)
                {
                    rows.Add(Row(cards.Parts[part], pieces, unit));
                }
            }

            yield return new(
                "piles", $"{BatchWorksheet.Made(schedule, cards, made)}: {(made == 1 ? "one pile" : $"{Whole(made)} piles, one for each card")}; layer 1 lies at the bottom",
                [
                    new("Layer", ColumnKind.Number), new("Piece", ColumnKind.About), new("Each card", ColumnKind.Number), new("In all", ColumnKind.Number),
                    new($"Size ({LengthText.Symbol(unit)})", ColumnKind.Size), new("Paper", ColumnKind.Words), new("Sheets", ColumnKind.Words),
                ],
                [.. rows.OrderBy(row => int.Parse(row.Cells[0], CultureInfo.InvariantCulture))]);
        }
    }

    private sealed record Found(string Id, string Sheet, string Paper, long Count);

    /// <summary>The pieces on all the sheets, those of one kind on one sheet together.</summary>
    private static IEnumerable<Found> CutPieces(TrimSchedule schedule) =>
        from sheet in schedule.Sheets
        from cut in sheet.Plan.Root.Walk().OfType<CutPiece>().SelectMany(piece => piece.Ids.Select(id => (
            Id: id, Paper: sheet.Stock is { } stock ? ScheduleMaker.PaperOf(schedule.Plan, stock, piece, id) : sheet.FaceUp))).GroupBy(piece => piece)
        select new Found(BatchIds.Anywhere(cut.Key.Id), sheet.Letter, cut.Key.Paper, cut.Count());

    private static WorksheetRow Row(BatchPart part, List<Found> pieces, LengthUnit unit)
    {
        var papers = pieces.GroupBy(piece => piece.Paper).ToList();
        return new(
            [
                Whole(part.Line.Layer), part.Line.Name, Whole(part.Line.Count), Whole(pieces.Sum(piece => piece.Count)), Size(part, unit),
                papers.Count == 1 ? papers[0].Key : string.Join(", ", papers.Select(paper => $"{Whole(paper.Sum(piece => piece.Count))} in {paper.Key}")),
                string.Join(", ", pieces.Select(piece => piece.Sheet).Distinct()),
            ],
            [string.Join("; ", ToFinish(part.Line, unit).Concat(part.Line.Notes))]);
    }

    // What a trimmer cannot do, and where the piece goes: without these a blank would be glued on as it is.
    private static IEnumerable<string> ToFinish(TrimLine line, LengthUnit unit)
    {
        if (TrimTable.BesideTheTrimmer(line, unit) is { } how)
        {
            yield return $"this is the blank: then {how}";
        }

        if (TrimTable.MountOn(line) is { Length: > 0 } mount)
        {
            yield return $"mount on {mount}";
        }
    }

    private static string Size(BatchPart part, LengthUnit unit) => $"{LengthText.WriteBare(part.Width, unit)} x {LengthText.WriteBare(part.Height, unit)}";

    private static string Whole(long value) => value.ToString(CultureInfo.InvariantCulture);
}
