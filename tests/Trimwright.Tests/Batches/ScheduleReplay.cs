using System.Globalization;
using System.Text.RegularExpressions;
using Trimwright.Batches;
using Trimwright.Cutting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Batches;

/// <summary>
/// Follows a schedule as a person would: takes the sheets from the stock, lays the named edge against the fence, cuts at the setting, marks and puts aside.
/// Knows nothing of how it was planned: it reads the table of sheets and the steps, in nanometres, and looks at what lies on the table in the end.
/// </summary>
internal sealed partial class ScheduleReplay
{
    private readonly TrimSchedule _schedule;
    private readonly Batch _batch;
    private readonly Dictionary<string, List<Rectangle>> _marked = [];
    private readonly List<(Rectangle Size, string Sheet)> _kept = [];
    private readonly Dictionary<string, long> _made = [];

    private ScheduleReplay(TrimSchedule schedule) => (_schedule, _batch) = (schedule, schedule.Plan.Batch.Batch);

    private sealed record Rectangle(long Width, long Height);

    /// <summary>Follows a schedule; any slip fails the test.</summary>
    public static void Check(TrimSchedule schedule)
    {
        var replay = new ScheduleReplay(schedule);
        replay.TakeSheets();
        var number = 0;
        foreach (var step in schedule.Steps)
        {
            Assert.Equal(++number, step.Number);
            replay.Follow(step);
        }

        replay.LookAtTheTable();
    }

    private ScheduledSheet SheetOf(string letter) => _schedule.Sheets.Single(sheet => sheet.Letter == letter);

    private void TakeSheets()
    {
        foreach (var sheets in _schedule.Sheets.Where(sheet => sheet.Stock is not null).GroupBy(sheet => sheet.Stock!.Name))
        {
            var stock = _batch.Stock.Single(known => known.Name == sheets.Key);
            Assert.True(stock.Count is null || sheets.Sum(sheet => sheet.Plan.Repeats) <= stock.Count, $"more of {stock.Name} than there is");
        }

        foreach (var sheet in _schedule.Sheets.Where(sheet => sheet.Stock is not null))
        {
            var stock = sheet.Stock!;
            Assert.True(sheet.FaceUp == stock.SideA || sheet.FaceUp == stock.SideB);
            Put(sheet, new(stock.Width.Nanometres, stock.Height.Nanometres));
        }
    }

    // A sheet that is a piece as it is needs no step, unless its edges are trued.
    private void Put(ScheduledSheet sheet, Rectangle size)
    {
        if (sheet.Plan.Root is CutPiece piece && _schedule.Steps.All(step => step.Sheet != sheet.Letter))
        {
            Assert.Equal(size, new(piece.Width.Nanometres, piece.Height.Nanometres));
            foreach (var id in piece.Ids)
            {
                var (card, part) = _schedule.Plan.PartOf(id);
                Finish(card, part, 1, size, sheet, PaperOn(sheet, part));
            }

            return;
        }

        for (var n = 0; n < sheet.Plan.Repeats; n++)
        {
            Lay(sheet.Letter, size);
        }
    }

    private void Lay(string mark, Rectangle size)
    {
        if (!_marked.TryGetValue(mark, out var parts))
        {
            _marked[mark] = parts = [];
        }

        Assert.All(parts, other => Assert.Equal(size, other));
        parts.Add(size);
    }

    private void Follow(CutStep step)
    {
        var sheet = SheetOf(step.Sheet);
        if (sheet.Window is { } window && !_marked.ContainsKey(sheet.Letter) && step.Mark == sheet.Letter)
        {
            OpenWindows(sheet, window);
        }

        Assert.True(_marked.TryGetValue(step.Mark, out var parts) && parts.Count >= step.Count, $"step {step.Number}: there are not {step.Count} of {step.Mark}");
        var upright = step.AtFence is Edge.Left or Edge.Right;
        Assert.Equal(upright, step.Direction == CutDirection.Upright);
        Assert.True(step.Times >= 1 && (step.Times == 1 || !step.IsTrueing));
        Assert.Equal((step.Count + _schedule.Plan.Batch.Drawer.StackLimit - 1) / _schedule.Plan.Batch.Drawer.StackLimit * step.Times, step.Strokes);
        var part = parts[0];
        parts.RemoveRange(0, (int)step.Count);
        if (parts.Count == 0)
        {
            _marked.Remove(step.Mark);
        }

        var setting = step.Setting.Nanometres;
        var through = upright ? part.Height : part.Width;
        var left = upright ? part.Width : part.Height;
        Assert.Equal(through, step.Length.Nanometres);
        Rectangle Slice(long size) => upright ? new(size, through) : new(through, size);
        for (var n = 0; n < step.Times; n++)
        {
            Assert.InRange(setting, 1, left - 1);
            left -= setting;
        }

        Assert.True(step.IsTrueing || through >= _schedule.Plan.Batch.Drawer.SmallestPiece.Nanometres, $"step {step.Number}: too narrow to hold");
        Assert.NotNull(step.ComesOff);
        Receive(step, sheet, step.Held, Slice(setting), step.Count * step.Times);
        Receive(step, sheet, step.ComesOff, Slice(left), step.Count);
        Assert.True(step.Held.Kind is YieldKind.Piece or YieldKind.Part, $"step {step.Number}: waste is held");
        if (!step.IsTrueing && step.ComesOff.Kind is YieldKind.Offcut or YieldKind.Sliver)
        {
            Assert.True(left >= _schedule.Plan.Batch.Drawer.ThinnestShaving.Nanometres, $"step {step.Number}: too thin a shaving");
        }
    }

