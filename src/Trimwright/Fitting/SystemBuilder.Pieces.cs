using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

internal sealed partial class SystemBuilder
{
    private void AddPiece(Piece piece)
    {
        var copyOf = FirstCopy(piece);
        var die = DieFor(piece);
        var (width, height) = copyOf is null
            ? AddSizeUnknowns(piece, die)
            : (copyOf.Body.Own.Size(Axis.Across), copyOf.Body.Own.Size(Axis.UpDown));
        var left = AddUnknown(FitWords.Measure(MeasureKind.Left, piece.Name), piece.Source, null, -2 * Width, 3 * Width);
        var top = AddUnknown(FitWords.Measure(MeasureKind.Top, piece.Name), piece.Source, null, -2 * Height, 3 * Height);
        var own = new Edges(left, top, left + width, top + height);

        var reveals = copyOf?.Reveals ?? AddReveals(piece);
        var mats = new List<Edges>(reveals.Count);
        var outer = own;
        foreach (var reveal in reveals)
        {
            outer = outer.Grown(reveal);
            mats.Add(outer);
        }

        IReadOnlyList<Die?> matDies = copyOf?.MatDies ?? [];
        if (copyOf is null && piece.Cut == CutWay.Die)
        {
            matDies = AddMatDies(piece, die, mats);
        }

        var body = new PieceBody(piece, new(piece.Name, own, outer), reveals, mats) { Die = die, MatDies = matDies };
        _pieces.Add(body);
        _bodies.Add(piece.Name, body.Body);
        if (IsCopy(piece))
        {
            _firstCopies.TryAdd(piece.Row!, body);
        }
    }

    // The copies of a row stand at one place in the file: the row's own. They share their sizes and reveals.
    private PieceBody? FirstCopy(Piece piece) =>
        IsCopy(piece) ? _firstCopies.GetValueOrDefault(piece.Row!) : null;

    private bool IsCopy(Piece piece) => piece.Row is { } row && _rowSources.TryGetValue(row, out var source) && source == piece.Source;

    private (LinearForm Width, LinearForm Height) AddSizeUnknowns(Piece piece, Die? die)
    {
        var (mostWidth, mostHeight) = MostSize(piece);
        if (piece.Kind is PieceKind.Square or PieceKind.Circle)
        {
            var most = Rational.Min(mostWidth, mostHeight);
            var size = AddUnknown(
                FitWords.SizeOf(piece, IsCopy(piece), Axis.Across), piece.Source, GridOf(piece, ref most), _increment.Nanometres, most);
            return (size, size);
        }

        if (die is not null)
        {
            return (Constant(die.Width.Nanometres), Constant(die.Height.Nanometres));
        }

        // The outline of a picture has its own shape, so that only one of its sizes can lie on the scale: the one that the maker names.
        var freeAxis = piece.CutOut is null ? null : (Axis?)CrossOf(MainAxis(piece));
        return (
            AddUnknown(
                FitWords.SizeOf(piece, IsCopy(piece), Axis.Across), piece.Source, freeAxis == Axis.Across ? null : Step(), _increment.Nanometres, mostWidth),
            AddUnknown(
                FitWords.SizeOf(piece, IsCopy(piece), Axis.UpDown), piece.Source, freeAxis == Axis.UpDown ? null : Step(), _increment.Nanometres, mostHeight));
    }

    private static Axis MainAxis(Piece piece)
    {
        bool Says(Axis axis) => (axis == Axis.Across ? piece.Width : piece.Height) is not null
            || piece.Placements.OfType<Span>().Any(span => span.Axis == axis);
        return Says(Axis.UpDown) && !Says(Axis.Across) ? Axis.UpDown : Axis.Across;
    }

    // Structure: a picture keeps its shape. As a rectangle it is cut on the scale of the trimmer, which leaves the shape open by half an
    // increment; the picture then covers the rectangle and is trimmed by as little, evenly on both sides.
    private void KeepShape(PieceBody body)
    {
        if (body.Piece.Picture?.Content is not { } content || body.Piece.Cut == CutWay.Die)
        {
            return;
        }

        var own = body.Body.Own;
        var saying = new Saying { Text = $"`{body.Piece.Name}` keeps the shape of its picture", Source = body.Piece.Picture.Source };
        if (body.Piece.CutOut is not null)
        {
            Say(own.Size(Axis.Across) - own.Size(Axis.UpDown).Times(content.Aspect), Relation.Equal, 0, Strength.Must, saying);
            return;
        }

        var along = MainAxis(body.Piece);
        var across = CrossOf(along);
        var ratio = along == Axis.Across ? Rational.One / content.Aspect : content.Aspect;
        var slack = own.Size(across) - own.Size(along).Times(ratio);
        Say(slack, Relation.AtMost, _halfIncrement, Strength.Must, saying);
        Say(slack, Relation.AtLeast, -_halfIncrement, Strength.Must, saying);
    }

