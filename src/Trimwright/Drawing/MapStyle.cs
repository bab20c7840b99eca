using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>How large a sheet map is drawn, and how much stands round it. Its words keep their size, so that they can be read at any scale.</summary>
/// <param name="Scale">How large; 1 would be the true size.</param>
/// <param name="Border">Air all round, in millimetres.</param>
/// <param name="TitleHeight">The height of the capitals of its title, in millimetres.</param>
/// <param name="Head">From the foot of the title to the sheet, with one line of words between them, in millimetres.</param>
/// <param name="BadgeRadius">The radius of the rings round the numbers of cuts, in millimetres.</param>
internal sealed record MapStyle(Rational Scale, double Border, double TitleHeight, double Head, double BadgeRadius)
{
    /// <summary>A map that has a drawing to itself.</summary>
    public static MapStyle ByItself { get; } = new(Rational.From(1, 2), 8, 4, 7.5, 2.1);

    /// <summary>Maps side by side on a page with the cuts, on which nobody should measure; they say so.</summary>
    public static MapStyle OnWorksheet(long part) => new(Rational.From(1, part), 0.5, 3, 7.2, 1.9);

    /// <summary>Whether it stands with others on a page.</summary>
    public bool IsSmall => Border < 1;

    /// <summary>The scale in words, such as <c>half size</c>.</summary>
    public string ScaleWords => (Scale.Denominator == 2, Scale.Denominator == 3, Scale.Denominator == 4) switch
    {
        (true, _, _) => "half size",
        (_, true, _) => "a third of its size",
        (_, _, true) => "a quarter of its size",
        _ => $"1/{Scale.Denominator} of its size",
    };
}
