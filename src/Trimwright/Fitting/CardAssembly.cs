using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>Reads a solution back into pieces, rows and notes.</summary>
internal sealed class CardAssembly(SystemBuilder builder, Solution solution, DieChooser dies)
{
    public IReadOnlyList<FittedPiece> Pieces() => [.. builder.Pieces.Select(Fitted)];

    public IReadOnlyList<FittedRow> Rows() =>
        [.. builder.Rows.Select(row => new FittedRow(row.Row, BoxOf(row.Body.Own), row.Gap is null ? null : At(row.Gap)))];

    public IReadOnlyList<GaveWayNote> GaveWay()
    {
        var notes = new List<GaveWayNote>();
        foreach (var wish in solution.GaveWay)
        {
            var saying = builder.Sayings[wish.Statement];
            if (saying.Quantity is null || saying.What is null)
            {
                throw new InvalidOperationException($"a wish gave way that names no quantity: {saying.Text}");
            }

            // The statement counts the named quantity with factor 1 (or -1), so that its miss is the quantity's own.
            var got = saying.Quantity.At(solution.Values);
            var wanted = got - ((wish.Got - wish.Wanted) * saying.Sense);
            notes.Add(new(
                saying.What, new(wanted), new(got), builder.System.Statements[wish.Statement].Strength, saying.Because, saying.Source));
        }

        return notes;
    }

    public IReadOnlyList<LooseNote> Loose() =>
    [
        .. solution.Loose.Select(loose =>
        {
            var unknown = builder.Unknowns[loose.Measure.Index];
            // Every unknown has bounds, so that its range has two ends.
            return new LooseNote(unknown.Text, new(loose.Least!.Value), new(loose.Most!.Value), new(loose.Chosen), unknown.Source);
        }),
    ];

    public IReadOnlyList<CarriedNote> Carried() =>
    [
        .. builder.CarriedMeasures.Select(carried => new CarriedNote(
            carried.What, new(carried.Drawn), new(carried.InProportion), At(carried.Quantity), carried.Source)),
    ];

    private FittedPiece Fitted(PieceBody body)
    {
        var piece = body.Piece;
        var box = BoxOf(body.Body.Own);
        var shape = piece.CutOut is { } picture ? new CutOutShape(picture, box, piece.Flipped) : null;
        var (width, height) = shape is null ? SizeOf(box) : (Up(box.Width, builder.Increment), Up(box.Height, builder.Increment));
        var tail = TailOf(piece, box);
        var outline = shape?.Picture ?? OutlineOf(piece, box, tail);
        return new()
        {
            Source = piece,
            Box = box,
            Width = width,
            Height = height,
            Outline = outline,
            Reveal = body.FillReveal is null ? null : At(body.FillReveal),
            TailDepth = piece.Tail is { Kind: not TailKind.Straight } ? tail.Depth : null,
            TailWidth = tail.Taper == default ? null
                : (SystemBuilder.AxisOf(piece.HangsFrom) == Axis.Across ? box.Height : box.Width) - tail.Taper,
            PictureBox = PictureBoxOf(piece, box),
            Window = WindowOf(piece, box),
            Die = DieOf(piece, body.Die, width),
            Mats = Mats(body, outline, shape),
        };
    }

    private Box? WindowOf(Piece piece, Box box) =>
        piece.Bar is { } bar ? box.Grown(new(-builder.OnThisFormat(bar, null))) : null;

    private Die? DieOf(Piece piece, Die? chosen, Length size) =>
        piece.Cut != CutWay.Die ? null : chosen ?? dies.OfSize(piece.Kind, size);

    // The whole picture, ground and all, around its outline; or the least box of its shape that covers the rectangle.
    private static Box? PictureBoxOf(Piece piece, Box box)
    {
        if (piece.Picture?.Content is not { } content)
        {
            return null;
        }

        if (piece.CutOut is { } outline)
        {
            return outline.PictureBoxFor(box);
        }

        var width = box.Width > box.Height * content.Aspect ? box.Width : box.Height * content.Aspect;
        var half = Rational.From(1, 2);
        var (reachX, reachY) = (width * half, width * (half / content.Aspect));
        return new(box.Centre.X - reachX, box.Centre.Y - reachY, box.Centre.X + reachX, box.Centre.Y + reachY);
    }

