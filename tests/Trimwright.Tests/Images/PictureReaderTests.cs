using SkiaSharp;
using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Tests.Drawing;
using static Trimwright.Tests.Images.TestPictures;

namespace Trimwright.Tests.Images;

public class PictureReaderTests
{
    // Wider than high, its four corners of four tones: every turn can be told from every other.
    private static readonly Picture Corners = Make(48, 32, (x, y) => (x < 24, y < 16) switch
    {
        (true, true) => (255, 0, 0, 255),
        (false, true) => (0, 255, 0, 255),
        (true, false) => (0, 0, 255, 255),
        _ => (255, 255, 255, 255),
    });

    [Theory]
    [InlineData(SKEncodedImageFormat.Png, "bean.png")]
    [InlineData(SKEncodedImageFormat.Webp, "bean.webp")]
    public void A_picture_without_loss_is_read_back_pixel_by_pixel(SKEncodedImageFormat format, string name)
    {
        var picture = Make(37, 23, (x, y) => ((byte)(x * 6), (byte)(y * 11), (byte)(x + y), (byte)(y < 3 ? 0 : 255)));
        var reading = PictureReader.Read(name, Encode(picture, format), Place);
        Assert.Empty(reading.Diagnostics);
        Assert.Equal((37, 23), (reading.Picture!.Width, reading.Picture.Height));
        for (var y = 3; y < 23; y++)
        {
            Assert.Equal(picture.Rgba.Slice(4 * 37 * y, 4 * 37).ToArray(), reading.Picture.Rgba.Slice(4 * 37 * y, 4 * 37).ToArray());
        }

        Assert.Equal(0, reading.Picture.Rgba[3]);
    }

    // Exif 2.3, tag 274: where the first row and the first column of what is stored are to be seen.
    [Theory]
    [InlineData(1, "rgbw")]
    [InlineData(2, "grwb")]
    [InlineData(3, "wbgr")]
    [InlineData(4, "bwrg")]
    [InlineData(5, "rbgw")]
    [InlineData(6, "brwg")]
    [InlineData(7, "wgbr")]
    [InlineData(8, "gwrb")]
    public void A_turned_photograph_is_seen_upright(byte orientation, string cornersRowByRow)
    {
        var bytes = PictureFiles.WithOrientation(Encode(Corners, SKEncodedImageFormat.Jpeg), orientation);
        var picture = PictureReader.Read("bean.jpg", bytes, Place).Picture!;
        Assert.Equal(orientation < 5 ? (48, 32) : (32, 48), (picture.Width, picture.Height));
        var (right, bottom) = (picture.Width - 6, picture.Height - 6);
        Assert.Equal(cornersRowByRow, string.Concat(NameAt(picture, 5, 5), NameAt(picture, right, 5), NameAt(picture, 5, bottom), NameAt(picture, right, bottom)));
    }

    [Fact]
    public void Sixteen_bits_a_channel_become_eight()
    {
        var bytes = PictureFiles.Png(2, 1, 16, 2, [0xff, 0xff, 0x80, 0x80, 0, 0, 0x12, 0x12, 0x34, 0x34, 0x56, 0x56]);
        var picture = PictureReader.Read("bean.png", bytes, Place).Picture!;
        Assert.Equal([255, 128, 0, 255, 0x12, 0x34, 0x56, 255], picture.Rgba.ToArray());
    }

    // Inverted: 255 is no ink. Printed magenta without the rest is a strong red-violet: much red, little green.
    [Fact]
    public void A_photograph_in_printing_inks_is_read_in_the_right_colours()
    {
        var magenta = PictureReader.Read("bean.jpg", PictureFiles.CmykJpeg(255, 0, 255, 255), Place).Picture!;
        Assert.True(magenta.Rgba[0] > 200 && magenta.Rgba[1] < 60, string.Join(' ', magenta.Rgba[..4].ToArray()));
        var black = PictureReader.Read("bean.jpg", PictureFiles.CmykJpeg(255, 255, 255, 0), Place).Picture!;
        Assert.True(black.Rgba[0] < 60 && black.Rgba[1] < 60 && black.Rgba[2] < 60, string.Join(' ', black.Rgba[..4].ToArray()));
    }

    [Fact]
    public void Of_an_animated_picture_the_first_is_taken_and_that_is_said()
    {
        var stills = new byte[] { 10, 200 }.Select(tone => Encode(Make(8, 6, (_, _) => (tone, tone, tone, 255)), SKEncodedImageFormat.Webp)).ToArray();
        var reading = PictureReader.Read("bean.webp", PictureFiles.AnimatedWebP(8, 6, stills), Place);
        Assert.Equal(["W0501"], reading.Diagnostics.Select(diagnostic => diagnostic.Code));
        Assert.Equal(10, reading.Picture!.Rgba[0]);
    }

    [Fact]
    public void A_wrong_ending_is_read_for_what_it_is_and_that_is_said()
    {
        var reading = PictureReader.Read("bean.png", Encode(Corners, SKEncodedImageFormat.Jpeg), Place);
        Assert.Equal(["W0502"], reading.Diagnostics.Select(diagnostic => diagnostic.Code));
        Assert.Equal((48, 32), (reading.Picture!.Width, reading.Picture.Height));
        Assert.Equal(Place, reading.Diagnostics[0].Place);
    }

