using Trimwright.Drawing;
using Trimwright.Drawing.Lettering;
using Trimwright.Drawing.Measured;
using Trimwright.Geometry;
using Trimwright.Measures;

namespace Trimwright.Worksheets;

/// <summary>Where the ink of drawn items is, in millimetres, for deciding how much room they need and where words may go.</summary>
internal static class InkBounds
{
    /// <summary>The area around all of some items.</summary>
    public static Area Of(IEnumerable<DrawnItem> items) => Areas(items, spot => spot).Aggregate((all, area) => all.Around(area));

    /// <summary>Adds the lines of drawn items, outlines of paper left out, and the areas of their words.</summary>
    public static void Lines(IEnumerable<DrawnItem> items, List<(Spot Start, Spot End)> lines, List<Area> words) => Lines(items, lines, words, spot => spot);

    private static void Lines(IEnumerable<DrawnItem> items, List<(Spot Start, Spot End)> lines, List<Area> words, Func<Spot, Spot> at)
    {
        foreach (var item in items)
        {
            switch (item)
            {
                case DrawnGroup group:
                    Lines(group.Items, lines, words, Through(group, at));
                    break;
                case DrawnLine line:
                    for (var i = 1; i < line.Points.Count; i++)
                    {
                        lines.Add((at(Rough(line.Points[i - 1])), at(Rough(line.Points[i]))));
                    }

                    break;
                case DrawnOutline { Fill: null, Outline.Contours: var contours }:
                    foreach (var corners in contours.OfType<PolygonContour>().Select(polygon => polygon.Points))
                    {
                        lines.AddRange(corners.Select((corner, i) => (at(Rough(corner)), at(Rough(corners[(i + 1) % corners.Count])))));
                    }

                    break;
                case DrawnText text:
                    words.Add(Around(Corners(text).Select(at)));
                    break;
            }
        }
    }

    private static IEnumerable<Area> Areas(IEnumerable<DrawnItem> items, Func<Spot, Spot> at) => items.SelectMany(item => item switch
    {
        DrawnGroup group => Areas(group.Items, Through(group, at)),
        DrawnLine line => [Around(line.Points.Select(point => at(Rough(point)))).Grown(Plane.Roughly(line.Stroke.Width) / 2)],
        DrawnOutline outline => [Around(Corners(outline.Outline.Bounds).Select(at)).Grown(outline.Stroke is { } stroke ? Plane.Roughly(stroke.Width) / 2 : 0)],
        DrawnText text => [Around(Corners(text).Select(at))],
        DrawnPicture picture => [Around(Corners(picture.Edge.Bounds).Select(at))],
        _ => Enumerable.Empty<Area>(),
    });

    /// <summary>Where a group puts its items.</summary>
    private static Func<Spot, Spot> Through(DrawnGroup group, Func<Spot, Spot> at)
    {
        var shift = group.Shift is { } by ? Rough(by) : default;
        var scale = group.Scale is { } size ? Plane.Roughly(size) : 1;
        if (group.Turn is not { } turn || (turn.Angle.IsZero && !turn.Flipped))
        {
            return group.Shift is null && group.Scale is null ? at : spot => at(new((scale * spot.X) + shift.X, (scale * spot.Y) + shift.Y));
        }

        var (sin, cos, about) = (Plane.Roughly(turn.Angle.Sin()), Plane.Roughly(turn.Angle.Cos()), Rough(turn.About));
        return spot =>
        {
            var (dx, dy) = ((turn.Flipped ? -1 : 1) * (spot.X - about.X), spot.Y - about.Y);
            return at(new((scale * (about.X + (dx * cos) - (dy * sin))) + shift.X, (scale * (about.Y + (dx * sin) + (dy * cos))) + shift.Y));
        };
    }

    private static IEnumerable<Spot> Corners(DrawnText text)
    {
        var width = Plane.Roughly(LetteringFont.Instance.Width(text.Text, text.CapHeight));
        var height = Plane.Roughly(text.CapHeight);
        var back = text.Hold switch { TextHold.Middle => width / 2, TextHold.End => width, _ => 0 };
        var foot = Rough(text.At);

        // Figures of fractions and letters such as g reach below the line of writing by about a third of a capital.
        var (below, above) = (height / 3, text.Text.Contains('\u2044') ? height * 1.5 : height);
        return text.Upwards
            ? [new(foot.X - above, foot.Y + back), new(foot.X + below, foot.Y + back - width)]
            : [new(foot.X - back, foot.Y - above), new(foot.X - back + width, foot.Y + below)];
    }

    private static IEnumerable<Spot> Corners(Box box)
    {
        var area = Plane.Roughly(box);
        return [new(area.Left, area.Top), new(area.Right, area.Top), new(area.Right, area.Bottom), new(area.Left, area.Bottom)];
    }

    private static Area Around(IEnumerable<Spot> spots)
    {
        Spot[] all = [.. spots];
        return new(all.Min(spot => spot.X), all.Min(spot => spot.Y), all.Max(spot => spot.X), all.Max(spot => spot.Y));
    }

    private static Spot Rough(Point point) => new(Plane.Roughly(point.X), Plane.Roughly(point.Y));
}
