using Trimwright.Layouts;
using Trimwright.Measures;

namespace Trimwright.Variants;

/// <summary>
/// Mirrors a layout, not a picture of it: the result is a layout that is fitted like any other, so its sizes and reveals are exact.
/// </summary>
/// <remarks>
/// What cannot be mirrored is moved and kept: a piece that hangs from a top edge goes on hanging from it; lettering, facing images and
/// one-way papers are not flipped. The card base, with its fold, stays as it is.
/// </remarks>
public static class Mirroring
{
    /// <summary>Whether the layout has accents, so that <see cref="Mirror.AccentsAlone"/> means something.</summary>
    public static bool HasAccents(Layout layout) => layout.Pieces.Any(piece => piece.Accent);

    /// <summary>The variant's name as a maker reads it, such as <c>left-right</c>.</summary>
    public static string NameOf(Mirror mirror) => mirror switch
    {
        Mirror.LeftRight => "left-right",
        Mirror.TopBottom => "top-bottom",
        Mirror.HalfTurn => "half-turn",
        _ => "accents alone",
    };

    /// <summary>The mirrored layout. Mirroring twice the same way gives the layout back.</summary>
    public static Layout Apply(Layout layout, Mirror mirror)
    {
        var flips = Flips.Of(layout, mirror);
        return layout with
        {
            Pieces = [.. layout.Pieces.Select(piece => Flip(piece, layout, flips))],
            Rows = [.. layout.Rows.Select(row => Flip(row, flips))],
            Rules = [.. layout.Rules.Select(rule => Flip(rule, flips, layout.Unit))],
        };
    }

    private static Piece Flip(Piece piece, Layout layout, Flips flips)
    {
        var (x, y) = flips[piece.Name];
        if (!x && !y)
        {
            return piece;
        }

        // Paper is the same on both sides of its middle, and lettering is never flipped: a mirror shows on pictures alone.
        var flipsItsFace = piece.Kind == PieceKind.Image && piece.Faces is null && !layout.PaperNamed(piece.Paper).OneWay;
        return piece with
        {
            Placements = Flip(piece.Placements, x, y),
            HangsFrom = Flip(piece.HangsFrom, x, y),
            Tilt = x != y ? -piece.Tilt : piece.Tilt,
            Flipped = piece.Flipped != (x && flipsItsFace),
        };
    }

    private static Row Flip(Row row, Flips flips)
    {
        var (x, y) = flips[row.Name];
        var turnsRound = row.Runs == Axis.Across ? x : y;
        return row with
        {
            Placements = Flip(row.Placements, x, y),
            Pieces = turnsRound ? [.. row.Pieces.Reverse()] : row.Pieces,
        };
    }

    private static IReadOnlyList<Placement> Flip(IReadOnlyList<Placement> placements, bool x, bool y) =>
    [
        .. placements.Select(placement => placement switch
        {
            FromEdge near => near with { Edge = Flip(near.Edge, x, y) },
            Hang hang => hang with { From = Flip(hang.From, x, y) },
            Beside beside => beside with { Side = Flip(beside.Side, x, y) },
            _ => placement,
        }),
    ];

    private static Edge Flip(Edge edge, bool x, bool y) => edge switch
    {
        Edge.Left when x => Edge.Right,
        Edge.Right when x => Edge.Left,
        Edge.Top when y => Edge.Bottom,
        Edge.Bottom when y => Edge.Top,
        _ => edge,
    };

    // Written as a maker would write it, and like a rule that was read: each measure once, the first of them with a number above 0.
    private static Rule Flip(Rule rule, Flips flips, LengthUnit unit)
    {
        if (rule.Terms.All(term => Flip(term, flips).Count == 1))
        {
            return rule;
        }

        var terms = rule.Terms.SelectMany(term => Flip(term, flips))
            .GroupBy(term => (term.Of, term.Measure))
            .Select(group => group.First() with { Factor = group.Aggregate(Rational.Zero, (sum, term) => sum + term.Factor) })
            .Where(term => !term.Factor.IsZero)
            .ToList();
        var turn = terms.First(term => term.Of is not null).Factor.Sign < 0;
        var flipped = rule with
        {
            Terms = turn ? [.. terms.Select(term => term with { Factor = -term.Factor })] : terms,
            Relation = !turn || rule.Relation == RuleRelation.Equal ? rule.Relation
                : rule.Relation == RuleRelation.AtMost ? RuleRelation.AtLeast : RuleRelation.AtMost,
            Constant = turn ? -rule.Constant : rule.Constant,
        };
        return flipped with { Text = RuleText.Write(flipped, unit) };
    }

    /// <summary>
    /// A place p of a flipped piece is now where its mirror image was: start + end - p of what it is mirrored in. Sizes stay.
    /// </summary>
    private static IReadOnlyList<RuleTerm> Flip(RuleTerm term, Flips flips)
    {
        if (term.Of is null || term.Measure is MeasureKind.Width or MeasureKind.Height)
        {
            return [term];
        }

        var isAcross = term.Measure is MeasureKind.Left or MeasureKind.Right or MeasureKind.CenterX;
        var (x, y) = flips[term.Of];
        if (!(isAcross ? x : y))
        {
            return [term];
        }

        var mirroredIn = flips.MirroredIn(term.Of, isAcross);
        var opposite = term.Measure switch
        {
            MeasureKind.Left => MeasureKind.Right,
            MeasureKind.Right => MeasureKind.Left,
            MeasureKind.Top => MeasureKind.Bottom,
            MeasureKind.Bottom => MeasureKind.Top,
            var centre => centre,
        };
        return
        [
            new(-term.Factor, term.Of, opposite),
            new(term.Factor, mirroredIn, isAcross ? MeasureKind.Left : MeasureKind.Top),
            new(term.Factor, mirroredIn, isAcross ? MeasureKind.Right : MeasureKind.Bottom),
        ];
    }
}