    private (Rational Width, Rational Height) MostSize(Piece piece)
    {
        if (!piece.MayHangOver && piece.Tilt.IsZero)
        {
            return (Width, Height);
        }

        // A tilted piece may be longer than its side of the card; the rule that keeps it on the card bounds it further.
        var most = Width + Height;
        return (most, most);
    }

    private Grid Step() => Grid.FromStep(_increment.Nanometres);

    private Grid GridOf(Piece piece, ref Rational most)
    {
        if (piece.Cut != CutWay.Die)
        {
            return Step();
        }

        var sizes = _dies.OneSize(piece.Kind);
        most = Rational.Max(most, sizes[^1]);
        return Grid.FromValues(sizes);
    }

    private Die? DieFor(Piece piece)
    {
        if (piece.Cut != CutWay.Die || piece.Kind is PieceKind.Square or PieceKind.Circle)
        {
            return null;
        }

        var width = piece.Width is { } w ? _carrying.Size(w.Value.Nanometres, Axis.Across) : Width / 2;
        var height = piece.Height is { } h ? _carrying.Size(h.Value.Nanometres, Axis.UpDown) : Height / 2;
        return _dies.Nearest(piece.Kind, width, height);
    }

    private List<LinearForm> AddReveals(Piece piece)
    {
        var reveals = new List<LinearForm>(piece.Mats.Count);
        foreach (var mat in piece.Mats)
        {
            var wish = mat.Reveal ?? _layout.Reveal;
            var number = piece.Mats.Count == 1 ? "the mat" : $"mat {reveals.Count + 1}";
            var what = $"the reveal of {number} of {FitWords.SizeName(piece, IsCopy(piece))}";
            // A mat of the trimmer is on the increment, like its piece, exactly when twice its reveal is.
            var grid = piece.Cut == CutWay.Die ? null : Grid.FromStep(_halfIncrement);
            reveals.Add(Amount(
                wish, what, $"{what} is {wish}", (wish.Value.Nanometres, null), mat.Source, canBeNegative: false, grid));
        }

        return reveals;
    }

    private Die?[] AddMatDies(Piece piece, Die? die, List<Edges> mats)
    {
        var chosen = new Die?[mats.Count];
        var carried = die;
        for (var i = 0; i < mats.Count; i++)
        {
            var saying = new Saying
            {
                Text = $"mat {i + 1} of `{piece.Name}` is cut with a die from the drawer",
                Source = piece.Mats[i].Source,
            };
            if (carried is null)
            {
                var sizes = _dies.OneSize(piece.Kind);
                var size = AddUnknown(
                    $"the size of mat {i + 1} of `{piece.Name}`", piece.Mats[i].Source, Grid.FromValues(sizes), sizes[0], sizes[^1]);
                Say(size - mats[i].Size(Axis.Across), Relation.Equal, 0, Strength.Must, saying);
                continue;
            }

            var reveal = (piece.Mats[i].Reveal ?? _layout.Reveal).Value;
            chosen[i] = carried = _dies.NearestAround(piece.Kind, carried, reveal);
            Say(mats[i].Size(Axis.Across), Relation.Equal, carried.Width.Nanometres, Strength.Must, saying);
        }

        return chosen;
    }

    /// <summary>
    /// A length that is wished, as an unknown with a statement of its own, so that a clash can name it.
    /// </summary>
    private LinearForm Amount(
        Wish? wish, string what, string text, (Rational Aim, Carried? Report) carried, SourcePlace source, bool canBeNegative, Grid? grid = null)
    {
        // A reveal that is not wished away shows: at least half an increment of it.
        var least = canBeNegative ? -Width - Height : _halfIncrement;
        if (wish is null)
        {
            least = Rational.Zero;
        }

        var amount = AddUnknown(what, wish?.Place ?? source, grid, least, Width + Height);
        if (wish is not null)
        {
            Say(amount, Relation.Equal, carried.Aim, wish.Strength, new()
            {
                Text = text, What = what, Quantity = amount, Source = wish.Place,
            });
        }

        Report(carried.Report, amount);
        return amount;
    }

