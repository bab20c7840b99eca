using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Reads where a piece or a row goes.</summary>
internal sealed class PlaceReader
{
    private static readonly IReadOnlyList<(string Key, Edge Edge)> FromEdges =
        [("from-left", Edge.Left), ("from-right", Edge.Right), ("from-top", Edge.Top), ("from-bottom", Edge.Bottom)];

    private readonly ReadingContext _context;
    private readonly ObjectView _view;
    private readonly string? _by;
    private readonly bool _onCard;
    private readonly bool _mayHangOver;
    private readonly List<Placement> _placements = [];

    // What was said first about each edge of the piece, to find what is said twice.
    private readonly Dictionary<Edge, SyntaxMember> _edges = [];

    private PlaceReader(ObjectView view, string? by, bool onCard, bool mayHangOver, ReadingContext context) =>
        (_view, _by, _onCard, _mayHangOver, _context) = (view, by, onCard, mayHangOver, context);

    /// <summary>Reads the value of <c>place</c>.</summary>
    /// <param name="owner">The piece or row.</param>
    /// <param name="by">Its name, or null if it has none that can be used.</param>
    /// <param name="onCard">Whether it is placed on the card.</param>
    /// <param name="mayHangOver">Whether it may hang over the edge of the card.</param>
    /// <param name="reveal">The reveal of the layout.</param>
    /// <param name="context">The reading.</param>
    public static IReadOnlyList<Placement> Read(
        ObjectView owner, string? by, bool onCard, bool mayHangOver, Wish reveal, ReadingContext context)
    {
        if (owner.As<SyntaxObject>(owner.Find("place"), "a group like `{ \"center\": \"both\" }`") is not { } value)
        {
            return [];
        }

        var reader = new PlaceReader(new(value, "a place", LayoutKeys.Place, context), by, onCard, mayHangOver, context);
        reader.ReadFill();
        reader.ReadSpan();
        reader.ReadEdges(reveal);
        reader.ReadCorner(reveal);
        reader.ReadHang();
        reader.ReadBeside();
        reader.ReadCentre();
        return [.. reader._placements.OrderBy(placement => placement.Source, Comparer<SourcePlace>.Create(SourcePlace.Compare))];
    }

    private void ReadFill()
    {
        if (_view.Find("fill") is not { } fill)
        {
            return;
        }

        foreach (var other in _view.Members.Where(member => member != fill && LayoutKeys.Place.Contains(member.Key)))
        {
            _context.Add(LayoutMessages.Contradiction("`fill` says everything about a place", other, fill));
        }

        if (fill.Value is SyntaxFlag { IsTrue: true })
        {
            _placements.Add(new Fill(null, fill.KeyPlace));
        }
        else if (fill.Value is SyntaxText or SyntaxNumber)
        {
            if (_view.Length(fill, LengthRange.Positive) is { } own)
            {
                _placements.Add(new Fill(own, fill.KeyPlace));
            }
        }
        else
        {
            _context.Add(LayoutMessages.WrongKind("`fill`", "`true` or a reveal like `\"1/8\"`", fill.Value));
        }
    }

    private void ReadSpan()
    {
        var shortBy = _view.Length("short-by", LengthRange.NotNegative);
        if (_view.Find("span") is not { } span)
        {
            NeedsOther("short-by", "span");
            return;
        }

        if (_view.Word(span, Words.Axes) is { } axis)
        {
            Pin(axis == Axis.Across ? Edge.Left : Edge.Top, span);
            Pin(axis == Axis.Across ? Edge.Right : Edge.Bottom, span);
            _placements.Add(new Span(axis, shortBy, span.KeyPlace));
        }
    }

    private void ReadEdges(Wish reveal)
    {
        foreach (var (key, edge) in FromEdges)
        {
            if (_view.Find(key) is { } member && Distance(member, reveal) is { } distance)
            {
                CheckHangsOver(member.Key, distance);
                Pin(edge, member);
                _placements.Add(new FromEdge(edge, distance, member.KeyPlace));
            }
        }
    }

    // The reveal of the layout is the very wish, so that it can be told from a distance that scales.
    private Wish? Distance(SyntaxMember member, Wish reveal) =>
        member.Value is SyntaxText { Text: "reveal" } ? reveal : _view.Length(member, LengthRange.Any);

    private void ReadCorner(Wish reveal)
    {
        var both = _view.Length("inset", LengthRange.Any);
        var across = _view.Length("inset-across", LengthRange.Any);
        var down = _view.Length("inset-down", LengthRange.Any);
        foreach (var key in new[] { "inset-across", "inset-down" })
        {
            if (_view.Find("inset") is { } inset && _view.Find(key) is { } member)
            {
                _context.Add(LayoutMessages.Contradiction("`inset` counts both ways", member, inset));
            }
        }

        if (_view.Find("corner") is not { } corner)
        {
            NeedsOther("inset", "corner");
            NeedsOther("inset-across", "corner");
            NeedsOther("inset-down", "corner");
            return;
        }

        foreach (var (key, inset) in new[] { ("inset", both), ("inset-across", across), ("inset-down", down) })
        {
            if (inset is not null)
            {
                CheckHangsOver(key, inset);
            }
        }

        if (_view.Word(corner, Words.Corners) is { } edges)
        {
            Pin(edges.Across, corner);
            Pin(edges.Down, corner);

            // Where nothing is said the piece leaves the layout's reveal.
            _placements.Add(new FromEdge(edges.Across, across ?? both ?? reveal, corner.KeyPlace));
            _placements.Add(new FromEdge(edges.Down, down ?? both ?? reveal, corner.KeyPlace));
        }
    }