    // The first bytes as their specifications have them, from memory: GIF89a, BMP, TIFF 6.0, ISO/IEC 23008-12 (HEIF) and 14496-12 (boxes), AVIF, PDF, SVG.
    [Theory]
    [InlineData("R0lGODlhAQABAA==", "is a GIF;", "save it as PNG")]
    [InlineData("Qk02AAAAAAAAADYAAAA=", "is a BMP;", "save it as PNG")]
    [InlineData("SUkqAAgAAAA=", "is a TIFF;", "save it as PNG")]
    [InlineData("AAAAGGZ0eXBoZWljAAAAAG1pZjE=", "is a HEIF;", "save it as PNG")]
    [InlineData("AAAAGGZ0eXBhdmlmAAAAAG1pZjE=", "is an AVIF;", "save it as PNG")]
    [InlineData("AAAAGGZ0eXBpc29tAAAAAG1wNDE=", "is a film;", "save it as PNG")]
    [InlineData("JVBERi0xLjcK", "is a PDF;", "save it as PNG")]
    [InlineData("PD94bWwgdmVyc2lvbj0iMS4wIj8+PHN2Zy8+", "is an SVG;", "save it as PNG")]
    [InlineData("", "is empty;", "see whether it is the file you mean")]
    [InlineData("aGVsbG8=", "is not a picture;", "see whether it is the file you mean")]
    public void A_file_of_another_kind_is_told_by_its_kind(string base64, string told, string remedy)
    {
        var diagnostic = Assert.Single(PictureReader.Read("bean.png", Convert.FromBase64String(base64), Place).Diagnostics);
        Assert.Equal("E0502", diagnostic.Code);
        Assert.Contains(told, diagnostic.Message, StringComparison.Ordinal);
        Assert.Contains(remedy, diagnostic.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_head_that_promises_60_000_by_60_000_pixels_is_refused_before_a_pixel_is_decoded() =>
        Assert.Equal("E0503", Code(PictureFiles.Png(60_000, 60_000, 8, 6, [1, 2, 3, 4])));

    [Fact]
    public void A_jpeg_head_that_promises_too_much_is_refused_as_well()
    {
        var bytes = Encode(Corners, SKEncodedImageFormat.Jpeg);
        var frame = bytes.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xff, 0xc0]);
        bytes.AsSpan(frame + 5, 4).Fill(0xea);
        Assert.Equal("E0503", Code(bytes, "bean.jpg"));
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void A_picture_that_breaks_off_anywhere_gives_an_error_and_no_picture(SKEncodedImageFormat format)
    {
        var whole = Encode(Make(64, 64, (x, y) => ((byte)(x * y % 256), (byte)(x * 3), (byte)y, 255)), format);
        for (var length = 12; length < whole.Length - 24; length += 37)
        {
            var reading = PictureReader.Read("bean", whole[..length], Place);
            Assert.Null(reading.Picture);
            Assert.Equal("E0504", Assert.Single(reading.Diagnostics).Code);
        }
    }

    // Some changed bytes do no harm, most do: whatever comes, it is a picture or a diagnostic, never a crash.
    [Theory]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void A_picture_with_changed_bytes_gives_a_picture_or_an_error(SKEncodedImageFormat format)
    {
        var whole = Encode(Make(40, 40, (x, y) => ((byte)(x * y % 256), (byte)(x * 3), (byte)y, 255)), format);
        var refused = 0;
        for (var at = 0; at < whole.Length; at += 3)
        {
            var changed = (byte[])whole.Clone();
            changed[at] ^= 0x5a;
            var reading = PictureReader.Read("bean", changed, Place);
            Assert.True(reading.Picture is not null || reading.Diagnostics.Count == 1);
            refused += reading.Picture is null ? 1 : 0;
        }

        Assert.True(refused > 0);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{ \"title\": \"not a picture\" }")]
    [InlineData("GIF89a then pixels")]
    [InlineData("BM then pixels")]
    public void Anything_else_is_refused_by_its_first_bytes(string content) =>
        Assert.Equal("E0502", Code(System.Text.Encoding.UTF8.GetBytes(content)));

    [Fact]
    public void A_file_of_more_than_64_MiB_is_refused() => Assert.Equal("E0501", Code(new byte[PictureReader.MostBytes + 1]));

    [Fact]
    public void A_machine_without_the_graphics_library_says_so_and_does_not_fall_over()
    {
        using var machine = new BareMachine();
        var engine = machine.LoadFromAssemblyName(typeof(PictureReader).Assembly.GetName());
        var place = engine.GetType(typeof(SourcePlace).FullName!)!.GetMethod(nameof(SourcePlace.WholeFile))!.Invoke(null, ["card.json"]);
        var read = engine.GetType(typeof(PictureReader).FullName!)!.GetMethod(nameof(PictureReader.Read))!;
        var reading = read.Invoke(null, ["bean.png", Encode(Corners, SKEncodedImageFormat.Png), place])!;
        Assert.Null(Property(reading, nameof(PictureReading.Picture)));
        var diagnostic = Assert.Single(((System.Collections.IEnumerable)Property(reading, nameof(PictureReading.Diagnostics))!).Cast<object>());
        Assert.Equal("E0505", Property(diagnostic, nameof(Diagnostic.Code)));

        static object? Property(object owner, string name) => owner.GetType().GetProperty(name)!.GetValue(owner);
    }

    private static string Code(byte[] bytes, string name = "bean.png")
    {
        var reading = PictureReader.Read(name, bytes, Place);
        Assert.Null(reading.Picture);
        var diagnostic = Assert.Single(reading.Diagnostics);
        Assert.NotNull(diagnostic.Remedy);
        return diagnostic.Code;
    }

    private static string NameAt(Picture picture, int x, int y)
    {
        var at = 4 * ((y * picture.Width) + x);
        return (picture.Rgba[at] > 128, picture.Rgba[at + 1] > 128, picture.Rgba[at + 2] > 128) switch
        {
            (true, false, false) => "r",
            (false, true, false) => "g",
            (false, false, true) => "b",
            (true, true, true) => "w",
            _ => "?",
        };
    }
}
