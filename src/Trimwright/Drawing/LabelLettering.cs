using Trimwright.Drawing.Lettering;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing;

/// <summary>The lettering of a label, in as many lines as let it be largest.</summary>
internal static class LabelLettering
{
    private static readonly Length Trial = Length.FromMillimetres(10);

    // Air around the lettering, and lines 1.7 capitals apart: common practice, no source.
    private static readonly Rational MostWidth = Rational.From(84, 100);
    private static readonly Rational MostHeight = Rational.From(62, 100);
    private static readonly Rational MostCapital = Rational.From(45, 100);
    private static readonly Rational LinePitch = Rational.From(17, 10);

    /// <summary>Draws the lettering in the middle of a piece.</summary>
    public static IEnumerable<DrawnItem> Draw(FittedPiece piece, string lettering, Colour paper)
    {
        var words = lettering.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            return [];
        }

        var (lines, height) = (words, Rational.Zero);
        for (var count = 1; count <= Math.Min(words.Length, 5); count++)
        {
            var broken = Break(words, count);
            var fits = LargestFor(broken, piece.Box);
            (lines, height) = fits > height ? (broken, fits) : (lines, height);
        }

        var capital = Length.FromNanometres((long)height.Floor());
        var colour = Palette.IsLight(paper) ? new Colour(0x3a, 0x33, 0x2b) : new Colour(0xf7, 0xf3, 0xea);
        var centre = piece.Box.Centre;
        var pitch = new Position(capital.Nanometres * LinePitch);
        var first = centre.Y + (Position.FromLength(capital) * Rational.From(1, 2)) - (pitch * Rational.From(lines.Length - 1, 2));
        return lines.Select((line, i) =>
            new DrawnText(line, new(centre.X, first + (pitch * i)), TextHold.Middle, capital, colour) { Class = "lettering" });
    }

    /// <summary>The height of capitals, in nanometres, at which the lines just fit the box.</summary>
    private static Rational LargestFor(string[] lines, Box box)
    {
        var widest = lines.Max(line => LetteringFont.Instance.Width(line, Trial).Nanometres);
        var byWidth = widest == 0 ? box.Height.Nanometres : box.Width.Nanometres * MostWidth * Rational.From(Trial.Nanometres, widest);
        var byHeight = box.Height.Nanometres * MostHeight / (1 + (LinePitch * (lines.Length - 1)));
        return Rational.Min(Rational.Min(byWidth, byHeight), box.Height.Nanometres * MostCapital);
    }

    /// <summary>Breaks words into lines so that the widest line is as narrow as it can be; of equals, the earlier lines are shorter.</summary>
    private static string[] Break(string[] words, int count)
    {
        if (count == 1)
        {
            return [string.Join(' ', words)];
        }

        string[]? best = null;
        for (var taken = 1; taken <= words.Length - count + 1; taken++)
        {
            string[] lines = [string.Join(' ', words[..taken]), .. Break(words[taken..], count - 1)];
            if (best is null || Widest(lines) < Widest(best))
            {
                best = lines;
            }
        }

        return best!;
    }

    private static Length Widest(string[] lines) => lines.Select(line => LetteringFont.Instance.Width(line, Trial)).Max();
}