    // A window is cut with a knife out of a mat that has come off by then.
    private void OpenWindows(ScheduledSheet sheet, SalvageWindow window)
    {
        Assert.True(_made.GetValueOrDefault(NameOf(window.Card, window.Mat)) >= sheet.Plan.Repeats, $"{sheet.Letter}: the mats are not cut yet");
        var above = window.Card.Parts.First(part => part.Line.Piece == window.Mat.Line.Piece && part.Line.Mat == window.Mat.Line.Mat - 1);
        Assert.True(window.Width + (2 * _batch.GlueMargin) <= above.Width && window.Height + (2 * _batch.GlueMargin) <= above.Height, "the window would show");
        Put(sheet, new(window.Width.Nanometres, window.Height.Nanometres));
    }

    private void Receive(CutStep step, ScheduledSheet sheet, CutYield yield, Rectangle size, long count)
    {
        Assert.Equal(size, new(yield.Width.Nanometres, yield.Height.Nanometres));
        Assert.Equal(count, yield.Count);
        switch (yield.Kind)
        {
            case YieldKind.Part:
                for (var n = 0; n < count; n++)
                {
                    Lay(yield.Mark!, size);
                }

                // The last trueing cut of a sheet that needs no other gives the piece itself.
                if (step.IsTrueing && sheet.Plan.Root is CutPiece && !_schedule.Steps.Any(later => later.Number > step.Number && later.Sheet == sheet.Letter))
                {
                    _marked.Remove(yield.Mark!);
                    foreach (var id in ((CutPiece)sheet.Plan.Root).Ids)
                    {
                        var (card, part) = _schedule.Plan.PartOf(id);
                        Finish(card, part, 1, size, sheet, PaperOn(sheet, part));
                    }
                }

                break;
            case YieldKind.Piece:
                Assert.Equal(count, yield.Names.Sum(name => Receive(name, size, sheet)));
                break;
            case YieldKind.Offcut:
                Assert.True(IsWorthKeeping(size));
                _kept.AddRange(Enumerable.Repeat((size, sheet.Letter), (int)count));
                break;
            default:
                Assert.True(step.IsTrueing || !IsWorthKeeping(size), $"step {step.Number}: a leftover is thrown away");
                break;
        }
    }

