using System.Text;
using Trimwright.Balance;
using Trimwright.Layouts;
using Trimwright.Trimming;
using Trimwright.Worksheets;

namespace Trimwright.Cli.Commands;

/// <summary>The files of variants that were chosen: what <c>fit</c> and <c>worksheet</c> write, and a layout file that <c>fit</c> makes the same card of.</summary>
/// <param name="session">The run.</param>
/// <param name="layoutFile">The layout file that the variants are of, as the user named it.</param>
/// <param name="outFolder">The folder that is written into, as the user named it.</param>
/// <param name="options">The words with which the layout was fitted, to be used again, such as <c> --held landscape</c>; empty if there are none.</param>
/// <param name="folder">The files to write.</param>
/// <param name="cards">Writes the drawings and the trim list of a card.</param>
internal sealed class VariantFiles(Session session, string layoutFile, string outFolder, string options, OutputFolder folder, CardFiles cards)
{
    private readonly List<Worksheet> _sheets = [];
    private readonly List<string> _toPrint = [];
    private readonly List<string> _toFit = [];
    private readonly List<string> _without = [];

    /// <summary>The variants of which no layout file could be written, as sentences.</summary>
    public IReadOnlyList<string> WithoutLayoutFile => _without;

    /// <summary>Adds the files of a variant.</summary>
    public void Add(string stem, ComparedVariant variant, PaperSize? paper, CancellationToken cancel)
    {
        cards.Add(stem, variant.Card);
        var sheet = Worksheet(variant, paper ?? PaperSize.For(variant.Card.Unit), cancel);
        folder.Add($"{stem}-worksheet.pdf", WorksheetPdf.Write(sheet));
        folder.Add($"{stem}-worksheet.html", WorksheetHtml.Write(sheet));
        _sheets.Add(sheet);
        _toPrint.Add($"{stem}-worksheet.pdf: the worksheet of {Called(variant)}");

        var name = $"{stem}-layout.json";
        var written = LayoutRewriter.Write(
            session.LayoutBytes, session.Layout, variant.Card.Layout,
            $"{Sentence(variant.Name)}: variant {Number(variant)} of {Path.GetFileName(layoutFile)} in order of balance.", FromOutFolder);
        if (written.Text is { } text)
        {
            folder.Add(name, Encoding.UTF8.GetBytes(text));
            _toFit.Add($"trimwright fit {Word(Path.Combine(outFolder, name))}{options}");
        }

        _without.AddRange(written.Obstacles.Select(obstacle => $"no. {Number(variant)}, {variant.Name}: {obstacle}"));
    }

    /// <summary>Says what to print, and how to go on with a variant.</summary>
    public void Tell(Screen screen)
    {
        if (_sheets.Count == 0)
        {
            return;
        }

        screen.Lines("to print", _toPrint);
        WorksheetCommand.TellOfPrinting(_sheets, screen);
        screen.Lines("to go on with a variant, change its layout file and fit it again", _toFit);
        screen.Lines("no layout file could be written of", _without);
        screen.Lines("before you cut", TrimSheet.Cautions);
    }

    /// <summary>A word of a command line, in quotes where it might fall apart without them: shells make something of most signs.</summary>
    public static string Word(string text) => text.All(sign => char.IsLetterOrDigit(sign) || "._-~/\\:".Contains(sign, StringComparison.Ordinal)) ? text : $"\"{text}\"";

    // That of its card, with its number on each page, so that the pages of two variants are not mixed up.
    private static Worksheet Worksheet(ComparedVariant variant, PaperSize paper, CancellationToken cancel)
    {
        var sheet = WorksheetMaker.Make(variant.Card, paper, cancel);
        return sheet with
        {
            Title = $"{sheet.Title}, variant {Number(variant)}",
            Summary = $"{Sentence(variant.Name)}. {sheet.Summary}",
        };
    }

    private string FromOutFolder(string name) => Path.IsPathRooted(name) || name.Contains("://", StringComparison.Ordinal)
        ? name
        : Path.GetRelativePath(Path.GetFullPath(outFolder), Path.GetFullPath(Path.Combine(Path.GetDirectoryName(layoutFile) ?? "", name))).Replace('\\', '/');

    private static string Called(ComparedVariant variant) => $"no. {Number(variant)}, {variant.Name}";

    private static string Number(ComparedVariant variant) => FormattableString.Invariant($"{variant.Number}");

    // On paper and in a file names stand without the backticks of the terminal.
    private static string Sentence(string name)
    {
        var words = name.Replace("`", "", StringComparison.Ordinal);
        return char.ToUpperInvariant(words[0]) + words[1..];
    }
}
