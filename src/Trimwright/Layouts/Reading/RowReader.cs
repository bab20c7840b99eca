using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>Reads a row of pieces.</summary>
internal static class RowReader
{
    /// <summary>Reads a row and its pieces; the row is null if it cannot be made, which was reported.</summary>
    /// <param name="value">The group.</param>
    /// <param name="reveal">The reveal of the layout.</param>
    /// <param name="room">How many more pieces a layout may have.</param>
    /// <param name="context">The reading.</param>
    public static (Row? Row, IReadOnlyList<Piece> Pieces) Read(SyntaxObject value, Wish reveal, int room, ReadingContext context)
    {
        var view = new ObjectView(value, "a row", LayoutKeys.Row, context);
        var name = PieceReader.ReadName(view, "row", context);
        var source = name?.Place ?? view.Place;
        var runs = view.Word(view.Need("runs"), Words.Axes);
        var on = PieceReader.ReadOn(view, name?.Text, context);
        var of = view.Need("of");
        var copies = ReadCopies(view, of, name?.Text, source, context);
        var placements = PlaceReader.Read(view, name?.Text, on is null, HangsOver(of?.Value), reveal, context);
        var frame = new RowFrame(name?.Text ?? "", on, placements.OfType<Hang>().FirstOrDefault()?.From, copies, source);
        var pieces = ReadPieces(view, of, frame, reveal, room, context);
        foreach (var fill in placements.OfType<Fill>())
        {
            context.Add(LayoutMessages.RowFills(fill.Source));
        }

        var names = pieces.Select(piece => piece.Name);
        var row = new Row
        {
            Name = frame.Name,
            Source = source,
            On = on,
            Runs = runs ?? Axis.Across,
            Pieces = [.. StartsAtItsEnd(view, runs) ? names.Reverse() : names],
            Gap = PlaceReader.GapOf(view, LengthRange.NotNegative, context),
            EndsLikeGaps = view.Flag("ends-like-gaps"),
            Placements = placements,
        };
        if (row is { EndsLikeGaps: true, Gap.Value: var gap } && gap < Measures.Length.Zero)
        {
            context.Add(LayoutMessages.EndsLikeOverlaps(view.Find("ends-like-gaps")!.KeyPlace));
        }

        return (name is null || runs is null ? null : row, pieces);
    }

    // Whether the first piece lies at the right or at the bottom.
    private static bool StartsAtItsEnd(ObjectView view, Axis? runs) =>
        runs is { } axis && (view.Word("starts-at", axis == Axis.UpDown ? Words.StartsUpDown : Words.StartsAcross) ?? false);

    private static IReadOnlyList<Piece> ReadPieces(
        ObjectView view, SyntaxMember? of, RowFrame frame, Wish reveal, int room, ReadingContext context)
    {
        switch (of?.Value)
        {
            case null:
                return [];
            case SyntaxObject one when frame.Copies is { } copies:
                // Copies that a layout cannot hold are not made.
                if (copies > room)
                {
                    context.AddTooManyPieces(frame.Place);
                    return [];
                }

                return PieceReader.ReadInRow(one, frame, reveal, context);
            case SyntaxObject one:
                return PieceReader.ReadInRow(one, frame with { Copies = PieceReader.UnknownCopies }, reveal, context);
            case SyntaxList { Items.Count: 0 } empty:
                context.Add(LayoutMessages.EmptyList("of", empty.Place));
                return [];
            case SyntaxList many:
                if (many.Items.Count > room)
                {
                    context.AddTooManyPieces(many.Items[room].Place);
                }

                return [.. many.Items.Take(room).SelectMany(item => ReadOne(item, frame, reveal, context))];
            default:
                view.As<SyntaxObject>(of, "a piece, or a list of pieces");
                return [];
        }
    }

    private static IReadOnlyList<Piece> ReadOne(SyntaxValue item, RowFrame frame, Wish reveal, ReadingContext context)
    {
        if (item is SyntaxObject value)
        {
            return PieceReader.ReadInRow(value, frame with { Copies = null }, reveal, context);
        }

        context.Add(LayoutMessages.WrongKind("a piece", "a group in braces", item));
        return [];
    }

    // How many copies, if the row has copies; their names are declared here.
    private static int? ReadCopies(ObjectView view, SyntaxMember? of, string? name, SourcePlace source, ReadingContext context)
    {
        if (of?.Value is SyntaxList)
        {
            if (view.Find("copies") is { } unwanted)
            {
                context.Add(LayoutMessages.Contradiction("a list in `of` already says how many pieces there are", unwanted, of));
            }

            return null;
        }

        if (of?.Value is not SyntaxObject || view.Need("copies") is not { } member
            || LengthValues.Number(member.Value, "`copies`", context) is not { } count)
        {
            return null;
        }

        if (!count.IsWhole || count < 1 || count > LayoutReader.MostPieces)
        {
            context.Add(LayoutMessages.OutOfRange("copies", $"a whole number from 1 to {LayoutReader.MostPieces}", member.Value.Place));
            return null;
        }

        var copies = (int)count.Numerator;
        if (name is not null)
        {
            var frame = new RowFrame(name, null, null, copies, source);
            for (var i = 0; i < copies; i++)
            {
                context.Declare(PieceReader.CopyName(frame, i), source);
            }
        }

        return copies;
    }

    private static bool HangsOver(SyntaxValue? of) => of switch
    {
        SyntaxObject piece => piece.Members.Any(member => member is { Key: "hangs-over", Value: SyntaxFlag { IsTrue: true } }),
        SyntaxList list => list.Items.Any(HangsOver),
        _ => false,
    };
}
