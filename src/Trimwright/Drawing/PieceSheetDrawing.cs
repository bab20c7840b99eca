using System.Globalization;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Drawing;

/// <summary>
/// Every piece of paper of a card at true size, side by side: one path each with its name, nothing hidden, nothing twice. The paths lie in a
/// group of their own, <c>cut</c>, for whatever cuts them; the names in another, <c>names</c>.
/// </summary>
public static class PieceSheetDrawing
{
    private const double Border = 6;
    private const double Between = 6;
    private const double NameGap = 1.6;
    private const double LeastWidth = 200;

    private static readonly Stroke Hairline = new(Palette.Micrometres(100), Palette.Ink);
    private static readonly Length Capital = Palette.Micrometres(2000);

    private sealed record Entry(string Id, string Name, string Size, Outline Outline, Area Area, double Width, double Height);

    /// <summary>Draws the sheet.</summary>
    public static DrawingList Draw(FittedCard card)
    {
        var entries = Entries(card).ToList();
        var most = Math.Max(LeastWidth, entries.Max(entry => entry.Width));
        List<DrawnItem> paths = [];
        List<DrawnItem> names = [];
        var (right, y) = (0.0, 0.0);
        foreach (var shelf in Shelves(entries, most))
        {
            var x = 0.0;
            foreach (var column in shelf)
            {
                var top = y;
                foreach (var entry in column)
                {
                    var (shiftX, shiftY) = (Plane.Exactly(x - entry.Area.Left), Plane.Exactly(top - entry.Area.Top));
                    paths.Add(new DrawnOutline(Moved(entry.Outline, shiftX, shiftY), null, Hairline)
                    {
                        Id = entry.Id, Title = $"{entry.Name}, {entry.Size}", AsPath = true,
                    });
                    var foot = top + (entry.Area.Bottom - entry.Area.Top) + NameGap + 2;
                    names.Add(Line(entry.Name, x, foot));
                    names.Add(Line(entry.Size, x, foot + 3.6));
                    top += entry.Height + Between;
                }

                x += column[0].Width + Between;
            }

            right = Math.Max(right, x - Between);
            y += shelf[0][0].Height + Between;
        }

        return new()
        {
            Title = $"{card.Layout.Title}: pieces",
            Description = $"The outlines of all {entries.Count.ToString(CultureInfo.InvariantCulture)} pieces of {CardWords.Describe(card)}, at true size",
            Unit = card.Unit,
            Sheet = Plane.Exactly(new Area(-Border, -Border, right + Border, y - Between + Border)).OutToStep(card.Unit),
            Patterns = [],
            Items = [new DrawnGroup(paths) { Id = "cut", Class = "cut" }, new DrawnGroup(names) { Id = "names", Class = "names" }],
        };
    }

    private static IEnumerable<Entry> Entries(FittedCard card)
    {
        var (width, height, _) = BaseLine.Blank(card.Width, card.Height, card.Layout.Base.Fold);
        yield return Made(card, "cut-card-base", "card base", Outline.FromBox(Box.FromSize(width, height)));
        foreach (var layer in FaceLayer.Of(card))
        {
            var name = layer.MatNumber == 0 ? layer.Piece.Name
                : layer.Piece.Mats.Count == 1 ? $"mat of {layer.Piece.Name}"
                : string.Create(CultureInfo.InvariantCulture, $"mat {layer.MatNumber} of {layer.Piece.Name}");
            var made = Made(card, "cut-" + layer.Id, name, layer.Outline, layer.Piece);
            yield return layer.MatNumber == 0 && PicturePrint.Of(layer.Piece, card.Unit) is { } print ? Told(made, $"{made.Size}; print {print.File} at {print.Size} first") : made;
        }
    }

    private static Entry Told(Entry entry, string size) => entry with { Size = size, Width = Math.Max(entry.Width, WidthOf(size)) };

    private static Entry Made(FittedCard card, string id, string name, Outline outline, FittedPiece? piece = null)
    {
        var bounds = outline.Bounds;
        var area = Plane.Roughly(bounds);
        var size = outline.Contours is [EllipseContour circle] && circle.RadiusX == circle.RadiusY
            ? $"{LengthText.Write(bounds.Width, card.Unit)} across"
            : piece?.Source.CutOut is not null ? LengthText.WriteSizeAbout(bounds.Width, bounds.Height, card.Unit)
            : $"{LengthText.WriteBare(bounds.Width, card.Unit)} x {LengthText.Write(bounds.Height, card.Unit)}";
        var words = Math.Max(WidthOf(name), WidthOf(size));
        return new(id, name, size, outline, area, Math.Max(area.Right - area.Left, words), area.Bottom - area.Top + NameGap + 2 + 3.6 + 0.8);
    }

    /// <summary>
    /// Shelves as high as their first piece, highest first. A piece goes below another of its shelf where there is room, or beside the last,
    /// or else begins a new shelf.
    /// </summary>
    private static IEnumerable<List<List<Entry>>> Shelves(IEnumerable<Entry> entries, double most)
    {
        var open = entries.OrderByDescending(entry => entry.Height).ThenByDescending(entry => entry.Width).ToList();
        while (open.Count > 0)
        {
            List<List<Entry>> shelf = [[open[0]]];
            open.RemoveAt(0);
            for (var i = 0; i < open.Count;)
            {
                var entry = open[i];
                var room = shelf.Find(column => column[0].Width >= entry.Width
                    && column.Sum(placed => placed.Height + Between) + entry.Height <= shelf[0][0].Height);
                if (room is not null)
                {
                    room.Add(entry);
                }
                else if (shelf.Sum(column => column[0].Width + Between) + entry.Width <= most)
                {
                    shelf.Add([entry]);
                }
                else
                {
                    i++;
                    continue;
                }

                open.RemoveAt(i);
            }

            yield return shelf;
        }
    }

    private static Outline Moved(Outline outline, Position right, Position down) => new(
    [
        .. outline.Contours.Select(contour => contour switch
        {
            PolygonContour p => new PolygonContour([.. p.Points.Select(point => point.Moved(right, down))]),
            EllipseContour e => (Contour)(e with { Centre = e.Centre.Moved(right, down) }),
            _ => contour,
        }),
    ]);

    private static DrawnText Line(string text, double x, double foot) =>
        new(text, new Spot(x, foot).ToPoint(), TextHold.Start, Capital, Palette.Ink) { Class = "name" };

    private static double WidthOf(string text) => Plane.Roughly(LetteringFont.Instance.Width(text, Capital));
}
