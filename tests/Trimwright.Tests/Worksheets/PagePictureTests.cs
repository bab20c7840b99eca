using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;
using SkiaSharp;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Tests.Fitting;
using Trimwright.Tests.Images;
using Trimwright.Tests.Layouts;
using Trimwright.Variants;
using Trimwright.Worksheets;

namespace Trimwright.Tests.Worksheets;

/// <summary>
/// A black L on a clear ground, 2 in high and wide, its two arms 1/2 in wide: on the page of a worksheet and in the PNG of a face, by other
/// readers than ours. Its ink is 7/16 of its box, and which way round it is can be seen.
/// </summary>
public class PagePictureTests
{
    private const int Dpi = 150;
    private const double Arm = 0.5 * Dpi;

    private static readonly byte[] Ell = TestPictures.Encode(
        TestPictures.Make(240, 240, (x, y) => x is >= 20 and < 220 && y is >= 20 and < 220 && (x < 70 || y >= 170) ? ((byte)0, (byte)0, (byte)0, (byte)255) : ((byte)255, (byte)0, (byte)0, (byte)0)),
        SKEncodedImageFormat.Png);

    [PopplerTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_picture_stands_on_the_page_at_its_true_size_and_the_right_way_round(bool mirrored)
    {
        var page = Poppler.Picture(WorksheetPdf.Write(WorksheetMaker.Make(Card(mirrored), PaperSize.Letter)), 1, Dpi);
        CheckEll(page.Width, page.Height, (x, y) => page[x, y] < 40, mirrored);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_picture_stands_in_the_PNG_of_the_face_at_its_true_size_and_the_right_way_round(bool mirrored)
    {
        Assert.True(PngWriter.TryWrite(SvgWriter.Write(FaceDrawing.Draw(Card(mirrored))), Dpi, out var png, out var problem), problem);
        using var picture = Image.Load<Rgba32>(png);
        CheckEll(picture.Width, picture.Height, (x, y) => picture[x, y].R < 40, mirrored);
    }

    private static void CheckEll(int width, int height, Func<int, int, bool> isInk, bool mirrored)
    {
        // Words on the page are thinner than the arms: rows with a run of ink of at least nine tenths of an arm are those of the L. At the foot of
        // the page are the bars to check it by. A pixel of the picture is 5/4 of ours, and corners may be off by one.
        var rows = Enumerable.Range(0, height * 8 / 10).Select(y => Run(y)).ToList();
        var tall = rows.FindAll(run => run.Length > 0.9 * Arm);
        Assert.InRange(tall.Count, (4 * Arm) - 2, (4 * Arm) + 2);
        var (foot, upright) = (tall.FindAll(run => run.Length > 2 * Arm), tall.FindAll(run => run.Length <= 2 * Arm));
        Assert.InRange(foot.Count, Arm - 2, Arm + 2);
        Assert.All(foot.Skip(2).SkipLast(2), run => Assert.InRange(run.Length, (4 * Arm) - 2, (4 * Arm) + 2));
        Assert.All(upright.Skip(2).SkipLast(2), run => Assert.InRange(run.Length, Arm - 2, Arm + 2));
        Assert.All(upright.SkipLast(3), run => Assert.True(run.Y < foot[0].Y));
        var edge = !mirrored ? foot[9].From : foot[9].From + foot[9].Length - upright[9].Length;
        Assert.All(upright.Skip(2).SkipLast(2), run => Assert.InRange(run.From, edge - 2, edge + 2));

        (int Y, int From, int Length) Run(int y)
        {
            var (from, best) = (0, 0);
            for (var x = 0; x < width; x++)
            {
                var start = x;
                while (x < width && isInk(x, y))
                {
                    x++;
                }

                (from, best) = x - start > best ? (start, x - start) : (from, best);
            }

            return (y, from, best);
        }
    }

    private static FittedCard Card(bool mirrored)
    {
        var layout = Sample.Read(Sample.With("""
            { "name": "ell", "kind": "image", "paper": "p", "picture": "ell.png", "width": "2", "place": { "from-left": "1/4", "from-top": "1/2" } }
            """), _ => new(Ell)).Layout!;
        return FitHelper.Fit(!mirrored ? layout : Mirroring.Apply(layout, Mirror.LeftRight));
    }
}
