using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>Something on a drawing list. Places are exact, x to the right and y down.</summary>
public abstract record DrawnItem;

/// <summary>Items that belong together.</summary>
public sealed record DrawnGroup(IReadOnlyList<DrawnItem> Items) : DrawnItem
{
    /// <summary>Its id, unique on the drawing, or null.</summary>
    public string? Id { get; init; }

    /// <summary>What it is, such as <c>dim</c> or <c>piece</c>, or null.</summary>
    public string? Class { get; init; }

    /// <summary>What a reader of the drawing may want to know of it, by name, in order.</summary>
    public IReadOnlyList<(string Name, string Value)> Data { get; init; } = [];

    /// <summary>How large it is drawn, about the origin and before it is moved: one half for half its size; null for as it is.</summary>
    public Rational? Scale { get; init; }

    /// <summary>How far it is moved to the right and down, or null.</summary>
    public Point? Shift { get; init; }

    /// <summary>How it is turned or flipped, or null.</summary>
    public Turn? Turn { get; init; }
}

/// <summary>A turn about a point, after a flip left to right about the same point where asked for.</summary>
/// <param name="Angle">The turn; positive is clockwise.</param>
/// <param name="About">The point that stays.</param>
/// <param name="Flipped">Whether left and right are exchanged first.</param>
public sealed record Turn(Angle Angle, Point About, bool Flipped = false);

/// <summary>A closed outline, filled by the even-odd rule.</summary>
/// <param name="Outline">The outline.</param>
/// <param name="Fill">How it is filled, or null.</param>
/// <param name="Stroke">How it is lined, or null.</param>
public sealed record DrawnOutline(Outline Outline, Fill? Fill, Stroke? Stroke) : DrawnItem
{
    /// <summary>Its id, unique on the drawing, or null.</summary>
    public string? Id { get; init; }

    /// <summary>What it is, for whoever points at it, or null.</summary>
    public string? Title { get; init; }

    /// <summary>Whether it is written as one path whatever its shape, as cutters like it; otherwise as the plainest element.</summary>
    public bool AsPath { get; init; }
}

/// <summary>A line through points.</summary>
/// <param name="Points">At least two points.</param>
/// <param name="Stroke">How it is drawn.</param>
public sealed record DrawnLine(IReadOnlyList<Point> Points, Stroke Stroke) : DrawnItem
{
    /// <summary>What it is, such as <c>measure</c> for the line whose length is the dimension, or null.</summary>
    public string? Class { get; init; }
}

/// <summary>A picture stretched over a box and shown inside an outline.</summary>
/// <param name="Id">What its edge is called, unique on the drawing.</param>
/// <param name="Content">The picture.</param>
/// <param name="Box">The box that all of it would fill.</param>
/// <param name="Edge">What is shown of it: what lies inside this outline.</param>
/// <param name="FlippedAbout">The place across about which the picture, but not its edge, is flipped left to right; null where it is not.</param>
public sealed record DrawnPicture(string Id, PictureContent Content, Box Box, Outline Edge, Position? FlippedAbout) : DrawnItem;

/// <summary>Where a text is held.</summary>
public enum TextHold
{
    /// <summary>At its beginning.</summary>
    Start,

    /// <summary>In its middle.</summary>
    Middle,

    /// <summary>At its end.</summary>
    End,
}

/// <summary>A line of text.</summary>
/// <param name="Text">The text.</param>
/// <param name="At">Where it is held, on its baseline.</param>
/// <param name="Hold">Where it is held.</param>
/// <param name="CapHeight">The height of its capitals and figures.</param>
/// <param name="Colour">Its colour.</param>
public sealed record DrawnText(string Text, Point At, TextHold Hold, Length CapHeight, Colour Colour) : DrawnItem
{
    /// <summary>Whether it runs upwards, to be read from the right.</summary>
    public bool Upwards { get; init; }

    /// <summary>What it is, such as <c>name</c>, or null.</summary>
    public string? Class { get; init; }
}

/// <summary>How an outline is filled: with a colour, or with a pattern of the drawing.</summary>
/// <param name="Colour">The colour; not used where a pattern is named.</param>
/// <param name="OpacityPercent">100 for opaque.</param>
/// <param name="Pattern">The id of a pattern, or null.</param>
public sealed record Fill(Colour Colour, int OpacityPercent = 100, string? Pattern = null);

/// <summary>How a line is drawn.</summary>
/// <param name="Width">Its width.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Dash">Length of a dash; zero for a continuous line.</param>
/// <param name="DashGap">Length of the gap between dashes.</param>
public sealed record Stroke(Length Width, Colour Colour, Length Dash = default, Length DashGap = default);

/// <summary>A tile that is repeated in both directions.</summary>
/// <param name="Id">Its id, unique on the drawing.</param>
/// <param name="Tile">Place and size of one tile; the pattern begins at its corner.</param>
/// <param name="Items">What is on the tile, in the coordinates of the tile: its corner is the origin.</param>
public sealed record DrawnPattern(string Id, Box Tile, IReadOnlyList<DrawnItem> Items);
