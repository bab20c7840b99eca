using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Trimming;

/// <summary>A picture to print before its piece is cut: a piece can only be cut out of a print that has its size.</summary>
/// <param name="Piece">The name of the piece.</param>
/// <param name="File">The name of the file, and whether it is flipped, such as <c>robin.png flipped left to right</c>.</param>
/// <param name="Size">
/// The size of the whole picture, clear ground and all, width first; <c>~</c> stands before what lies between the marks of a ruler, as in
/// <see cref="LengthText.WriteSizeAbout"/>.
/// </param>
/// <param name="Paper">The paper that it is printed on.</param>
public sealed record PicturePrint(string Piece, string File, string Size, string Paper)
{
    /// <summary>The pictures of a card, in the order of assembly; none where no piece has one.</summary>
    public static IReadOnlyList<PicturePrint> Of(FittedCard card) =>
        [.. card.Pieces.Select(piece => Of(piece, card.Unit)).OfType<PicturePrint>()];

    /// <summary>The picture of a piece; null if it has none, or none that could be looked at.</summary>
    public static PicturePrint? Of(FittedPiece piece, LengthUnit unit) => piece.Source.Picture is { } picture && piece.PictureBox is { } whole
        ? new(piece.Name, NameOf(piece, picture), LengthText.WriteSizeAbout(whole.Width, whole.Height, unit), piece.Source.Paper) : null;

    /// <summary>What to print for one card, as a sentence without a full stop.</summary>
    public string Sentence => $"print {File} on {Paper}, the whole picture {Size}, before you cut the {Piece}";

    internal static string NameOf(FittedPiece piece, PiecePicture picture) =>
        Path.GetFileName(picture.File.Replace('\\', '/')) + (piece.Source.Flipped ? " flipped left to right" : "");
}
