using Trimwright.Diagnostics;
using Trimwright.Images;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>What a piece is.</summary>
public enum PieceKind
{
    /// <summary>A rectangle.</summary>
    Panel,

    /// <summary>A long rectangle that runs across or up and down.</summary>
    Strip,

    /// <summary>A rectangle with equal sides.</summary>
    Square,

    /// <summary>A circle.</summary>
    Circle,

    /// <summary>An ellipse.</summary>
    Oval,

    /// <summary>A strip that hangs from an edge and ends in a tail.</summary>
    Banner,

    /// <summary>A rectangle with a rectangular window.</summary>
    Frame,

    /// <summary>A rectangle with two cut corners and a hole at one end.</summary>
    Tag,

    /// <summary>A rectangle with lettering.</summary>
    Label,

    /// <summary>A picture, by its box.</summary>
    Image,
}

/// <summary>How a piece is cut.</summary>
public enum CutWay
{
    /// <summary>On the trimmer, edge to edge: sizes lie on its increment.</summary>
    Trimmer,

    /// <summary>With a die (or punch): sizes are those in the drawer.</summary>
    Die,

    /// <summary>With scissors or a knife; the blank is trimmed first.</summary>
    Scissors,
}

/// <summary>How a banner ends.</summary>
public enum TailKind
{
    /// <summary>Cut square.</summary>
    Straight,

    /// <summary>A notch on the centre line.</summary>
    Fishtail,

    /// <summary>A point on the centre line.</summary>
    Pointed,
}

/// <summary>The tail of a banner.</summary>
/// <param name="Kind">How it ends.</param>
/// <param name="Depth">How deep the notch or how long the point; null for half the width (a right angle).</param>
/// <param name="Taper">How much narrower the banner is at its tail than where it hangs, in all (half on each side); null for none.</param>
public sealed record Tail(TailKind Kind, Wish? Depth, Wish? Taper);

/// <summary>A mat behind a piece: the same outline, larger by the reveal on every side.</summary>
/// <param name="Paper">Its paper.</param>
/// <param name="Reveal">Its reveal, or null for the layout's own.</param>
/// <param name="Source">Where it stands in the file.</param>
public sealed record Mat(string Paper, Wish? Reveal, SourcePlace Source);

/// <summary>How a piece is mounted.</summary>
/// <param name="Foam">The thickness of the foam, or null for flat.</param>
public sealed record Lift(Length? Foam);

/// <summary>A piece as the layout describes it, before it is fitted.</summary>
public sealed record Piece
{
    /// <summary>Its name, unique in the layout.</summary>
    public required string Name { get; init; }

    /// <summary>Where its name stands (for a piece of a row of copies: where the row's name stands).</summary>
    public required SourcePlace Source { get; init; }

    /// <summary>What it is.</summary>
    public required PieceKind Kind { get; init; }

    /// <summary>Its paper.</summary>
    public required string Paper { get; init; }

    /// <summary>The piece it is placed on, or null for the card. Its box, without mats, is what placements refer to.</summary>
    public string? On { get; init; }

    /// <summary>The row it belongs to, or null.</summary>
    public string? Row { get; init; }

    /// <summary>Its width in its own frame, before any tilt; for a square its side, for a circle its diameter.</summary>
    public Wish? Width { get; init; }

    /// <summary>Its height in its own frame, before any tilt; null for squares and circles, whose width says it.</summary>
    public Wish? Height { get; init; }

    /// <summary>Where it goes.</summary>
    public IReadOnlyList<Placement> Placements { get; init; } = [];

    /// <summary>Its mats, the one next to the piece first.</summary>
    public IReadOnlyList<Mat> Mats { get; init; } = [];

    /// <summary>The turn about its centre; positive is clockwise.</summary>
    public Angle Tilt { get; init; }

    /// <summary>How it is mounted.</summary>
    public Lift Lift { get; init; } = new((Length?)null);

    /// <summary>How it, and its mats, are cut.</summary>
    public CutWay Cut { get; init; }

    /// <summary>Whether it may hang over the edge of the card.</summary>
    public bool MayHangOver { get; init; }

    /// <summary>Whether it is an accent, mirrored when the accents alone are mirrored.</summary>
    public bool Accent { get; init; }

    /// <summary>Which way a strip runs; null for other kinds.</summary>
    public Axis? Runs { get; init; }

    /// <summary>The tail of a banner; null for other kinds.</summary>
    public Tail? Tail { get; init; }

    /// <summary>The edge that a banner or a tag hangs from, so that its tail points the other way.</summary>
    public Edge HangsFrom { get; init; } = Edge.Top;

    /// <summary>How wide the four bars of a frame are; null for other kinds.</summary>
    public Wish? Bar { get; init; }

    /// <summary>The lettering of a label, or null.</summary>
    public string? Text { get; init; }

    /// <summary>The side that an image faces as it lies on the card, or null; a facing image is moved in a mirror but not flipped.</summary>
    public Edge? Faces { get; init; }

    /// <summary>The picture on an image, or null.</summary>
    public PiecePicture? Picture { get; init; }

    /// <summary>The shape of its picture, where that is cut out along its outline; null for every other piece.</summary>
    public PictureOutline? CutOut => Cut == CutWay.Scissors ? Picture?.Content?.Outline : null;

    /// <summary>Whether an image lies left to right, as in a mirror. A mirror flips images alone, and no facing image and no one-way paper.</summary>
    public bool Flipped { get; init; }
}
