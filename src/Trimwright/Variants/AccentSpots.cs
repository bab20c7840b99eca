using Trimwright.Fitting;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Variants;

/// <summary>A corner or an edge of what a piece is placed on.</summary>
/// <param name="Across">Left or right; null for the middle.</param>
/// <param name="Down">Top or bottom; null for the middle.</param>
public readonly record struct Spot(Edge? Across, Edge? Down)
{
    /// <summary>Its name, such as <c>top left</c> or <c>right</c>.</summary>
    public override string ToString() => (Down, Across) switch
    {
        (null, null) => "middle",
        (null, { } across) => FitWords.Edge(across),
        ({ } down, null) => FitWords.Edge(down),
        ({ } down, { } across) => $"{FitWords.Edge(down)} {FitWords.Edge(across)}",
    };
}

/// <summary>An accent, or a row of accents, that may be moved, and where to.</summary>
/// <param name="Name">The name of the piece or the row.</param>
/// <param name="Now">Where it is as drawn.</param>
/// <param name="Others">The other corners and edges, row by row from the upper left.</param>
public sealed record MovableAccent(string Name, Spot Now, IReadOnlyList<Spot> Others);

/// <summary>Moves accents to other corners and edges.</summary>
/// <remarks>
/// A move keeps what the maker said: the insets stay what they are, from the other edge; what hangs from an edge goes on hanging from
/// it; a side that a rule names is pinned by the rule; what runs from edge to edge, or sits beside another piece, stays. Accents
/// that lie beside a moved one go with it, on its inner side. Where no inset is said, that of the other direction or the layout's reveal serves.
/// </remarks>
public static class AccentSpots
{
    /// <summary>The accents that may be moved, in file order.</summary>
    public static IReadOnlyList<MovableAccent> Of(Layout layout)
    {
        var movable = new List<MovableAccent>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var piece in layout.Pieces)
        {
            var row = layout.Rows.FirstOrDefault(row => row.Name == piece.Row);
            var name = row?.Name ?? piece.Name;
            if (!seen.Add(name) || !IsAccent(layout, piece, row))
            {
                continue;
            }

            var placements = row?.Placements ?? piece.Placements;
            var (across, down) = (Freedom(layout, name, placements, Axis.Across), Freedom(layout, name, placements, Axis.UpDown));
            var now = new Spot(across.Now, down.Now);
            var others = from y in down.Choices
                         from x in across.Choices
                         let spot = new Spot(x, y)
                         where spot != now && (x is not null || y is not null)
                         select spot;
            var list = others.ToList();
            if (list.Count > 0)
            {
                movable.Add(new(name, now, list));
            }
        }

