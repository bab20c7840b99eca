using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>How large a sheet map is drawn, and how much stands round it. Its words keep their size, so that they can be read at any scale.</summary>
/// <param name="Scale">How large; 1 would be the true size.</param>
/// <param name="Border">Air all round, in millimetres.</param>
/// <param name="TitleHeight">The height of the capitals of its title, in millimetres.</param>
/// <param name="Head">From the foot of the title to that of the first line of words below it, in millimetres.</param>
/// <param name="TextHeight">The height of the capitals of its words, in millimetres.</param>
/// <param name="LinePitch">From line to line, in millimetres.</param>
/// <param name="BadgeRadius">The radius of the rings round the numbers of cuts, in millimetres.</param>
internal sealed record MapStyle(Rational Scale, double Border, double TitleHeight, double Head, double TextHeight, double LinePitch, double BadgeRadius)
{
    /// <summary>A map that has a drawing to itself.</summary>
    public static MapStyle ByItself { get; } = new(Rational.From(1, 2), 8, 4, 5, 2.2, 3.8, 2.1);

    /// <summary>Maps side by side on a page with the cuts, on which nobody should measure; they say so.</summary>
    /// <param name="part">How many times smaller than the sheet.</param>
    public static MapStyle OnWorksheet(long part) => new(Rational.From(1, part), 0.5, 2.7, 4.2, 2, 3.4, 1.8);

    /// <summary>The height of the numbers in the rings, in millimetres.</summary>
    public double NumberHeight { get; private init; } = 1.8;

    /// <summary>The same with smaller rings, for a sheet with many small pieces; null where they would be too small to read.</summary>
    public MapStyle? Smaller => NumberHeight switch
    {
        > 1.5 => this with { BadgeRadius = BadgeRadius * 5 / 6, NumberHeight = 1.5 },
        > 1.3 => this with { BadgeRadius = BadgeRadius * 5 / 6, NumberHeight = 1.3 },
        _ => null,
    };

    /// <summary>Whether it stands with others on a page.</summary>
    public bool IsSmall => Border < 1;
}
