using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>What a layout says before its pieces.</summary>
internal sealed record Head(
    string Title, CardFormat? Format, Holding? Holding, Wish Reveal, CardBase? Base, IReadOnlyList<Paper> Papers);

/// <summary>Reads the title, the format, the units, the base and the papers.</summary>
internal static class HeadReader
{
    /// <summary>Reads the head of a layout; what could not be read is null and was reported.</summary>
    public static Head Read(ObjectView layout, ReadingContext context)
    {
        layout.Text("$schema");
        var title = layout.Text(layout.Need("title"))?.Text ?? "";
        var unit = layout.Word(layout.Need("units"), Words.Units);
        context.Unit = unit ?? LengthUnit.Inch;
        var (format, asWritten) = ReadFormat(layout, unit, context);
        var held = ReadHolding(layout, format, asWritten, context);
        var reveal = layout.Length("reveal", LengthRange.Positive) ?? new(
            context.Unit == LengthUnit.Inch ? Length.FromInches(1, 8) : Length.FromMillimetres(3),
            Strength.Should, context.Unit, SourcePlace.WholeFile(context.File));
        var cardBase = ReadBase(layout, format, held, context);
        return new(title, format, held, reveal, cardBase, ReadPapers(layout, layout.Need("papers"), context));
    }

    private static (CardFormat? Format, Holding? AsWritten) ReadFormat(ObjectView layout, LengthUnit? unit, ReadingContext context)
    {
        if (layout.Text(layout.Need("format")) is not { } text)
        {
            return (null, null);
        }

        var (reading, problem) = CardFormats.Read(text.Text, context.Unit);
        if (reading is null)
        {
            context.Add(LayoutMessages.UnknownFormat(problem!, text.From(problem!.Start)));
            return (null, null);
        }

        // In a metric file `A6` is likely to mean the ISO size; the stationers' name means
        // another, 4 1/2 x 6 1/4 in. Whoever writes `A6 in` means that one.
        if (unit == LengthUnit.Millimetre && reading.Format.Unit == LengthUnit.Inch
            && string.Equals(text.Text.Trim(), reading.Format.Name, StringComparison.OrdinalIgnoreCase)
            && CardFormats.Find($"ISO {reading.Format.Name}", context.Unit) is { } iso)
        {
            context.Add(LayoutMessages.InchNameInMetricFile(reading.Format, iso, text.Place));
        }

        return (reading.Format, reading.AsWritten);
    }

    private static Holding? ReadHolding(ObjectView layout, CardFormat? format, Holding? asWritten, ReadingContext context)
    {
        if (layout.Find("held") is { } member)
        {
            return layout.Word(member, Words.Holdings);
        }

        if (asWritten is { } holding)
        {
            return holding;
        }

        if (format is { IsSquare: false })
        {
            layout.ReportMissing("held");
        }

        return Holding.Portrait;
    }

    private static CardBase? ReadBase(ObjectView layout, CardFormat? format, Holding? held, ReadingContext context)
    {
        if (layout.As<SyntaxObject>(layout.Need("base"), "a group like `{ \"paper\": \"kraft\" }`") is not { } value)
        {
            return null;
        }

        var view = new ObjectView(value, "the base", LayoutKeys.Base, context);
        var paper = view.Text(view.Need("paper"));
        if (paper is not null)
        {
            context.Used.Add(new(paper.Text, paper.Place, NameUse.Paper, null));
        }

        // Along the longer side, as it is held; a square opens like a book.
        var usual = format is { IsSquare: false } && held == Holding.Landscape ? Edge.Top : Edge.Left;
        return new(paper?.Text ?? "", view.Word("fold", Words.Folds) ?? usual, view.Place);
    }

    /// <summary>Reads the papers by name; what could not be read was reported.</summary>
    /// <param name="layout">What holds them.</param>
    /// <param name="key">The key <c>papers</c>, or null: whether it may be left out is for the caller to say.</param>
    /// <param name="context">The reading.</param>
    public static List<Paper> ReadPapers(ObjectView layout, SyntaxMember? key, ReadingContext context)
    {
        var papers = new List<Paper>();
        if (layout.As<SyntaxObject>(key, "a group of papers by name") is not { } value)
        {
            return papers;
        }

        context.HasPapers = true;
        foreach (var member in value.Members)
        {
            if (!Names.IsName(member.Key))
            {
                context.Add(LayoutMessages.BadName(member.Key, member.KeyPlace));
            }

            context.Papers.Add(member.Key, member.KeyPlace);
            if (member.Value is SyntaxObject paper)
            {
                papers.Add(ReadPaper(member, new(paper, "a paper", LayoutKeys.Paper, context), context));
            }
            else
            {
                context.Add(LayoutMessages.WrongKind($"`{member.Key}`", "a group like `{ \"tone\": \"ivory\" }`", member.Value));
            }
        }

        return papers;
    }

    private static Paper ReadPaper(SyntaxMember member, ObjectView view, ReadingContext context)
    {
        var colour = new Colour(255, 255, 255);
        if (view.Text("tone") is { } tone)
        {
            var (found, remedy) = ToneText.Read(tone.Text);
            colour = found ?? colour;
            if (remedy is not null)
            {
                context.Add(LayoutMessages.BadTone(tone.Text, tone.Place, remedy));
            }
        }

        var grammage = view.Find("grammage") is { } weight ? LengthValues.Number(weight.Value, "`grammage`", context) : null;
        if (grammage is { } grams && (grams <= Rational.Zero || grams > HeaviestPaper))
        {
            context.Add(LayoutMessages.OutOfRange("grammage", $"more than 0 and at most {HeaviestPaper} g/m²", view.Find("grammage")!.Value.Place));
        }

        return new(
            member.Key, view.Word("kind", Words.PaperKinds) ?? PaperKind.Cardstock, colour, view.Flag("one-way"), grammage,
            view.PlainLength("caliper"), member.KeyPlace);
    }

    // Board for bookbinding ends near 2500 g/m2; anything above is a slip of the pen.
    private const int HeaviestPaper = 3000;
}
