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
internal sealed class SayingsFinder(FittedCard card)
{
    private readonly IReadOnlyList<FaceLayer> _layers = FaceLayer.Of(card);
    private readonly List<LinearDimension> _dimensions = [];
    private readonly List<Callout> _callouts = [];
    private readonly List<Point> _centres = [];
    private readonly CalloutWriter _writer = new(card.Unit);

    /// <summary>Finds all of them; pieces from the bottom up.</summary>
    public Sayings Find()
    {
        SaySize(Outline.FromBox(card.Face), "card");
        if (card.Pieces.Count > MeasuredDrawing.MostPieces)
        {
            return new(_dimensions, _callouts, _centres);
        }

        foreach (var piece in card.Pieces)
        {
            if (piece.Source.Row is not { } name)
            {
                SayPiece(piece);
            }
            else if (card.Rows.First(row => row.Source.Name == name) is var row && row.Source.Pieces[0] == piece.Name)
            {
                SayRow(row);
            }
        }

        return new(_dimensions, _callouts, _centres);
    }

    /// <summary>Whether the size of a piece is said between lines.</summary>
    private static bool IsDimensioned(FittedPiece piece) =>
        piece.Source.Kind is PieceKind.Panel or PieceKind.Strip or PieceKind.Banner or PieceKind.Frame
        && piece.Reveal is null && piece.Source.Tilt.IsZero && piece.Source.Row is null;

    private void SayPiece(FittedPiece piece)
    {
        var (parent, parentName) = ParentOf(piece.Source.On);
        var dimensioned = IsDimensioned(piece);
        if (dimensioned)
        {
            SaySize(piece.Outline, piece.Name);
        }

        // A round or small piece in the very middle of another is placed by that, not by two distances.
        var centred = !dimensioned && piece.Reveal is null && parentName is not null && piece.Box.Centre == parent.Bounds.Centre;
        if (piece.Reveal is null && !centred)
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

        _callouts.Add(new(
            piece.Name, _writer.Write(piece.Name, [piece], saysSize: !dimensioned, centredOn: centred ? parentName : null), LayersOf([piece])));
    }

    private void SayRow(FittedRow row)
    {
        var pieces = row.Source.Pieces.Select(card.PieceNamed).ToArray();
        var (parent, _) = ParentOf(row.Source.On);
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
            var title = group.Length == pieces.Length ? name : string.Join(", ", group.Select(piece => piece.Name));
            _callouts.Add(new(title, _writer.Write(title, group, saysSize: true, centredOn: null), LayersOf(group)));
        }
    }

    private void SayGaps(FittedRow row, FittedPiece[] pieces, Outline parent, Axis run)
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
            Say(run, before, after, name, distance < default(Position) ? "overlap" : "gap", pieces.Length - 1 + (alike ? 2 : 0));
        }

        if (!alike)
        {
            SayOffset(run, new([.. first.Contours]), parent, row.Source.Placements, name, last);
        }
    }

    private void SayPitches(FittedPiece[] pieces, Axis run, string name)
    {
        var centres = pieces.Select(piece => CentreWitness(piece.Box.Centre, run)).ToArray();
        foreach (var equal in centres.Zip(centres.Skip(1)).GroupBy(pair => pair.Second.At - pair.First.At))
        {
            Say(run, equal.First().First, equal.First().Second, name, "pitch", equal.Count());
        }

        _centres.AddRange(pieces.Select(piece => piece.Box.Centre));
    }

    /// <summary>A matted piece is glued to its mat first and placed by the edge of that, so its distances are taken there.</summary>
    private static Outline Outermost(FittedPiece piece) => piece.Mats.Count > 0 ? piece.Mats[^1].Outline : piece.Outline;

    /// <summary>The outline that a piece is placed on, and its name; above a tilted piece, which has no upright edges, the one below it.</summary>
    private (Outline Outline, string? Name) ParentOf(string? parent)
    {
        while (parent is not null)
        {
            if (card.Rows.FirstOrDefault(row => row.Source.Name == parent) is { } row)
            {
                return (Outline.FromBox(row.Box), parent);
            }

            var piece = card.PieceNamed(parent);
            if (piece.Source.Tilt.IsZero)
            {
                return (piece.Outline, parent);
            }

            parent = piece.Source.On;
        }

        return (Outline.FromBox(card.Face), null);
    }

    private void SaySize(Outline outline, string name)
    {
        var (across, upDown) = (Edges(outline, Axis.Across), Edges(outline, Axis.UpDown));
        Say(Axis.Across, across.Low, across.High, name, "width");
        Say(Axis.UpDown, upDown.Low, upDown.High, name, "height");
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

        if (!_centres.Contains(centre))
        {
            _centres.Add(centre);
        }
    }

    private void Say(Axis axis, Witness from, Witness to, string name, string measure, int count = 1)
    {
        if (to.At < from.At)
        {
            (from, to) = (to, from);
        }

        if (from.At != to.At && !_dimensions.Any(said => said.Axis == axis && said.From.At == from.At && said.To.At == to.At))
        {
            _dimensions.Add(new(axis, from, to, name, measure, count));
        }
    }

    private List<FaceLayer> LayersOf(IEnumerable<FittedPiece> pieces) =>
        [.. pieces.Select(piece => _layers.First(layer => layer.Piece == piece && layer.MatNumber == 0))];

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
