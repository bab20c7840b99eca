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
/// A card taken apart, from the base up: one picture for each layer of paper, with what lies below it in outline, what is glued where, and
/// how. Pieces are numbered as in the trim list; glue is dashed, foam dotted.
/// </summary>
public static class LayersDrawing
{
    // All in millimetres.
    private const double RowWidth = 300;
    private const double Border = 10;
    private const double Between = 14;
    private const double TitleHeight = 5;
    private const double LineHeight = 4.4;
    private const double TextHeight = 2.2;
    private const double BadgeRadius = 2.3;
    private const double GlueInset = 1.5;

    private static readonly Stroke Edge = new(Palette.Wide, Palette.Ink);
    private static readonly Stroke Below = new(Palette.Narrow, Palette.Lighter(Palette.Quiet, 45));
    private static readonly Stroke Glue = new(Palette.Narrow, Palette.Quiet, Palette.Micrometres(1600), Palette.Micrometres(1200));
    private static readonly Length Capital = Palette.Micrometres((long)(TextHeight * 1000));

    /// <summary>Something glued in a storey: a mat or a piece.</summary>
    private sealed record Part(FaceLayer Layer, int Number, string Words, Length? Foam);

    /// <summary>What is glued on in one go.</summary>
    private sealed record Storey(int Number, IReadOnlyList<Part> Parts);

    /// <summary>Draws the storeys in rows on one sheet.</summary>
    public static DrawingList Draw(FittedCard card)
    {
        var storeys = Storeys(card);
        var face = Plane.Roughly(Boxes.OfFace(card.Face, FaceLayer.Of(card)));
        var heading = Line($"{card.Layout.Title}, from the base up", 0, TitleHeight, TitleHeight, Palette.Ink);
        List<DrawnItem> items = [heading];
        var (x, y, rowHeight, right) = (0.0, TitleHeight + 10, 0.0, Plane.Roughly(LetteringFont.Instance.Width(heading.Text, heading.CapHeight)));
        foreach (var storey in storeys)
        {
            var words = storey.Parts.Select(part => part.Words).ToList();
            var width = Math.Max(face.Right - face.Left, words.Max(WidthOf) + (2 * BadgeRadius) + 2);
            if (x > 0 && x + width > RowWidth)
            {
                (x, y, rowHeight) = (0, y + rowHeight + Between, 0);
            }

            items.Add(DrawStorey(card, storeys, storey, x - face.Left, y + 6 - face.Top, face));
            var foot = y + 6 + (face.Bottom - face.Top) + 4;
            for (var i = 0; i < storey.Parts.Count; i++)
            {
                var line = foot + TextHeight + (LineHeight * 1.25 * i);
                items.AddRange(Badge(storey.Parts[i].Number, new(x + BadgeRadius, line - (TextHeight / 2))));
                items.Add(Line(words[i], x + (2 * BadgeRadius) + 1.6, line, TextHeight, Palette.Ink) with { Class = "note" });
            }

            items.Add(Line($"Layer {storey.Number.ToString(CultureInfo.InvariantCulture)}", x, y + 2.5, 2.5, Palette.Quiet) with { Class = "caption" });
            rowHeight = Math.Max(rowHeight, 6 + (face.Bottom - face.Top) + 4 + (LineHeight * 1.25 * storey.Parts.Count));
            right = Math.Max(right, x + width);
            x += width + Between;
        }

        return new()
        {
            Title = $"{card.Layout.Title}: layers",
            Description = $"{CardWords.Describe(card)}, taken apart from the base up: what is glued where",
            Unit = card.Unit,
            Sheet = Plane.Exactly(new Area(-Border, -Border, right + Border, y + rowHeight + Border)).OutToStep(card.Unit),
            Patterns = [],
            Items = items,
        };
    }

