using System.Globalization;
using System.Xml.Linq;
using Xunit;
using static Trimwright.Tests.Drawing.MeasuredSheets;

namespace Trimwright.Tests.Drawing;

/// <summary>
/// Lines, arrowheads and lettering of measured sheets, read back from their SVG, against the figures of the standards. Those are
/// typed here from textbooks and teaching pages that restate the standards; the standards themselves were not read.
/// </summary>
public class DrawingRulesTests
{
    // ISO 3098-1, heights of lettering in mm.
    private static readonly decimal[] LetteringHeights = [1.8m, 2.5m, 3.5m, 5m, 7m, 10m, 14m, 20m];

    // ISO 128-2, widths of lines in mm.
    private static readonly decimal[] LineWidths = [0.13m, 0.18m, 0.25m, 0.35m, 0.5m, 0.7m, 1m, 1.4m, 2m];

    public static TheoryData<string> Cards => [.. SampleCards.ByName.Keys];

    private static IEnumerable<SvgSheet> SheetsOf(string name) => new MeasuredSheets(SampleCards.ByName[name]()).Sheets;

    private static IEnumerable<XElement> Lined(SvgSheet sheet) => sheet.Root.Descendants().Where(element => element.Attribute("stroke-width") is not null);

    private static decimal Number(XElement element, string name) => decimal.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    private static decimal[] Path(XElement path) => SvgSheet.Numbers(path.Attribute("d")!.Value);

    [Theory]
    [MemberData(nameof(Cards))]
    public void Lettering_has_heights_of_ISO_3098_and_none_below_the_least_for_dimensions(string name) => Assert.All(
        SheetsOf(name).SelectMany(sheet => sheet.Texts), words =>
        {
            // The capitals of the lettering are 736/1024 of its em square; sizes are written to a millionth.
            var height = Math.Round(Number(words.Element, "font-size") * 736 / 1024, 5);
            Assert.Contains(height, LetteringHeights);
            Assert.True(height >= 2.5m, "2.5 mm is the least on sheets up to A1: a BS textbook of engineering drawing");
        });

    [Theory]
    [MemberData(nameof(Cards))]
    public void All_dimensions_have_one_height(string name) =>
        // ISO 129-1:2018.
        Assert.Single(SheetsOf(name).SelectMany(sheet => sheet.Dimensions).Select(dimension => dimension.Element(Name("text"))!.Attribute("font-size")!.Value).Distinct());

