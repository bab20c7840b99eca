using System.Xml.Linq;
using Trimwright.Drawing;

namespace Trimwright.Worksheets;

/// <summary>A drawing as it stands inside a page of HTML: the SVG of the drawing, with ids of its own and a name and a description for those who cannot see it.</summary>
internal static class InlineSvg
{
    /// <summary>Writes it.</summary>
    /// <param name="drawing">The drawing.</param>
    /// <param name="name">What its ids begin with.</param>
    /// <param name="style">Its style, for the size on screen and on paper.</param>
    public static string Write(DrawingList drawing, string name, string style)
    {
        var svg = XDocument.Parse(SvgWriter.Write(drawing)).Root!;
        var space = svg.Name.Namespace;
        foreach (var attribute in svg.DescendantsAndSelf().Attributes().ToList())
        {
            if (attribute.Name == "id")
            {
                attribute.Value = $"{name}-{attribute.Value}";
            }
            else if (attribute.Value.StartsWith("url(#", StringComparison.Ordinal))
            {
                attribute.Value = $"url(#{name}-{attribute.Value[5..]}";
            }
            else if (attribute.Name.LocalName == "href" && attribute.Value.StartsWith('#'))
            {
                attribute.Value = $"#{name}-{attribute.Value[1..]}";
            }
            else if (attribute.Name.LocalName.StartsWith("data-", StringComparison.Ordinal) || attribute.Name == "class")
            {
                // They serve programs that read the drawing by itself, and might meet the style of the page.
                attribute.Remove();
            }
        }

        svg.Element(space + "title")?.SetAttributeValue("id", name + "-title");
        svg.Element(space + "desc")?.SetAttributeValue("id", name + "-desc");
        svg.SetAttributeValue("width", null);
        svg.SetAttributeValue("height", null);
        svg.SetAttributeValue("version", null);
        svg.SetAttributeValue("role", "img");
        svg.SetAttributeValue("aria-labelledby", $"{name}-title {name}-desc");
        svg.SetAttributeValue("style", style);
        return svg.ToString(SaveOptions.DisableFormatting);
    }
}
