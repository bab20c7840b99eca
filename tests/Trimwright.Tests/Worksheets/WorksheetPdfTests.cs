using System.Globalization;
using System.Text;
using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Drawing;
using Trimwright.Trimming;
using Trimwright.Worksheets;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Worksheets;

public class WorksheetPdfTests
{
    private const double MillimetresPerInch = 25.4;

    public static TheoryData<string> Demos() => Repository.Demos();

    /// <summary>Demos and formats: upright, turned on the page, in inches and in millimetres.</summary>
    public static TheoryData<string, string?, Holding, string> TrueSized() => new()
    {
        { "bean-row", null, Holding.Portrait, "Letter" },
        { "bean-row", "A2", Holding.Landscape, "A4" },
        { "bean-row", "A7", Holding.Landscape, "Letter" },
        { "rain-gauge", null, Holding.Landscape, "Letter" },
        { "watering-can", null, Holding.Portrait, "A4" },
        { "seed-swap", null, Holding.Portrait, "Letter" },
    };

    [PopplerTheory]
    [InlineData("Letter", 8.5 * 72, 11.0 * 72)]
    [InlineData("A4", 210 / MillimetresPerInch * 72, 297 / MillimetresPerInch * 72)]
    public void Every_page_has_the_size_of_the_paper(string paper, double width, double height)
    {
        var pdf = Make("bean-row", paper);
        var box = Poppler.Info(pdf, "-box", "-l", "99").Split('\n').Where(line => line.Contains("MediaBox:", StringComparison.Ordinal)).ToList();
        Assert.Equal(Poppler.Pages(pdf).Length, box.Count);
        Assert.All(box, line =>
        {
            var sides = line[(line.IndexOf(':') + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Number).ToArray();
            Assert.Equal([0, 0], sides[..2]);
            Assert.Equal(width, sides[2], tolerance: 0.005);
            Assert.Equal(height, sides[3], tolerance: 0.005);
        });

        var picture = Poppler.Picture(pdf, 1, 300);
        Assert.Equal((Math.Ceiling((width / 72 * 300) - 0.01), Math.Ceiling((height / 72 * 300) - 0.01)), (picture.Width, picture.Height));
    }

    [PopplerTheory]
    [InlineData("bean-row", "Letter")]
    [InlineData("watering-can", "A4")]
    [InlineData("allotment-path", "Letter")]
    public void The_check_bars_of_every_page_are_an_inch_and_five_centimetres_long(string name, string paper)
    {
        const int Dpi = 600;
        var pdf = Make(name, paper);
        var pages = Poppler.Pages(pdf).Length;
        for (var page = 1; page <= pages; page++)
        {
            var height = PaperSize.Find(paper)!.Height.Nanometres / 1e6 / MillimetresPerInch * Dpi;
            const int Foot = 600;
            var foot = Poppler.Picture(pdf, page, Dpi, (0, (int)height - Foot, 8 * Dpi, Foot));
            var bars = Enumerable.Range(0, Foot).Select(y => foot.DarkIn(y).Where(run => run.Length > Dpi / 2).ToList())
                .Where(runs => runs.Count > 0).ToList();

            // One millimetre thick, and in every row the same two bars.
            Assert.InRange(bars.Count, 22, 25);
            Assert.All(bars, runs =>
            {
                Assert.Equal(2, runs.Count);
                Assert.InRange(runs[0].Length, Dpi - 1, Dpi + 1);
                Assert.Equal(50 / MillimetresPerInch * Dpi, runs[1].Length, tolerance: 1.0);
            });
        }
    }

    [PopplerTheory]
    [MemberData(nameof(TrueSized))]
    public void The_outline_of_the_measured_card_is_as_large_as_the_card(string demo, string? format, Holding holding, string paper)
    {
        const int Dpi = 600;
        const double Line = 0.5; // The outline is half a millimetre thick, half of it outside.
        var card = Fit(Demo(demo), format, holding);
        var pdf = WorksheetPdf.Write(WorksheetMaker.Make(card, PaperSize.Find(paper)!));
        var page = Array.FindIndex(Poppler.Pages(pdf), text => text.Contains("The face, measured", StringComparison.Ordinal)) + 1;
        var picture = Poppler.Picture(pdf, page, Dpi);
        double Pixels(Length side) => (side.Nanometres / 1e6 + Line) / MillimetresPerInch * Dpi;

        // Upright or turned: the outline's two level edges are the longest unbroken dark stretches of their length.
        var matches = new[] { (Pixels(card.Width), Pixels(card.Height)), (Pixels(card.Height), Pixels(card.Width)) }.Any(size =>
        {
            var rows = Enumerable.Range(0, picture.Height)
                .SelectMany(y => picture.DarkIn(y).Where(run => Math.Abs(run.Length - size.Item1) <= 1.5).Select(run => (Y: y, run.From))).ToList();
            return rows.Exists(top => rows.Exists(bottom =>
                Math.Abs(bottom.Y - top.Y + 1 - size.Item2) <= 1.5 && Math.Abs(bottom.From - top.From) <= 1));
        });
        Assert.True(matches, "there is no rectangle of the size of the card on the page");
        Assert.Contains("True to size.", Poppler.Pages(pdf)[page - 1], StringComparison.Ordinal);
    }

    [PopplerTheory]
    [MemberData(nameof(Demos))]
    public void Every_size_of_the_trim_list_and_every_step_can_be_read_out_of_the_file(string demo)
    {
        var list = TrimList.FromCard(Fit(Demo(demo)));
        var text = Flat(string.Join(' ', Poppler.Pages(WorksheetPdf.Write(WorksheetMaker.Make(list.Card, PaperSize.Letter)))));
        Assert.All(list.Lines, line =>
        {
            Assert.Contains(Flat(line.Name), text, StringComparison.Ordinal);
            var size = line.Shape == "circle"
                ? $" {LengthText.WriteBare(line.Width, list.Card.Unit)} across "
                : $" {LengthText.WriteBare(line.Width, list.Card.Unit)} x {LengthText.WriteBare(line.Height, list.Card.Unit)} ";
            Assert.Contains(size, text, StringComparison.Ordinal);
        });
        Assert.All(TakeCare.Lines.Concat(AssemblyOrder.Of(list)), sentences => Assert.Contains(Flat(sentences), text, StringComparison.Ordinal));
    }

    [PopplerFact]
    public void All_fonts_are_embedded_in_part_with_their_characters()
    {
        var fonts = Poppler.Fonts(Make("bean-row", "Letter")).TrimEnd().Split('\n').Skip(2).ToList();
        Assert.Equal(3, fonts.Count);
        Assert.All(fonts, font => Assert.Contains("yes yes yes", font, StringComparison.Ordinal));
    }

    [PopplerFact]
    public void A_reader_that_speaks_finds_headings_lists_tables_and_figures()
    {
        var pdf = Make("bean-row", "Letter");
        Assert.Contains("Tagged:          yes", Poppler.Info(pdf), StringComparison.Ordinal);
        var tree = Poppler.Info(pdf, "-struct-text");
        var lines = tree.Split('\n').Select(line => line.Trim().Split(' ')[0].TrimEnd(':')).ToList();
        Assert.Equal(1, lines.Count(kind => kind == "H1"));
        Assert.Equal(4, lines.Count(kind => kind == "H2"));
        Assert.Equal(2, lines.Count(kind => kind == "Figure"));
        Assert.Equal(2, lines.Count(kind => kind == "L"));
        Assert.Equal(1, lines.Count(kind => kind == "Table"));

        // Ten pieces and the row of headings; a heading for each of seven columns and ten rows.
        Assert.Equal(11, lines.Count(kind => kind == "TR"));
        Assert.Equal(17, lines.Count(kind => kind == "TH"));
        Assert.Contains("\"Bean row\"", tree, StringComparison.Ordinal);

        // Words at the ends of lines do not run together.
        Assert.Contains("differ by a millimetre or two.", tree, StringComparison.Ordinal);
        var file = Encoding.Latin1.GetString(pdf);
        Assert.Contains("/Lang (en)", file, StringComparison.Ordinal);
        var alt = "Bean row: A2, portrait, 4 1/4 x 5 1/2 in, with its measures.";
        Assert.Contains($"/Alt <FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(alt))}>", file, StringComparison.Ordinal);
    }

    [PopplerTheory]
    [MemberData(nameof(Demos))]
    public void Nothing_is_drawn_where_printers_do_not_reach(string demo)
    {
        const int Dpi = 72;
        const int Reach = 17; // 6 mm
        var pdf = Make(demo, "Letter");
        for (var page = 1; page <= Poppler.Pages(pdf).Length; page++)
        {
            var picture = Poppler.Picture(pdf, page, Dpi);
            for (var y = 0; y < picture.Height; y++)
            {
                for (var x = 0; x < picture.Width; x++)
                {
                    if (x < Reach || y < Reach || x >= picture.Width - Reach || y >= picture.Height - Reach)
                    {
                        Assert.Equal(255, picture[x, y]);
                    }
                }
            }
        }
    }

    [PopplerFact]
    public void A_card_too_large_for_the_page_is_drawn_smaller_and_says_so()
    {
        var (format, problem) = CardFormats.Read("9 x 9 in", LengthUnit.Inch);
        Assert.Null(problem);
        var card = Fitter.Fit(Demo("bean-row"), format!.Format, Holding.Portrait, Drawer.Default).Card!;
        var text = Flat(string.Join(' ', Poppler.Pages(WorksheetPdf.Write(WorksheetMaker.Make(card, PaperSize.A4)))));
        Assert.Contains("drawn at half its size, so do not measure on it", text, StringComparison.Ordinal);
        Assert.DoesNotContain("True to size.", text, StringComparison.Ordinal);
    }

    [PopplerFact]
    public void A_list_longer_than_a_page_says_its_headings_again()
    {
        var pieces = string.Join(',', Enumerable.Range(1, 45).Select(i => string.Create(CultureInfo.InvariantCulture, $$"""
            { "name": "bean-{{i}}", "kind": "panel", "paper": "p", "width": "{{i}}/16", "height": "1/2", "place": { "from-left": "1/8", "from-top": "1/8" } }
            """)));
        var pages = Poppler.Pages(WorksheetPdf.Write(WorksheetMaker.Make(Fit(Layout(pieces)), PaperSize.Letter)));
        var withRows = pages.Where(page => page.Contains("trimmer", StringComparison.Ordinal) && page.Contains("bean-4", StringComparison.Ordinal)
            && page.Contains("Size (in)", StringComparison.Ordinal)).ToList();
        Assert.True(withRows.Count >= 2, "the headings stand on one page alone");
        Assert.All(Enumerable.Range(1, 45), i => Assert.Contains(pages, page => page.Contains($"bean-{i} ", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("bean-row")]
    [InlineData("watering-can")]
    public void The_same_worksheet_is_the_same_bytes_in_any_culture_and_tells_no_time(string demo)
    {
        var kept = CultureInfo.CurrentCulture;
        var first = Make(demo, "A4");
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(first, Make(demo, "A4"));
        }
        finally
        {
            CultureInfo.CurrentCulture = kept;
        }

        var file = Encoding.Latin1.GetString(first);
        Assert.DoesNotContain("Date", file, StringComparison.Ordinal);
        Assert.DoesNotContain("/ID", file, StringComparison.Ordinal);
    }

    [Fact]
    public void A_machine_without_any_graphics_library_writes_the_same_file()
    {
        using var machine = new BareMachine();
        var there = machine.Call<byte[]>(typeof(WorksheetPdfTests), nameof(SamplePdf));
        Assert.Equal(SamplePdf(), there);
        Assert.DoesNotContain(machine.Loaded, name => name.Contains("Skia", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Signs_that_the_fonts_lack_are_named()
    {
        var sheet = WorksheetMaker.Make(new CardMaker(CardMaker.A2, Holding.Portrait, "Beans 豆豆 & peas").Make(), PaperSize.A4);
        Assert.Equal("豆", WorksheetPdf.Lacking(sheet));
        Assert.NotEmpty(WorksheetPdf.Write(sheet));
    }

    [Theory]
    [InlineData("letter", "Letter")]
    [InlineData(" A4 ", "A4")]
    [InlineData("a4", "A4")]
    public void Papers_are_found_by_name(string written, string name) => Assert.Equal(name, PaperSize.Find(written)!.Name);

    [Theory]
    [InlineData("legal")]
    [InlineData("")]
    [InlineData("A")]
    public void Other_papers_are_not_found(string written) => Assert.Null(PaperSize.Find(written));

    [Fact]
    public void A4_is_the_fourth_halving_of_a_square_metre_whose_sides_are_as_one_to_the_root_of_two()
    {
        // ISO 216: A0 has 1 m2 and its sides are as 1 : sqrt 2; each size is half the one before; sides are rounded to millimetres.
        var width = Math.Pow(2, -0.25 - (4 / 2.0)) * 1000;
        Assert.Equal((Math.Floor(width), Math.Floor((width * Math.Sqrt(2)) + 0.2)), (
            PaperSize.A4.Width.Nanometres / 1e6, PaperSize.A4.Height.Nanometres / 1e6));
    }

    public static byte[] SamplePdf() => WorksheetPdf.Write(WorksheetMaker.Make(SampleCards.BeanRow(), PaperSize.Letter));

    private static byte[] Make(string name, string paper) => WorksheetPdf.Write(WorksheetMaker.Make(
        SampleCards.ByName.TryGetValue(name, out var sample) && !Repository.DemoNames().Contains(name) ? sample() : Fit(Demo(name)),
        PaperSize.Find(paper)!));

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Flat(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
