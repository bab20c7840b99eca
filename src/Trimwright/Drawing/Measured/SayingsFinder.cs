using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>
/// Finds what a cutter and a gluer need to know, each thing once (ISO 129-1:2018: each dimension is shown once): sizes of pieces,
/// offsets from the edges of what they lie on, reveals and gaps.
/// </summary>
/// <remarks>
/// Panels, strips, banners and frames have their sizes between lines. What fills its parent, what is tilted, round things, mats, rows
/// and small pieces have them in a callout.
/// </remarks>
/// <param name="index">The card.</param>
/// <param name="layers">The layers of the sheet, which leaders may end on.</param>
/// <param name="text">How lengths are written.</param>
internal sealed class SayingsFinder(CardIndex index, IReadOnlyList<FaceLayer> layers, DimensionText text)
{
    private readonly List<LinearDimension> _dimensions = [];
    private readonly HashSet<(Axis, Position, Position)> _said = [];
    private readonly List<Callout> _callouts = [];
    private readonly List<Point> _centres = [];
    private readonly HashSet<Point> _marked = [];
    private readonly List<TiltedSize> _tilted = [];
    private readonly Dictionary<string, int> _layerOf = [];
    private readonly CalloutWriter _writer = new(text);

    /// <summary>Finds all of them, in the order of the units.</summary>
    /// <param name="units">What this sheet speaks of.</param>
    /// <param name="withCard">Whether it says the size of the card.</param>
    public Sayings Find(IReadOnlyList<SheetUnit> units, bool withCard)
    {
        for (var i = 0; i < layers.Count; i++)
        {
            if (layers[i].MatNumber == 0)
            {
                _layerOf[layers[i].Piece.Name] = i;
            }
        }

        if (withCard)
        {
            SaySize(Outline.FromBox(index.Card.Face), "card", 1);
        }

        foreach (var unit in units)
        {
            if (unit.Row is { } row)
            {
                SayRow(unit, row);
            }
            else
            {
                SayPieces(unit);
            }
        }

        return new(_dimensions, _callouts, _centres, _tilted);
    }

    /// <summary>Whether the size of a piece is said between lines.</summary>
    public static bool IsDimensioned(FittedPiece piece) =>
        piece.Source.Kind is PieceKind.Panel or PieceKind.Strip or PieceKind.Banner or PieceKind.Frame
        && piece.Reveal is null && piece.Source.Tilt.IsZero && piece.Source.Row is null;

    private void SayPieces(SheetUnit unit)
    {
        var piece = unit.Pieces[0];
        var (parent, parentName) = index.Placed(piece.Source.On);
        var dimensioned = IsDimensioned(piece);
        if (dimensioned)
        {
            SaySize(piece.Outline, piece.Name, unit.Pieces.Count);
        }

        // A round or small piece in the very middle of another is placed by that, not by two distances.
        var centred = !dimensioned && piece.Reveal is null && parentName is not null && unit.Pieces.Count == 1
            && piece.Box.Centre == parent.Bounds.Centre;
        foreach (var one in centred ? [] : unit.Pieces)
        {
            if (one.Reveal is null)
            {
                SayPlace(one, parent);
            }
        }

        SayInCallout(unit.Numbered(unit.Name), piece.Name, unit.Pieces, saysSize: !dimensioned, centred ? parentName : null);
    }

    private void SayPlace(FittedPiece piece, Outline parent)
    {
        if (piece.Source.Tilt.IsZero)
        {
            SayOffset(Axis.Across, Outermost(piece), parent, piece.Source.Placements, piece.Name);
            SayOffset(Axis.UpDown, Outermost(piece), parent, piece.Source.Placements, piece.Name);
        }
        else
        {
            SayCentre(piece.Box.Centre, parent, piece.Name, [Axis.Across, Axis.UpDown]);
        }
    }

    private void SayInCallout(string title, string of, IReadOnlyList<FittedPiece> pieces, bool saysSize, string? centredOn)
    {
        var tilted = saysSize ? pieces.Where(piece => !piece.Source.Tilt.IsZero && piece.Outline.Contours is [PolygonContour { Points.Count: 4 }]) : [];
        if (tilted.ToArray() is { Length: > 0 } candidates)
        {
            _tilted.Add(new(_callouts.Count, _writer.Write(title, pieces, SizeSaying.OnThePiece, centredOn), of, candidates));
        }

        _callouts.Add(new(
            of, _writer.Write(title, pieces, saysSize ? SizeSaying.Here : SizeSaying.BetweenLines, centredOn), LayersOf(pieces)));
    }

    private void SayRow(SheetUnit unit, FittedRow row)
    {
        var pieces = unit.Pieces;
        var (parent, _) = index.Placed(row.Source.On);
        var (run, cross) = row.Source.Runs == Axis.Across ? (Axis.Across, Axis.UpDown) : (Axis.UpDown, Axis.Across);
        var name = row.Source.Name;
        if (pieces.All(piece => piece.Source.Tilt.IsZero))
        {
            SayGaps(row, pieces, parent, run);
            foreach (var piece in pieces)
            {
                SayOffset(cross, Outermost(piece), parent, row.Source.Placements, piece.Name);
            }
        }
        else
        {
            SayCentre(pieces[0].Box.Centre, parent, name, [run]);
            SayPitches(pieces, run, name);
            foreach (var piece in pieces)
            {
                SayCentre(piece.Box.Centre, parent, piece.Name, [cross]);
            }
        }

        foreach (var equal in pieces.GroupBy(_writer.Likeness))
        {
            var group = equal.ToArray();
            var title = group.Length == pieces.Count ? name : string.Join(", ", group.Select(piece => piece.Name));
            SayInCallout(unit.Numbered(title), title, group, saysSize: true, centredOn: null);
        }
    }

