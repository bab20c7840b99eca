using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Tests.Drawing;

/// <summary>Makes fitted cards by hand, so that drawings are tested without the rooms before them.</summary>
internal sealed class CardMaker(CardFormat format, Holding holding, string title)
{
    private static readonly SourcePlace Nowhere = SourcePlace.WholeFile("by hand");

    private readonly List<FittedPiece> _pieces = [];
    private readonly List<FittedRow> _rows = [];
    private readonly List<Paper> _papers =
    [
        new("kraft", PaperKind.Cardstock, new(0xc9, 0xb0, 0x8c), false, null, null, Nowhere),
        new("cream", PaperKind.Cardstock, new(0xf5, 0xee, 0xdc), false, null, null, Nowhere),
        new("leaf", PaperKind.Cardstock, new(0x6f, 0x8f, 0x5a), false, null, null, Nowhere),
        new("soil", PaperKind.Cardstock, new(0x6a, 0x4e, 0x3b), false, null, null, Nowhere),
        new("marigold", PaperKind.Cardstock, new(0xe6, 0xa2, 0x3c), false, null, null, Nowhere),
        new("beet", PaperKind.Cardstock, new(0x8e, 0x35, 0x52), false, null, null, Nowhere),
        new("seeds", PaperKind.Patterned, new(0xe4, 0xe6, 0xc8), false, null, null, Nowhere),
        new("sprouts", PaperKind.Patterned, new(0xd5, 0xe5, 0xdc), true, null, null, Nowhere),
        new("trellis", PaperKind.Patterned, new(0xb9, 0xcb, 0xd8), false, null, null, Nowhere),
    ];

    public static readonly CardFormat A2 = Inch("A2", (17, 4), (11, 2));
    public static readonly CardFormat A7 = Inch("A7", (5, 1), (7, 1));
    public static readonly CardFormat Square = Inch("square 5 1/4 in", (21, 4), (21, 4));
    public static readonly CardFormat A6 = new(
        "A6", Length.FromMillimetres(105), Length.FromMillimetres(148), LengthUnit.Millimetre, null, "by hand");

    private LengthUnit Unit => format.Unit;

    private Length Width => format.Held(holding).Width;

    private Length Height => format.Held(holding).Height;

    /// <summary>A length in the card's own step: 1/16 in, or 1 mm.</summary>
    public Length Steps(long count) => Unit == LengthUnit.Inch ? Length.FromInches(count, 16) : Length.FromMillimetres(count);

    private Position At(decimal count) => new(Rational.From((long)(count * 1000), 1000) * Steps(1).Nanometres);

    private Box BoxOf((decimal Left, decimal Top, long Width, long Height) place) =>
        Box.FromCorner(At(place.Left), At(place.Top), Steps(place.Width), Steps(place.Height));

