using Trimwright.Cutting;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Batches.Reading;

/// <summary>Reads what there is to cut from.</summary>
internal static class StockReader
{
    /// <summary>The most sheets of one kind.</summary>
    public const int MostSheets = 100_000;

    /// <summary>The most kinds of sheets.</summary>
    public const int MostKinds = 500;

    /// <summary>Reads the stock; what could not be read is left out and was reported. Whether there is any is for the caller to ask.</summary>
    /// <param name="member">The key <c>stock</c>, or null.</param>
    /// <param name="context">The reading.</param>
    public static List<StockSheet> Read(SyntaxMember? member, ReadingContext context)
    {
        var stock = new List<StockSheet>();
        if (member is null)
        {
            return stock;
        }

        if (member.Value is not SyntaxList list)
        {
            context.Add(Layouts.LayoutMessages.WrongKind("`stock`", "a list of sheets and offcuts", member.Value));
            return stock;
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxObject value)
            {
                context.Add(Layouts.LayoutMessages.WrongKind("a kind of sheet", "a group like `{ \"name\": \"pad\", \"size\": \"6 x 6\", \"count\": 24, \"paper\": \"leaf\" }`", item));
            }
            else if (stock.Count == MostKinds)
            {
                context.Add(BatchMessages.TooManyKinds(MostKinds, value.Place));
                break;
            }
            else if (ReadSheet(new(value, "a kind of sheet", BatchKeys.Sheet, context), context) is { } sheet)
            {
                stock.Add(sheet);
            }
        }

        return stock;
    }

    private static StockSheet? ReadSheet(ObjectView view, ReadingContext context)
    {
        var name = view.Text(view.Need("name"));
        if (name is not null)
        {
            if (!Names.IsName(name.Text))
            {
                context.Add(Layouts.LayoutMessages.BadName(name.Text, name.Place));
            }

            context.Declare(name.Text, name.Place);
        }

        var size = view.As<SyntaxText>(view.Need("size"), "it in double quotes, like `\"6 x 6\"`") is { } text ? BatchValues.Size(text, "write its true size like `6 x 6`, or leave the entry out if there is nothing of it", context) : null;
        var (count, hasCount) = ReadCount(view, context);
        var (sideA, sideB) = ReadSides(view, context);
        var trueOff = view.Length("true-off", LengthRange.NotNegative) is { } wish
            ? LengthValues.WithoutStrength(wish, "true-off", context) ?? Length.Zero
            : Length.Zero;
        if (size is { } known && (2 * trueOff >= known.Width || 2 * trueOff >= known.Height))
        {
            context.Add(BatchMessages.NothingLeft(trueOff, known, context.Unit, view.Find("true-off")!.Value.Place));
        }

        if (size is { } whole && Length.Max(whole.Width, whole.Height) > Length.FromMillimetres(CuttingPlanner.LongestSide))
        {
            context.Add(BatchMessages.TooLargeSheet(whole, context.Unit, view.Find("size")!.Value.Place));
        }

        return name is null || size is null || !hasCount || sideA is null ? null : new()
        {
            Name = name.Text,
            Width = size.Value.Width,
            Height = size.Value.Height,
            Count = count,
            SideA = sideA,
            SideB = sideB,
            Grain = view.Word("grain", Words.Axes),
            TrueOff = trueOff,
            Cost = ReadCost(view, context),
            IsOffcut = view.Flag("offcut"),
            Place = name.Place,
        };
    }

    private static (int? Count, bool IsKnown) ReadCount(ObjectView view, ReadingContext context)
    {
        var member = view.Need("count");
        if (BatchValues.IsWord(member, "enough"))
        {
            return (null, true);
        }

        if (member?.Value is SyntaxText)
        {
            context.Add(Layouts.LayoutMessages.WrongKind("`count`", "a whole number, or `\"enough\"` for as many as are needed", member.Value));
            return (null, false);
        }

        var count = BatchValues.WholeNumber(member, "sheets", MostSheets, context);
        return (count, count is not null);
    }

    /// <summary>The papers on both sides; <c>paper</c> stands for the same on both.</summary>
    private static (string? SideA, string? SideB) ReadSides(ObjectView view, ReadingContext context)
    {
        if (view.Find("paper") is { } paper)
        {
            foreach (var key in (string[])["side-a", "side-b"])
            {
                if (view.Find(key) is { } side)
                {
                    context.Add(Layouts.LayoutMessages.Contradiction("`paper` is what both sides show", paper, side));
                }
            }

            var both = BatchValues.Paper(view.Text(paper), context);
            return (both, both);
        }

        if (!view.Has("side-a"))
        {
            if (!view.Misspells("side-a") && !view.Misspells("paper"))
            {
                context.Add(BatchMessages.NoSide(view.Place, view.Has("side-b")));
            }

            BatchValues.Paper(view.Text("side-b"), context);
            return (null, null);
        }

        return (BatchValues.Paper(view.Text("side-a"), context), BatchValues.Paper(view.Text("side-b"), context));
    }

    private static Rational? ReadCost(ObjectView view, ReadingContext context)
    {
        if (view.Find("cost") is not { } member || LengthValues.Number(member.Value, "`cost`", context) is not { } cost)
        {
            return null;
        }

        // In hundredths at most, so that costs add up in whole numbers.
        if (cost >= Rational.Zero && cost <= 1_000 && (cost * 100).Denominator.IsOne)
        {
            return cost;
        }

        context.Add(BatchMessages.BadCost(member.Value.Place));
        return null;
    }

    /// <summary>With some prices known and others not, nobody can say what is cheapest.</summary>
    public static void CheckCosts(List<StockSheet> stock, ReadingContext context)
    {
        var bought = stock.FindAll(sheet => !sheet.IsOffcut);
        if (bought.Exists(sheet => sheet.Cost is not null) && bought.Find(sheet => sheet.Cost is null) is { } without)
        {
            context.Add(BatchMessages.CostMissing(without.Name, without.Place));
        }
    }
}
