using System.Globalization;
using Trimwright.Drawing;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Measures;
using Trimwright.Trimming;

namespace Trimwright.Worksheets;

/// <summary>
/// The measured face as it stands on a worksheet: its dimensions, and on every piece its numbers in the trim list. What callouts and
/// a title block say elsewhere is said by the list and the steps, and without them the face fits a page at its true size.
/// </summary>
internal sealed class NumberedFace
{
    private static readonly Length Capital = Palette.Micrometres(2200);
    private static readonly Length SmallCapital = Palette.Micrometres(1800);

    private readonly LayerShape[] _shapes;
    private readonly List<(Spot Start, Spot End)> _lines = [];
    private readonly List<Area> _taken = [];
    private readonly List<DrawnItem> _marks = [];
    private readonly DrawingList _drawing;

    /// <summary>Places the numbers.</summary>
    /// <param name="list">The trim list that the numbers are from.</param>
    /// <param name="measured">The measured face.</param>
    public NumberedFace(TrimList list, DrawingList measured)
    {
        _shapes = [.. FaceLayer.Of(list.Card).Select(layer => new LayerShape(layer))];
        DrawnItem[] kept = [.. measured.Items.Where(IsKept)];
        InkBounds.Lines(kept, _lines, _taken);
        _lines.AddRange(_shapes.SelectMany(shape => shape.Edges()));
        var unnumbered = new List<string>();
        foreach (var piece in list.Card.Pieces)
        {
            var numbers = string.Join(" + ", Enumerable.Range(0, piece.Mats.Count + 1).Reverse().Select(mat =>
                list.Lines.First(line => line.Mat == mat && line.Piece != "card" && AssemblyOrder.NamesOf(line).Contains(piece.Name)).Layer)
                .Select(number => number.ToString(CultureInfo.InvariantCulture)));
            if (!TryMark(piece, numbers))
            {
                unnumbered.Add($"{piece.Name} ({numbers})");
            }
        }

        Unnumbered = unnumbered;
        DrawnItem[] items = [.. kept, .. _marks];
        _drawing = measured with
        {
            Sheet = Plane.Exactly(InkBounds.Of(items).Grown(0.5)),
            Items = items,
        };
    }

    /// <summary>The pieces on which there is no room for a number.</summary>
    public IReadOnlyList<string> Unnumbered { get; }

    /// <summary>The drawing.</summary>
    public DrawingList Drawing => _drawing;

    private static bool IsKept(DrawnItem item) => item switch
    {
        DrawnGroup group => group.Class is not ("callout" or "title-block" or "key"),
        DrawnText text => text.Class != "number",
        _ => true,
    };

    private bool TryMark(FittedPiece piece, string numbers)
    {
        var index = Array.FindIndex(_shapes, shape => shape.Layer.Piece == piece && shape.Layer.MatNumber == 0);
        foreach (var capital in (Length[])[Capital, SmallCapital])
        {
            var height = Plane.Roughly(capital);
            var width = Plane.Roughly(LetteringFont.Instance.Width(numbers, capital));
            var (halfWidth, halfHeight) = (Math.Max(width / 2, height / 2) + 1.1, (height / 2) + 1.1);
            if (BestSpot(index, halfWidth, halfHeight) is not { } spot)
            {
                continue;
            }

            _taken.Add(new(spot.X - halfWidth, spot.Y - halfHeight, spot.X + halfWidth, spot.Y + halfHeight));
            var ring = new Outline([new EllipseContour(spot.ToPoint(), Plane.Exactly(halfWidth), Plane.Exactly(halfHeight))]);
            _marks.Add(new DrawnGroup(
            [
                new DrawnOutline(ring, new(new(0xff, 0xff, 0xff)), new(Palette.Narrow, Palette.Ink)),
                new DrawnText(numbers, new Spot(spot.X, spot.Y + (height / 2)).ToPoint(), TextHold.Middle, capital, Palette.Ink),
            ])
            { Class = "list-number", Data = [("of", piece.Name)] });
            return true;
        }

        return false;
    }

    /// <summary>The place, on paper of the layer that can be seen, that is farthest from all lines and yet near its middle.</summary>
    private Spot? BestSpot(int index, double halfWidth, double halfHeight)
    {
        const double Air = 0.5;
        const double FarEnough = 4;
        var area = _shapes[index].Area;
        var (left, right) = (area.Left + halfWidth + Air, area.Right - halfWidth - Air);
        var (top, bottom) = (area.Top + halfHeight + Air, area.Bottom - halfHeight - Air);
        var (middleX, middleY) = ((area.Left + area.Right) / 2, (area.Top + area.Bottom) / 2);
        Spot? best = null;
        var bestWorth = double.NegativeInfinity;
        foreach (var y in Raster(top, bottom))
        {
            foreach (var x in Raster(left, right))
            {
                var box = new Area(x - halfWidth - Air, y - halfHeight - Air, x + halfWidth + Air, y + halfHeight + Air);
                if (!IsSeen(index, box) || _taken.Exists(box.Meets) || _lines.Exists(line => box.Meets(line.Start, line.End)))
                {
                    continue;
                }

                var spot = new Spot(x, y);
                var clear = _lines.Count == 0 ? FarEnough : Math.Min(FarEnough, _lines.Min(line => Plane.Distance(spot, line.Start, line.End)) - halfHeight);
                var worth = clear - (0.02 * spot.To(new(middleX, middleY)));
                if (worth > bestWorth)
                {
                    (best, bestWorth) = (spot, worth);
                }
            }
        }

        return best;
    }

    /// <summary>Places from one end to the other: the middle, and then steps to both sides.</summary>
    private static IEnumerable<double> Raster(double from, double to)
    {
        if (to < from)
        {
            return [];
        }

        var steps = (int)Math.Clamp(Math.Ceiling((to - from) / 2), 1, 40);
        return Enumerable.Range(0, (2 * steps) + 1).Select(i => from + ((to - from) * i / (2 * steps)));
    }

    private bool IsSeen(int index, Area box)
    {
        for (var i = 0; i <= 4; i++)
        {
            for (var j = 0; j <= 2; j++)
            {
                var (x, y) = (box.Left + ((box.Right - box.Left) * i / 4), box.Top + ((box.Bottom - box.Top) * j / 2));
                if (Array.FindLastIndex(_shapes, shape => shape.Contains(x, y)) != index)
                {
                    return false;
                }
            }
        }

        // Small paper within the box, such as a hole's rim or a narrow strip between the raster's places.
        for (var other = index + 1; other < _shapes.Length; other++)
        {
            if (_shapes[other].Area.Meets(box) && Within(_shapes[other].Area, box))
            {
                return false;
            }
        }

        return true;
    }

    private static bool Within(Area small, Area large) =>
        small.Right - small.Left < large.Right - large.Left || small.Bottom - small.Top < large.Bottom - large.Top;
}
