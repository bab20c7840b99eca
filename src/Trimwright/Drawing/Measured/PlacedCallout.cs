using Trimwright.Drawing.Lettering;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>A callout with the room that its words need.</summary>
internal sealed class SizedCallout
{
    /// <summary>Measures a callout.</summary>
    public SizedCallout(Callout callout)
    {
        Callout = callout;
        Width = callout.Lines.Max(line => Plane.Roughly(LetteringFont.Instance.Width(line.Text, Capital)));
        Pitch = callout.Lines.Any(line => line.Text.Contains(LetteringFont.FractionSlash, StringComparison.Ordinal)) ? LinePitch : PlainLinePitch;
        Height = TextHeight + ((callout.Lines.Count - 1) * Pitch) + Math.Max(Descent, Reach(callout.Lines[^1].Text).Below);
    }

    /// <summary>What is said.</summary>
    public Callout Callout { get; }

    /// <summary>The width of the longest line.</summary>
    public double Width { get; }

    /// <summary>From one line of writing to the next.</summary>
    public double Pitch { get; }

    /// <summary>The height of its lines.</summary>
    public double Height { get; }
}

/// <summary>A callout with its place in a column beside the face.</summary>
/// <param name="Sized">What is said.</param>
/// <param name="OnRight">Whether its column is the right one.</param>
/// <param name="Column">The edge of the column that faces the card.</param>
/// <param name="Top">Where the capitals of its first line begin.</param>
/// <param name="Dot">Where its leader ends on the face.</param>
internal sealed record PlacedCallout(SizedCallout Sized, bool OnRight, double Column, double Top, Spot Dot)
{
    /// <summary>What is said.</summary>
    public Callout Callout => Sized.Callout;

    private double Outwards => OnRight ? 1 : -1;

    /// <summary>Where the slanted part of its leader meets the level part.</summary>
    public Spot Knee => new(Column - (Outwards * (Shoulder + ShoulderGap)), Top + (TextHeight / 2));

    /// <summary>Where its leader ends, beside its first line.</summary>
    public Spot End => new(Column - (Outwards * ShoulderGap), Top + (TextHeight / 2));

    /// <summary>The area of its lines.</summary>
    public Area TextArea => OnRight
        ? new(Column, Top, Column + Sized.Width, Top + Sized.Height) : new(Column - Sized.Width, Top, Column, Top + Sized.Height);

    /// <summary>The foot of a line of writing.</summary>
    public double BaselineOf(int line) => Top + TextHeight + (line * Sized.Pitch);
}
