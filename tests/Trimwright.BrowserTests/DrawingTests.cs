using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Measures;
using Rational = Trimwright.Measures.Rational;

namespace Trimwright.BrowserTests;

/// <summary>
/// Every drawing is rendered twice, by Chromium from the SVG and by Svg.Skia, which makes our PNGs. Sizes in pixels are exact in both. Pictures
/// agree but for what two renderers do differently: how the edge of a line is shaded, and letters, for which the browser has no Routed Gothic.
/// </summary>
public sealed class DrawingTests(Browser browser) : IClassFixture<Browser>
{
    // 192 dots per inch are twice what browsers count with, so that an eighth of an inch is 24 pixels.
    private const int Dpi = 192;

    private static readonly string[] Demos = ["bean-row", "seed-packet", "marrow-show", "scarecrow", "sun-over-plot"];

    public static TheoryData<string, string> Sheets()
    {
        var data = new TheoryData<string, string>();
        foreach (var demo in Demos)
        {
            foreach (var sheet in (string[])["face", "measured", "layers", "pieces", "base"])
            {
                data.Add(demo, sheet);
            }
        }

        return data;
    }

    [BrowserTheory]
    [MemberData(nameof(Sheets))]
    public async Task A_drawing_has_its_true_size_in_both_renderers_and_looks_the_same(string demo, string sheet)
    {
        var drawing = Draw(Demo.Fit(demo), sheet);
        var svg = SvgWriter.Write(drawing);
        var (picture, widthInches, heightInches) = await browser.RenderAsync(svg, Dpi);
        using var shown = Image.Load<Rgba32>(picture);
        Assert.True(PngWriter.TryWrite(svg, Dpi, out var png, out var problem), problem);
        using var ours = Image.Load<Rgba32>(png);

        // The size on the page: the browser lays out in 64ths of its pixels, of which an inch has 96.
        Assert.Equal(Inches(drawing.Sheet.Width), widthInches, 1.0 / 64 / 96);
        Assert.Equal(Inches(drawing.Sheet.Height), heightInches, 1.0 / 64 / 96);

        // Inch sheets end on whole eighths, which are whole pixels. Metric ones do not: our picture is the nearest, and the browser's covers
        // every pixel touched, by whole pixels of the page, which are two of the picture.
        var (width, height) = (Pixels(drawing.Sheet.Width), Pixels(drawing.Sheet.Height));
        Assert.Equal((width, height), (ours.Width, ours.Height));
        Assert.InRange(shown.Width - width, 0, drawing.Unit == LengthUnit.Inch ? 0 : 3);
        Assert.InRange(shown.Height - height, 0, drawing.Unit == LengthUnit.Inch ? 0 : 3);

        var (mean, far) = Difference(ours, shown);

        // Mean difference of grey below 1.5 % of white, and at most 4 % of all pixels off by more than a quarter: letters and their shadows.
        // A piece that is missing, moved by a millimetre or of another tone is far above that.
        Assert.True(mean < 0.015, $"the mean difference is {mean:F4}");
        Assert.True(far < 0.04, $"{far:P2} of the pixels differ by more than a quarter");
    }

    [BrowserFact]
    public async Task A_drawing_that_lacks_a_piece_is_told_apart()
    {
        // The measure of likeness itself: without the band the two pictures are not alike.
        var card = Demo.Fit("bean-row");
        var drawing = FaceDrawing.Draw(card);
        var less = drawing with { Items = [.. drawing.Items.Where(item => item is not DrawnGroup { Id: "piece-band" })] };
        using var shown = Image.Load<Rgba32>((await browser.RenderAsync(SvgWriter.Write(less), Dpi)).Png);
        Assert.True(PngWriter.TryWrite(SvgWriter.Write(drawing), Dpi, out var png, out _));
        using var ours = Image.Load<Rgba32>(png);
        Assert.True(Difference(ours, shown).Mean > 0.015);
    }

    private static DrawingList Draw(FittedCard card, string sheet) => sheet switch
    {
        "face" => FaceDrawing.Draw(card),
        "measured" => MeasuredDrawing.Draw(card),
        "layers" => LayersDrawing.Draw(card),
        "pieces" => PieceSheetDrawing.Draw(card),
        _ => BaseDrawing.Draw(card),
    };

    private static double Inches(Position size) => size.ToNearestNanometre().Nanometres / 25.4e6;

    private static int Pixels(Position size) => (int)((size.Nanometres * Dpi / Length.NanometresPerInch) + Rational.From(1, 2)).Floor();

    /// <summary>The mean difference in grey, of 1 for black against white, and the share of pixels that differ by more than a quarter.</summary>
    private static (double Mean, double Far) Difference(Image<Rgba32> a, Image<Rgba32> b)
    {
        var (width, height) = (Math.Min(a.Width, b.Width), Math.Min(a.Height, b.Height));
        var (sum, far) = (0.0, 0L);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var difference = Math.Abs(Grey(a[x, y]) - Grey(b[x, y]));
                sum += difference;
                far += difference > 0.25 ? 1 : 0;
            }
        }

        return (sum / ((double)width * height), far / ((double)width * height));
    }

    // Over white, by the weights of ITU-R BT.709.
    private static double Grey(Rgba32 pixel)
    {
        var alpha = pixel.A / 255.0;
        return (alpha * ((0.2126 * pixel.R) + (0.7152 * pixel.G) + (0.0722 * pixel.B)) / 255) + (1 - alpha);
    }
}