    private long Receive(string words, Rectangle size, ScheduledSheet sheet)
    {
        var match = Words().Match(words);
        Assert.True(match.Success, words);
        var count = long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture);
        var rest = match.Groups[2].Value;
        var found = _schedule.Plan.Cards.Where(made => made.Count > 0).Select(made => made.Card).SelectMany(card => card.Parts.Select(part => (card, part)))
            .Where(entry => rest == NameOf(entry.card, entry.part) || rest.StartsWith(NameOf(entry.card, entry.part) + " in ", StringComparison.Ordinal)).ToList();
        Assert.True(found.Count == 1, $"`{words}` could be {found.Count} things");
        var (owner, wanted) = found[0];
        var name = NameOf(owner, wanted);
        Finish(owner, wanted, count, size, sheet, rest.Length > name.Length ? rest[(name.Length + 4)..] : PaperOn(sheet, wanted));
        return count;
    }

    private void Finish(BatchCard card, BatchPart part, long count, Rectangle size, ScheduledSheet sheet, string paper)
    {
        var (width, height) = part.Line.Blank is { } blank ? (blank.Width.Nanometres, blank.Height.Nanometres) : (part.Line.Width.Nanometres, part.Line.Height.Nanometres);
        var name = NameOf(card, part);
        Assert.True(size == new Rectangle(width, height) || size == new Rectangle(height, width), $"{name} is {size}");
        Assert.Contains(paper, (string?[])[sheet.Stock is null ? sheet.Window!.Paper : sheet.Stock.SideA, sheet.Stock?.SideB]);
        var papers = card.Wanted.StandIns.FirstOrDefault(entry => entry.Paper == part.Line.Paper)?.From ?? [part.Line.Paper];
        Assert.Contains(paper, papers);
        if (width != height)
        {
            var isTurned = size != new Rectangle(width, height);
            Assert.False(IsOneWay(paper) && isTurned, $"{name} is cut with its pattern lying on its side");
            if (part.Line.Name == "card base" && sheet.Stock?.Grain is { } grain)
            {
                // The fold of a card that opens like a book runs up and down the blank.
                var foldsUpDown = (card.Card.Layout.Base.Fold == Edge.Left) != isTurned;
                Assert.True(foldsUpDown == (grain == Axis.UpDown), $"{name} is folded against the grain");
            }
        }

        _made[name] = _made.GetValueOrDefault(name) + count;
    }

    private void LookAtTheTable()
    {
        foreach (var sheet in _schedule.Sheets.Where(sheet => sheet.Window is not null && sheet.Plan.Root is CutPiece))
        {
            OpenWindows(sheet, sheet.Window!);
        }

        Assert.All(_schedule.Plan.Pieced, CheckSeam);
        Assert.All(_schedule.Plan.Salvage, window => Assert.True(
            window.Used + _schedule.Plan.Pieced.Where(panel => ReferenceEquals(panel.Card, window.Card) && panel.Panel.Line.Piece == window.Mat.Line.Piece).Sum(panel => panel.Count)
                <= _made[NameOf(window.Card, window.Mat)],
            "a seam lies over a window"));
        Assert.True(_marked.Count == 0, $"left on the table: {string.Join(", ", _marked.Keys)}");
        foreach (var (card, count) in _schedule.Plan.Cards)
        {
            Assert.True(card.Wanted.AsManyAsPossible ? count >= card.Wanted.Count : count == card.Wanted.Count);
            foreach (var part in card.Parts.Where(_ => count > 0))
            {
                var pieced = _schedule.Plan.Pieced.Where(panel => ReferenceEquals(panel.Card, card)).ToList();
                var isStrip = part.Line.Name.Contains("strip of ", StringComparison.Ordinal);
                var wanted = isStrip ? pieced.Sum(panel => panel.Count * panel.Strips.Count(strip => ReferenceEquals(strip, part)))
                    : ((long)count * part.Line.Count) - pieced.Where(panel => ReferenceEquals(panel.Panel, part)).Sum(panel => panel.Count);
                Assert.Equal((NameOf(card, part), wanted), (NameOf(card, part), _made.GetValueOrDefault(NameOf(card, part))));
            }
        }

        string Told(Rectangle size, string? a, string? b, Axis? grain) => $"{size} {a}/{b} {grain}";
        var listed = LeftoverStock.Of(_schedule)
            .SelectMany(stock => Enumerable.Repeat(Told(new(stock.Width.Nanometres, stock.Height.Nanometres), stock.SideA, stock.SideB, stock.Grain), stock.Count!.Value));
        var kept = _kept.Select(entry =>
        {
            var sheet = SheetOf(entry.Sheet);
            return sheet.Stock is { } stock ? Told(entry.Size, stock.SideA, stock.SideB, stock.Grain) : Told(entry.Size, sheet.Window!.Paper, null, null);
        });
        Assert.Equal(kept.Order(StringComparer.Ordinal), listed.Order(StringComparer.Ordinal));
    }

    /// <summary>The strips lie side by side as the panel lies, make all of it, are of one paper, and no seam between them shows.</summary>
    private void CheckSeam(PiecedPanel pieced)
    {
        var panel = pieced.Panel;
        var card = pieced.Card.Card;
        Assert.True(pieced.Count > 0 && pieced.Strips.Count >= 2 && pieced.Seams.Count == pieced.Strips.Count - 1);
        Assert.Equal([pieced.Paper], pieced.Strips.SelectMany(strip => strip.Sources).Select(source => source.Paper).Distinct());
        var isUpright = pieced.Direction == Axis.UpDown;
        var at = Length.Zero;
        for (var n = 0; n < pieced.Strips.Count; n++)
        {
            var strip = pieced.Strips[n];
            Assert.Equal(isUpright ? panel.Height : panel.Width, isUpright ? strip.Height : strip.Width);
            at += isUpright ? strip.Width : strip.Height;
            if (n < pieced.Seams.Count)
            {
                var seam = pieced.Seams[n];
                Assert.Equal((pieced.Direction, at), (seam.Direction, seam.At));
                Assert.True(at.IsMultipleOf(card.Increment), "the seam is between two marks of the trimmer");
                Assert.True(seam.Overlap >= _batch.SeamOverlap);
                Assert.True(SeamSight.IsHidden(card, card.PieceNamed(panel.Line.Piece), pieced.Direction, at, seam.Overlap, _batch.SeamOverlap), $"the seam at {at} shows");
            }
        }

        Assert.Equal(isUpright ? panel.Width : panel.Height, at);
    }

    private string NameOf(BatchCard card, BatchPart part) =>
        _schedule.Plan.Cards.Count(made => made.Count > 0) == 1 ? part.Line.Name : $"{part.Line.Name} ({card.Words})";

    private string PaperOn(ScheduledSheet sheet, BatchPart part) => sheet.Window?.Paper
        ?? part.Sources.Where(source => _batch.Stock[source.Sheet].Name == sheet.Stock!.Name).Select(source => source.Paper).First();

    private bool IsOneWay(string paper) => _batch.PaperNamed(paper).OneWay;

    private bool IsWorthKeeping(Rectangle size) =>
        Math.Min(size.Width, size.Height) >= _batch.LeastOffcut.Shorter.Nanometres && Math.Max(size.Width, size.Height) >= _batch.LeastOffcut.Longer.Nanometres;

    [GeneratedRegex("^([0-9]+) (?:of )?(.+)$")]
    private static partial Regex Words();
}
