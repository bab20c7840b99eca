using Trimwright.Diagnostics;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>What came of reading a drawer file.</summary>
/// <param name="Drawer">The drawer; null if there is any error.</param>
/// <param name="Diagnostics">All errors and warnings, in file order.</param>
public sealed record DrawerReading(Drawer? Drawer, IReadOnlyList<Diagnostic> Diagnostics);

/// <summary>
/// Reads drawer files: the maker's own tools. What a file leaves out is as in <see cref="Drawer.Default"/>. All problems of a file are found in
/// one go; bad input never gives an exception. The largest file read is that of <see cref="LayoutReader.MaxBytes"/>.
/// </summary>
public static class DrawerReader
{
    private static readonly IReadOnlyList<(string Word, PieceKind Value)> DieKinds =
        [.. Words.Kinds.Where(entry => entry.Value is not (PieceKind.Strip or PieceKind.Image))];

    /// <summary>Reads a drawer.</summary>
    /// <param name="file">The name of the file, as the user gave it.</param>
    /// <param name="content">Its bytes: UTF-8, with or without a byte order mark.</param>
    public static DrawerReading Read(string file, byte[] content) => Read(file, content, () => Drawer.Default);

    /// <summary>Reads the drawer that is built in, which leaves nothing out.</summary>
    internal static Drawer ReadBuiltIn()
    {
        const string name = "drawer.json";
        using var stream = EmbeddedFiles.Open(name);
        using var content = new MemoryStream();
        stream.CopyTo(content);
        return Read(name, content.ToArray(), () => throw new InvalidOperationException($"{name} leaves something out")).Drawer
            ?? throw new InvalidOperationException($"{name} cannot be read");
    }

    private static DrawerReading Read(string file, byte[] content, Func<Drawer> usual)
    {
        var context = new ReadingContext(file);
        Drawer? drawer = null;
        switch (SyntaxReader.Read(file, content, context.Diagnostics))
        {
            case null:
                break;
            case SyntaxObject root:
                drawer = Build(new(root, "a drawer", LayoutKeys.Drawer, context), usual, context);
                break;
            case var other:
                context.Add(LayoutMessages.WrongKind("a drawer", "a group in braces", other));
                break;
        }

        var diagnostics = DiagnosticList.InFileOrder(context.Diagnostics);
        return new(diagnostics.HasErrors() ? null : drawer, diagnostics);
    }

    private static Drawer Build(ObjectView view, Func<Drawer> usual, ReadingContext context)
    {
        view.Text("$schema");
        context.Unit = view.Word(view.Need("units"), Words.Units) ?? LengthUnit.Inch;
        return new()
        {
            InchIncrement = view.PlainLength("inch-increment") ?? usual().InchIncrement,
            MetricIncrement = view.PlainLength("metric-increment") ?? usual().MetricIncrement,
            Dies = ReadDies(view, context) ?? usual().Dies,
            Foam = ReadFoam(view, context) ?? usual().Foam,
            DieMargin = ReadMargin(view, context) ?? usual().DieMargin,
            SmallestPiece = view.PlainLength("smallest-piece") ?? usual().SmallestPiece,
            ThinnestShaving = view.PlainLength("thinnest-shaving") ?? usual().ThinnestShaving,
            StackLimit = ReadStack(view, context) ?? usual().StackLimit,
        };
    }

    private static int? ReadStack(ObjectView view, ReadingContext context)
    {
        if (view.Find("stack") is not { } member || LengthValues.Number(member.Value, "`stack`", context) is not { } number)
        {
            return null;
        }

        if (number.IsWhole && number >= Rational.One && number <= MostInStack)
        {
            return (int)number.Numerator;
        }

        context.Add(LayoutMessages.OutOfRange("stack", FormattableString.Invariant($"a whole number of sheets from 1 to {MostInStack}"), member.Value.Place));
        return null;
    }

    // A stack cutter for an office takes a few hundred sheets.
    private const int MostInStack = 500;

    private static Length? ReadMargin(ObjectView view, ReadingContext context) =>
        view.Length("die-margin", LengthRange.NotNegative) is { } margin
            ? LengthValues.WithoutStrength(margin, "die-margin", context)
            : null;

    private static List<Length>? ReadFoam(ObjectView view, ReadingContext context)
    {
        if (view.As<SyntaxList>(view.Find("foam"), "a list of thicknesses, like `[ \"1/8 in\" ]`") is not { } list)
        {
            return null;
        }

        var foam = new List<Length>();
        foreach (var item in list.Items)
        {
            if (LengthValues.Read(item, "a thickness of foam", context) is not { } wish
                || LengthValues.WithoutStrength(wish, "foam", context) is not { } thickness)
            {
                continue;
            }

            if (thickness <= Length.Zero)
            {
                context.Add(LayoutMessages.BadSize("foam", wish, positive: true));
            }

            foam.Add(thickness);
        }

        return foam;
    }

    private static List<Die>? ReadDies(ObjectView view, ReadingContext context)
    {
        if (view.As<SyntaxList>(view.Find("dies"), "a list of dies by kind") is not { } list)
        {
            return null;
        }

        var dies = new Dictionary<Die, SourcePlace>();
        var inOrder = new List<Die>();
        foreach (var item in list.Items)
        {
            if (item is not SyntaxObject value)
            {
                context.Add(LayoutMessages.WrongKind("a kind of die", "a group like `{ \"kind\": \"circle\", \"sizes\": [ \"2 in\" ] }`", item));
                continue;
            }

            var entry = new ObjectView(value, "a kind of die", LayoutKeys.Die, context);
            var kind = entry.Word(entry.Need("kind"), DieKinds);
            var sizes = entry.As<SyntaxList>(entry.Need("sizes"), "a list of sizes")?.Items ?? [];
            foreach (var size in sizes)
            {
                if (kind is not { } known || ReadDie(known, size, context) is not { } die)
                {
                    continue;
                }

                if (dies.TryAdd(die, size.Place))
                {
                    inOrder.Add(die);
                }
                else
                {
                    context.Add(LayoutMessages.SameDieTwice(size.Place, dies[die]));
                }
            }
        }

        return inOrder;
    }

    private static Die? ReadDie(PieceKind kind, SyntaxValue size, ReadingContext context)
    {
        if (kind is PieceKind.Circle or PieceKind.Square)
        {
            if (LengthValues.Read(size, "the size of a die", context) is not { } wish
                || LengthValues.WithoutStrength(wish, "sizes", context) is not { } side)
            {
                return null;
            }

            if (side > Length.Zero)
            {
                return new(kind, side, side);
            }

            context.Add(LayoutMessages.BadSize("sizes", wish, positive: true));
            return null;
        }

        if (size is not SyntaxText text)
        {
            context.Add(LayoutMessages.WrongKind("the size of a die", "a size like `\"2 x 3\"`", size));
            return null;
        }

        var (written, problem) = SizeText.Read(text.Text, context.Unit);
        if (written is { } found)
        {
            return new(kind, found.Width, found.Height);
        }

        context.Add(LayoutMessages.DieSize(problem!, text.From(problem!.Start)));
        return null;
    }
}
