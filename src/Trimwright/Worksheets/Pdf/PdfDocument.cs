using System.Globalization;
using System.Text;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Worksheets.Pdf;

/// <summary>Pages of one size with a structure, made into a PDF.</summary>
/// <param name="paper">The size of the pages.</param>
/// <param name="title">The title of the document.</param>
/// <param name="language">Its language, as a tag of BCP 47.</param>
internal sealed class PdfDocument(PaperSize paper, string title, string language)
{
    private readonly List<PageInk> _pages = [];
    private readonly List<string> _forms = [];
    private readonly List<PictureContent> _pictures = [];

    /// <summary>What the structure begins with.</summary>
    public Tag Root { get; } = new("Document");

    /// <summary>The opacities that pages use, in hundredths.</summary>
    public SortedSet<int> Opacities { get; } = [];

    /// <summary>Keeps operators that are used in many places; those that are the same are kept once.</summary>
    /// <returns>The name by which a page uses them.</returns>
    public string Form(Func<string> draw)
    {
        var operators = draw();
        if (!_forms.Contains(operators))
        {
            _forms.Add(operators);
        }

        return string.Create(CultureInfo.InvariantCulture, $"F{_forms.IndexOf(operators)}");
    }

    /// <summary>Keeps a picture that is shown on a page; one shown in several places is kept once.</summary>
    /// <returns>The name by which a page uses it: it fills the unit square, its foot at 0.</returns>
    public string Picture(PictureContent content)
    {
        if (!_pictures.Contains(content))
        {
            _pictures.Add(content);
        }

        return string.Create(CultureInfo.InvariantCulture, $"P{_pictures.IndexOf(content)}");
    }

    /// <summary>Adds a page. Its axes are put so that all is drawn in millimetres from its upper left corner, down and to the right.</summary>
    public PageInk AddPage()
    {
        var page = new PageInk(_pages.Count);
        page.Raw($"{Points(Length.FromMillimetres(1), 9)} 0 0 -{Points(Length.FromMillimetres(1), 9)} 0 {Points(paper.Height, 6)} cm");
        _pages.Add(page);
        return page;
    }

    /// <summary>A length in points, 72 to the inch, to some decimals.</summary>
    public static string Points(Length length, int decimals)
    {
        var unit = Rational.From(System.Numerics.BigInteger.Pow(10, decimals), 1);
        var scaled = Rational.From(length.Nanometres, Length.NanometresPerInch) * 72 * unit;
        return LengthText.WriteDecimal(Rational.From((scaled + Rational.From(1, 2)).Floor(), 1) / unit, decimals);
    }

    /// <summary>A box of a page as the structure names it, in points from the lower left corner.</summary>
    public string Box(double left, double top, double width, double height)
    {
        var (scale, foot) = (72 / 25.4, paper.Height.Nanometres / 1e6);
        return $"[{string.Join(' ', ((double[])[left, foot - top - height, left + width, foot - top]).Select(side => PageInk.Number(side * scale)))}]";
    }

    /// <summary>The file.</summary>
    public byte[] Write(IReadOnlyList<EmbeddedFont> fonts)
    {
        var file = new PdfFile();
        var tree = file.Reserve();
        var parent = file.Reserve();
        var pages = _pages.ConvertAll(_ => file.Reserve());
        var fontEntries = string.Join(' ', fonts.Where(font => font.IsUsed).Select(font => Entry(font.Key, font.AddTo(file))));
        var states = string.Join(' ', Opacities.Select(percent => string.Create(
            CultureInfo.InvariantCulture, $"/O{percent} << /ca {percent / 100.0:0.##} >>")));

        // A tile may reach beyond its box into the next ones: a metre each way is enough for all.
        var forms = string.Join(' ', _forms.Select((form, i) => string.Create(CultureInfo.InvariantCulture, $"/F{i} ")
            + Reference(file.AddStream("/Type /XObject /Subtype /Form /BBox [-1000 -1000 1000 1000] ", Encoding.ASCII.GetBytes(form)))));
        var pictures = string.Concat(_pictures.Select((picture, i) => string.Create(CultureInfo.InvariantCulture, $" /P{i} ")
            + Reference(PdfPicture.AddTo(file, picture))));
        for (var i = 0; i < pages.Count; i++)
        {
            var content = file.AddStream("", Encoding.ASCII.GetBytes(_pages[i].Operators));
            file.Fill(pages[i], string.Create(CultureInfo.InvariantCulture, $"""
                << /Type /Page /Parent {parent} 0 R /MediaBox [0 0 {Points(paper.Width, 6)} {Points(paper.Height, 6)}]
                /Resources << /Font << {fontEntries} >> /ExtGState << {states} >> /XObject << {forms}{pictures} >> >> /Contents {content} 0 R /StructParents {i} /Tabs /S >>
                """));
        }

        file.Fill(parent, string.Create(
            CultureInfo.InvariantCulture, $"<< /Type /Pages /Count {pages.Count} /Kids [{string.Join(' ', pages.Select(Reference))}] >>"));
        AddStructure(file, tree, pages);
        var root = file.Add(string.Create(CultureInfo.InvariantCulture, $"""
            << /Type /Catalog /Pages {parent} 0 R /StructTreeRoot {tree} 0 R /MarkInfo << /Marked true >> /Lang ({language})
            /ViewerPreferences << /DisplayDocTitle true /PrintScaling /None >> >>
            """));
        return file.Write(root, file.Add($"<< /Title {PdfFile.Text(title)} /Producer (Trimwright) >>"));
    }

    private void AddStructure(PdfFile file, int tree, List<int> pages)
    {
        var owners = pages.ConvertAll(_ => new SortedDictionary<int, int>()).ToArray();
        var root = Root.AddTo(file, tree, pages, owners);
        var numbers = string.Join(' ', owners.Select((marks, page) => string.Create(
            CultureInfo.InvariantCulture, $"{page} [{string.Join(' ', marks.Values.Select(Reference))}]")));
        file.Fill(tree, string.Create(
            CultureInfo.InvariantCulture,
            $"<< /Type /StructTreeRoot /K {root} 0 R /ParentTree << /Nums [{numbers}] >> /ParentTreeNextKey {pages.Count} >>"));
    }

    private static string Reference(int number) => string.Create(CultureInfo.InvariantCulture, $"{number} 0 R");

    private static string Entry(string key, int number) => $"/{key} {Reference(number)}";
}
