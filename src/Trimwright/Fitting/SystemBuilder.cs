using Trimwright.Diagnostics;
using Trimwright.Layouts;
using Trimwright.Measures;
using Trimwright.Solving;

namespace Trimwright.Fitting;

/// <summary>
/// Turns a layout into a system of wishes: the unknowns are left, top, width and height of each piece, its reveals, and the gaps
/// of rows. What follows from them (right edges, mats, boxes of rows) is written as linear forms, not as more unknowns.
/// </summary>
internal sealed partial class SystemBuilder
{
    private readonly Layout _layout;
    private readonly Length _increment;
    private readonly Rational _halfIncrement;
    private readonly Carrying _carrying;
    private readonly DieChooser _dies;
    private readonly (Length Width, Length Height) _size;
    private readonly Body _card;
    private readonly Dictionary<string, Body> _bodies = new(StringComparer.Ordinal);
    private readonly Dictionary<string, PieceBody> _firstCopies = new(StringComparer.Ordinal);
    private readonly Dictionary<string, SourcePlace> _rowSources;
    private readonly List<PieceBody> _pieces = [];
    private readonly List<(Row Row, Body Body, LinearForm? Gap)> _rows = [];
    private readonly List<Saying> _sayings = [];
    private readonly List<(Rational Said, Rational OfCard)> _amounts = [];
    private readonly List<Saying> _unknowns = [];
    private readonly List<Carried> _carried = [];

    private SystemBuilder(Layout layout, Length width, Length height, Length increment, DieChooser dies)
    {
        _layout = layout;
        _increment = increment;
        _halfIncrement = Rational.From(increment.Nanometres, 2);
        _carrying = new(layout, width, height, increment);
        _dies = dies;
        _rowSources = layout.Rows.ToDictionary(row => row.Name, row => row.Source, StringComparer.Ordinal);
        var face = new Edges(Constant(0), Constant(0), Constant(width.Nanometres), Constant(height.Nanometres));
        _card = new(null, face, face);
        (Width, Height, _size) = (width.Nanometres, height.Nanometres, (width, height));
    }

    /// <summary>A measure that was carried, with the form that tells what became of it.</summary>
    internal sealed record Carried(string What, Rational Drawn, Rational InProportion, LinearForm Quantity, SourcePlace Source);

    public WishSystem System { get; } = new();

    public IReadOnlyList<PieceBody> Pieces => _pieces;

    public IReadOnlyList<(Row Row, Body Body, LinearForm? Gap)> Rows => _rows;

    /// <summary>What each statement says, by its number.</summary>
    public IReadOnlyList<Saying> Sayings => _sayings;

    /// <summary>
    /// What the right side of each statement is made of, by its number: the amount said, and what the sides of the card add to it.
    /// </summary>
    public IReadOnlyList<(Rational Said, Rational OfCard)> Amounts => _amounts;

    /// <summary>What each unknown is, by its index.</summary>
    public IReadOnlyList<Saying> Unknowns => _unknowns;

    public IReadOnlyList<Carried> CarriedMeasures => _carried;

    public Layout Layout => _layout;

    public Length Increment => _increment;

    /// <summary>Whether a length is the width or the height of the card.</summary>
    public bool IsSideOfCard(Rational nanometres) => nanometres == Width || nanometres == Height;

    /// <summary>The longer side of the card.</summary>
    public Rational LongestOnCard => Rational.Max(Width, Height);

    private Rational Width { get; }

    private Rational Height { get; }

    /// <summary>The system of a layout on a card of that size. Pure: the same layout gives the same system.</summary>
    public static SystemBuilder Of(Layout layout, Length width, Length height, Length increment, DieChooser dies)
    {
        var builder = new SystemBuilder(layout, width, height, increment, dies);
        builder.Build();
        return builder;
    }

    /// <summary>The system of another layout on the same card with the same tools.</summary>
    public SystemBuilder With(Layout layout) => Of(layout, _size.Width, _size.Height, _increment, _dies);