        return movable;
    }

    /// <summary>The layout with an accent moved to a spot.</summary>
    /// <exception cref="ArgumentException">The layout has no piece or row of that name.</exception>
    public static Layout Move(Layout layout, string name, Spot to)
    {
        if (layout.Rows.FirstOrDefault(row => row.Name == name) is { } row)
        {
            return layout with
            {
                Rows = [.. layout.Rows.Select(other => other == row ? row with { Placements = Moved(layout, row.Placements, to) } : other)],
            };
        }

        var piece = layout.Pieces.FirstOrDefault(piece => piece.Name == name)
            ?? throw new ArgumentException($"there is no piece called `{name}`", nameof(name));
        var from = SpotOf(piece.Placements);
        var moved = piece with { Placements = Moved(layout, piece.Placements, to) };
        return layout with
        {
            Pieces = [.. layout.Pieces.Select(other => other.Name == name ? moved : Follow(layout, other, name, from, to))],
        };
    }

    private static bool IsAccent(Layout layout, Piece piece, Row? row) =>
        row is null ? piece.Accent : layout.Pieces.All(other => other.Row != row.Name || other.Accent);

    private static (Edge? Now, IReadOnlyList<Edge?> Choices) Freedom(Layout layout, string name, IReadOnlyList<Placement> placements, Axis axis)
    {
        var now = EdgeOn(placements, axis);
        var pinned = placements.Any(placement => placement switch
        {
            Span span => span.Axis == axis,
            Fill or Beside => true,
            Hang hang => AxisOf(hang.From) == axis,
            Centred centred => centred.Axis == axis && centred.On is not null,
            _ => false,
        });
        var insets = placements.Count(placement => placement is FromEdge near && AxisOf(near.Edge) == axis);
        var said = insets > 0 || placements.Any(placement => placement is Centred centred && centred.Axis == axis);
        Edge?[] all = axis == Axis.Across ? [Edge.Left, null, Edge.Right] : [Edge.Top, null, Edge.Bottom];
        return pinned || !said || insets > 1 || IsRuled(layout, name, axis) ? (now, [now]) : (now, all);
    }

    private static bool IsRuled(Layout layout, string name, Axis axis)
    {
        var members = layout.Rows.FirstOrDefault(row => row.Name == name)?.Pieces ?? [name];
        return layout.Rules.SelectMany(rule => rule.Terms).Any(term =>
            term.Of is { } of && (of == name || members.Contains(of)) && (axis == Axis.Across
                ? term.Measure is MeasureKind.Left or MeasureKind.Right or MeasureKind.CenterX
                : term.Measure is MeasureKind.Top or MeasureKind.Bottom or MeasureKind.CenterY));
    }

    private static Spot SpotOf(IReadOnlyList<Placement> placements) => new(EdgeOn(placements, Axis.Across), EdgeOn(placements, Axis.UpDown));

    private static Edge? EdgeOn(IReadOnlyList<Placement> placements, Axis axis) =>
        placements.OfType<Hang>().Where(hang => AxisOf(hang.From) == axis).Select(hang => (Edge?)hang.From).FirstOrDefault()
        ?? placements.OfType<FromEdge>().Where(near => AxisOf(near.Edge) == axis).Select(near => (Edge?)near.Edge).FirstOrDefault();

    private static List<Placement> Moved(Layout layout, IReadOnlyList<Placement> placements, Spot to)
    {
        var now = SpotOf(placements);
        var moved = placements.ToList();
        Put(now.Across, to.Across, Axis.Across);
        Put(now.Down, to.Down, Axis.UpDown);
        return moved;

        void Put(Edge? from, Edge? target, Axis axis)
        {
            if (from == target)
            {
                return;
            }

            var at = moved.FindIndex(placement => placement switch
            {
                FromEdge near => AxisOf(near.Edge) == axis,
                Centred centred => centred.Axis == axis,
                _ => false,
            });
            var source = moved[at].Source;
            var inset = (moved[at] as FromEdge)?.Distance ?? placements.OfType<FromEdge>().FirstOrDefault()?.Distance ?? layout.Reveal;
            moved[at] = target is { } edge ? new FromEdge(edge, inset, source) : new Centred(axis, null, source);
        }
    }

    // What lies beside a piece that changed sides lies on its other side, so that it does not leave the card.
    private static Piece Follow(Layout layout, Piece piece, string moved, Spot from, Spot to)
    {
        if (!piece.Accent || !LeadsTo(layout, piece, moved))
        {
            return piece;
        }

        return piece with
        {
            Placements =
            [
                .. piece.Placements.Select(placement => placement is Beside beside && Turns(beside.Side)
                    ? beside with { Side = Opposite(beside.Side) }
                    : placement),
            ],
        };

        bool Turns(Edge side) => AxisOf(side) == Axis.Across
            ? from.Across is { } across && to.Across == Opposite(across)
            : from.Down is { } down && to.Down == Opposite(down);
    }

    private static bool LeadsTo(Layout layout, Piece piece, string name)
    {
        for (var steps = layout.Pieces.Count; steps > 0; steps--)
        {
            if (piece.Placements.OfType<Beside>().FirstOrDefault() is not { } beside)
            {
                return false;
            }

            if (beside.Other == name)
            {
                return true;
            }

            if (layout.Pieces.FirstOrDefault(other => other.Name == beside.Other) is not { } next)
            {
                return false;
            }

            piece = next;
        }

        return false;
    }

    private static Axis AxisOf(Edge edge) => edge is Edge.Left or Edge.Right ? Axis.Across : Axis.UpDown;

    private static Edge Opposite(Edge edge) => edge switch
    {
        Edge.Left => Edge.Right,
        Edge.Right => Edge.Left,
        Edge.Top => Edge.Bottom,
        _ => Edge.Top,
    };
}
