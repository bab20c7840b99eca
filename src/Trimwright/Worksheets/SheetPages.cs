using System.Globalization;
using Trimwright.Drawing;
using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>Takes a sheet with many things on it apart and lays them out anew, on as many drawings as pages are needed, so that no page break splits one.</summary>
internal static class SheetPages
{
    /// <summary>The scale of the layers: several to a page, and their words can still be read.</summary>
    public static readonly Rational LayerScale = Rational.From(3, 4);

    private const double Between = 5;
    private const double Edge = 0.5;

    /// <summary>The outlines of the pieces with their names; the card base, which has a drawing of its own, is left out.</summary>
    public static IReadOnlyList<DrawingList> OfPieces(DrawingList sheet, PaperSize paper)
    {
        var groups = sheet.Items.OfType<DrawnGroup>().ToList();
        var (paths, names) = (groups[0].Items, groups[1].Items);
        var linesEach = names.Count / paths.Count;
        return Pages(sheet, paper, Rational.One, [.. paths.Select((path, i) => (DrawnItem[])[path, .. names.Skip(i * linesEach).Take(linesEach)]).Skip(1)]);
    }

    /// <summary>
    /// The layers from the base up, for pages on which they are three quarters of their size. Their sheet counts every piece of paper;
    /// here they get the numbers of the trim list, where pieces that are cut alike share one.
    /// </summary>
    public static IReadOnlyList<DrawingList> OfLayers(DrawingList sheet, TrimList list, PaperSize paper)
    {
        var numbers = new Dictionary<string, string>();
        foreach (var layer in FaceLayer.Of(list.Card))
        {
            // The base is number 1.
            var counted = (numbers.Count + 2).ToString(CultureInfo.InvariantCulture);
            numbers[counted] = AssemblyOrder.LineOf(list, layer.Piece, layer.MatNumber).Layer.ToString(CultureInfo.InvariantCulture);
        }

        List<DrawnItem[]> cells = [];
        List<DrawnItem> cell = [];
        foreach (var item in sheet.Items.Skip(1))
        {
            cell.Add(Renumbered(item, numbers));

            // The caption of a layer is drawn last.
            if (item is DrawnText { Class: "caption" })
            {
                cells.Add([.. cell]);
                cell.Clear();
            }
        }

        return Pages(sheet, paper, LayerScale, cells);
    }

    private static DrawnItem Renumbered(DrawnItem item, Dictionary<string, string> numbers) => item switch
    {
        DrawnGroup group => group with { Items = [.. group.Items.Select(inner => Renumbered(inner, numbers))] },
        DrawnText { Class: "number" } text => text with { Text = numbers[text.Text] },
        _ => item,
    };

    private static List<DrawingList> Pages(DrawingList sheet, PaperSize paper, Rational scale, IReadOnlyList<DrawnItem[]> cells)
    {
        // Room for margins, a heading, a caption and the check bars, on paper and from the page of HTML.
        var right = (Plane.Roughly(paper.Width) - 17) / Plane.Roughly(scale);
        var bottom = (Plane.Roughly(paper.Height) - 62) / Plane.Roughly(scale);
        List<DrawingList> pages = [];
        List<DrawnItem> laid = [];
        var (x, y, row) = (0.0, 0.0, 0.0);
        foreach (var cell in cells)
        {
            var area = InkBounds.Of(cell);
            var (width, height) = (area.Right - area.Left, area.Bottom - area.Top);
            if (x > 0 && x + width > right)
            {
                (x, y, row) = (0, y + row + Between, 0);
            }

            if (laid.Count > 0 && y + height > bottom)
            {
                EndPage();
            }

            laid.Add(new DrawnGroup(cell) { Shift = new(Plane.Exactly(x - area.Left), Plane.Exactly(y - area.Top)) });
            x += width + Between;
            row = Math.Max(row, height);
        }

        EndPage();
        return pages;

        void EndPage()
        {
            if (laid.Count > 0)
            {
                pages.Add(sheet with { Items = [.. laid], Sheet = Plane.Exactly(InkBounds.Of(laid).Grown(Edge)) });
            }

            laid.Clear();
            (x, y, row) = (0, 0, 0);
        }
    }
}