    private void Build()
    {
        foreach (var piece in _layout.Pieces)
        {
            AddPiece(piece);
        }

        foreach (var row in _layout.Rows)
        {
            AddRow(row);
        }

        foreach (var body in _pieces)
        {
            AddSizes(body);
            Place(body.Piece.Placements, body.Body, body.Piece.On, body);
        }

        foreach (var (row, body, _) in _rows)
        {
            Place(row.Placements, body, row.On, null);
        }

        foreach (var rule in _layout.Rules)
        {
            AddRule(rule);
        }

        foreach (var body in _pieces)
        {
            KeepOnCard(body);
        }
    }

    private static LinearForm Constant(Rational value) => LinearForm.FromConstant(value);

    private Body BodyNamed(string? name) => name is null or "card" ? _card : _bodies[name];

    private LinearForm AddUnknown(string what, SourcePlace source, Grid? grid, Rational? least, Rational? most)
    {
        var form = LinearForm.FromMeasure(System.AddMeasure(grid, least, most));
        _unknowns.Add(new() { Text = what, What = what, Quantity = form, Source = source });
        return form;
    }

    /// <summary>Adds <c>form relation right</c>. A wish gives the form with factor 1 for the quantity it names, so that a miss is in its unit.</summary>
    private void Say(LinearForm form, Relation relation, Rational right, Strength strength, Saying saying, bool isStructure = false)
    {
        System.Add(form.Terms, relation, right - form.Constant, strength, isStructure);
        _sayings.Add(saying);
        _amounts.Add((right, -form.Constant));
    }

    private void AddRow(Row row)
    {
        var axis = row.Runs;
        var cross = CrossOf(axis);
        var members = row.Pieces.Select(name => _bodies[name]).ToArray();
        var (first, last) = (members[0], members[^1]);
        var edges = axis == Axis.Across
            ? new Edges(first.Outer.Left, first.Outer.Top, last.Outer.Right, first.Outer.Bottom)
            : new Edges(first.Outer.Left, first.Outer.Top, first.Outer.Right, last.Outer.Bottom);
        var body = new Body(row.Name, edges, edges);
        _bodies.Add(row.Name, body);

        var needsGap = members.Length > 1 || row.EndsLikeGaps;
        LinearForm? gap = null;
        if (needsGap)
        {
            var what = $"the gap between the pieces of `{row.Name}`";
            gap = Amount(row.Gap, what, $"the pieces of `{row.Name}` stand {GapWords(row.Gap)} apart", Carry(row.Gap, axis, what), row.Source, canBeNegative: true);
            var saying = new Saying { Text = $"the pieces of `{row.Name}` stand in a row with equal gaps", Source = row.Source };
            for (var i = 1; i < members.Length; i++)
            {
                Say(members[i].Outer.Start(axis) - members[i - 1].Outer.End(axis) - gap, Relation.Equal, 0, Strength.Must, saying);
            }
        }

        // A row that hangs is level along the edge it hangs from; any other along its centre line.
        var hung = row.Placements.OfType<Hang>().FirstOrDefault(hang => AxisOf(hang.From) == cross);
        var level = new Saying
        {
            Text = hung is null ? $"the pieces of `{row.Name}` are centred on one line" : $"the pieces of `{row.Name}` hang from one edge",
            Source = row.Source,
        };
        foreach (var member in members.Skip(1))
        {
            var step = hung is null
                ? member.Outer.Centre(cross) - first.Outer.Centre(cross)
                : member.Outer[hung.From] - first.Outer[hung.From];
            Say(step, Relation.Equal, 0, Strength.Must, level);
        }

        if (row.EndsLikeGaps)
        {
            var parent = BodyNamed(row.On).Own;
            var saying = new Saying { Text = $"the ends of `{row.Name}` keep the same space as its gaps", Source = row.Source };
            Say(edges.Start(axis) - parent.Start(axis) - gap!, Relation.Equal, 0, Strength.Must, saying);
            Say(parent.End(axis) - edges.End(axis) - gap!, Relation.Equal, 0, Strength.Must, saying);
        }

        _rows.Add((row, body, members.Length > 1 ? gap : null));
    }

    private static string GapWords(Wish? gap) => gap is null ? "the same distance" : gap.ToString();

    internal static Axis AxisOf(Edge edge) => edge is Edge.Left or Edge.Right ? Axis.Across : Axis.UpDown;

    internal static Axis CrossOf(Axis axis) => axis == Axis.Across ? Axis.UpDown : Axis.Across;