    private List<FittedMat> Mats(PieceBody body, Outline outline, CutOutShape? shape)
    {
        var mats = new List<FittedMat>(body.Mats.Count);
        var total = Rational.Zero;
        for (var i = 0; i < body.Mats.Count; i++)
        {
            var reveal = body.Reveals[i].At(solution.Values);
            total += reveal;
            var box = BoxOf(body.Mats[i]);
            var (grown, widest) = shape?.Mat(new(total)) ?? (OutlineOffset.Grow(outline, new(total)), null);
            (box, var width, var height) = shape is null
                ? WithTail(body.Piece, box, grown)
                : (box, Up(box.Width, builder.Increment), Up(box.Height, builder.Increment));
            mats.Add(new()
            {
                Source = body.Piece.Mats[i],
                Reveal = new(reveal),
                Box = box,
                Width = width,
                Height = height,
                Outline = grown,
                Widest = widest,
                Die = DieOf(body.Piece, body.MatDies.Count > i ? body.MatDies[i] : null, width),
            });
        }

        return mats;
    }

    /// <summary>
    /// The tips of a fishtail, and a point, move out by more than the reveal when the outline does. The rectangle that is trimmed for
    /// such a mat is longer by that, up to the next increment; its tail is then cut along the outline.
    /// </summary>
    private (Box Box, Length Width, Length Height) WithTail(Piece piece, Box box, Outline outline)
    {
        if (piece.Tail is null or { Kind: TailKind.Straight, Taper: null })
        {
            var (plainWidth, plainHeight) = SizeOf(box);
            return (box, plainWidth, plainHeight);
        }

        var increment = builder.Increment;
        var bounds = outline.Bounds;
        var (left, top, right, bottom) = (bounds.Left, bounds.Top, bounds.Right, bounds.Bottom);
        var (width, height) = (Up(bounds.Width, increment), Up(bounds.Height, increment));
        var centre = bounds.Centre;
        var half = Rational.From(1, 2);
        var (x, y) = piece.HangsFrom switch
        {
            Edge.Top => (centre.X - (Position.FromLength(width) * half), top),
            Edge.Bottom => (centre.X - (Position.FromLength(width) * half), bottom - height),
            Edge.Left => (left, centre.Y - (Position.FromLength(height) * half)),
            _ => (right - width, centre.Y - (Position.FromLength(height) * half)),
        };
        return (Box.FromCorner(x, y, width, height), width, height);
    }

    private static Length Up(Position size, Length increment) =>
        Length.FromNanometres((long)(size.Nanometres / increment.Nanometres).Ceiling() * increment.Nanometres);

    private (Position? Depth, Position Taper) TailOf(Piece piece, Box box)
    {
        if (piece.Tail is not { } tail)
        {
            return (null, default);
        }

        var along = SystemBuilder.AxisOf(piece.HangsFrom);
        var across = SystemBuilder.CrossOf(along);
        var width = along == Axis.Across ? box.Height : box.Width;
        var depth = tail.Depth is { } wish ? new Position(builder.OnThisFormat(wish, along)) : width * Rational.From(1, 2);
        var taper = tail.Taper is { } narrower ? new Position(builder.OnThisFormat(narrower, across)) : default;
        return (tail.Kind == TailKind.Straight ? Position.Zero : depth, taper);
    }

    private Outline OutlineOf(Piece piece, Box box, (Position? Depth, Position Taper) tail) => piece.Kind switch
    {
        PieceKind.Circle or PieceKind.Oval => Outline.FromEllipse(box),
        PieceKind.Banner => BannerOutline.Build(box, Hung(piece.HangsFrom), Ending(piece.Tail!.Kind), tail.Depth ?? default, tail.Taper),
        PieceKind.Tag => TagOutline.Build(box, Hung(piece.HangsFrom)),
        PieceKind.Frame => FrameOutline.Build(box, WindowOf(piece, box)!.Value),
        _ => Outline.FromBox(box),
    };

    private static Side Hung(Edge edge) => edge switch
    {
        Edge.Left => Side.Left,
        Edge.Right => Side.Right,
        Edge.Top => Side.Top,
        _ => Side.Bottom,
    };

    private static TailShape Ending(TailKind kind) => kind switch
    {
        TailKind.Fishtail => TailShape.Fishtail,
        TailKind.Pointed => TailShape.Pointed,
        _ => TailShape.Straight,
    };

    private Position At(LinearForm form) => new(form.At(solution.Values));

    private Box BoxOf(Edges edges) => new(At(edges.Left), At(edges.Top), At(edges.Right), At(edges.Bottom));

    private static (Length Width, Length Height) SizeOf(Box box) =>
        box.Width.TryToLength(out var width) && box.Height.TryToLength(out var height)
            ? (width, height)
            : throw new InvalidOperationException("a size left its grid");
}
