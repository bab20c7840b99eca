using System.Globalization;
using System.Xml.Linq;
using Trimwright.Drawing;
using Trimwright.Fitting;
using Xunit;

namespace Trimwright.Tests.Drawing;

/// <summary>The measured sheets of a card, read back from their SVG, and what must hold on all of them.</summary>
internal sealed class MeasuredSheets
{
    public MeasuredSheets(FittedCard card, bool bothUnits = false)
    {
        Card = card;
        Sheets = [.. MeasuredDrawing.Sheets(card, bothUnits).Select(sheet => new SvgSheet(SvgWriter.Write(sheet.Drawing)))];
    }

    public FittedCard Card { get; }

    public IReadOnlyList<SvgSheet> Sheets { get; }

    public IEnumerable<XElement> Dimensions => Sheets.SelectMany(sheet => sheet.Dimensions);

    public static XName Name(string local) => XName.Get(local, "http://www.w3.org/2000/svg");

    public static bool HasLine(XElement dimension) => MeasureLine(dimension) is not null;

    public static XElement? MeasureLine(XElement dimension) =>
        dimension.Elements(Name("path")).SingleOrDefault(path => (string?)path.Attribute("class") == "measure");

    public static string TextOf(XElement dimension) => dimension.Element(Name("text"))!.Value;

    public string TextOf(string of, string measure) => TextOf(Dimensions
        .Single(d => (string?)d.Attribute("data-of") == of && (string?)d.Attribute("data-measure") == measure));

    /// <summary>All words are clear of all else, and every dimension between lines says what lies between its lines.</summary>
    public void AssertReadableAndTrue()
    {
        foreach (var sheet in Sheets)
        {
            Assert.Empty(sheet.Collisions());
        }

        foreach (var dimension in Dimensions.Where(HasLine))
        {
            AssertTrue(dimension);
        }
    }

    private void AssertTrue(XElement dimension)
    {
        var ends = SvgSheet.Numbers(MeasureLine(dimension)!.Attribute("d")!.Value);
        var (across, down) = (ends[2] - ends[0], ends[3] - ends[1]);
        Assert.True(across == 0 || down == 0);
        var said = DrawnLength.Read(TextOf(dimension), Card.Unit);
        Assert.True(said.Says(across + down), $"'{TextOf(dimension)}' stands between lines {across + down} mm apart");
        Assert.Equal((string?)dimension.Attribute("data-count") ?? "1", said.Count.ToString(CultureInfo.InvariantCulture));

        // Both arrowheads touch the ends of the line with one of their corners.
        var tips = dimension.Elements(Name("path")).Select(path => path.Attribute("d")!.Value)
            .Where(path => path.EndsWith('Z')).Select(SvgSheet.Numbers).ToArray();
        Assert.Equal(2, tips.Length);
        Assert.Contains(tips, tip => (tip[0], tip[1]) == (ends[0], ends[1]));
        Assert.Contains(tips, tip => (tip[0], tip[1]) == (ends[2], ends[3]));
    }
}
