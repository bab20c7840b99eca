using Trimwright.Fitting;
using Trimwright.Images;

namespace Trimwright.Balance;

/// <summary>
/// A card face as grey cells, seen from above: what a piece covers is hidden. Papers are flat in their tone, pictures as they are; lettering,
/// patterns and shadows are left out.
/// </summary>
/// <remarks>
/// In whole numbers throughout, so that every machine gives the same. Sheets are placed to a 64th of a cell. Each row of cells is crossed
/// by four scan lines, and by more where a sheet has a level edge.
/// </remarks>
public sealed class FaceRender
{
    /// <summary>Cells along the longer side, where no other number is given.</summary>
    public const int UsualSide = 256;

    // The measures compare quarters and halves of a face: with cells in fours along both sides no such line cuts a cell.
    private const int Quarters = 4;

    private FaceRender(GreyRaster grey, IReadOnlyList<OwnerSums> owners) => (Grey, Owners) = (grey, owners);

    /// <summary>The cells; together they fill the face.</summary>
    public GreyRaster Grey { get; }

    /// <summary>What shows of the card itself, then of each piece with its mats, in the order of the card's pieces.</summary>
    internal IReadOnlyList<OwnerSums> Owners { get; }

    /// <summary>Draws a face.</summary>
    /// <param name="card">The fitted card.</param>
    /// <param name="pictures">The pictures on its pieces.</param>
    /// <param name="longerSide">
    /// Cells along the longer side, at least 16 and in fours; along the shorter as many as keep them nearly square.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">The number of cells is not one of those.</exception>
    public static FaceRender Draw(FittedCard card, FacePictures pictures, int longerSide = UsualSide)
    {
        if (longerSide is < 16 or > GreyRaster.MostSide || longerSide % Quarters != 0)
        {
            throw new ArgumentOutOfRangeException(
                nameof(longerSide), longerSide, "a face is drawn with 16 to 4096 cells along its longer side, in fours");
        }

        var (width, height) = (card.Width.Nanometres, card.Height.Nanometres);
        var (lesser, greater) = (Math.Min(width, height), Math.Max(width, height));
        var shorter = Quarters * (int)Math.Max(1, ((2 * longerSide / Quarters * lesser) + greater) / (2 * greater));
        var face = new FaceGrid(width >= height ? longerSide : shorter, width >= height ? shorter : longerSide, width, height);
        var sheets = FaceLayers.Of(card, pictures)
            .ConvertAll(layer => (Layer: layer, Loops: layer.Loops.Select(loop => Array.ConvertAll(loop, face.Place)).ToList()));
        var grid = new ScanGrid(face, sheets.SelectMany(sheet => sheet.Loops));
        var layers = sheets.ConvertAll(sheet => LayerSpans.Of(sheet.Layer, sheet.Loops, grid));
        var painter = new FacePainting(grid, card.Pieces.Count + 1);
        for (var line = 0; line < grid.Lines; line++)
        {
            painter.Line(line, layers);
        }

        return new(painter.Finish(), painter.Owners);
    }
}
