using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Xunit;

namespace Trimwright.Tests.Drawing;

public class PngWriterTests
{
    private static Image<Rgba32> Picture(DrawingList drawing, int dotsPerInch)
    {
        Assert.True(PngWriter.TryWrite(SvgWriter.Write(drawing), dotsPerInch, out var png, out var problem), problem);
        return Image.Load<Rgba32>(png);
    }

    [Theory]
    [InlineData(100)]
    [InlineData(300)]
    [InlineData(400)]
    public void A_picture_has_as_many_pixels_as_its_sheet_has_dots(int dotsPerInch)
    {
        var drawing = FaceDrawing.Draw(SampleCards.BeanRow());
        using var picture = Picture(drawing, dotsPerInch);

        // The sheet is the card, 4 1/4 x 5 1/2 in, with 6 mm around it, out to eighths of an inch: 4 3/4 x 6 in.
        Assert.Equal((19 * dotsPerInch / 4, 6 * dotsPerInch), (picture.Width, picture.Height));
    }

    [Fact]
    public void The_reveal_of_a_panel_is_as_wide_in_pixels_on_all_four_sides()
    {
        var card = new CardMaker(CardMaker.A2, Holding.Portrait, "Reveal").Add(PieceKind.Panel, "ground", "beet", (2, 2, 64, 84), reveal: 2).Make();
        using var picture = Picture(FaceDrawing.Draw(card), 400);
        var (kraft, beet) = (new Rgba32(0xc9, 0xb0, 0x8c), new Rgba32(0x8e, 0x35, 0x52));
        var (row, column) = (picture.Height / 2, picture.Width / 2);
        var across = Enumerable.Range(0, picture.Width).Select(x => picture[x, row]).ToArray();
        var down = Enumerable.Range(0, picture.Height).Select(y => picture[column, y]).ToArray();

        // 1/8 in is 50 pixels from cut to cut. Each cut is lined 0.12 mm wide, of which half (0.95 pixels) lies on either side, so one
        // pixel at each end of a run is tinted: 48 are of the pure colour.
        Assert.Equal((48, 48), (Run(across, kraft), Run([.. across.Reverse()], kraft)));
        Assert.Equal((48, 48), (Run(down, kraft), Run([.. down.Reverse()], kraft)));

        // The panel is 4 in by 5 1/4 in.
        Assert.Equal((1598, 2098), (across.Count(pixel => pixel == beet), down.Count(pixel => pixel == beet)));

        static int Run(Rgba32[] line, Rgba32 colour) => line.SkipWhile(pixel => pixel != colour).TakeWhile(pixel => pixel == colour).Count();
    }

    [Fact]
    public void The_mirrored_card_is_the_picture_flipped_where_nothing_has_a_way_up()
    {
        // 254 dots per inch are ten to the millimetre, so that every straight cut lies between pixels.
        using var drawn = Picture(FaceDrawing.Draw(SampleCards.WateringCan(mirrored: false)), 254);
        using var mirrored = Picture(FaceDrawing.Draw(SampleCards.WateringCan(mirrored: true)), 254);

        var differing = 0;
        for (var y = 0; y < drawn.Height; y++)
        {
            for (var x = 0; x < drawn.Width; x++)
            {
                var (a, b) = (drawn[x, y], mirrored[drawn.Width - 1 - x, y]);
                differing += Math.Abs(a.R - b.R) + Math.Abs(a.G - b.G) + Math.Abs(a.B - b.B) > 90 ? 1 : 0;
            }
        }

        // Smoothed slanted edges and the marks of patterns may differ by a shade; a piece in the wrong place differs by thousands.
        Assert.InRange(differing, 0, drawn.Width * drawn.Height / 2000);
    }

    [Fact]
    public void An_unmirrored_card_is_not_the_picture_flipped()
    {
        using var drawn = Picture(FaceDrawing.Draw(SampleCards.WateringCan(mirrored: false)), 254);

        Assert.NotEqual(drawn[200, 300], drawn[drawn.Width - 1 - 200, 300]);
    }

    [Fact]
    public void The_same_drawing_gives_the_same_file()
    {
        var svg = SvgWriter.Write(MeasuredDrawing.Draw(SampleCards.RainGauge()));

        Assert.True(PngWriter.TryWrite(svg, 120, out var first, out _));
        Assert.True(PngWriter.TryWrite(svg, 120, out var second, out _));
        Assert.Equal(first, second);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-300)]
    [InlineData(100_000)]
    public void A_resolution_that_makes_no_picture_is_refused_with_a_reason(int dotsPerInch)
    {
        Assert.False(PngWriter.TryWrite(SvgWriter.Write(FaceDrawing.Draw(SampleCards.Plain())), dotsPerInch, out var png, out var problem));
        Assert.Null(png);
        Assert.Contains("choose another resolution", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_graphics_library_there_is_a_reason_instead_of_a_picture()
    {
        using var machine = new BareMachine();

        var (written, problem) = machine.TryWritePng(SvgWriter.Write(FaceDrawing.Draw(SampleCards.Plain())), 100);
        Assert.False(written);
        Assert.Contains("cannot be loaded", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Writing_an_svg_loads_no_graphics_library()
    {
        using var machine = new BareMachine();

        Assert.Contains("<svg", machine.WriteMeasuredSvg("bean-row"), StringComparison.Ordinal);
        Assert.DoesNotContain(machine.Loaded, name => name.Contains("Skia", StringComparison.OrdinalIgnoreCase));
    }
}
