using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Reads the rules.</summary>
internal static class RuleReader
{
    /// <summary>The most characters that a rule may have.</summary>
    public const int LongestRule = 500;

    private static readonly IReadOnlyList<(string Key, Strength Strength)> Strengths =
        [("must", Strength.Must), ("should", Strength.Should), ("may", Strength.May)];

    /// <summary>Reads the rules of a layout; those that cannot be read were reported.</summary>
    public static IReadOnlyList<Rule> Read(ObjectView layout, ReadingContext context)
    {
        var rules = new List<Rule>();
        foreach (var item in layout.As<SyntaxList>(layout.Find("rules"), "a list of rules")?.Items ?? [])
        {
            if (item is not SyntaxObject value)
            {
                context.Add(LayoutMessages.WrongKind("a rule", "a group like `{ \"must\": \"a.width = b.width\" }`", item));
            }
            else if (ReadOne(new(value, "a rule", LayoutKeys.Rule, context), context) is { } rule)
            {
                rules.Add(rule);
            }
        }

        return rules;
    }

    private static Rule? ReadOne(ObjectView view, ReadingContext context)
    {
        var because = view.Text("because")?.Text;
        var said = view.Members.Where(member => Strengths.Any(entry => entry.Key == member.Key)).ToList();
        if (said.Count == 0)
        {
            ReportMissing(view);
            return null;
        }

        foreach (var other in said.Skip(1))
        {
            context.Add(LayoutMessages.Contradiction("a rule has one strength", other, said[0]));
        }

        if (view.Text(said[0]) is not { } text)
        {
            return null;
        }

        if (text.Text.Length > LongestRule)
        {
            context.Add(LayoutMessages.RuleTooLong(text.Text.Length, LongestRule, text.Place));
            return null;
        }

        var (written, problem) = RuleParser.Read(text.Text, context.Unit);
        if (written is null)
        {
            var place = text.Within(problem!.Start, problem.Length);
            context.Add(problem.NotLinear ? LayoutMessages.NotLinear(problem, place) : LayoutMessages.BadRule(problem, place));
            return null;
        }

        foreach (var term in written.Terms.Where(term => term.Name != Names.Card))
        {
            context.Used.Add(new(term.Name, text.Within(term.Start, term.Length), NameUse.Measure, null));
        }

        return Make(written, text, Strengths.First(entry => entry.Key == said[0].Key).Strength, because, context);
    }

    // `shuold` is one slip of the pen, not two.
    private static void ReportMissing(ObjectView view)
    {
        if (view.Members.All(member => NearNames.Nearest(member.Key, Strengths.Select(entry => entry.Key)) is null))
        {
            view.ReportMissing("must");
        }
    }

    private static Rule? Make(WrittenRule written, SyntaxText text, Strength strength, string? because, ReadingContext context)
    {
        var terms = written.Terms
            .GroupBy(term => (term.Name, term.Measure))
            .Select(group => (First: group.First(), Factor: group.Select(term => term.OnRight ? -term.Factor : term.Factor)
                .Aggregate(Rational.Zero, (sum, factor) => sum + factor)))
            .Where(entry => !entry.Factor.IsZero)
            .ToList();
        if (terms.All(entry => entry.First.Name == Names.Card))
        {
            context.Add(LayoutMessages.RuleOfNothing(written.Terms.Any(term => term.Name != Names.Card), text.Place));
            return null;
        }

        var pinned = written.Constants.FirstOrDefault(constant => constant.IsPinned && !constant.Value.IsZero);
        var plain = written.Constants.FirstOrDefault(constant => !constant.IsPinned && !constant.Value.IsZero);
        if (pinned is not null && plain is not null)
        {
            context.Add(LayoutMessages.MixedLengths(text.Within(plain.Start, plain.Length)));
            return null;
        }

        // All on the left; if that would turn the sign of what the maker named first, all on the right.
        var turn = terms.First(entry => entry.First.Name != Names.Card).First.OnRight;
        var constant = written.Constants.Aggregate(Length.Zero, (sum, each) => each.OnRight ? sum + each.Value : sum - each.Value);
        return new()
        {
            Terms = [.. terms.Select(entry => new RuleTerm(
                turn ? -entry.Factor : entry.Factor, entry.First.Name == Names.Card ? null : entry.First.Name, entry.First.Measure))],
            Relation = !turn || written.Relation == RuleRelation.Equal ? written.Relation
                : written.Relation == RuleRelation.AtMost ? RuleRelation.AtLeast : RuleRelation.AtMost,
            Constant = turn ? -constant : constant,
            Scales = pinned is null,
            Strength = strength,
            Because = because,
            Text = text.Text,
            Source = text.Place,
        };
    }
}
