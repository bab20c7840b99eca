using System.Globalization;
using System.Text;

namespace Trimwright.Worksheets.Pdf;

/// <summary>The objects of a PDF file, numbered from 1, and the file made of them (ISO 32000-1, 7.5).</summary>
/// <remarks>
/// Nothing is compressed: what a compressor gives differs between processors, and the same worksheet is to be the same bytes
/// everywhere. There is no date and no chance in the file.
/// </remarks>
internal sealed class PdfFile
{
    private readonly List<byte[]?> _objects = [];

    /// <summary>Keeps a number for an object that is made later.</summary>
    public int Reserve()
    {
        _objects.Add(null);
        return _objects.Count;
    }

    /// <summary>Adds an object.</summary>
    public int Add(string content)
    {
        var number = Reserve();
        Fill(number, content);
        return number;
    }

    /// <summary>Gives a reserved number its object.</summary>
    public void Fill(int number, string content) => _objects[number - 1] = Encoding.Latin1.GetBytes(content);

    /// <summary>Adds a stream.</summary>
    /// <param name="entries">Entries of its dictionary besides its length.</param>
    /// <param name="content">Its bytes.</param>
    /// <param name="withLength1">Whether the length is given again as that of a font.</param>
    public int AddStream(string entries, byte[] content, bool withLength1 = false)
    {
        var length1 = withLength1 ? string.Create(CultureInfo.InvariantCulture, $" /Length1 {content.Length}") : "";
        var head = string.Create(CultureInfo.InvariantCulture, $"<< {entries}/Length {content.Length}{length1} >>\nstream\n");
        _objects.Add([.. Encoding.Latin1.GetBytes(head), .. content, .. "\nendstream"u8]);
        return _objects.Count;
    }

    /// <summary>The file.</summary>
    /// <param name="root">The number of the catalogue.</param>
    /// <param name="info">The number of the document information.</param>
    public byte[] Write(int root, int info)
    {
        using var file = new MemoryStream();
        file.Write("%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n"u8);
        var places = new long[_objects.Count];
        for (var i = 0; i < _objects.Count; i++)
        {
            places[i] = file.Length;
            Append(file, $"{i + 1} 0 obj\n");
            file.Write(_objects[i] ?? throw new InvalidOperationException($"object {i + 1} was reserved and never made"));
            file.Write("\nendobj\n"u8);
        }

        var start = file.Length;
        Append(file, $"xref\n0 {_objects.Count + 1}\n0000000000 65535 f \n");
        foreach (var place in places)
        {
            Append(file, $"{place:D10} 00000 n \n");
        }

        Append(file, $"trailer\n<< /Size {_objects.Count + 1} /Root {root} 0 R /Info {info} 0 R >>\nstartxref\n{start}\n%%EOF\n");
        return file.ToArray();
    }

    /// <summary>A text as a PDF string: UTF-16 with its mark, in hexadecimal.</summary>
    public static string Text(string text) => $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";

    private static void Append(MemoryStream file, FormattableString text) =>
        file.Write(Encoding.Latin1.GetBytes(text.ToString(CultureInfo.InvariantCulture)));
}
