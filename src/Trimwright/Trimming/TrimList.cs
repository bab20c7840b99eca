using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>Everything to cut for one card, in the order of assembly, from the base up.</summary>
/// <param name="Card">The fitted card.</param>
/// <param name="Lines">The lines.</param>
public sealed record TrimList(FittedCard Card, IReadOnlyList<TrimLine> Lines)
{
    /// <summary>How many pieces of paper are cut in all.</summary>
    public int PieceCount => Lines.Sum(line => line.Count);

    /// <summary>Makes the list of a fitted card. Pieces that are cut alike and lie on the same thing share a line.</summary>
    public static TrimList FromCard(FittedCard card)
    {
        var lines = new List<TrimLine> { BaseLine.Of(card) };
        foreach (var piece in card.Pieces)
        {
            for (var i = piece.Mats.Count; i >= 0; i--)
            {
                lines.Add(i == 0 ? PieceLine(card, piece) : MatLine(card, piece, i));
            }
        }

        return new(card, Grouped(lines));
    }

    private static TrimLine PieceLine(FittedCard card, FittedPiece piece)
    {
        var source = piece.Source;
        return new()
        {
            Layer = 0,
            Name = piece.Name,
            Piece = piece.Name,
            Mat = 0,
            Count = 1,
            Shape = TrimWords.Kind(source.Kind),
            Paper = source.Paper,
            Width = piece.Width,
            Height = piece.Height,
            Cut = source.Cut,
            Die = piece.Die,
            Blank = BlankFor(card, source.Cut, piece.Die, piece.Width, piece.Height),
            On = piece.Mats.Count > 0 ? MatName(piece, 1) : TrimWords.On(card.Layout, source.On),
            OwnMat = piece.Mats.Count > 0 ? OwnMatName(piece, 1) : null,
            Foam = piece.Mats.Count > 0 ? null : source.Lift.Foam,
            Tilts = [source.Tilt],
            Notes = TrimNotes.ForPiece(card, piece),
        };
    }

    private static TrimLine MatLine(FittedCard card, FittedPiece piece, int number)
    {
        var mat = piece.Mats[number - 1];
        var outermost = number == piece.Mats.Count;
        return new()
        {
            Layer = 0,
            Name = MatName(piece, number),
            Piece = piece.Name,
            Mat = number,
            Count = 1,
            Shape = TrimWords.Kind(piece.Source.Kind),
            Paper = mat.Source.Paper,
            Width = mat.Width,
            Height = mat.Height,
            Cut = piece.Source.Cut,
            Die = mat.Die,
            Blank = BlankFor(card, piece.Source.Cut, mat.Die, mat.Width, mat.Height),
            On = outermost ? TrimWords.On(card.Layout, piece.Source.On) : MatName(piece, number + 1),
            OwnMat = outermost ? null : OwnMatName(piece, number + 1),
            Foam = outermost ? piece.Source.Lift.Foam : null,
            Tilts = [piece.Source.Tilt],
            Notes = TrimNotes.ForMat(card, piece, mat),
        };
    }

    private static string MatName(FittedPiece piece, int number) =>
        piece.Mats.Count == 1 ? $"mat of {piece.Name}" : FormattableString.Invariant($"mat {number} of {piece.Name}");

    private static string OwnMatName(FittedPiece piece, int number) =>
        piece.Mats.Count == 1 ? "own mat" : FormattableString.Invariant($"own mat {number}");

    // A die needs paper beyond its outline; what is cut by hand is trimmed to its box first.
    private static (Length Width, Length Height)? BlankFor(FittedCard card, CutWay cut, Die? die, Length width, Length height) =>
        cut == CutWay.Die && die is not null
            ? ((die.Width + (2 * card.Drawer.DieMargin)).CeilingTo(card.Increment),
               (die.Height + (2 * card.Drawer.DieMargin)).CeilingTo(card.Increment))
            : cut == CutWay.Scissors ? (width, height)
            : null;

    private static List<TrimLine> Grouped(List<TrimLine> lines)
    {
        var grouped = new List<TrimLine>();
        foreach (var line in lines)
        {
            var at = grouped.FindIndex(known => CutAlike(known, line));
            if (at < 0)
            {
                grouped.Add(line with { Layer = grouped.Count + 1 });
                continue;
            }

            var known = grouped[at];
            grouped[at] = known with
            {
                Count = known.Count + 1,
                Name = TrimWords.Joined(known.Name, line.Name),
                On = known.OwnMat ?? known.On,
                Tilts = [.. known.Tilts, .. line.Tilts],
            };
        }

        return grouped;
    }

    private static bool CutAlike(TrimLine a, TrimLine b) =>
        a.Mat == b.Mat && a.Shape == b.Shape && a.Paper == b.Paper && a.Width == b.Width && a.Height == b.Height && a.Cut == b.Cut
        && a.Die == b.Die && a.Foam == b.Foam && a.Notes.SequenceEqual(b.Notes) && MountedAlike(a, b);

    // Copies of a row lie each on their own mat; that does not set them apart.
    private static bool MountedAlike(TrimLine a, TrimLine b) =>
        a.OwnMat == b.OwnMat && (a.OwnMat is not null || a.On == b.On);
}
