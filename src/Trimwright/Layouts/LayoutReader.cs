using Trimwright.Diagnostics;
using Trimwright.Layouts.Reading;

namespace Trimwright.Layouts;

/// <summary>What came of reading a layout file.</summary>
/// <param name="Layout">The layout; null if there is any error.</param>
/// <param name="Diagnostics">All errors and warnings, in file order.</param>
public sealed record LayoutReading(Layout? Layout, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>
/// Reads layout files. The format is described in <c>docs/layout-file.md</c>. All problems of a file are found in one go; bad input never
/// gives an exception.
/// </summary>
public static class LayoutReader
{
    /// <summary>The largest file that is read, 4 MiB. Look at the size before reading the content.</summary>
    public const int MaxBytes = 4 * 1024 * 1024;

    /// <summary>The most pieces that a layout may have, copies in rows counted.</summary>
    public const int MostPieces = 5000;

    /// <summary>The error for a file that is larger than <see cref="MaxBytes"/>, for whoever reads files.</summary>
    public static Diagnostic TooLarge(string file) => LayoutMessages.TooLarge(file);

    /// <summary>Reads a layout.</summary>
    /// <param name="file">The name of the file, as the user gave it.</param>
    /// <param name="content">Its bytes: UTF-8, with or without a byte order mark.</param>
    /// <param name="openPicture">
    /// Opens a picture by its name as seen from the folder of the layout; no more of it need be read than <see cref="Images.PictureReader.MostBytes"/> and
    /// one byte. Without it images have no picture, and no shape of their own.
    /// </param>
    public static LayoutReading Read(string file, byte[] content, Func<string, PictureFile>? openPicture = null)
    {
        var context = new ReadingContext(file, openPicture);
        var layout = SyntaxReader.Read(file, content, context.Diagnostics) switch
        {
            null => null,
            SyntaxObject root => Build(new(root, "a layout", LayoutKeys.Layout, context), context),
            var other => Refuse(other, context),
        };
        var diagnostics = DiagnosticList.InFileOrder(context.Diagnostics);
        return new(diagnostics.HasErrors() ? null : layout, diagnostics);
    }

    private static Layout? Refuse(SyntaxValue value, ReadingContext context)
    {
        context.Add(LayoutMessages.WrongKind("a layout", "a group in braces", value));
        return null;
    }

    private static Layout? Build(ObjectView view, ReadingContext context)
    {
        var head = HeadReader.Read(view, context);
        var (pieces, rows) = ReadPieces(view, head.Reveal, context);
        var rules = RuleReader.Read(view, context);
        if (!context.HasTooManyPieces)
        {
            Names.Check(context, Parents(pieces, rows));
        }

        return head is { Format: { } format, Holding: { } holding, Base: { } cardBase }
            ? new()
            {
                File = context.File,
                Title = head.Title,
                Format = format,
                Holding = holding,
                Unit = context.Unit,
                Reveal = head.Reveal,
                Base = cardBase,
                Papers = head.Papers,
                Pieces = pieces,
                Rows = rows,
                Rules = rules,
            }
            : null;
    }

    private static (List<Piece> Pieces, List<Row> Rows) ReadPieces(ObjectView view, Wish reveal, ReadingContext context)
    {
        var pieces = new List<Piece>();
        var rows = new List<Row>();
        if (view.As<SyntaxList>(view.Need("pieces"), "a list of pieces, from the bottom up") is not { } list)
        {
            return (pieces, rows);
        }

        context.HasPieces = true;
        if (list.Items.Count == 0)
        {
            context.Add(LayoutMessages.EmptyList("pieces", list.Place));
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxObject value)
            {
                context.Add(LayoutMessages.WrongKind("a piece", "a group in braces", item));
            }
            else if (value.Members.Any(member => member.Key is "row" or "of"))
            {
                var (row, members) = RowReader.Read(value, reveal, MostPieces - pieces.Count, context);
                pieces.AddRange(members);
                if (row is not null)
                {
                    rows.Add(row);
                }
            }
            else if (pieces.Count == MostPieces)
            {
                context.AddTooManyPieces(value.Place);
            }
            else if (PieceReader.Read(value, reveal, context) is { } piece)
            {
                pieces.Add(piece);
            }

            if (context.HasTooManyPieces)
            {
                break;
            }
        }

        return (pieces, rows);
    }

    // What each piece and row is placed on; the pieces of a row count as placed on the row.
    private static Dictionary<string, string?> Parents(IEnumerable<Piece> pieces, IEnumerable<Row> rows)
    {
        var parents = new Dictionary<string, string?>(StringComparer.Ordinal);
        foreach (var piece in pieces)
        {
            parents.TryAdd(piece.Name, piece.Row ?? piece.On);
        }

        foreach (var row in rows)
        {
            parents.TryAdd(row.Name, row.On);
        }

        return parents;
    }
}