    [Theory]
    [MemberData(nameof(Cards))]
    public void Lines_have_two_widths_of_ISO_128_that_are_as_two_to_one(string name)
    {
        var widths = SheetsOf(name).SelectMany(Lined).Select(element => Number(element, "stroke-width")).Distinct().Order().ToArray();

        Assert.Equal(2, widths.Length);
        Assert.All(widths, width => Assert.Contains(width, LineWidths));
        Assert.Equal(2, widths[1] / widths[0]);
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Only_hidden_edges_are_dashed_and_they_are_narrow(string name) => Assert.All(
        SheetsOf(name).SelectMany(Lined).Where(element => element.Attribute("stroke-dasharray") is not null || (string?)element.Parent!.Attribute("class") == "hidden-edge"),
        element =>
        {
            Assert.Equal("hidden-edge", (string?)element.Parent!.Attribute("class"));
            Assert.NotNull(element.Attribute("stroke-dasharray"));
            Assert.Equal(0.25m, Number(element, "stroke-width"));
        });

    [Theory]
    [MemberData(nameof(Cards))]
    public void Arrowheads_are_filled_three_times_as_long_as_wide_and_as_long_as_figures_are_high(string name)
    {
        var arrows = SheetsOf(name).SelectMany(sheet => sheet.Dimensions).SelectMany(dimension => dimension.Elements(Name("path")))
            .Where(path => path.Attribute("d")!.Value.EndsWith('Z')).ToArray();

        Assert.NotEmpty(arrows);
        Assert.All(arrows, arrow =>
        {
            var n = Path(arrow);
            var isAcross = n[2] == n[4];
            var (length, width) = isAcross ? (Math.Abs(n[2] - n[0]), Math.Abs(n[5] - n[3])) : (Math.Abs(n[3] - n[1]), Math.Abs(n[4] - n[2]));
            Assert.Equal(2.5m, length);

            // ASME Y14.2-2008, section 3: about 3 : 1. Places are whole micrometres, so that a third is off by one at most.
            Assert.InRange(length / width, 2.99m, 3.01m);
            Assert.NotEqual("none", (string?)arrow.Attribute("fill"));
        });
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Dimension_lines_keep_the_distances_of_ASME_Y14_5_and_ISO_129(string name)
    {
        foreach (var sheet in SheetsOf(name))
        {
            var face = FaceOf(sheet);
            var lines = sheet.Dimensions.Where(d => HasLine(d) && d.Attribute("transform") is null).Select(d => Path(MeasureLine(d)!)).ToArray();
            foreach (var isAcross in new[] { true, false })
            {
                var places = lines.Where(n => n[1] == n[3] == isAcross).Select(n => isAcross ? n[1] : n[0]).Distinct().Order().ToArray();
                var (low, high) = isAcross ? (face.Top, face.Bottom) : (face.Left, face.Right);

                // The first at least 10 mm from the outline, the next at least 6 mm farther out: ASME Y14.5, 1.7.1. At least twice the
                // height of figures between lines: ISO 129-1 as restated. The face is read in single precision.
                Assert.All(places, place => Assert.True(place <= low - 9.9999m || place >= high + 9.9999m));
                Assert.All(places.Zip(places.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 6));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Extension_lines_begin_with_a_gap_and_go_two_millimetres_beyond(string name)
    {
        foreach (var dimension in SheetsOf(name).SelectMany(sheet => sheet.Dimensions).Where(HasLine))
        {
            var line = Path(MeasureLine(dimension)!);
            var isAcross = line[1] == line[3];
            var place = isAcross ? line[1] : line[0];
            var farthest = dimension.Elements(Name("path")).Where(path => (string?)path.Attribute("class") == "extension").Select(Path)
                .GroupBy(n => isAcross ? n[0] : n[1])
                .Select(pieces => pieces.Min(n => Math.Min(Math.Abs((isAcross ? n[1] : n[0]) - place), Math.Abs((isAcross ? n[3] : n[2]) - place))));

            // ISO 129-1 as restated in a school textbook: about 2 mm beyond the dimension line.
            Assert.All(farthest, beyond => Assert.Equal(2m, beyond));
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Figures_stand_a_millimetre_above_their_line_and_are_read_from_below_or_from_the_right(string name)
    {
        foreach (var dimension in SheetsOf(name).SelectMany(sheet => sheet.Dimensions).Where(HasLine))
        {
            var line = Path(MeasureLine(dimension)!);
            var text = dimension.Element(Name("text"))!;
            var isAcross = line[1] == line[3];
            var turn = (string?)text.Attribute("transform");
            Assert.Equal(isAcross, turn is null);
            Assert.True(isAcross || turn!.StartsWith("rotate(-90 ", StringComparison.Ordinal));

            // The lowest figure of all runs, a denominator perhaps. Turned to the left by a right angle, what was above lies to the left.
            var foot = text.HasElements ? text.Elements().Max(run => Number(run, "y")) : Number(text, "y");
            var above = isAcross ? line[1] - foot : line[0] - (SvgSheet.Numbers(turn!)[1] + (foot - SvgSheet.Numbers(turn!)[2]));

            // About 1 mm: ISO 129-1 as restated. Figures end on the line of writing, brackets and commas a little below it.
            Assert.InRange(above, 1m, 1.9m);
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void The_parts_of_a_fraction_follow_one_another_one_raised_and_one_lowered(string name)
    {
        foreach (var text in SheetsOf(name).SelectMany(sheet => sheet.Texts).Select(words => words.Element).Where(element => element.HasElements))
        {
            var runs = text.Elements().ToArray();
            var (size, foot) = ((float)Number(text, "font-size"), Number(text, "y"));
            foreach (var (run, next) in runs.Zip(runs.Skip(1)))
            {
                // SkiaSharp measures the same font by itself. The slash has no width of its own; the rest begins where the one before
                // ends, or up to half a millimetre after. Before a fraction, part of the space is left out.
                var end = (float)Number(run, "x") + SvgSheet.WidthBySkia(run.Value.TrimEnd(), size);
                Assert.InRange((float)Number(next, "x") - end, -0.01f, run.Value.EndsWith(' ') ? 1f : 0.5f);
            }

            for (var i = 0; i < runs.Length; i++)
            {
                var isNumerator = i + 1 < runs.Length && runs[i + 1].Value == "\u2044";
                var isDenominator = i > 0 && runs[i - 1].Value == "\u2044";
                var rise = foot - Number(runs[i], "y");
                Assert.Equal(isNumerator ? 1.1m : isDenominator ? -1.1m : 0, rise);
                Assert.True(!(isNumerator || isDenominator) || runs[i].Value.All(char.IsAsciiDigit));
            }
        }
    }

    private static (decimal Left, decimal Top, decimal Right, decimal Bottom) FaceOf(SvgSheet sheet)
    {
        var pieces = sheet.Strokes.Where(stroke => stroke.Element.Parent!.Attribute("class")?.Value is "card" or "piece" or "mat" or "context")
            .SelectMany(stroke => stroke.Points).ToArray();
        return ((decimal)pieces.Min(p => p.X), (decimal)pieces.Min(p => p.Y), (decimal)pieces.Max(p => p.X), (decimal)pieces.Max(p => p.Y));
    }
}
