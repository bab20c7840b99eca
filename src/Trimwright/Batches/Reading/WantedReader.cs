using Trimwright.Layouts;
using Trimwright.Layouts.Reading;

namespace Trimwright.Batches.Reading;

/// <summary>Reads which cards are wanted.</summary>
internal static class WantedReader
{
    /// <summary>The most layouts in one batch.</summary>
    private const int MostLayouts = 200;

    private const int MostWorth = 1000;

    /// <summary>Reads the cards; what could not be read is left out and was reported.</summary>
    public static List<WantedCard> Read(ObjectView batch, ReadingContext context)
    {
        var cards = new List<WantedCard>();
        if (batch.As<SyntaxList>(batch.Need("cards"), "a list of the cards wanted") is not { } list)
        {
            return cards;
        }

        if (list.Items.Count == 0)
        {
            context.Add(BatchMessages.NoCards(list.Place));
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxObject value)
            {
                context.Add(LayoutMessages.WrongKind("a wanted card", "a group like `{ \"layout\": \"bean-row.json\", \"count\": 12 }`", item));
            }
            else if (cards.Count == MostLayouts)
            {
                context.Add(BatchMessages.TooManyLayouts(MostLayouts, value.Place));
                break;
            }
            else if (ReadCard(new(value, "a wanted card", BatchKeys.Card, context), context) is { } card)
            {
                cards.Add(card);
            }
        }

        return cards;
    }

    private static WantedCard? ReadCard(ObjectView view, ReadingContext context)
    {
        var file = view.Text(view.Need("layout"));
        if (file is not null && string.IsNullOrWhiteSpace(file.Text))
        {
            context.Add(BatchMessages.NoLayout(file.Place));
            file = null;
        }

        var (format, holding) = ReadFormat(view, context);
        var variant = view.Text("variant");
        if (variant is not null && string.IsNullOrWhiteSpace(variant.Text))
        {
            context.Add(BatchMessages.NoVariant(variant.Place));
            variant = null;
        }

        var (count, asMany) = ReadCount(view, context);
        var standIns = ReadStandIns(view, context);
        return file is null || count is null ? null : new()
        {
            LayoutFile = file.Text,
            LayoutPlace = file.Place,
            Format = format,
            Holding = view.Word("held", Words.Holdings) ?? holding,
            Variant = variant is null ? null : (variant.Text, variant.Place),
            Count = count.Value,
            AsManyAsPossible = asMany,
            Worth = ReadWorth(view, asMany, context),
            StandIns = standIns,
            Place = view.Place,
        };
    }

    private static (CardFormat? Format, Holding? Holding) ReadFormat(ObjectView view, ReadingContext context)
    {
        if (view.Text("format") is not { } text)
        {
            return (null, null);
        }

        var (reading, problem) = CardFormats.Read(text.Text, context.Unit);
        if (reading is null)
        {
            context.Add(LayoutMessages.UnknownFormat(problem!, text.From(problem!.Start)));
        }

        return (reading?.Format, reading?.AsWritten);
    }

    private static (int? Count, bool AsMany) ReadCount(ObjectView view, ReadingContext context)
    {
        var member = view.Need("count");
        var least = view.Find("at-least");
        if (BatchValues.IsWord(member, "as-many-as-possible"))
        {
            return (least is null ? 0 : BatchValues.WholeNumber(least, "cards", BatchReader.MostCards, context), true);
        }

        if (least is not null && member is not null)
        {
            context.Add(LayoutMessages.Contradiction("`at-least` goes with `\"count\": \"as-many-as-possible\"` alone", least, member));
        }

        if (member?.Value is SyntaxText)
        {
            context.Add(LayoutMessages.WrongKind("`count`", "a whole number, or `\"as-many-as-possible\"`", member.Value));
            return (null, false);
        }

        return (BatchValues.WholeNumber(member, "cards", BatchReader.MostCards, context), false);
    }

    private static int ReadWorth(ObjectView view, bool asMany, ReadingContext context)
    {
        if (view.Find("worth") is not { } member)
        {
            return 1;
        }

        if (!asMany)
        {
            context.Add(BatchMessages.WorthOfFixed(member.KeyPlace));
        }

        return BatchValues.WholeNumber(member, "points", MostWorth, context) ?? 1;
    }

    private static List<StandIn> ReadStandIns(ObjectView view, ReadingContext context)
    {
        var standIns = new List<StandIn>();
        if (view.As<SyntaxObject>(view.Find("cut-from"), "a group like `{ \"furrows\": \"stripes\", \"leaf\": [ \"moss\", \"fern\" ] }`") is not { } group)
        {
            return standIns;
        }

        foreach (var member in group.Members)
        {
            var from = new List<string>();
            switch (member.Value)
            {
                case SyntaxText text:
                    from.Add(BatchValues.Paper(text, context)!);
                    break;
                case SyntaxList { Items.Count: > 0 } list:
                    foreach (var item in list.Items)
                    {
                        if (item is not SyntaxText name)
                        {
                            context.Add(LayoutMessages.WrongKind("a paper in stock", "its name in double quotes", item));
                        }
                        else if (!from.Contains(name.Text))
                        {
                            from.Add(BatchValues.Paper(name, context)!);
                        }
                    }

                    break;
                default:
                    context.Add(LayoutMessages.WrongKind($"`{member.Key}`", "the name of a paper in stock, or a list of some, any of which will do", member.Value));
                    break;
            }

            if (from.Count > 0)
            {
                standIns.Add(new(member.Key, from, member.KeyPlace));
            }
        }

        return standIns;
    }
}