    /// <summary>A piece by its box in steps; mats as paper and reveal in steps.</summary>
    public CardMaker Add(
        PieceKind kind, string name, string paper, (decimal Left, decimal Top, long Width, long Height) place,
        string? on = null, (string Paper, decimal Reveal)[]? mats = null, decimal tilt = 0, bool lifted = false, bool flipped = false,
        Edge hangs = Edge.Top, (TailKind Kind, decimal Depth, decimal Taper)? tail = null, string? text = null, Edge? faces = null,
        long bar = 0, decimal? reveal = null, string? row = null, Axis? runs = null)
    {
        var box = BoxOf(place);
        var window = kind == PieceKind.Frame ? box.Grown(-Position.FromLength(Steps(bar))) : (Box?)null;
        var side = hangs switch { Edge.Left => Side.Left, Edge.Right => Side.Right, Edge.Top => Side.Top, _ => Side.Bottom };
        var depth = tail is { } t ? At(t.Depth) : default;
        var outline = kind switch
        {
            PieceKind.Circle or PieceKind.Oval => Outline.FromEllipse(box),
            PieceKind.Banner => BannerOutline.Build(
                box, side, tail!.Value.Kind switch
                {
                    TailKind.Fishtail => TailShape.Fishtail, TailKind.Pointed => TailShape.Pointed, _ => TailShape.Straight,
                }, depth, At(tail.Value.Taper)),
            PieceKind.Tag => TagOutline.Build(box, side),
            PieceKind.Frame => FrameOutline.Build(box, window!.Value),
            _ => Outline.FromBox(box),
        };

        List<FittedMat> fitted = [];
        var carried = outline;
        foreach (var (matPaper, shows) in mats ?? [])
        {
            carried = OutlineOffset.Grow(carried, At(shows));
            var bounds = carried.Bounds;
            fitted.Add(new()
            {
                Source = new(matPaper, null, Nowhere), Reveal = At(shows), Box = bounds, Outline = carried,
                Width = bounds.Width.ToNearestNanometre().CeilingTo(Steps(1)), Height = bounds.Height.ToNearestNanometre().CeilingTo(Steps(1)),
            });
        }

        _pieces.Add(new()
        {
            Source = new()
            {
                Name = name, Source = Nowhere, Kind = kind, Paper = paper, On = on, Row = row, Runs = runs,
                Tilt = new(Rational.From((long)(tilt * 1000), 1000)), Lift = new(lifted ? Steps(1) : null), HangsFrom = hangs,
                Tail = tail is { } ends
                    ? new(ends.Kind, null, ends.Taper == 0 ? null : new(Steps((long)ends.Taper), Strength.Should, Unit, Nowhere))
                    : null,
                Text = text, Faces = faces, Flipped = flipped, Mats = [.. fitted.Select(mat => mat.Source)],
                Placements = reveal is null ? [] : [new Fill(null, Nowhere)],
            },
            Box = box, Width = Steps(place.Width), Height = Steps(place.Height), Outline = outline,
            Reveal = reveal is { } all ? At(all) : null, TailDepth = tail is { Kind: not TailKind.Straight } ? depth : null,
            Window = window, Mats = fitted,
        });
        return this;
    }

    /// <summary>Pieces of one size in a row, the first at a place, each a gap (in steps) after the one before.</summary>
    public CardMaker AddRow(
        string name, int count, PieceKind kind, string paper, (decimal Left, decimal Top, long Width, long Height) first, decimal gap,
        Axis runs = Axis.Across, string? on = null, decimal tilt = 0, (string Paper, decimal Reveal)[]? mats = null, bool endsLikeGaps = false,
        bool alternate = false)
    {
        List<string> names = [];
        for (var i = 0; i < count; i++)
        {
            names.Add($"{name}-{i + 1}");
            var pitch = (runs == Axis.Across ? first.Width : first.Height) + gap;
            var place = runs == Axis.Across ? first with { Left = first.Left + (i * pitch) } : first with { Top = first.Top + (i * pitch) };
            Add(kind, names[^1], paper, place, on: on, row: name, tilt: alternate && i % 2 == 1 ? -tilt : tilt, mats: mats);
        }

        var (start, end) = (_pieces[^count].Box, _pieces[^1].Box);
        _rows.Add(new(
            new() { Name = name, Source = Nowhere, Runs = runs, Pieces = names, On = on, EndsLikeGaps = endsLikeGaps },
            new(start.Left, start.Top, end.Right, end.Bottom), count > 1 ? At(gap) : null));
        return this;
    }

    /// <summary>The card.</summary>
    public FittedCard Make()
    {
        var step = Steps(1);
        var drawer = new Drawer
        {
            InchIncrement = Length.FromInches(1, 16), MetricIncrement = Length.FromMillimetres(1), Dies = [], Foam = [],
            DieMargin = step, SmallestPiece = step,
            ThinnestShaving = Length.FromInches(1, 8),
            StackLimit = 1,
        };
        return new()
        {
            Layout = new()
            {
                File = "by hand", Title = title, Format = format, Holding = holding, Unit = Unit,
                Reveal = new(Steps(2), Strength.Should, Unit, Nowhere), Base = new("kraft", Edge.Left, Nowhere), Papers = _papers,
                Pieces = [.. _pieces.Select(piece => piece.Source)], Rows = [.. _rows.Select(row => row.Source)], Rules = [],
            },
            Drawer = drawer, Format = format, Holding = holding, Width = Width, Height = Height, Unit = Unit,
            Increment = drawer.IncrementFor(Unit), Pieces = _pieces, Rows = _rows, GaveWay = [], Loose = [], Carried = [],
        };
    }

    private static CardFormat Inch(string name, (long N, long D) shorter, (long N, long D) longer) => new(
        name, Length.FromInches(shorter.N, shorter.D), Length.FromInches(longer.N, longer.D), LengthUnit.Inch, null, "by hand");
}
