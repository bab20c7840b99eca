using System.Globalization;
using System.Xml;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

public static partial class SvgWriter
{
    private static IEnumerable<PictureContent> Pictures(IEnumerable<DrawnItem> items) => items.SelectMany(item => item switch
    {
        DrawnGroup group => Pictures(group.Items),
        DrawnPicture picture => [picture.Content],
        _ => Enumerable.Empty<PictureContent>(),
    });

    private static string PictureId(int index) => string.Create(CultureInfo.InvariantCulture, $"picture-{index + 1}");

    /// <summary>Writes a picture once, one unit a pixel, for whatever shows it.</summary>
    private static void WritePictureFile(XmlWriter xml, string id, PictureContent content)
    {
        xml.WriteStartElement("image", Namespace);
        xml.WriteAttributeString("id", id);
        xml.WriteAttributeString("width", content.Picture.Width.ToString(CultureInfo.InvariantCulture));
        xml.WriteAttributeString("height", content.Picture.Height.ToString(CultureInfo.InvariantCulture));
        xml.WriteAttributeString("preserveAspectRatio", "none");
        xml.WriteAttributeString("href", Links, PictureData.Address(content));
        xml.WriteEndElement();
    }

    private static void WritePicture(XmlWriter xml, DrawnPicture drawn, string picture)
    {
        xml.WriteStartElement("g", Namespace);
        xml.WriteAttributeString("class", "picture");
        xml.WriteStartElement("clipPath", Namespace);
        xml.WriteAttributeString("id", drawn.Id);
        xml.WriteStartElement("path", Namespace);
        xml.WriteAttributeString("d", string.Join(' ', drawn.Edge.Contours.Select(PathOf)));
        xml.WriteAttributeString("clip-rule", "evenodd");
        xml.WriteEndElement();
        xml.WriteEndElement();

        // The edge belongs to a group of its own: on the picture itself it would be stretched with it.
        xml.WriteStartElement("g", Namespace);
        xml.WriteAttributeString("clip-path", $"url(#{drawn.Id})");
        xml.WriteStartElement("use", Namespace);
        xml.WriteAttributeString("href", Links, "#" + picture);
        var (across, down) = (Scale(drawn.Box.Width, drawn.Content.Picture.Width), Scale(drawn.Box.Height, drawn.Content.Picture.Height));
        var left = drawn.FlippedAbout is { } about ? (about * 2) - drawn.Box.Left : drawn.Box.Left;
        xml.WriteAttributeString(
            "transform", $"matrix({(drawn.FlippedAbout is null ? "" : "-")}{across} 0 0 {down} {Millimetres(left)} {Millimetres(drawn.Box.Top)})");
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    // Millimetres a pixel. Nine decimals keep the far edge of the largest picture within a tenth of a micrometre.
    private static string Scale(Position size, int pixels) =>
        LengthText.WriteDecimal(Nearest(size.Nanometres / Length.NanometresPerMillimetre / pixels, 1_000_000_000), 9);
}