    /// <summary>
    /// A piece goes one layer above the highest of those below it that it reaches over; its mats go between, one layer each. It is glued to what
    /// it is placed on, or to the highest of those below it where it is tucked in behind that.
    /// </summary>
    private static List<Storey> Storeys(FittedCard card)
    {
        var numbers = Numbers(card);
        var laid = new List<(LayerShape Shape, int Level, string Name)>();
        var storeys = new SortedDictionary<int, List<Part>>();
        var layersOf = FaceLayer.Of(card).ToLookup(layer => layer.Piece);
        foreach (var piece in card.Pieces)
        {
            var layers = layersOf[piece].ToList();
            var shape = new LayerShape(layers[0]);
            var below = laid.FindAll(other => shape.Covers(other.Shape, null));
            var level = below.Count == 0 ? 0 : below.Max(other => other.Level);
            var named = card.Layout.PieceUnder(piece.Source.On);
            var onto = below.Count == 0 ? "the card" : below.Exists(other => other.Name == named) ? named! : below.Last(other => other.Level == level).Name;
            foreach (var layer in layers)
            {
                level++;
                if (!storeys.TryGetValue(level, out var parts))
                {
                    storeys[level] = parts = [];
                }

                var outermost = layer.MatNumber == piece.Mats.Count;
                var foam = outermost ? piece.Source.Lift.Foam : null;
                parts.Add(new(layer, numbers[layer.Id], Told(card, layer, outermost ? onto : "its mat", foam), foam));
            }

            laid.Add((shape, level, piece.Name));
        }

        return [.. storeys.Select(entry => new Storey(entry.Key, entry.Value))];
    }

    private static Dictionary<string, int> Numbers(FittedCard card)
    {
        var number = 1;
        return FaceLayer.Of(card).ToDictionary(layer => layer.Id, _ => ++number, StringComparer.Ordinal);
    }

    private static string Told(FittedCard card, FaceLayer layer, string onto, Length? foam)
    {
        var (piece, mat) = (layer.Piece, layer.MatNumber);
        var name = mat == 0 ? piece.Name : piece.Mats.Count == 1 ? $"mat of {piece.Name}" : string.Create(CultureInfo.InvariantCulture, $"mat {mat} of {piece.Name}");
        var (width, height) = mat == 0 ? (piece.Width, piece.Height) : (piece.Mats[mat - 1].Width, piece.Mats[mat - 1].Height);
        return foam is { } thick
            ? $"{name}, {LengthText.WriteSize(width, height, card.Unit)}: on {LengthText.Write(thick, LengthText.NaturalUnit(thick))} foam, onto {onto}"
            : $"{name}, {LengthText.WriteSize(width, height, card.Unit)}: flat onto {onto}";
    }

    private static DrawnGroup DrawStorey(FittedCard card, List<Storey> storeys, Storey storey, double right, double down, Area face)
    {
        List<DrawnItem> items = [new DrawnOutline(Outline.FromBox(card.Face), new(Paper(card, card.Layout.Base.Paper, 86)), Below)];
        foreach (var part in storeys.Where(other => other.Number < storey.Number).SelectMany(other => other.Parts))
        {
            items.Add(Turned(part.Layer, new DrawnOutline(part.Layer.Outline, new(Palette.Lighter(part.Layer.Paper.Colour, 86)), Below)));
        }

        // Numbers where they meet no line, and no foam of a picture, as near to the middle of their piece as can be.
        var placed = new List<Spot>();
        foreach (var part in storey.Parts)
        {
            List<DrawnItem> drawn = [new DrawnOutline(part.Layer.Outline, new(Palette.Lighter(part.Layer.Paper.Colour, 55)), Edge)];
            if (part.Foam is null)
            {
                drawn.AddRange(GlueLine(part.Layer));
            }
            else
            {
                var dots = FoamPlaces(part.Layer).ToList();
                drawn.AddRange(dots.Select(dot => FoamDot(dot.At, dot.Radius)));
                placed.AddRange(part.Layer.Piece.Source is { CutOut: not null, Tilt.IsZero: true } ? dots.Select(dot => dot.At) : []);
            }

            items.Add(Turned(part.Layer, [.. drawn]));
        }

        var lines = items.SelectMany(Segments).ToList();
        foreach (var part in storey.Parts)
        {
            var bounds = Plane.Roughly(part.Layer.BoundsAsLaid());
            var at = Free(bounds, lines, placed);
            var middle = new Spot((bounds.Left + bounds.Right) / 2, (bounds.Top + bounds.Bottom) / 2);
            if (at is not { } spot)
            {
                spot = Beside(face, middle, placed);
                items.Add(new DrawnLine([middle.ToPoint(), spot.ToPoint()], new(Palette.Narrow, Palette.Ink)));
            }

            placed.Add(spot);
            items.AddRange(Badge(part.Number, spot));
        }

        return new(items) { Class = "storey", Shift = new(Plane.Exactly(right), Plane.Exactly(down)) };
    }

