using System.Globalization;
using System.Xml.Linq;
using NetTopologySuite.Geometries;
using SkiaSharp;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Fitting;
using Trimwright.Trimming;
using Trimwright.Variants;
using Position = Trimwright.Measures.Position;

namespace Trimwright.Tests.Drawing;

/// <summary>The sheets beside the measured face, read back from their SVG: pieces, base, layers.</summary>
public class SheetDrawingTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Demos => Repository.Demos();

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_piece_sheet_has_every_piece_once_as_one_path_of_its_size(string demo) => OnEveryFit(demo, card =>
    {
        var paths = Paths(PieceSheetDrawing.Draw(card));
        var list = TrimList.FromCard(card);
        Assert.Equal(list.PieceCount, paths.Count);
        Assert.Equal(paths.Count, paths.Select(path => (string?)path.Element.Attribute("id")).Distinct().Count());

        // Each outline of the card as often, to the two millionths of a millimetre by which the ends of a path are rounded.
        var (width, height, _) = BaseLine.Blank(card.Width, card.Height, card.Layout.Base.Fold);
        var expected = card.Pieces.SelectMany(piece => piece.Mats.Select(mat => mat.Outline.Bounds).Append(piece.Outline.Bounds))
            .Select(bounds => (Millimetres(bounds.Width), Millimetres(bounds.Height)))
            .Append((Millimetres(Position.FromLength(width)), Millimetres(Position.FromLength(height)))).Order().ToList();
        var found = paths.Select(path => Size(path.Element.Attribute("d")!.Value)).Order().ToList();
        for (var i = 0; i < expected.Count; i++)
        {
            Assert.InRange(found[i].Width - expected[i].Item1, -0.000002m, 0.000002m);
            Assert.InRange(found[i].Height - expected[i].Item2, -0.000002m, 0.000002m);
        }
    });

    /// <summary>The size of the outer contour of a path of straight lines, or of two half ellipses.</summary>
    private static (decimal Width, decimal Height) Size(string path)
    {
        var outer = path.Split('Z')[0];
        if (outer.Contains('A', StringComparison.Ordinal))
        {
            var radii = SvgSheet.Numbers(outer.Split('A')[1]);
            return (2 * radii[0], 2 * radii[1]);
        }

        var numbers = SvgSheet.Numbers(outer);
        var (x, y) = (numbers.Where((_, i) => i % 2 == 0).ToList(), numbers.Where((_, i) => i % 2 == 1).ToList());
        return (x.Max() - x.Min(), y.Max() - y.Min());
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_two_outlines_of_the_piece_sheet_overlap_and_none_leaves_it(string demo) => OnEveryFit(demo, card =>
    {
        // NetTopologySuite judges, on the outlines as SkiaSharp reads them.
        var drawing = PieceSheetDrawing.Draw(card);
        var sheet = new SvgSheet(SvgWriter.Write(drawing)).Sheet;
        var polygons = Paths(drawing).ConvertAll(path => path.Polygon);
        for (var i = 0; i < polygons.Count; i++)
        {
            Assert.True(sheet.Contains(ToRect(polygons[i].EnvelopeInternal)));
            for (var j = i + 1; j < polygons.Count; j++)
            {
                Assert.True(polygons[i].Distance(polygons[j]) > 2, $"outlines {i} and {j} are too close");
            }
        }
    });

    [Fact]
    public void The_cut_group_of_the_piece_sheet_holds_named_paths_and_nothing_else()
    {
        var root = XDocument.Parse(SvgWriter.Write(PieceSheetDrawing.Draw(FitHelper.Fit(FitHelper.Demo("rain-gauge"))))).Root!;
        var cut = root.Elements(Svg + "g").Single(group => (string?)group.Attribute("id") == "cut");
        Assert.All(cut.Elements(), element =>
        {
            Assert.Equal(Svg + "path", element.Name);
            Assert.Equal("none", (string?)element.Attribute("fill"));
            Assert.NotEmpty(element.Element(Svg + "title")!.Value);
        });
    }

    [Theory]
    [InlineData("A2", Holding.Portrait, "left", 107.95, 0)]
    [InlineData("A2", Holding.Landscape, "top", 0, 107.95)]
    public void The_base_is_scored_at_its_fold(string format, Holding holding, string fold, double x, double y)
    {
        // An A2 card is 4 1/4 x 5 1/2 in, 107.95 x 139.7 mm: the fold lies where the front begins.
        var layout = FitHelper.Layout("""{ "name": "a", "kind": "panel", "paper": "p", "place": { "fill": true } }""", format: format, held: holding == Holding.Portrait ? "portrait" : "landscape")
            .Replace("\"paper\": \"p\" },\n          \"papers\"", $"\"paper\": \"p\", \"fold\": \"{fold}\" }},\n          \"papers\"", StringComparison.Ordinal)
            .Replace("\"base\": { \"paper\": \"p\" }", $"\"base\": {{ \"paper\": \"p\", \"fold\": \"{fold}\" }}", StringComparison.Ordinal);
        var root = XDocument.Parse(SvgWriter.Write(BaseDrawing.Draw(FitHelper.Fit(layout)))).Root!;
        var score = root.Descendants(Svg + "path").Single(path => (string?)path.Attribute("class") == "score");
        var numbers = SvgSheet.Numbers(score.Attribute("d")!.Value);
        Assert.Equal([(decimal)x, (decimal)y], numbers[..2]);
        var blank = root.Elements(Svg + "rect").Single(rect => (string?)rect.Attribute("id") == "base");
        Assert.Equal(fold == "left" ? "215.9" : "139.7", (string?)blank.Attribute("width"));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_layers_name_every_piece_and_mat_once(string demo) => OnEveryFit(demo, card =>
    {
        var root = XDocument.Parse(SvgWriter.Write(LayersDrawing.Draw(card))).Root!;
        var notes = root.Descendants(Svg + "text").Where(text => (string?)text.Attribute("class") == "note").Select(text => text.Value.Split(',')[0]).ToList();
        var expected = card.Pieces.SelectMany(piece => piece.Mats.Select((_, i) => piece.Mats.Count == 1
            ? $"mat of {piece.Name}" : string.Create(CultureInfo.InvariantCulture, $"mat {i + 1} of {piece.Name}")).Append(piece.Name));
        Assert.Equal(expected.Order(StringComparer.Ordinal), notes.Order(StringComparer.Ordinal));
    });

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_of_the_sheets_meet_a_line_other_words_or_the_edge(string demo) => OnEveryFit(demo, card =>
    {
        foreach (var drawing in (DrawingList[])[PieceSheetDrawing.Draw(card), BaseDrawing.Draw(card), LayersDrawing.Draw(card)])
        {
            // A number stands inside its ring, which lies over what is drawn below it.
            var collisions = new SvgSheet(SvgWriter.Write(drawing)).Collisions();
            Assert.Empty(collisions.Select(collision => $"{drawing.Title}: {collision}"));
        }
    });

    [Theory]
    [MemberData(nameof(Demos))]
    public void Every_sheet_is_clean_and_the_same_each_time(string demo)
    {
        var card = FitHelper.Fit(FitHelper.Demo(demo));
        foreach (var draw in (Func<FittedCard, DrawingList>[])[PieceSheetDrawing.Draw, card => BaseDrawing.Draw(card), LayersDrawing.Draw, FaceDrawing.Draw])
        {
            var svg = SvgWriter.Write(draw(card));
            Assert.Equal(svg, SvgWriter.Write(draw(FitHelper.Fit(FitHelper.Demo(demo)))));
            var root = XDocument.Parse(svg).Root!;
            var ids = root.DescendantsAndSelf().Attributes("id").Select(id => id.Value).ToList();
            Assert.Equal(ids.Distinct(), ids);
            Assert.NotEmpty(root.Element(Svg + "title")!.Value);
            Assert.NotEmpty(root.Element(Svg + "desc")!.Value);
            foreach (var use in root.Descendants().Attributes("fill").Where(fill => fill.Value.StartsWith("url(#", StringComparison.Ordinal)))
            {
                Assert.Contains(use.Value[5..^1], ids);
            }

            Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName is "script" or "style" or "foreignObject" or "filter");
            foreach (var link in root.Descendants().Attributes().Where(attribute => attribute.Name.LocalName == "href").Select(link => (link.Parent!.Name.LocalName, link.Value)))
            {
                // A picture is inside the file, and is shown from there.
                Assert.True(link is ("image", _) ? link.Value.StartsWith("data:image/", StringComparison.Ordinal) : link.LocalName == "use" && ids.Contains(link.Value[1..]));
            }

            Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
            Assert.DoesNotContain("Infinity", svg, StringComparison.Ordinal);
        }
    }

    /// <summary>On the card as drawn, on its mirrored variants, and on two other formats.</summary>
    private static void OnEveryFit(string demo, Action<FittedCard> check)
    {
        var layout = FitHelper.Demo(demo);
        check(FitHelper.Fit(layout));
        foreach (var variant in VariantFits.Mirrored(layout, layout.Format, layout.Holding, Drawer.Default))
        {
            if (variant.Card is { } card)
            {
                check(card);
            }
        }

        foreach (var format in (string[])["A7", "ISO A6"])
        {
            if (FitHelper.TryFit(layout, format).Card is { } card)
            {
                check(card);
            }
        }
    }

    private static List<(XElement Element, Polygon Polygon)> Paths(DrawingList drawing)
    {
        var root = XDocument.Parse(SvgWriter.Write(drawing)).Root!;
        return root.Elements(Svg + "g").Single(group => (string?)group.Attribute("id") == "cut").Elements(Svg + "path").Select(element =>
        {
            using var path = SKPath.ParseSvgPathData(element.Attribute("d")!.Value);
            using var measure = new SKPathMeasure(path, false, 20);
            var points = Enumerable.Range(0, 400).Select(i => measure.GetPosition(measure.Length * i / 400)).Select(p => new Coordinate(p.X, p.Y)).ToList();
            points.Add(points[0].Copy());
            return (element, new Polygon(new LinearRing([.. points])));
        }).ToList();
    }

    private static decimal Millimetres(Position size) => size.ToNearestNanometre().Nanometres / 1_000_000m;

    private static SKRect ToRect(Envelope envelope) => new((float)envelope.MinX, (float)envelope.MinY, (float)envelope.MaxX, (float)envelope.MaxY);
}
