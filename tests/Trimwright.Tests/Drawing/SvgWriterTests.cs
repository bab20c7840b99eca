using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;
using Trimwright.Drawing;
using Trimwright.Layouts;
using Trimwright.Measures;
using Xunit;

namespace Trimwright.Tests.Drawing;

public class SvgWriterTests
{
    private static readonly Func<Trimwright.Fitting.FittedCard, DrawingList>[] Sheets =
        [FaceDrawing.Draw, MeasuredDrawing.Draw, card => SideBySideDrawing.Draw("Two", [("one", card), ("the other", card)])];

    public static TheoryData<string> Cards => [.. SampleCards.ByName.Keys];

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_sheet_is_at_true_size_with_unique_ids_and_nothing_from_outside(string name)
    {
        foreach (var sheet in Sheets)
        {
            var drawing = sheet(SampleCards.ByName[name]());
            var svg = SvgWriter.Write(drawing);
            var root = XDocument.Parse(svg).Root!;

            var box = SvgSheet.Numbers(root.Attribute("viewBox")!.Value);
            Assert.Equal(box[2], OuterMillimetres(root, "width"));
            Assert.Equal(box[3], OuterMillimetres(root, "height"));
            var ids = root.Descendants().Attributes("id").Select(id => id.Value).ToArray();
            Assert.Equal(ids.Length, ids.Distinct().Count());
            Assert.All(
                root.Descendants().Attributes("fill").Select(fill => fill.Value).Where(fill => fill.StartsWith("url", StringComparison.Ordinal)),
                fill => Assert.Contains(fill[5..^1], ids));
            Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName is "script" or "style" or "image" or "use");
            Assert.DoesNotContain(root.Descendants().Attributes(), attribute => attribute.Name.LocalName == "href");
            Assert.DoesNotContain('\r', svg);
            Assert.Equal("title", root.Elements().First().Name.LocalName);
            Assert.Equal(drawing.Title, root.Elements().First().Value);
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void The_same_card_gives_the_same_bytes_under_any_culture(string name)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var german = Sheets.Select(sheet => SvgWriter.Write(sheet(SampleCards.ByName[name]()))).ToArray();
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("ar-SA");
            Assert.Equal(german, Sheets.Select(sheet => SvgWriter.Write(sheet(SampleCards.ByName[name]()))));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Every_piece_and_mat_is_drawn_where_it_was_fitted(string name)
    {
        var card = SampleCards.ByName[name]();
        foreach (var sheet in Sheets[..2].Select(draw => new SvgSheet(SvgWriter.Write(draw(card)))))
        {
            foreach (var piece in card.Pieces)
            {
                AssertDrawn(sheet.ById("piece-" + piece.Name), piece.Box);
                for (var i = 0; i < piece.Mats.Count; i++)
                {
                    AssertDrawn(sheet.ById($"mat-{piece.Name}-{i + 1}"), piece.Mats[i].Outline.Bounds);
                }
            }
        }
    }

    [Fact]
    public void A_tilted_piece_is_turned_about_the_centre_of_its_box()
    {
        var sheet = new SvgSheet(SvgWriter.Write(FaceDrawing.Draw(SampleCards.Compost())));

        // 44 + 36/2 sixteenths across and 44 + 10/2 down, in millimetres.
        Assert.Equal("rotate(-7.5 98.425 77.7875)", (string?)sheet.ById("piece-turned").Attribute("transform"));
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Words_are_as_long_in_the_file_as_the_font_makes_them(string name)
    {
        var texts = Sheets.SelectMany(draw => new SvgSheet(SvgWriter.Write(draw(SampleCards.ByName[name]()))).Texts)
            .Where(words => !words.Element.HasElements).ToArray();

        // SkiaSharp measures the same font from its own reading of the tables, in single precision: 0.01 mm on 100 mm.
        Assert.All(texts, words =>
        {
            var size = Get(words.Element, "font-size");
            var spaces = words.Element.Attribute("word-spacing") is null ? 0 : Get(words.Element, "word-spacing") * words.Text.Count(c => c == ' ');
            Assert.Equal(SvgSheet.WidthBySkia(words.Text, size) + spaces, Get(words.Element, "textLength"), 0.01);
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void The_lettering_of_a_label_lies_within_it(string name)
    {
        var card = SampleCards.ByName[name]();
        var sheet = new SvgSheet(SvgWriter.Write(FaceDrawing.Draw(card)));
        foreach (var piece in card.Pieces.Where(piece => piece.Source.Text is not null && piece.Source.Tilt.IsZero))
        {
            var box = new SKRect(
                Millimetres(piece.Box.Left), Millimetres(piece.Box.Top), Millimetres(piece.Box.Right), Millimetres(piece.Box.Bottom));
            var lines = sheet.Texts.Where(words => (string?)words.Element.Parent!.Attribute("id") == "piece-" + piece.Name).ToArray();
            Assert.Equal(piece.Source.Text, string.Join(' ', lines.Select(line => line.Text)));
            Assert.All(lines, line => Assert.True(box.Contains(line.Box), $"{line.Box} in {box}"));
        }
    }

    [Fact]
    public void Words_that_xml_cannot_hold_do_not_break_the_file()
    {
        var card = new CardMaker(CardMaker.A2, Holding.Portrait, "Beans & <peas> \"\u0001\ud800")
            .Add(PieceKind.Label, "l'étiquette & co", "cream", (10, 10, 40, 12), text: "a < b\u0000")
            .Make();

        var root = XDocument.Parse(SvgWriter.Write(FaceDrawing.Draw(card))).Root!;
        Assert.Equal("Beans & <peas> \"\uFFFD\uFFFD", root.Elements().First().Value);
        Assert.Contains(root.Descendants().Attributes("id"), id => id.Value == "piece-l_0027_00e9tiquette_0020_0026_0020co");
        XDocument.Parse(SvgWriter.Write(MeasuredDrawing.Draw(card)));
    }

    [Fact]
    public void A_frame_lets_the_picture_behind_it_be_seen()
    {
        var frame = new SvgSheet(SvgWriter.Write(FaceDrawing.Draw(SampleCards.ColdFrame()))).ById("piece-cold-frame").Elements().First();

        Assert.Equal("evenodd", (string?)frame.Attribute("fill-rule"));
        Assert.Equal(2, frame.Attribute("d")!.Value.Count(c => c == 'M'));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(7)]
    public void Captions_side_by_side_meet_nothing_and_every_face_keeps_its_size(int count)
    {
        var cards = SampleCards.ByName.Take(count).Select(named => ($"{named.Key}, a rather long caption for it", named.Value())).ToArray();
        var sheet = new SvgSheet(SvgWriter.Write(SideBySideDrawing.Draw("Thank-you cards", cards)));

        Assert.Empty(sheet.Collisions(ofClass: "caption"));
        for (var i = 0; i < count; i++)
        {
            var card = cards[i].Item2;
            AssertDrawn(sheet.ById($"card-{i + 1}-card"), card.Face);
        }
    }

    private static void AssertDrawn(XElement group, Trimwright.Geometry.Box box)
    {
        var shape = group.Elements().First();
        decimal[] drawn = shape.Name.LocalName switch
        {
            "rect" => [Exact(shape, "x"), Exact(shape, "y"), Exact(shape, "x") + Exact(shape, "width"), Exact(shape, "y") + Exact(shape, "height")],
            "circle" => Round(Exact(shape, "r"), Exact(shape, "r")),
            "ellipse" => Round(Exact(shape, "rx"), Exact(shape, "ry")),
            _ => PathBounds(shape),
        };

        // Six decimals of a millimetre are nanometres; odd halves and the far side of a rounded box may be one off.
        decimal[] expected = [Nm(box.Left), Nm(box.Top), Nm(box.Right), Nm(box.Bottom)];
        Assert.All(drawn.Zip(expected), pair => Assert.InRange(Math.Abs(pair.First - pair.Second), 0, 0.000001m));

        decimal[] Round(decimal rx, decimal ry) =>
            [Exact(shape, "cx") - rx, Exact(shape, "cy") - ry, Exact(shape, "cx") + rx, Exact(shape, "cy") + ry];
    }

    private static decimal[] PathBounds(XElement path)
    {
        var first = path.Attribute("d")!.Value.Split('Z')[0];
        var numbers = SvgSheet.Numbers(first);
        var (x, y) = (numbers.Where((_, i) => i % 2 == 0).ToArray(), numbers.Where((_, i) => i % 2 == 1).ToArray());
        return [x.Min(), y.Min(), x.Max(), y.Max()];
    }

    private static decimal Nm(Position position) => position.ToNearestNanometre().Nanometres / 1_000_000m;

    private static decimal Exact(XElement element, string name) => decimal.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    private static float Get(XElement element, string name) => (float)Exact(element, name);

    private static float Millimetres(Position position) => (float)Nm(position);

    private static decimal OuterMillimetres(XElement root, string name)
    {
        var text = root.Attribute(name)!.Value;
        var number = decimal.Parse(text[..^2], CultureInfo.InvariantCulture);
        return text.EndsWith("in", StringComparison.Ordinal) ? number * 25.4m : number;
    }
}
