using System.Text;
using Trimwright.Layouts.Reading;
using Trimwright.Measures;

namespace Trimwright.Layouts;

/// <summary>Writes a rule that nobody wrote, such as the mirror image of one, as a maker would: what it is about first, the card and lengths on the right.</summary>
internal static class RuleText
{
    /// <summary>The rule as a text that is read back as the same relation, its first measure the one that a miss is counted in.</summary>
    /// <param name="rule">The rule; the first of its terms that is not of the card has a factor above 0.</param>
    /// <param name="unit">The unit of the layout.</param>
    public static string Write(Rule rule, LengthUnit unit)
    {
        List<(Rational Factor, string Measure)> left = [];
        List<(Rational Factor, string Measure)> right = [];
        foreach (var term in rule.Terms.Where(term => term.Of is not null))
        {
            var measure = $"{term.Of}.{Words.Of(Words.Measured, term.Measure)}";
            (term.Factor.Sign > 0 ? left : right).Add((term.Factor.Abs(), measure));
        }

        right.AddRange(new[] { (-OfCard(rule.Terms, Axis.Across), "card.width"), (-OfCard(rule.Terms, Axis.UpDown), "card.height") }
            .Where(term => !term.Item1.IsZero));
        var text = new StringBuilder();
        foreach (var (factor, measure) in left)
        {
            Add(text, 0, factor, measure);
        }

        var start = text.Append(' ').Append(Sign(rule.Relation)).Append(' ').Length;
        foreach (var (factor, measure) in right.OrderByDescending(term => term.Factor.Sign))
        {
            Add(text, start, factor, measure);
        }

        var length = rule.Constant;
        if (!length.IsZero || text.Length == start)
        {
            Join(text, start, length < Length.Zero);
            text.Append(rule.Scales || length.IsZero ? "" : "exactly ").Append(length.IsZero ? "0" : LengthText.Write(length.Abs(), unit));
        }

        return text.ToString();
    }

    // Places count from the left and the top edge of the card, so its right edge lies at its width, and its left edge at 0.
    private static Rational OfCard(IEnumerable<RuleTerm> terms, Axis axis) => terms.Where(term => term.Of is null).Aggregate(Rational.Zero, (sum, term) => sum + ((term.Measure, axis) switch
    {
        (MeasureKind.Width or MeasureKind.Right, Axis.Across) or (MeasureKind.Height or MeasureKind.Bottom, Axis.UpDown) => term.Factor,
        (MeasureKind.CenterX, Axis.Across) or (MeasureKind.CenterY, Axis.UpDown) => term.Factor / 2,
        _ => Rational.Zero,
    }));

    private static void Add(StringBuilder text, int start, Rational factor, string measure)
    {
        Join(text, start, factor.Sign < 0);
        text.Append(factor.Abs() == Rational.One ? "" : $"{factor.Abs()} ").Append(measure);
    }

    private static void Join(StringBuilder text, int start, bool isNegative) =>
        text.Append(text.Length > start ? isNegative ? " - " : " + " : isNegative ? "-" : "");

    private static string Sign(RuleRelation relation) => relation switch
    {
        RuleRelation.AtMost => "<=",
        RuleRelation.AtLeast => ">=",
        _ => "=",
    };
}
