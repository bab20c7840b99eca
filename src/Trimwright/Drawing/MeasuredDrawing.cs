using Trimwright.Drawing.Measured;
using Trimwright.Fitting;

namespace Trimwright.Drawing;

/// <summary>
/// The card face at true size in pale colours, with the dimensions that a cutter and a gluer need, by the rules of ISO 129-1, ISO 128-2
/// and ISO 3098-1, as textbooks restate them.
/// </summary>
/// <remarks>
/// A card of few pieces is one sheet. A fuller one is an overview with a key, and a sheet for each layer or part of one, so that no
/// sheet says more than can be read: the number of pieces has no limit, and the time grows with it in proportion.
/// </remarks>
public static class MeasuredDrawing
{
    /// <summary>Draws the only sheet or, of a fuller card, the overview; the origin is the upper left corner of the card.</summary>
    public static DrawingList Draw(FittedCard card) => Sheets(card)[0].Drawing;

    /// <summary>Draws all sheets; on each the origin is the upper left corner of the card.</summary>
    /// <param name="card">The card.</param>
    /// <param name="bothUnits">Whether each length is followed by the same in the other unit, in brackets, to the nearest 0.1 mm or 1/64 in.</param>
    public static IReadOnlyList<MeasuredSheet> Sheets(FittedCard card, bool bothUnits = false)
    {
        var index = new CardIndex(card);
        var units = SheetPlan.Units(index, new(NewText()));
        if (units.Sum(unit => unit.Weight) <= SheetPlan.MostWeight)
        {
            var whole = new DetailSheet(index, units, NewText(), isWhole: true);
            if (!whole.IsTooDense || units.Count < 2)
            {
                return [new(1, "", whole.Draw(new(1, 1, "")))];
            }
        }

        var number = 0;
        List<DetailSheet> details = [];
        foreach (var group in SheetPlan.Groups(index, units))
        {
            Add([.. group.Select(unit => unit with { Number = ++number })]);
        }

        var count = details.Count + 1;
        var overview = new OverviewSheet(index, [.. details.Select(sheet => sheet.Units)], NewText());
        const string Key = "the key to the sheets";
        return
        [
            new(1, Key, overview.Draw(new(1, count, Key))),
            .. details.Select((sheet, i) =>
            {
                var shows = OverviewSheet.Shows(sheet.Units);
                return new MeasuredSheet(i + 2, shows, sheet.Draw(new(i + 2, count, shows)));
            }),
        ];

        DimensionText NewText() => new(card.Unit, bothUnits);

        // What is too dense is halved until it can be read, or there is nothing left to halve.
        void Add(List<SheetUnit> group)
        {
            var sheet = new DetailSheet(index, group, NewText(), isWhole: false);
            if (sheet.IsTooDense && group.Count > 1)
            {
                Add(group[..(group.Count / 2)]);
                Add(group[(group.Count / 2)..]);
            }
            else
            {
                details.Add(sheet);
            }
        }
    }
}
