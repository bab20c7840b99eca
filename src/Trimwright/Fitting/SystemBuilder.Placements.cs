using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

internal sealed partial class SystemBuilder
{
    private void Place(IReadOnlyList<Placement> placements, Body body, string? on, PieceBody? piece)
    {
        var parent = BodyNamed(on);
        foreach (var placement in placements)
        {
            switch (placement)
            {
                case Fill fill:
                    PlaceFill(fill, body, parent, piece);
                    break;
                case Span span:
                    PlaceSpan(span, body, parent);
                    break;
                case FromEdge from:
                    PlaceFromEdge(from, body, parent);
                    break;
                case Centred centred:
                    var target = centred.On is null ? parent : BodyNamed(centred.On);
                    Say(body.Outer.Centre(centred.Axis) - target.Own.Centre(centred.Axis), Relation.Equal, 0, Strength.Must, new()
                    {
                        Text = $"`{body.Name}` is centred {FitWords.Along(centred.Axis)} on {FitWords.Name(target.Name)}",
                        Source = centred.Source,
                    });
                    break;
                case Hang hang:
                    Say(body.Outer[hang.From] - parent.Own[hang.From], Relation.Equal, 0, Strength.Must, new()
                    {
                        Text = $"`{body.Name}` hangs from the {FitWords.Edge(hang.From)} edge of {FitWords.Name(parent.Name)}",
                        Source = hang.Source,
                    });
                    break;
                case Beside beside:
                    PlaceBeside(beside, body);
                    break;
            }
        }
    }

    private void PlaceFill(Fill fill, Body body, Body parent, PieceBody? piece)
    {
        var wish = fill.Reveal ?? _layout.Reveal;
        var what = $"the reveal round `{body.Name}`";
        var reveal = Amount(wish, what, $"{what} is {wish}", (wish.Value.Nanometres, null), fill.Source, canBeNegative: false);
        var saying = new Saying
        {
            Text = $"`{body.Name}` fills {FitWords.Name(parent.Name)} with the same reveal on all sides", Source = fill.Source,
        };
        Say(body.Outer.Left - parent.Own.Left - reveal, Relation.Equal, 0, Strength.Must, saying);
        Say(body.Outer.Top - parent.Own.Top - reveal, Relation.Equal, 0, Strength.Must, saying);
        Say(parent.Own.Right - body.Outer.Right - reveal, Relation.Equal, 0, Strength.Must, saying);
        Say(parent.Own.Bottom - body.Outer.Bottom - reveal, Relation.Equal, 0, Strength.Must, saying);
        if (piece is not null)
        {
            piece.FillReveal = reveal;
        }
    }

    private void PlaceSpan(Span span, Body body, Body parent)
    {
        var what = $"how far `{body.Name}` stops short of the edges of {FitWords.Name(parent.Name)}";
        var short1 = span.ShortBy is { } wish
            ? Amount(wish, what, $"`{body.Name}` stops {wish} short of the edges", Carry(wish, span.Axis, what), span.Source, canBeNegative: false)
            : Constant(0);
        var saying = new Saying
        {
            Text = $"`{body.Name}` spans {FitWords.Name(parent.Name)} {FitWords.Along(span.Axis)}", Source = span.Source,
        };
        Say(body.Outer.Start(span.Axis) - parent.Own.Start(span.Axis) - short1, Relation.Equal, 0, Strength.Must, saying);
        Say(parent.Own.End(span.Axis) - body.Outer.End(span.Axis) - short1, Relation.Equal, 0, Strength.Must, saying);
    }

    private void PlaceFromEdge(FromEdge from, Body body, Body parent)
    {
        var inward = from.Edge is Edge.Left or Edge.Top
            ? body.Outer[from.Edge] - parent.Own[from.Edge]
            : parent.Own[from.Edge] - body.Outer[from.Edge];
        var what = $"the distance of `{body.Name}` from the {FitWords.Edge(from.Edge)} edge of {FitWords.Name(parent.Name)}";
        var (aim, report) = Carry(from.Distance, AxisOf(from.Edge), what);
        Say(inward, Relation.Equal, aim, from.Distance.Strength, new()
        {
            Text = $"`{body.Name}` sits {from.Distance} from the {FitWords.Edge(from.Edge)} edge of {FitWords.Name(parent.Name)}",
            What = what,
            Quantity = inward,
            Source = from.Source,
        });
        Report(report, inward);
    }

    private void PlaceBeside(Beside beside, Body body)
    {
        var other = BodyNamed(beside.Other).Outer;
        var gap = beside.Side switch
        {
            Edge.Right => body.Outer.Left - other.Right,
            Edge.Left => other.Left - body.Outer.Right,
            Edge.Bottom => body.Outer.Top - other.Bottom,
            _ => other.Top - body.Outer.Bottom,
        };
        if (beside.Gap is null)
        {
            Say(gap, Relation.Equal, 0, Strength.Must, new()
            {
                Text = $"`{body.Name}` meets the {FitWords.Edge(beside.Side)} edge of `{beside.Other}`", Source = beside.Source,
            });
            return;
        }

        var overlaps = beside.Gap.Value < Length.Zero;
        var what = $"the {(overlaps ? "overlap" : "gap")} between `{body.Name}` and `{beside.Other}`";
        var (aim, report) = Carry(beside.Gap, AxisOf(beside.Side), what);
        // An overlap is a negative gap; makers name it by its length, so it is counted the other way round.
        var sense = overlaps ? -1 : 1;
        var amount = gap.Times(sense);
        var shown = beside.Gap with { Value = beside.Gap.Value.Abs() };
        Say(amount, Relation.Equal, aim * sense, beside.Gap.Strength, new()
        {
            Text = $"`{body.Name}` {(overlaps ? "overlaps" : "stands off")} the {FitWords.Edge(beside.Side)} edge of `{beside.Other}` by {shown}",
            What = what,
            Quantity = amount,
            Source = beside.Source,
        });
        Report(report is null ? null : report with { Drawn = report.Drawn * sense, InProportion = report.InProportion * sense }, amount);
    }
}
