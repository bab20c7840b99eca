using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>What a row says for its pieces.</summary>
/// <param name="Name">Its name; empty if it could not be read.</param>
/// <param name="On">What it is placed on.</param>
/// <param name="HangsFrom">The edge that it hangs from, or null.</param>
/// <param name="Copies">How many copies of one piece it has, or null if its pieces are written one by one.</param>
/// <param name="Place">Where its name stands.</param>
internal sealed record RowFrame(string Name, string? On, Edge? HangsFrom, int? Copies, SourcePlace Place);

/// <summary>Reads a piece.</summary>
internal sealed class PieceReader
{
    /// <summary>The number of copies where the file says it wrongly, which was reported.</summary>
    public const int UnknownCopies = 0;

    private readonly ObjectView _view;
    private readonly ReadingContext _context;

    private PieceReader(ObjectView view, ReadingContext context) => (_view, _context) = (view, context);

    /// <summary>Reads a piece that stands by itself; null if it cannot be made, which was reported.</summary>
    public static Piece? Read(SyntaxObject value, Wish reveal, ReadingContext context) =>
        new PieceReader(new(value, "a piece", LayoutKeys.Piece, context), context).Read(reveal, null) is [var piece] ? piece : null;

    /// <summary>Reads a piece of a row, or all the copies of it; empty if it cannot be made, which was reported.</summary>
    public static IReadOnlyList<Piece> ReadInRow(SyntaxObject value, RowFrame row, Wish reveal, ReadingContext context) =>
        new PieceReader(new(value, "a piece", LayoutKeys.Piece, context), context).Read(reveal, row);

    private IReadOnlyList<Piece> Read(Wish reveal, RowFrame? row)
    {
        var name = row?.Copies is null ? ReadName() : null;
        var source = name?.Place ?? row?.Place ?? _view.Place;
        var kind = _view.Word(_view.Need("kind"), Words.Kinds);
        var paper = ReadPaper(_view);
        var on = row is null ? ReadOn(_view, name?.Text, _context) : row.On;
        RefuseInRow(row);
        var mayHangOver = _view.Flag("hangs-over");
        var placements = row is null
            ? PlaceReader.Read(_view, name?.Text, on is null, mayHangOver, reveal, _context)
            : [];
        var piece = new Piece
        {
            Name = name?.Text ?? "",
            Source = source,
            Kind = kind ?? PieceKind.Panel,
            Paper = paper ?? "",
            On = on,
            Row = row?.Name,
            Placements = placements,
            Mats = ReadMats(),
            Lift = ReadLift(),
            MayHangOver = mayHangOver,
            Accent = _view.Flag("accent"),
            Cut = _view.Word("cut", Words.Cuts) ?? UsualCut(kind),
        };
        var tilts = ReadTilts(row?.Copies);
        if (kind is null)
        {
            return []; // what belongs to the kind cannot be judged
        }

        piece = PieceParts.Read(_view, piece, placements.OfType<Hang>().FirstOrDefault()?.From ?? row?.HangsFrom, _context);
        return row?.Copies is { } copies
            ? [.. Enumerable.Range(0, copies).Select(i => piece with { Name = CopyName(row, i), Tilt = tilts[i % tilts.Count] })]
            : [piece with { Tilt = tilts[0] }];
    }

    /// <summary>The name of a copy in a row, the first being 0.</summary>
    public static string CopyName(RowFrame row, int index) => $"{row.Name}-{index + 1}";

    /// <summary>Reads what a piece or a row is placed on; null for the card.</summary>
    public static string? ReadOn(ObjectView view, string? by, ReadingContext context)
    {
        if (view.Text("on") is not { } on || on.Text == Names.Card)
        {
            return null;
        }

        context.Used.Add(new(on.Text, on.Place, NameUse.Parent, by));
        return on.Text;
    }

