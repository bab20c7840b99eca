using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>A layout resolved for one format: every size and place exact.</summary>
public sealed record FittedCard
{
    /// <summary>The layout.</summary>
    public required Layout Layout { get; init; }

    /// <summary>The drawer it was fitted with.</summary>
    public required Drawer Drawer { get; init; }

    /// <summary>The format it was fitted to.</summary>
    public required CardFormat Format { get; init; }

    /// <summary>Which way the card is held.</summary>
    public required Holding Holding { get; init; }

    /// <summary>Width of the card face.</summary>
    public required Length Width { get; init; }

    /// <summary>Height of the card face.</summary>
    public required Length Height { get; init; }

    /// <summary>The unit of the trimmer scale in use: that of the format.</summary>
    public required LengthUnit Unit { get; init; }

    /// <summary>The trimmer's increment in use.</summary>
    public required Length Increment { get; init; }

    /// <summary>The pieces from the bottom up.</summary>
    public required IReadOnlyList<FittedPiece> Pieces { get; init; }

    /// <summary>The rows.</summary>
    public required IReadOnlyList<FittedRow> Rows { get; init; }

    /// <summary>The wishes that gave way, in file order.</summary>
    public required IReadOnlyList<GaveWayNote> GaveWay { get; init; }

    /// <summary>The measures that nothing pins, in file order.</summary>
    public required IReadOnlyList<LooseNote> Loose { get; init; }

    /// <summary>The measures that were carried in proportion to this format, in file order; empty on the format drawn for.</summary>
    public required IReadOnlyList<CarriedNote> Carried { get; init; }

    /// <summary>
    /// Null when the fit is proved best. Otherwise how far, in nanometres of misses added up, it may be from the best possible.
    /// </summary>
    public Position? NotProvedWithin { get; init; }

    /// <summary>The box of the card face.</summary>
    public Box Face => Box.FromSize(Width, Height);

    /// <summary>The piece of that name.</summary>
    public FittedPiece PieceNamed(string name) => Pieces.First(piece => piece.Name == name);

    /// <summary>The box that a piece, or a row, is placed on: that of its parent, or the card face.</summary>
    public Box BoxOn(string? parent) => parent is null ? Face
        : Rows.FirstOrDefault(row => row.Source.Name == parent)?.Box ?? PieceNamed(parent).Box;
}

/// <summary>A piece resolved.</summary>
public sealed record FittedPiece
{
    /// <summary>The piece as the layout describes it.</summary>
    public required Piece Source { get; init; }

    /// <summary>
    /// Its box before any tilt; the tilt turns it about the centre of this box. Of a picture cut out along its outline, the box around the
    /// outline, of which one side need not be on the trimmer's scale.
    /// </summary>
    public required Box Box { get; init; }

    /// <summary>The width that is cut; of a picture cut out along its outline, that of the rectangle it is cut from.</summary>
    public required Length Width { get; init; }

    /// <summary>The height that is cut, likewise.</summary>
    public required Length Height { get; init; }

    /// <summary>Its outline before any tilt.</summary>
    public required Outline Outline { get; init; }

    /// <summary>How much of its parent it leaves showing on all four sides, when it fills it; otherwise null.</summary>
    public Position? Reveal { get; init; }

    /// <summary>How deep the notch of a fishtail, or how long the point, is; null where there is none.</summary>
    public Position? TailDepth { get; init; }

    /// <summary>How wide a tapered banner is at its tail; null where it does not taper.</summary>
    public Position? TailWidth { get; init; }

    /// <summary>
    /// The box that the whole picture takes, before any tilt: wider than the piece where a ground is cut away, or where it is trimmed to the
    /// scale of the trimmer. Null without a picture.
    /// </summary>
    public Box? PictureBox { get; init; }

    /// <summary>The window of a frame, or null.</summary>
    public Box? Window { get; init; }

    /// <summary>The die it is cut with, or null.</summary>
    public Die? Die { get; init; }

    /// <summary>Its mats, the one next to the piece first.</summary>
    public required IReadOnlyList<FittedMat> Mats { get; init; }

    /// <summary>Its name.</summary>
    public string Name => Source.Name;
}

/// <summary>A mat resolved.</summary>
public sealed record FittedMat
{
    /// <summary>The mat as the layout describes it.</summary>
    public required Mat Source { get; init; }

    /// <summary>How much of it shows on every side of what it carries.</summary>
    public required Position Reveal { get; init; }

    /// <summary>The box of the rectangle that is trimmed for it, before any tilt.</summary>
    public required Box Box { get; init; }

    /// <summary>The die it is cut with, or null.</summary>
    public Die? Die { get; init; }

    /// <summary>The width that is cut; a tail is cut from the rectangle afterwards.</summary>
    public required Length Width { get; init; }

    /// <summary>The height that is cut.</summary>
    public required Length Height { get; init; }

    /// <summary>Its outline before any tilt: that of what it carries, moved out by the reveal; around a picture with narrow notches filled.</summary>
    public required Outline Outline { get; init; }

    /// <summary>
    /// How much of it shows at most where a notch of the picture was filled, to the nearest nanometre; null where the reveal is the same all
    /// round.
    /// </summary>
    public Length? Widest { get; init; }
}

/// <summary>A row resolved.</summary>
/// <param name="Source">The row as the layout describes it.</param>
/// <param name="Box">From its first piece to its last.</param>
/// <param name="Gap">The gap between neighbours, negative when they overlap; null for a row of one.</param>
public sealed record FittedRow(Row Source, Box Box, Position? Gap);