    private static DrawnGroup Turned(FaceLayer layer, params DrawnItem[] items) =>
        new(items) { Turn = layer.Tilt.IsZero ? null : new(layer.Tilt, layer.Centre) };

    /// <summary>Glue runs a little inside the edge.</summary>
    private static IEnumerable<DrawnItem> GlueLine(FaceLayer layer)
    {
        var inset = Plane.Exactly(-GlueInset);
        var bounds = layer.Outline.Bounds.Grown(inset);
        if (bounds.Width <= default(Position) || bounds.Height <= default(Position) || layer.Outline.Contours.Count > 1)
        {
            return [];
        }

        return layer.Outline.Contours[0] switch
        {
            EllipseContour => [new DrawnOutline(Outline.FromEllipse(bounds), null, Glue)],
            PolygonContour { Points.Count: 4 } => [new DrawnOutline(Outline.FromBox(bounds), null, Glue)],
            _ => [],
        };
    }

    private static DrawnOutline FoamDot(Spot at, double radius) => new(
        Outline.FromEllipse(Plane.Exactly(new Area(at.X - radius, at.Y - radius, at.X + radius, at.Y + radius))), new(Palette.Lighter(Palette.Quiet, 55)), null);

    /// <summary>Foam sits near the corners; under a picture, where there is paper nearest to them.</summary>
    private static IEnumerable<(Spot At, double Radius)> FoamPlaces(FaceLayer layer)
    {
        var area = Plane.Roughly(layer.Outline.Bounds);
        var (width, height) = (area.Right - area.Left, area.Bottom - area.Top);
        var radius = Math.Min(1.5, Math.Min(width, height) / 8);
        var corners = new[] { (0.22, 0.22), (0.78, 0.22), (0.22, 0.78), (0.78, 0.78) }.Select(share => new Spot(area.Left + (width * share.Item1), area.Top + (height * share.Item2)));
        if (layer.Piece.Source.CutOut is null)
        {
            return corners.Select(corner => (corner, radius));
        }

        var edges = layer.Outline.Contours.SelectMany(Around).ToList();
        var shape = new LayerShape(layer);
        List<Spot> onPaper =
        [
            .. from i in Enumerable.Range(1, 31)
               from j in Enumerable.Range(1, 31)
               let spot = new Spot(area.Left + (width * i / 32), area.Top + (height * j / 32))
               where shape.ContainsUntilted(spot.X, spot.Y) && edges.TrueForAll(edge => Plane.Distance(spot, edge.A, edge.B) > radius + 0.5)
               select spot,
        ];
        var places = new List<Spot>();
        foreach (var corner in corners)
        {
            var free = onPaper.FindAll(spot => places.TrueForAll(other => other.To(spot) > 4 * radius));
            if (free.Count > 0)
            {
                places.Add(free.MinBy(spot => spot.To(corner)));
            }
        }

        return places.Select(place => (place, radius));
    }

