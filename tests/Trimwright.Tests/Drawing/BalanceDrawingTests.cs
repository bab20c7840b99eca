using System.Globalization;
using System.Xml.Linq;
using SkiaSharp;
using Trimwright.Balance;
using Trimwright.Drawing;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Tests.Images;
using Trimwright.Variants;
using static Trimwright.Tests.Fitting.FitHelper;

namespace Trimwright.Tests.Drawing;

/// <summary>The sheets of variants in order of balance, read back from their SVG.</summary>
public class BalanceDrawingTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Demos() => Repository.Demos();

    [Theory]
    [MemberData(nameof(Demos))]
    public void No_words_meet_a_line_other_words_or_the_edge(string demo)
    {
        foreach (var svg in Sheets(Compare(Demo(demo)), 200))
        {
            var sheet = new SvgSheet(svg);
            Assert.NotEmpty(sheet.Texts);
            Assert.Empty(sheet.Collisions("caption"));
            AssertArrowsMeetNoWords(svg);
        }
    }

    // The bed is moved and mirrored along the foot of the card and to its sides, and the weight with it.
    [Theory]
    [InlineData(""" "center": "both" """, false)]
    [InlineData(""" "from-left": "exactly 1/4", "from-top": "exactly 1/4" """, true)]
    [InlineData(""" "from-right": "exactly 1/4", "from-top": "exactly 1/4" """, true)]
    public void Lettering_below_an_arrow_is_left_out_and_other_lettering_stays(string place, bool stays)
    {
        var comparison = Compare(Read(Dark($$"""
            { "name": "bed", "kind": "panel", "paper": "dark", "accent": true, "width": "exactly 1", "height": "exactly 1", "place": { "from-left": "exactly 0", "from-bottom": "exactly 0" } },
            { "name": "words", "kind": "label", "text": "sow me", "paper": "white", "width": "exactly 1 1/2", "height": "exactly 1/2", "place": { {{place}} } }
            """)));
        Assert.True(comparison.Variants.Count > 3);
        foreach (var svg in Sheets(comparison, 200))
        {
            Assert.Equal(stays, svg.Contains("sow me", StringComparison.Ordinal));
            AssertArrowsMeetNoWords(svg);
        }
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void The_figures_below_a_face_and_the_dot_on_it_are_those_of_its_own_weighing(string demo)
    {
        var layout = Demo(demo);
        var cards = VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default).Found.ToDictionary(variant => variant.Name, variant => variant.Card!);
        var groups = Sheets(Compare(layout), 200).SelectMany(Variants).ToList();
        Assert.Equal(cards.Count, groups.Count);
        foreach (var group in groups)
        {
            var card = cards[(string)group.Attribute("data-changed")!];
            var weight = Weighing.Of(FaceRender.Draw(card, FacePictures.Of(layout)).Grey, GroundTone.Light)!;
            var caption = group.Elements(Svg + "text").Select(text => text.Value).ToList();
            Assert.Contains($"DCM {Two(weight.Deviation)}, APB {Two(weight.Preference)}", caption);
            Assert.Contains($"dx {Two(weight.Dx)}, dy {Two(weight.Dy)}", caption);

            // Where the dot lies on the sheet, back on the card.
            var (corner, scale) = Face(group);
            var (ring, dot) = Sign(group);
            Near(card.Width.Nanometres / 2e6, (ring.X - corner.X) / scale);
            Near(card.Height.Nanometres / 2e6, (ring.Y - corner.Y) / scale);
            var (x, y) = (card.Width.Nanometres / 1e6 * weight.CentreX.ToDouble(), card.Height.Nanometres / 1e6 * weight.CentreY.ToDouble());
            if (dot is { } at)
            {
                Near(x, (at.X - corner.X) / scale);
                Near(y, (at.Y - corner.Y) / scale);
            }
            else
            {
                // No dot only where the eye would not see it apart from the middle.
                Assert.InRange(Math.Sqrt(Math.Pow(x - (card.Width.Nanometres / 2e6), 2) + Math.Pow(y - (card.Height.Nanometres / 2e6), 2)) * scale, 0, 0.2);
            }
        }

        // A millionth of a millimetre is lost on the sheet, and there are up to six of the card to one of the sheet.
        static void Near(double expected, double found) => Assert.InRange(found - expected, -0.00002, 0.00002);
        static string Two(Rational value) => Math.Round((decimal)value.Numerator / (decimal)value.Denominator, 2, MidpointRounding.AwayFromZero).ToString("0.00", CultureInfo.InvariantCulture);
    }

    [Theory]
    [MemberData(nameof(Demos))]
    public void All_faces_of_a_sheet_are_to_one_scale_and_inside_it_and_it_prints_on_Letter_and_A4(string demo)
    {
        foreach (var svg in Sheets(Compare(Demo(demo)), 200))
        {
            var sheet = new SvgSheet(svg);
            var scales = Variants(svg).Select(group => Face(group).Scale).Distinct().ToList();
            Assert.Single(scales);
            Assert.All(sheet.Strokes, stroke => Assert.True(sheet.Sheet.Contains(stroke.Bounds)));

            // ANSI Letter is 215.9 x 279.4 mm, ISO 216 A4 210 x 297 mm.
            Assert.InRange(sheet.Sheet.Width, 0, 210);
            Assert.InRange(sheet.Sheet.Height, 0, 279.4f);
        }
    }

    [Fact]
    public void Many_variants_take_several_sheets_and_each_stands_on_one_in_order()
    {
        var comparison = Compare(Read(Dark(string.Join(',', new[] { ("0", "0"), ("1 1/4", "2"), ("2 1/2", "4") }.Select((at, i) =>
            $$"""{ "name": "bed-{{i}}", "kind": "panel", "paper": "dark", "accent": true, "width": "exactly 1/2", "height": "exactly {{i + 1}}/4", "place": { "from-left": "exactly {{at.Item1}}", "from-top": "exactly {{at.Item2}}" } }""")))), 100);
        Assert.True(comparison.Variants.Count > 40, $"{comparison.Variants.Count}");
        var sheets = Sheets(comparison, comparison.Variants.Count);
        Assert.True(sheets.Count > 3, $"{sheets.Count}");
        Assert.Equal(
            Enumerable.Range(1, comparison.Variants.Count),
            sheets.SelectMany(Variants).Select(group => (int)group.Attribute("data-number")!));
        for (var i = 0; i < sheets.Count; i++)
        {
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $">sheet {i + 1} of {sheets.Count}<"), sheets[i], StringComparison.Ordinal);
            Assert.Empty(new SvgSheet(sheets[i]).Collisions("caption"));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void As_drawn_is_always_shown(int show)
    {
        var comparison = Compare(Demo("bean-row"));
        Assert.True(comparison.AsDrawn.Number > show);
        var numbers = Sheets(comparison, show).SelectMany(Variants).Select(group => (int)group.Attribute("data-number")!);
        Assert.Equal([.. Enumerable.Range(1, show), comparison.AsDrawn.Number], numbers);
    }

    [Fact]
    public void Weight_in_the_middle_is_a_ring_alone()
    {
        var comparison = Compare(Read(Dark("""{ "name": "bed", "kind": "panel", "paper": "dark", "width": "exactly 1", "height": "exactly 1", "place": { "center": "both" } }""")));
        var group = Assert.Single(Sheets(comparison, 1).SelectMany(Variants));
        var sign = group.Elements(Svg + "g").Single(element => (string?)element.Attribute("class") == "balance");
        Assert.All(sign.Elements(), element => Assert.Equal("none", (string?)element.Attribute("fill")));
        Assert.Equal(2, sign.Elements(Svg + "circle").Count());
        Assert.Empty(sign.Elements(Svg + "path"));
    }

    // The head is the last path of the sign: it points from the ring through the dot, and lies on neither of them.
    [Theory]
    [MemberData(nameof(Demos))]
    public void An_arrowhead_shows_the_way_however_near_the_weight_lies(string demo)
    {
        foreach (var group in Sheets(Compare(Demo(demo)), 200).SelectMany(Variants))
        {
            var (ring, dot) = Sign(group);
            if (dot is not { } at)
            {
                continue;
            }

            var sign = group.Elements(Svg + "g").Single(element => (string?)element.Attribute("class") == "balance");
            var corners = SvgSheet.Numbers((string)sign.Elements(Svg + "path").Last(path => (string?)path.Attribute("fill") is not (null or "none")).Attribute("d")!);
            Assert.Equal(6, corners.Length);
            var (tip, left, right) = ((X: (double)corners[0], Y: (double)corners[1]), (X: (double)corners[2], Y: (double)corners[3]), (X: (double)corners[4], Y: (double)corners[5]));
            var far = Math.Sqrt(Math.Pow(at.X - ring.X, 2) + Math.Pow(at.Y - ring.Y, 2));
            double Along((double X, double Y) place) => (((place.X - ring.X) * (at.X - ring.X)) + ((place.Y - ring.Y) * (at.Y - ring.Y))) / far;
            double Aside((double X, double Y) place) => (((place.X - ring.X) * (at.Y - ring.Y)) - ((place.Y - ring.Y) * (at.X - ring.X))) / far;
            Assert.InRange(Aside(tip), -0.001, 0.001);
            Assert.InRange(Aside(left) + Aside(right), -0.001, 0.001);
            Assert.True(Along(tip) > Along(left) + 1);
            var (start, end) = (Along(left), Along(tip));
            Assert.True(start > 1.3, $"{start}");
            Assert.True(end < far - 0.59 || start > far + 0.6, $"{start} {end} {far}");
        }
    }

    // WCAG 2.1, 1.4.11: signs stand out by 3 to 1 at least; relative luminance as it defines it.
    [Fact]
    public void Ring_and_dot_stand_out_from_any_grey_paper_by_their_own_colour_or_by_their_rim()
    {
        var sign = Variants(Sheets(Compare(Demo("bean-row")), 1)[0]).First().Elements(Svg + "g").Single(element => (string?)element.Attribute("class") == "balance");
        var colours = sign.Elements().SelectMany(element => new[] { (string?)element.Attribute("fill"), (string?)element.Attribute("stroke") })
            .Where(colour => colour is not (null or "none")).Distinct().Select(colour => Luminance(SKColor.Parse(colour))).ToList();
        Assert.Equal(2, colours.Count);
        Assert.True(Contrast(colours[0], colours[1]) >= 3);
        for (var grey = 0; grey < 256; grey++)
        {
            var paper = Luminance(new((byte)grey, (byte)grey, (byte)grey));
            Assert.Contains(colours, colour => Contrast(colour, paper) >= 3);
        }

        static double Luminance(SKColor colour) => (0.2126 * Linear(colour.Red)) + (0.7152 * Linear(colour.Green)) + (0.0722 * Linear(colour.Blue));
        static double Linear(byte part) => part / 255.0 is var share && share <= 0.03928 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
        static double Contrast(double a, double b) => (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    [Fact]
    public void None_to_show_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BalanceDrawing.Sheets(Compare(Demo("bean-row")), 0));

    private static BalanceComparison Compare(Layout layout, int most = VariantSearch.UsualMost) =>
        BalanceComparison.Of(VariantSearch.Find(layout, layout.Format, layout.Holding, Drawer.Default, most), FacePictures.Of(layout));

    private static List<string> Sheets(BalanceComparison comparison, int show) => [.. BalanceDrawing.Sheets(comparison, show).Select(SvgWriter.Write)];

    private static IEnumerable<XElement> Variants(string svg) =>
        XDocument.Parse(svg).Root!.Elements(Svg + "g").Where(group => (string?)group.Attribute("class") == "variant");

    private static ((double X, double Y) Corner, double Scale) Face(XElement group)
    {
        var transform = (string)group.Elements(Svg + "g").Single(element => (string?)element.Attribute("class") == "face").Attribute("transform")!;
        var numbers = SvgSheet.Numbers(transform);
        Assert.StartsWith("translate(", transform, StringComparison.Ordinal);
        Assert.Contains(") scale(", transform, StringComparison.Ordinal);
        return (((double)numbers[0], (double)numbers[1]), (double)numbers[2]);
    }

    private static ((double X, double Y) Ring, (double X, double Y)? Dot) Sign(XElement group)
    {
        var circles = group.Elements(Svg + "g").Single(element => (string?)element.Attribute("class") == "balance").Elements(Svg + "circle").ToList();
        static (double, double) At(XElement circle) => ((double)circle.Attribute("cx")!, (double)circle.Attribute("cy")!);
        var ring = circles.First(circle => (string?)circle.Attribute("fill") == "none");
        return (At(ring), circles.LastOrDefault(circle => (string?)circle.Attribute("fill") != "none") is { } dot ? At(dot) : null);
    }

    private static void AssertArrowsMeetNoWords(string svg)
    {
        var bare = XDocument.Parse(svg);
        bare.Descendants(Svg + "g").Where(group => (string?)group.Attribute("class") == "balance").Remove();
        Assert.Equal(new SvgSheet(bare.ToString()).Collisions().ToList(), new SvgSheet(svg).Collisions().ToList());
    }

    private static string Dark(string pieces) => $$"""
        {
          "title": "test", "format": "A2", "held": "portrait", "units": "in", "base": { "paper": "white" },
          "papers": { "white": { "tone": "white" }, "dark": { "tone": "black" } },
          "pieces": [ {{pieces}} ]
        }
        """;
}