    private void Report(Carried? carried, LinearForm quantity)
    {
        if (carried is not null)
        {
            _carried.Add(carried with { Quantity = quantity });
        }
    }

    /// <summary>The aim of a distance on this format, and the report of it when it changed.</summary>
    private (Rational Aim, Carried? Report) Carry(Wish? wish, Axis? axis, string what, bool isSize = false)
    {
        if (wish is null)
        {
            return (0, null);
        }

        var drawn = (Rational)wish.Value.Nanometres;
        var ratio = _carrying.Along(axis);
        // A corner without insets keeps the layout's reveal, and reveals are never carried.
        if (wish.Strength == Strength.Must || ratio == 1 || drawn.IsZero || wish.Place == _layout.Reveal.Place)
        {
            return (drawn, null);
        }

        var aim = isSize ? _carrying.Size(drawn, axis) : _carrying.Distance(drawn, axis);
        return (aim, new(what, drawn, drawn * ratio, Constant(aim), wish.Place));
    }

    private void AddSizes(PieceBody body)
    {
        var piece = body.Piece;
        if (FirstCopy(piece) is not { } first || ReferenceEquals(first, body))
        {
            var single = piece.Kind is PieceKind.Square or PieceKind.Circle;
            WishSize(piece.Width, body, single ? null : Axis.Across, FitWords.SizeOf(piece, IsCopy(piece), Axis.Across));
            WishSize(piece.Height, body, Axis.UpDown, FitWords.SizeOf(piece, IsCopy(piece), Axis.UpDown));
            KeepTailShort(body);
            KeepShape(body);
        }
    }

    private void WishSize(Wish? wish, PieceBody body, Axis? axis, string what)
    {
        if (wish is null)
        {
            return;
        }

        var size = body.Body.Own.Size(axis ?? Axis.Across);
        var (aim, report) = Carry(wish, axis, what, isSize: true);
        Say(size, Relation.Equal, aim, wish.Strength, new()
        {
            Text = $"{what} is {wish}", What = what, Quantity = size, Source = wish.Place,
        });
        Report(report, size);
    }

    // Structure: a banner is longer than its tail is deep, a frame wider than its two bars.
    private void KeepTailShort(PieceBody body)
    {
        var piece = body.Piece;
        var own = body.Body.Own;
        if (piece.Tail is { Kind: not TailKind.Straight } tail)
        {
            var along = AxisOf(piece.HangsFrom);
            var across = CrossOf(along);
            var depth = tail.Depth is null
                ? own.Size(across).Times(Rational.From(1, 2))
                : Constant(OnThisFormat(tail.Depth, along));
            Say(own.Size(along) - depth, Relation.AtLeast, _increment.Nanometres, Strength.Must, new()
            {
                Text = $"`{piece.Name}` is longer than its tail is deep", Source = piece.Source,
            }, isStructure: true);
        }

        if (piece.Tail?.Taper is { } taper)
        {
            var across = CrossOf(AxisOf(piece.HangsFrom));
            var saying = new Saying { Text = $"`{piece.Name}` is wider than its taper", Source = taper.Place };
            Say(own.Size(across), Relation.AtLeast, OnThisFormat(taper, across) + _increment.Nanometres, Strength.Must, saying, isStructure: true);
        }

        if (piece.Bar is { } bar)
        {
            var aim = OnThisFormat(bar, null);
            var saying = new Saying { Text = $"`{piece.Name}` leaves a window inside its bars", Source = bar.Place };
            Say(own.Size(Axis.Across), Relation.AtLeast, (2 * aim) + _increment.Nanometres, Strength.Must, saying, isStructure: true);
            Say(own.Size(Axis.UpDown), Relation.AtLeast, (2 * aim) + _increment.Nanometres, Strength.Must, saying, isStructure: true);
        }
    }

    /// <summary>The bar of a frame, the depth or taper of a tail, on this format.</summary>
    public Rational OnThisFormat(Wish wish, Axis? axis) => Carry(wish, axis, "").Aim;
}
