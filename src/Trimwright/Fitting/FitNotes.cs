using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Fitting;

/// <summary>A wish that gave way.</summary>
/// <param name="What">What was wished, in a maker's words, such as <c>the width of `band`</c>.</param>
/// <param name="Wanted">What it should have been.</param>
/// <param name="Got">What it is.</param>
/// <param name="Strength">Should or may.</param>
/// <param name="Because">The maker's reason for the wish, or null.</param>
/// <param name="Source">Where the wish stands.</param>
public sealed record GaveWayNote(
    string What, Position Wanted, Position Got, Strength Strength, string? Because, SourcePlace Source)
{
    /// <summary>How much it missed by, without sign.</summary>
    public Position Miss => new((Wanted.Nanometres - Got.Nanometres).Abs());
}

/// <summary>A part of the reason why a wish gave way.</summary>
/// <param name="Text">What stands in its way, as a sentence without its end, such as <c>`band` spans `ground` across</c>.</param>
/// <param name="Source">Where that stands; null for what the card and the tools say by themselves.</param>
/// <param name="GaveWayToo">
/// Whether it is a wish that gave way itself: the two were traded, and the other would have to miss by more.
/// </param>
public sealed record Reason(string Text, SourcePlace? Source, bool GaveWayToo);

/// <summary>A measure that nothing in the layout pins.</summary>
/// <param name="What">What is loose, such as <c>the left edge of `tag`</c>.</param>
/// <param name="Least">The least it may be.</param>
/// <param name="Most">The most it may be.</param>
/// <param name="Chosen">What was chosen.</param>
/// <param name="Source">Where the piece stands.</param>
public sealed record LooseNote(string What, Position Least, Position Most, Position Chosen, SourcePlace Source);

/// <summary>A measure that was carried in proportion to another format.</summary>
/// <param name="What">What it is, such as <c>the height of `band`</c>.</param>
/// <param name="Drawn">What it is on the format that the layout was drawn for.</param>
/// <param name="InProportion">What it would be in exact proportion.</param>
/// <param name="Got">What it is now.</param>
/// <param name="Source">Where the measure stands.</param>
public sealed record CarriedNote(string What, Position Drawn, Position InProportion, Position Got, SourcePlace Source);
