using System.Globalization;
using System.Xml.Linq;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Drawing;
using Trimwright.Trimming;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Golden;

/// <summary>The drawings of the demos, read back from their SVG and PNG, against the trim list and the sheet.</summary>
public class DemoDrawingTests
{
    public static TheoryData<string> Demos() => Repository.Demos();

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_meet_anything_in_any_variant_or_on_any_format(string demo)
    {
        var layout = Demo(demo);
        var mirrored = VariantFits.Mirrored(layout, layout.Format, layout.Holding, Drawer.Default);
        var formats = CardFormats.All
            .SelectMany(format => new[] { (format, Holding.Portrait), (format, Holding.Landscape) });
        var resized = VariantFits.Resized(layout, formats, Drawer.Default);
        foreach (var variant in mirrored.Concat(resized).Where(variant => variant.Card is not null))
        {
            new MeasuredSheets(variant.Card!).AssertReadableAndTrue();
        }

        var sheet = SideBySideDrawing.Draw(layout.Title, [.. mirrored.Where(fit => fit.Card is not null).Select(fit => (fit.Name, fit.Card!))]);
        Assert.Empty(new SvgSheet(SvgWriter.Write(sheet)).Collisions("caption"));
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void What_the_drawing_shows_is_what_the_list_says(string demo)
    {
        var card = Fit(Demo(demo));
        var groups = new MeasuredSheets(card).Dimensions
            .Select(element => (
                Measure: (string)element.Attribute("data-measure")!,
                Values: ((string)element.Attribute("data-nm")!).Split(' ')))
            .ToList();
        var drawn = groups.SelectMany(group => group.Values).ToHashSet();
        var lines = TrimList.FromCard(card).Lines.Skip(1).ToList();

        // Every size on the list stands in the drawing.
        foreach (var (width, height) in lines.Select(Shown))
        {
            Assert.Contains(width, drawn);
            Assert.Contains(height, drawn);
        }

        // Every size in the drawing stands on the list; the card's own is that of the folded base.
        var listed = lines.Select(Shown).SelectMany(size => new[] { size.Width, size.Height })
            .Concat([Text(card.Width), Text(card.Height)]).ToHashSet();
        Assert.All(
            groups.Where(group => group.Measure is "width" or "height" or "size"),
            group => Assert.All(group.Values, value => Assert.Contains(value, listed)));
        Assert.All(
            groups.Where(group => group.Measure.StartsWith("mat-", StringComparison.Ordinal)),
            group => Assert.All(group.Values.SkipLast(1), value => Assert.Contains(value, listed)));

        // Of what is cut out along a picture the list has the blank, and the drawing the outline within it.
        (string Width, string Height) Shown(TrimLine line)
        {
            var piece = card.Pieces.FirstOrDefault(piece => piece.Name == line.Piece);
            if (piece?.Source.CutOut is null)
            {
                return (Text(line.Width), Text(line.Height));
            }

            var outline = line.Mat == 0 ? piece.Outline.Bounds : piece.Mats[line.Mat - 1].Outline.Bounds;
            Assert.InRange((Position.FromLength(line.Width) - outline.Width).Nanometres, Trimwright.Measures.Rational.Zero, card.Increment.Nanometres);
            Assert.InRange((Position.FromLength(line.Height) - outline.Height).Nanometres, Trimwright.Measures.Rational.Zero, card.Increment.Nanometres);
            return (outline.Width.Nanometres.ToString(), outline.Height.Nanometres.ToString());
        }
    }

    [Fact]
    public void The_reveal_of_the_ground_measures_an_eighth_of_an_inch_on_all_four_sides_of_the_picture()
    {
        const int Dpi = 320; // 1/8 in = 40 pixels, exactly.
        var card = Fit(Layout("""{ "name": "ground", "kind": "panel", "paper": "q", "place": { "fill": true } }""")
            .Replace("\"p\": {", "\"q\": { \"kind\": \"cardstock\", \"tone\": \"black\" }, \"p\": {", StringComparison.Ordinal));
        var svg = SvgWriter.Write(FaceDrawing.Draw(card));
        Assert.True(PngWriter.TryWrite(svg, Dpi, out var png, out var problem), problem);
        using var picture = Image.Load<Rgba32>(png);

        // The face lies in the picture where the viewBox says; the ground is where it is darker than half.
        var box = ((string)XDocument.Parse(svg).Root!.Attribute("viewBox")!).Split(' ')
            .Select(number => decimal.Parse(number, CultureInfo.InvariantCulture)).ToArray();
        int Pixel(decimal millimetres) => (int)Math.Round(millimetres / 25.4m * Dpi);
        var (left, top) = (Pixel(-box[0]), Pixel(-box[1]));
        var (width, height) = (card.Width.Nanometres * Dpi / Length.NanometresPerInch, card.Height.Nanometres * Dpi / Length.NanometresPerInch);
        var (middleX, middleY) = (left + ((int)width / 2), top + ((int)height / 2));
        bool IsGround(int x, int y) => picture[x, y].R < 128;
        int First(int from, Func<int, bool> found) => Enumerable.Range(from, 200).First(found) - from;

        // The edge of the ground is drawn with a thin line of its own; half of it may darken one more pixel.
        Assert.InRange(First(left, x => IsGround(x, middleY)), 39, 40);
        Assert.InRange(First(top, y => IsGround(middleX, y)), 39, 40);
        Assert.InRange(First(0, x => IsGround(left + (int)width - 1 - x, middleY)), 39, 40);
        Assert.InRange(First(0, y => IsGround(middleX, top + (int)height - 1 - y)), 39, 40);
    }

    private static string Text(Length length) => length.Nanometres.ToString(CultureInfo.InvariantCulture);
}