    private void SayGaps(FittedRow row, IReadOnlyList<FittedPiece> pieces, Outline parent, Axis run)
    {
        var name = row.Source.Name;
        var (first, last) = (Outermost(pieces[0]), Outermost(pieces[^1]));
        var (low, high) = (Edges(parent, run).Low, Edges(parent, run).High);
        var gap = row.Gap;
        var alike = gap is not null && row.Source.EndsLikeGaps
            && Edges(first, run).Low.At - low.At == gap && high.At - Edges(last, run).High.At == gap;
        if (gap is { } distance)
        {
            var (before, after) = (Edges(first, run).High, Edges(Outermost(pieces[1]), run).Low);
            Say(run, before, after, name, distance < default(Position) ? "overlap" : "gap", pieces.Count - 1 + (alike ? 2 : 0));
        }

        if (!alike)
        {
            SayOffset(run, new([.. first.Contours]), parent, row.Source.Placements, name, last);
        }
    }

    private void SayPitches(IReadOnlyList<FittedPiece> pieces, Axis run, string name)
    {
        var centres = pieces.Select(piece => CentreWitness(piece.Box.Centre, run)).ToArray();
        foreach (var equal in centres.Zip(centres.Skip(1)).GroupBy(pair => pair.Second.At - pair.First.At))
        {
            Say(run, equal.First().First, equal.First().Second, name, "pitch", equal.Count());
        }

        foreach (var piece in pieces)
        {
            MarkCentre(piece.Box.Centre);
        }
    }

    /// <summary>A matted piece is glued to its mat first and placed by the edge of that, so its distances are taken there.</summary>
    private static Outline Outermost(FittedPiece piece) => piece.Mats.Count > 0 ? piece.Mats[^1].Outline : piece.Outline;

    private void SaySize(Outline outline, string name, int count)
    {
        var (across, upDown) = (Edges(outline, Axis.Across), Edges(outline, Axis.UpDown));
        Say(Axis.Across, across.Low, across.High, name, "width", count);
        Say(Axis.UpDown, upDown.Low, upDown.High, name, "height", count);
    }

    /// <summary>Says how far an outline lies from the edge that it is placed from or, where none is named, from the nearer one.</summary>
    private void SayOffset(
        Axis axis, Outline outline, Outline parent, IReadOnlyList<Placement> placements, string name, Outline? last = null)
    {
        var (own, other) = (Edges(outline, axis), Edges(parent, axis));
        var high = last is null ? own.High : Edges(last, axis).High;
        var (lowEdge, highEdge) = axis == Axis.Across ? (Edge.Left, Edge.Right) : (Edge.Top, Edge.Bottom);
        var named = placements.Select(placement => placement switch
        {
            FromEdge from => from.Edge, Hang hang => hang.From, _ => (Edge?)null,
        }).FirstOrDefault(edge => edge == lowEdge || edge == highEdge);
        var (lowGap, highGap) = ((own.Low.At - other.Low.At).Nanometres, (other.High.At - high.At).Nanometres);
        if (lowGap.IsZero && highGap.IsZero)
        {
            return;
        }

        if (named == lowEdge || (named is null && lowGap.Abs() <= highGap.Abs()))
        {
            Say(axis, other.Low, own.Low, name, axis == Axis.Across ? "left" : "top");
        }
        else
        {
            Say(axis, high, other.High, name, axis == Axis.Across ? "right" : "bottom");
        }
    }

    private void SayCentre(Point centre, Outline parent, string name, IEnumerable<Axis> axes)
    {
        foreach (var axis in axes)
        {
            var (own, other) = (CentreWitness(centre, axis), Edges(parent, axis));
            var measure = axis == Axis.Across ? "center-x" : "center-y";
            if (own.At - other.Low.At <= other.High.At - own.At)
            {
                Say(axis, other.Low, own, name, measure);
            }
            else
            {
                Say(axis, own, other.High, name, measure);
            }
        }

        MarkCentre(centre);
    }

    private void Say(Axis axis, Witness from, Witness to, string name, string measure, int count = 1)
    {
        if (to.At < from.At)
        {
            (from, to) = (to, from);
        }

        if (from.At != to.At && _said.Add((axis, from.At, to.At)))
        {
            _dimensions.Add(new(axis, from, to, name, measure, count));
        }
    }

    private void MarkCentre(Point centre)
    {
        if (_marked.Add(centre))
        {
            _centres.Add(centre);
        }
    }

    private int[] LayersOf(IEnumerable<FittedPiece> pieces) => [.. pieces.Select(piece => _layerOf[piece.Name])];

    private static Witness CentreWitness(Point centre, Axis axis) =>
        axis == Axis.Across ? new(centre.X, centre.Y, centre.Y) : new(centre.Y, centre.X, centre.X);

    /// <summary>The least and the greatest line of an outline along an axis, with the stretch in which the outline touches them.</summary>
    private static (Witness Low, Witness High) Edges(Outline outline, Axis axis)
    {
        var bounds = outline.Bounds;
        var (low, high) = axis == Axis.Across ? (bounds.Left, bounds.Right) : (bounds.Top, bounds.Bottom);
        return (Touch(low), Touch(high));

        Witness Touch(Position at)
        {
            if (outline.Contours[0] is not PolygonContour polygon)
            {
                return CentreWitness(bounds.Centre, axis) with { At = at };
            }

            var across = polygon.Points
                .Where(point => (axis == Axis.Across ? point.X : point.Y) == at)
                .Select(point => axis == Axis.Across ? point.Y : point.X)
                .ToArray();
            return new(at, across.Min(), across.Max());
        }
    }
}
