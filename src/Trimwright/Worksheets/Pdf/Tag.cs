using System.Globalization;

namespace Trimwright.Worksheets.Pdf;

/// <summary>
/// An element of the structure of a PDF (ISO 32000-1, 14.7 and 14.8), by which a reader that speaks knows headings, lists, tables
/// and figures.
/// </summary>
/// <param name="kind">Its standard type, such as <c>H1</c>, <c>P</c> or <c>Figure</c>.</param>
internal sealed class Tag(string kind)
{
    private readonly List<(Tag? Child, int Page, int Mark)> _kids = [];

    /// <summary>Its standard type.</summary>
    public string Kind => kind;

    /// <summary>What it shows, for those who cannot see it, or null.</summary>
    public string? Alt { get; init; }

    /// <summary>For a heading of a table: whether it heads its column or its row; null for anything else.</summary>
    public string? Scope { get; init; }

    /// <summary>The box of a figure on its page, as a PDF array; set when it is drawn.</summary>
    public string? Box { get; set; }

    /// <summary>Adds an element below it.</summary>
    public Tag Add(Tag child)
    {
        _kids.Add((child, 0, 0));
        return child;
    }

    /// <summary>Adds an element below it, right behind another.</summary>
    public Tag AddBehind(Tag child, Tag after)
    {
        _kids.Insert(_kids.FindIndex(kid => kid.Child == after) + 1, (child, 0, 0));
        return child;
    }

    /// <summary>Adds what was drawn under a mark on a page.</summary>
    public void AddMark(int page, int mark) => _kids.Add((null, page, mark));

    /// <summary>Adds this element and all below it to a file.</summary>
    /// <param name="file">The file.</param>
    /// <param name="parent">The number of the object above it.</param>
    /// <param name="pages">The numbers of the pages.</param>
    /// <param name="owners">For each page the numbers of the elements by their marks; filled.</param>
    /// <returns>The number of its object.</returns>
    public int AddTo(PdfFile file, int parent, IReadOnlyList<int> pages, SortedDictionary<int, int>[] owners)
    {
        var number = file.Reserve();
        var kids = new List<string>();
        foreach (var (child, page, mark) in _kids)
        {
            if (child is not null)
            {
                kids.Add(string.Create(CultureInfo.InvariantCulture, $"{child.AddTo(file, number, pages, owners)} 0 R"));
                continue;
            }

            owners[page][mark] = number;
            kids.Add(string.Create(CultureInfo.InvariantCulture, $"<< /Type /MCR /Pg {pages[page]} 0 R /MCID {mark} >>"));
        }

        var alt = Alt is null ? "" : $" /Alt {PdfFile.Text(Alt)}";
        var attributes = Scope is not null ? $" /A << /O /Table /Scope /{Scope} >>"
            : Box is not null ? $" /A << /O /Layout /Placement /Block /BBox {Box} >>" : "";
        file.Fill(number, string.Create(
            CultureInfo.InvariantCulture,
            $"<< /Type /StructElem /S /{kind} /P {parent} 0 R{alt}{attributes} /K [{string.Join(' ', kids)}] >>"));
        return number;
    }
}