    /// <summary>Reads and declares the name under a key; null if there is none that can be used.</summary>
    public static SyntaxText? ReadName(ObjectView view, string key, ReadingContext context)
    {
        if (view.Text(view.Need(key)) is not { } name)
        {
            return null;
        }

        if (name.Text == Names.Card)
        {
            context.Add(LayoutMessages.NameOfCard(name.Place));
            return null;
        }

        if (!Names.IsName(name.Text))
        {
            context.Add(LayoutMessages.BadName(name.Text, name.Place));
        }

        // A name that must be changed is still known, so that its uses are not reported as well.
        context.Declare(name.Text, name.Place);
        return name;
    }

    private SyntaxText? ReadName() => ReadName(_view, "name", _context);

    private string? ReadPaper(ObjectView view)
    {
        var paper = view.Text(view.Need("paper"));
        if (paper is not null)
        {
            _context.Used.Add(new(paper.Text, paper.Place, NameUse.Paper, null));
        }

        return paper?.Text;
    }

    // A row says for all its pieces what they are placed on and where they go; it names its copies itself.
    private void RefuseInRow(RowFrame? row)
    {
        if (row is null)
        {
            return;
        }

        string[] keys = row.Copies is null ? ["on", "place"] : ["name", "on", "place"];
        foreach (var key in keys)
        {
            if (_view.Find(key) is { } member)
            {
                _context.Add(LayoutMessages.SaidByRow(key, member.KeyPlace));
            }
        }
    }

    private List<Mat> ReadMats()
    {
        var mats = new List<Mat>();
        if (_view.As<SyntaxList>(_view.Find("mats"), "a list like `[ { \"paper\": \"kraft\" } ]`") is not { } list)
        {
            return mats;
        }

        foreach (var item in list.Items)
        {
            if (item is not SyntaxObject value)
            {
                _context.Add(LayoutMessages.WrongKind("a mat", "a group like `{ \"paper\": \"kraft\" }`", item));
                continue;
            }

            var view = new ObjectView(value, "a mat", LayoutKeys.Mat, _context);
            mats.Add(new(ReadPaper(view) ?? "", view.Length("reveal", LengthRange.Positive), view.Place));
        }

        return mats;
    }

    private Lift ReadLift() => _view.Find("lift") is { Value: not SyntaxText { Text: "flat" } }
        ? new(_view.PlainLength("lift"))
        : new((Length?)null);

    private static CutWay UsualCut(PieceKind? kind) => kind switch
    {
        PieceKind.Circle or PieceKind.Oval => CutWay.Die,
        PieceKind.Image or PieceKind.Tag => CutWay.Scissors,
        _ => CutWay.Trimmer,
    };

    // One tilt, or for copies in a row one for each.
    private List<Angle> ReadTilts(int? copies)
    {
        if (_view.Find("tilt") is not { } member)
        {
            return [Angle.Zero];
        }

        if (member.Value is not SyntaxList list)
        {
            return [ReadTilt(member.Value)];
        }

        if (copies is null)
        {
            _context.Add(LayoutMessages.WrongKind("`tilt`", "a number of degrees; only copies in a row take a list", list));
            return [Angle.Zero];
        }

        if (copies != UnknownCopies && list.Items.Count != copies)
        {
            _context.Add(LayoutMessages.WrongCount("tilt", list.Items.Count, copies.Value, list.Place));
        }

        return list.Items.Count == 0 ? [Angle.Zero] : [.. list.Items.Select(ReadTilt)];
    }

    private Angle ReadTilt(SyntaxValue value)
    {
        if (LengthValues.Number(value, "`tilt`", _context) is not { } degrees)
        {
            return Angle.Zero;
        }

        // At 90 degrees and beyond, width and height change places: that is another piece, not a tilted one.
        if (degrees.Abs() >= 90)
        {
            _context.Add(LayoutMessages.OutOfRange("tilt", "between -90 and 90 degrees", value.Place));
        }

        return new(degrees);
    }
}