    private void ReadHang()
    {
        if (_view.Find("hang-from") is { } member && _view.Word(member, Words.Edges) is { } edge)
        {
            Pin(edge, member);
            _placements.Add(new Hang(edge, member.KeyPlace));
        }
    }

    private void ReadBeside()
    {
        if (_view.Find("beside") is not { } member)
        {
            return;
        }

        IReadOnlyList<SyntaxValue> values = member.Value is SyntaxList list ? list.Items : [member.Value];
        foreach (var value in values)
        {
            if (value is SyntaxObject entry)
            {
                ReadBeside(member, new(entry, "`beside`", LayoutKeys.Beside, _context));
            }
            else
            {
                _context.Add(LayoutMessages.WrongKind("`beside`", "a group like `{ \"piece\": \"sun\", \"side\": \"right\" }`", value));
            }
        }
    }

    private void ReadBeside(SyntaxMember member, ObjectView view)
    {
        var piece = view.Text(view.Need("piece"));
        var sideMember = view.Need("side");
        var side = view.Word(sideMember, Words.Edges);
        var gap = GapOf(view, LengthRange.NotNegative, _context);
        if (piece is not null)
        {
            if (piece.Text == Names.Card)
            {
                _context.Add(LayoutMessages.BesideCard(piece.Place));
            }
            else
            {
                _context.Used.Add(new(piece.Text, piece.Place, NameUse.Neighbour, _by));
            }
        }

        if (piece is not null && side is { } known)
        {
            Pin(Opposite(known), sideMember!);
            _placements.Add(new Beside(piece.Text, known, gap, view.Place));
        }
    }

    private void ReadCentre()
    {
        var on = _view.Text("center-on");
        if (on is not null)
        {
            _context.Used.Add(new(on.Text, on.Place, NameUse.Neighbour, _by));
        }

        if (_view.Find("center") is not { } center)
        {
            NeedsOther("center-on", "center");
            return;
        }

        // On the card itself, `card` and the parent are the same.
        var other = on?.Text == Names.Card && _onCard ? null : on?.Text;
        var axes = _view.Word(center, Words.Centres);
        if (axes is Axes.Both or Axes.Across)
        {
            CheckCentre(Axis.Across, center);
            _placements.Add(new Centred(Axis.Across, other, center.KeyPlace));
        }

        if (axes is Axes.Both or Axes.UpDown)
        {
            CheckCentre(Axis.UpDown, center);
            _placements.Add(new Centred(Axis.UpDown, other, center.KeyPlace));
        }
    }

    // A span is centred by itself; to say it again is harmless, to centre it on something else is not.
    private void CheckCentre(Axis axis, SyntaxMember center)
    {
        var edge = axis == Axis.Across ? Edge.Left : Edge.Top;
        if (_view.Has("center-on") && _edges.GetValueOrDefault(edge) is { Key: "span" } span)
        {
            _context.Add(LayoutMessages.Contradiction("`span` already says where both edges are", center, span));
        }
    }

    /// <summary>The gap, or the overlap as a negative gap; null if neither is said.</summary>
    public static Wish? GapOf(ObjectView view, LengthRange range, ReadingContext context)
    {
        var gap = view.Length("gap", LengthRange.Any);
        var overlap = view.Length("overlap", LengthRange.Positive);
        if (view.Find("gap") is { } first && view.Find("overlap") is { } second)
        {
            context.Add(LayoutMessages.Contradiction("pieces overlap or leave a gap, not both", second, first));
        }

        if (gap is not null && gap.Value < Length.Zero && range == LengthRange.NotNegative)
        {
            context.Add(LayoutMessages.NegativeGap(gap));
        }

        return gap ?? (overlap is null ? null : overlap with { Value = -overlap.Value });
    }

    private void Pin(Edge edge, SyntaxMember member)
    {
        if (!_edges.TryAdd(edge, member) && !_view.Has("fill"))
        {
            _context.Add(LayoutMessages.Contradiction(
                $"two placements say where the {Words.Of(Words.Edges, edge)} edge is", member, _edges[edge]));
        }
    }

    private void CheckHangsOver(string key, Wish distance)
    {
        if (distance.Value < Length.Zero && _onCard && !_mayHangOver)
        {
            _context.Add(LayoutMessages.HangsOverUnasked(key, distance));
        }
    }

    private void NeedsOther(string key, string other)
    {
        if (_view.Find(key) is { } member)
        {
            _context.Add(LayoutMessages.NeedsOther(key, other, member.KeyPlace));
        }
    }

    private static Edge Opposite(Edge edge) => edge switch
    {
        Edge.Left => Edge.Right,
        Edge.Right => Edge.Left,
        Edge.Top => Edge.Bottom,
        _ => Edge.Top,
    };
}