    private void AddRule(Rule rule)
    {
        var named = rule.Terms.FirstOrDefault(term => term.Of is not null) ?? rule.Terms[0];
        var scale = Rational.One / named.Factor.Abs();
        var axis = AxisOf(named.Measure);
        var constant = (Rational)rule.Constant.Nanometres;
        var aim = rule.Scales ? _carrying.Distance(constant, axis) : constant;
        var sum = Constant(0);
        foreach (var term in rule.Terms)
        {
            sum += BodyNamed(term.Of).Own.Of(term.Measure).Times(term.Factor);
        }

        var relation = rule.Relation switch
        {
            RuleRelation.AtMost => Relation.AtMost,
            RuleRelation.AtLeast => Relation.AtLeast,
            _ => Relation.Equal,
        };
        var quantity = BodyNamed(named.Of).Own.Of(named.Measure);
        Say(sum.Times(scale), relation, aim * scale, rule.Strength, new()
        {
            Text = $"`{rule.Text}`",
            What = FitWords.Measure(named.Measure, named.Of),
            Quantity = quantity,
            Sense = named.Factor.Sign,
            IsRule = true,
            Source = rule.Source,
            Because = rule.Because,
        });
        if (rule.Scales && !constant.IsZero && _carrying.Along(axis) != 1)
        {
            _carried.Add(new($"the length in `{rule.Text}`", constant, constant * _carrying.Along(axis), Constant(aim), rule.Source));
        }
    }

    private static Axis AxisOf(MeasureKind measure) =>
        measure is MeasureKind.Left or MeasureKind.Right or MeasureKind.Width or MeasureKind.CenterX ? Axis.Across : Axis.UpDown;

    // Structure: a piece stays on the card, with its mats and however it is tilted.
    private void KeepOnCard(PieceBody body)
    {
        var outer = body.Body.Outer;
        var saying = new Saying { Text = $"`{body.Piece.Name}` stays on the card", Source = body.Piece.Source };
        if (body.Piece.MayHangOver)
        {
            // It may hang over, but a part of it has to be on the card to be glued to.
            var touching = saying with { Text = $"`{body.Piece.Name}` touches the card" };
            Say(outer.Right, Relation.AtLeast, _increment.Nanometres, Strength.Must, touching, isStructure: true);
            Say(outer.Left - Constant(Width), Relation.AtMost, -_increment.Nanometres, Strength.Must, touching, isStructure: true);
            Say(outer.Bottom, Relation.AtLeast, _increment.Nanometres, Strength.Must, touching, isStructure: true);
            Say(outer.Top - Constant(Height), Relation.AtMost, -_increment.Nanometres, Strength.Must, touching, isStructure: true);
            return;
        }

        if (!body.Piece.Tilt.IsZero)
        {
            var (width, height) = (outer.Right - outer.Left, outer.Bottom - outer.Top);
            var (cos, sin) = (RoundedUp(body.Piece.Tilt.Cos()), RoundedUp(body.Piece.Tilt.Sin()));
            var half = Rational.From(1, 2);
            var reachX = body.Piece.Kind == PieceKind.Circle ? width.Times(half) : (width.Times(cos) + height.Times(sin)).Times(half);
            var reachY = body.Piece.Kind == PieceKind.Circle ? height.Times(half) : (width.Times(sin) + height.Times(cos)).Times(half);
            outer = new(
                outer.Centre(Axis.Across) - reachX, outer.Centre(Axis.UpDown) - reachY,
                outer.Centre(Axis.Across) + reachX, outer.Centre(Axis.UpDown) + reachY);
        }

        Say(outer.Left, Relation.AtLeast, 0, Strength.Must, saying, isStructure: true);
        Say(outer.Top, Relation.AtLeast, 0, Strength.Must, saying, isStructure: true);
        Say(outer.Right - Constant(Width), Relation.AtMost, 0, Strength.Must, saying, isStructure: true);
        Say(outer.Bottom - Constant(Height), Relation.AtMost, 0, Strength.Must, saying, isStructure: true);
    }

    // The corners of a tilted piece lie at irrational places. Rounding up to a thousandth keeps the numbers of the solver short and
    // errs towards the inside of the card, by at most a thousandth of the piece.
    private static Rational RoundedUp(Rational value) => Rational.From((value.Abs() * 1000).Ceiling(), 1000);
}
