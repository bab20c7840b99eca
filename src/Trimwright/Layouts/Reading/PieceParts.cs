using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Reads what only some kinds of pieces have.</summary>
internal static class PieceParts
{
    /// <summary>The piece with its sizes and the parts of its kind.</summary>
    /// <param name="view">What the file says about it.</param>
    /// <param name="piece">The piece so far.</param>
    /// <param name="hung">The edge that its place, or that of its row, hangs it from, or null.</param>
    /// <param name="context">The reading.</param>
    public static Piece Read(ObjectView view, Piece piece, Edge? hung, ReadingContext context)
    {
        foreach (var member in view.Members)
        {
            if (LayoutKeys.KindsThatTake(member.Key) is { } kinds && !kinds.Contains(piece.Kind))
            {
                context.Add(LayoutMessages.KeyOfOtherKind(member.Key, piece.Kind, kinds, member.KeyPlace));
            }
        }

        piece = piece with
        {
            Width = view.Length(piece.Kind == PieceKind.Square ? "side" : piece.Kind == PieceKind.Circle ? "diameter" : "width", LengthRange.Positive),
            Height = Takes(piece, "height") ? view.Length("height", LengthRange.Positive) : null,
            Runs = Takes(piece, "runs") ? view.Word(view.Need("runs"), Words.Axes) : null,
            HangsFrom = (Takes(piece, "hangs-from") ? view.Word("hangs-from", Words.Edges) : null) ?? hung ?? Edge.Top,
            Bar = Takes(piece, "bar") && view.Need("bar") is { } bar ? view.Length(bar, LengthRange.Positive) : null,
            Text = Takes(piece, "text") ? ReadText(view, context) : null,
            Faces = Takes(piece, "faces") ? view.Word("faces", Words.Sides) : null,
            Flipped = Takes(piece, "flipped") && view.Flag("flipped"),
            Picture = Takes(piece, "picture") ? context.Pictures.Read(view, piece.Cut, context) : null,
        };
        CheckHang(view, hung, context);
        CheckBar(piece, context);
        return Takes(piece, "tail") ? piece with { Tail = ReadTail(view, piece, context) } : piece;
    }

    private static bool Takes(Piece piece, string key) => LayoutKeys.KindsThatTake(key)!.Contains(piece.Kind);

    private static string? ReadText(ObjectView view, ReadingContext context)
    {
        var text = view.Text(view.Need("text"));
        if (text is not null && string.IsNullOrWhiteSpace(text.Text))
        {
            context.Add(LayoutMessages.EmptyText("text", text.Place));
        }

        return text?.Text;
    }

    private static void CheckHang(ObjectView view, Edge? hung, ReadingContext context)
    {
        if (hung is { } edge && view.Find("hangs-from") is { Value: SyntaxText said } member
            && said.Text != Words.Of(Words.Edges, edge) && Words.Edges.Any(entry => entry.Word == said.Text))
        {
            context.Add(LayoutMessages.HangsTwice(said.Text, Words.Of(Words.Edges, edge), member.KeyPlace));
        }
    }

    // Two bars as wide as the frame leave no window.
    private static void CheckBar(Piece piece, ReadingContext context)
    {
        if (piece.Bar is not { } bar)
        {
            return;
        }

        foreach (var (key, side) in new[] { ("width", piece.Width), ("height", piece.Height) })
        {
            if (side is not null && 2 * bar.Value >= side.Value)
            {
                context.Add(LayoutMessages.TooWide("bar", bar, $"half the `{key}`", side));
            }
        }
    }

    private static Tail ReadTail(ObjectView view, Piece piece, ReadingContext context)
    {
        var kind = view.Word("tail", Words.Tails) ?? TailKind.Straight;
        var depth = view.Length("tail-depth", LengthRange.Positive);
        var taper = view.Length("taper", LengthRange.Positive);
        if (kind == TailKind.Straight && view.Find("tail-depth") is { } member)
        {
            context.Add(LayoutMessages.DepthOfStraightTail(member.KeyPlace));
        }

        // Width and height are those of the piece as it lies; a banner that hangs from the left or right lies on its side.
        var upright = piece.HangsFrom is Edge.Top or Edge.Bottom;
        var (width, length) = upright ? (piece.Width, piece.Height) : (piece.Height, piece.Width);
        var (widthKey, lengthKey) = upright ? ("width", "height") : ("height", "width");
        if (taper is not null && width is not null && taper.Value >= width.Value)
        {
            context.Add(LayoutMessages.TooWide("taper", taper, $"the `{widthKey}`", width));
        }

        if (depth is not null && length is not null && depth.Value >= length.Value)
        {
            context.Add(LayoutMessages.TooWide("tail-depth", depth, $"the `{lengthKey}`", length));
        }

        return new(kind, depth, taper);
    }
}
