namespace Trimwright.Drawing.Lettering;

/// <summary>A part of a text that is set in one line of writing: figures of a fraction are set higher and lower than the rest.</summary>
/// <remarks>
/// A fraction is its numerator, the fraction slash of Unicode (U+2044) and its denominator. All its figures have the height of the rest
/// (ISO 129-1:2018: one character height for all dimensions), one raised and one lowered, so that the whole is not quite twice as high
/// as a figure: by ASME Y14.2, from memory, it is twice as high.
/// </remarks>
/// <param name="Text">Its characters.</param>
/// <param name="Start">Where it begins, in units of the font.</param>
/// <param name="Advance">How wide it is, in units of the font.</param>
/// <param name="Rise">How far its foot lies above that of the whole, in hundredths of the height of capitals; negative is below.</param>
internal readonly record struct TextRun(string Text, int Start, int Advance, int Rise)
{
    /// <summary>How far the figures of a fraction are raised or lowered, in hundredths of the height of capitals.</summary>
    public const int FractionShift = 44;

    // The slash of the font has no width of its own: figures keep clear of its middle by this much, in units of the font.
    private const int SlashRoom = 120;

    // Before a fraction a whole figure needs less than a space, since numerator and figure cannot be taken for one number.
    private const int BeforeFraction = 190;

    /// <summary>The runs of a text, in order; a text without a fraction slash is one run.</summary>
    public static IReadOnlyList<TextRun> Of(string text)
    {
        var font = LetteringFont.Instance;
        List<TextRun> runs = [];
        var (at, pen) = (0, 0);
        for (var slash = text.IndexOf(LetteringFont.FractionSlash, StringComparison.Ordinal); slash >= 0;
            slash = text.IndexOf(LetteringFont.FractionSlash, at))
        {
            var (from, to) = (slash, slash + 1);
            while (from > at && char.IsAsciiDigit(text[from - 1]))
            {
                from--;
            }

            while (to < text.Length && char.IsAsciiDigit(text[to]))
            {
                to++;
            }

            var mixed = from > at + 1 && text[from - 1] == ' ' && char.IsAsciiDigit(text[from - 2]);
            Add(text[at..from], 0, mixed ? BeforeFraction - font.Advance(" ") : 0);
            Add(text[from..slash], FractionShift, SlashRoom);
            Add(text[slash..(slash + 1)], 0, SlashRoom);
            Add(text[(slash + 1)..to], -FractionShift, 0);
            at = to;
        }

        Add(text[at..], 0, 0);
        return runs;

        void Add(string part, int rise, int after)
        {
            if (part.Length > 0)
            {
                var advance = font.Advance(part);
                runs.Add(new(part, pen, advance, rise));
                pen += advance + after;
            }
        }
    }
}
