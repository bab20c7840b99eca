using System.Globalization;
using System.Text;
using Trimwright.Layouts;

namespace Trimwright.Worksheets.Pdf;

/// <summary>
/// The ink of one page, in millimetres from its upper left corner. All is drawn under tags, or as something that is not part of the
/// text, such as the foot of the page.
/// </summary>
/// <remarks>Operators as in ISO 32000-1, annex A.</remarks>
internal sealed class PageInk(int number)
{
    private readonly StringBuilder _ink = new();
    private int _marks;

    /// <summary>How many marks the page has.</summary>
    public int Marks => _marks;

    /// <summary>Everything drawn so far.</summary>
    public string Operators => _ink.ToString();

    /// <summary>A number as PDF reads it, to a tenth of a micrometre.</summary>
    public static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>A scale as PDF reads it.</summary>
    public static string Ratio(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture);

    /// <summary>Adds operators as they are.</summary>
    public PageInk Raw(string operators)
    {
        _ink.Append(operators).Append('\n');
        return this;
    }

    /// <summary>Draws something that belongs to an element of the structure.</summary>
    public void Under(Tag tag, Action draw)
    {
        Raw(string.Create(CultureInfo.InvariantCulture, $"/{tag.Kind} << /MCID {_marks} >> BDC"));
        tag.AddMark(number, _marks++);
        draw();
        Raw("EMC");
    }

    /// <summary>Draws something that a reader that speaks leaves out.</summary>
    public void Aside(Action draw)
    {
        Raw("/Artifact BMC");
        draw();
        Raw("EMC");
    }

    /// <summary>Sets a line of text; its foot is at y.</summary>
    public void Text(EmbeddedFont font, double size, double x, double y, string text, Colour colour)
    {
        if (text.Length > 0)
        {
            Raw($"BT {Rgb(colour)} rg /{font.Key} {Number(size)} Tf 1 0 0 -1 {Number(x)} {Number(y)} Tm {font.Hex(text)} Tj ET");
        }
    }

    /// <summary>Fills a box.</summary>
    public void Fill(double x, double y, double width, double height, Colour colour) =>
        Raw($"{Rgb(colour)} rg {Number(x)} {Number(y)} {Number(width)} {Number(height)} re f");

    /// <summary>Lines a box.</summary>
    public void Frame(double x, double y, double width, double height, double line, Colour colour) =>
        Raw($"{Rgb(colour)} RG {Number(line)} w {Number(x)} {Number(y)} {Number(width)} {Number(height)} re S");

    /// <summary>Draws a level line.</summary>
    public void Rule(double x, double y, double width, double line, Colour colour) =>
        Raw($"{Rgb(colour)} RG {Number(line)} w {Number(x)} {Number(y)} m {Number(x + width)} {Number(y)} l S");

    /// <summary>A colour as three shares of one.</summary>
    public static string Rgb(Colour colour) => $"{Share(colour.Red)} {Share(colour.Green)} {Share(colour.Blue)}";

    private static string Share(byte part) => (part / 255.0).ToString("0.####", CultureInfo.InvariantCulture);
}
