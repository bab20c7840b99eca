using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>The notes of a trim list: what a size alone does not say.</summary>
internal static class TrimNotes
{
    public static IReadOnlyList<string> ForPiece(FittedCard card, FittedPiece piece)
    {
        var notes = new List<string>();
        var unit = card.Unit;
        string Text(Position position) => LengthText.Write(position, unit);

        switch (piece.Source.Kind)
        {
            case PieceKind.Banner:
                Tail(piece, Text, notes);
                break;
            case PieceKind.Frame when piece.Window is { } window:
                notes.Add($"cut a window {LengthText.WriteBare(window.Width, unit)} x {Text(window.Height)}, {Text(window.Left - piece.Box.Left)} from each edge");
                break;
            case PieceKind.Tag:
                notes.Add("cut off the two corners at the hung end and punch the hole");
                break;
            case PieceKind.Image when piece.Source.Picture is { } picture:
                Picture(card, piece, picture, notes);
                break;
            case PieceKind.Label when piece.Source.Text is { } text:
                notes.Add($"lettering: {text}");
                break;
        }

        if (card.Layout.PaperNamed(piece.Source.Paper) is { OneWay: true })
        {
            notes.Add("pattern the right way up");
        }

        AddTooSmall(card, piece.Source.Cut, piece.Width, piece.Height, notes);
        return notes;
    }

    public static IReadOnlyList<string> ForMat(FittedCard card, FittedPiece piece, FittedMat mat)
    {
        var notes = new List<string> { $"shows {LengthText.Write(mat.Reveal, card.Unit)} all round" };
        if (piece.Source is { CutOut: not null, Picture: { } picture })
        {
            notes.Add($"cut along its outline around {PicturePrint.NameOf(piece, picture)}");
            if (mat.Widest is { } widest)
            {
                notes.Add($"up to {LengthText.About}{LengthText.WriteNearest(widest.Nanometres, card.Unit)} {LengthText.Symbol(card.Unit)} where a notch is filled");
            }
        }

        if (piece.Source.Tail is { Kind: not TailKind.Straight })
        {
            notes.Add("cut the tail after mounting, the same reveal from the piece");
        }

        if (card.Layout.PaperNamed(mat.Source.Paper) is { OneWay: true })
        {
            notes.Add("pattern the right way up");
        }

        AddTooSmall(card, piece.Source.Cut, mat.Width, mat.Height, notes);
        return notes;
    }

    private static void Picture(FittedCard card, FittedPiece piece, PiecePicture picture, List<string> notes)
    {
        notes.Add(PicturePrint.Of(piece, card.Unit) is { } print ? $"print {print.File} first, the whole picture {print.Size}" : $"picture {PicturePrint.NameOf(piece, picture)}");
        if (piece.Source.CutOut is not null)
        {
            notes.Add($"cut along its edge, {LengthText.WriteSizeAbout(piece.Box.Width, piece.Box.Height, card.Unit)}");
        }
        else if (piece.PictureBox is { } whole && whole != piece.Box)
        {
            notes.Add("trim it evenly on opposite sides");
        }
    }

    private static void Tail(FittedPiece piece, Func<Position, string> text, List<string> notes)
    {
        var tail = piece.Source.Tail!;
        if (piece.TailDepth is { } depth)
        {
            notes.Add(tail.Kind == TailKind.Fishtail
                ? $"cut a notch {text(depth)} deep on the centre line"
                : $"cut to a point {text(depth)} long on the centre line");
        }

        if (piece.TailWidth is { } width)
        {
            notes.Add($"taper evenly to {text(width)} at the tail");
        }
    }

    private static void AddTooSmall(FittedCard card, CutWay cut, Length width, Length height, List<string> notes)
    {
        if (cut == CutWay.Trimmer && Length.Max(width, height) < card.Drawer.SmallestPiece)
        {
            notes.Add("too small to hold on its own: cut it off the end of a longer strip");
        }
    }
}