    private static Spot? Free(Area bounds, List<(Spot A, Spot B)> lines, List<Spot> placed)
    {
        var (midX, midY) = ((bounds.Left + bounds.Right) / 2, (bounds.Top + bounds.Bottom) / 2);
        var candidates =
            from i in Enumerable.Range(-6, 13)
            from j in Enumerable.Range(-6, 13)
            let spot = new Spot(midX + ((bounds.Right - bounds.Left) * i / 14), midY + ((bounds.Bottom - bounds.Top) * j / 14))
            orderby (i * i) + (j * j), j, i
            select spot;
        foreach (var spot in candidates)
        {
            if (placed.TrueForAll(other => other.To(spot) > (2 * BadgeRadius) + 0.5)
                && lines.TrueForAll(line => Plane.Distance(spot, line.A, line.B) > BadgeRadius + 0.3))
            {
                return spot;
            }
        }

        return null;
    }

    private static Spot Beside(Area face, Spot middle, List<Spot> placed)
    {
        var y = middle.Y;
        while (placed.Exists(other => other.To(new(face.Right + 5, y)) < (2 * BadgeRadius) + 0.5))
        {
            y += (2 * BadgeRadius) + 0.6;
        }

        return new(face.Right + 5, y);
    }

    /// <summary>The lines of an item as short straight stretches, turned as it lies.</summary>
    private static IEnumerable<(Spot A, Spot B)> Segments(DrawnItem item)
    {
        if (item is DrawnGroup group)
        {
            var (sin, cos) = group.Turn is { } turn ? (Plane.Roughly(turn.Angle.Sin()), Plane.Roughly(turn.Angle.Cos())) : (0, 1);
            var about = group.Turn is { } at ? new Spot(Plane.Roughly(at.About.X), Plane.Roughly(at.About.Y)) : default;
            Spot Laid(Spot spot) => new(
                about.X + ((spot.X - about.X) * cos) - ((spot.Y - about.Y) * sin), about.Y + ((spot.X - about.X) * sin) + ((spot.Y - about.Y) * cos));
            return group.Items.SelectMany(Segments).Select(line => (Laid(line.A), Laid(line.B)));
        }

        return item is DrawnOutline { Stroke: not null } outline ? outline.Outline.Contours.SelectMany(Around) : [];
    }

    private static IEnumerable<(Spot A, Spot B)> Around(Contour contour)
    {
        Spot[] spots = contour switch
        {
            PolygonContour polygon => [.. polygon.Points.Select(point => new Spot(Plane.Roughly(point.X), Plane.Roughly(point.Y)))],
            EllipseContour e =>
            [
                .. Enumerable.Range(0, 48).Select(i => new Spot(
                    Plane.Roughly(e.Centre.X) + (Plane.Roughly(e.RadiusX) * Plane.Roughly(new Angle(Rational.From(15 * i, 2)).Cos())),
                    Plane.Roughly(e.Centre.Y) + (Plane.Roughly(e.RadiusY) * Plane.Roughly(new Angle(Rational.From(15 * i, 2)).Sin())))),
            ],
            _ => [],
        };
        return spots.Select((spot, i) => (spot, spots[(i + 1) % spots.Length]));
    }

    private static Colour Paper(FittedCard card, string name, int percent) => Palette.Lighter(card.Layout.PaperNamed(name).Colour, percent);

    private static IEnumerable<DrawnItem> Badge(int number, Spot at)
    {
        yield return new DrawnOutline(
            Outline.FromEllipse(Plane.Exactly(new Area(at.X - BadgeRadius, at.Y - BadgeRadius, at.X + BadgeRadius, at.Y + BadgeRadius))),
            new(new Colour(0xff, 0xff, 0xff)), new(Palette.Narrow, Palette.Ink));
        yield return new DrawnText(
            number.ToString(CultureInfo.InvariantCulture), new Spot(at.X, at.Y + 0.95).ToPoint(), TextHold.Middle, Palette.Micrometres(1900), Palette.Ink)
        {
            Class = "number",
        };
    }

    private static DrawnText Line(string text, double x, double y, double height, Colour colour) =>
        new(text, new Spot(x, y).ToPoint(), TextHold.Start, Palette.Micrometres((long)(height * 1000)), colour);

    private static double WidthOf(string text) => Plane.Roughly(LetteringFont.Instance.Width(text, Capital));
}
