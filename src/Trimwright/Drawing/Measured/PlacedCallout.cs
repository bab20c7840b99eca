using Trimwright.Drawing.Lettering;
using static Trimwright.Drawing.Measured.DrawingRules;

namespace Trimwright.Drawing.Measured;

/// <summary>A callout with its place in a column beside the face.</summary>
/// <param name="Callout">What is said.</param>
/// <param name="OnRight">Whether its column is the right one.</param>
/// <param name="Column">The edge of the column that faces the card.</param>
/// <param name="Top">Where the capitals of its first line begin.</param>
/// <param name="Dot">Where its leader ends on the face.</param>
internal sealed record PlacedCallout(Callout Callout, bool OnRight, double Column, double Top, Spot Dot)
{
    private double Outwards => OnRight ? 1 : -1;

    /// <summary>The height of its lines.</summary>
    public double Height => HeightOf(Callout);

    /// <summary>Where the slanted part of its leader meets the level part.</summary>
    public Spot Knee => new(Column - (Outwards * (Shoulder + ShoulderGap)), LeaderY);

    /// <summary>Where its leader ends, beside its first line.</summary>
    public Spot End => new(Column - (Outwards * ShoulderGap), LeaderY);

    /// <summary>The area of its lines.</summary>
    public Area TextArea
    {
        get
        {
            var width = Callout.Lines.Max(line => Plane.Roughly(LetteringFont.Instance.Width(line.Text, Capital)));
            return OnRight ? new(Column, Top, Column + width, Top + Height) : new(Column - width, Top, Column, Top + Height);
        }
    }

    private double LeaderY => Top + (TextHeight / 2);

    /// <summary>The height of the lines of a callout.</summary>
    public static double HeightOf(Callout callout) => TextHeight + Descent + ((callout.Lines.Count - 1) * LinePitch);

    /// <summary>The foot of a line of writing.</summary>
    public double BaselineOf(int line) => Top + TextHeight + (line * LinePitch);
}
