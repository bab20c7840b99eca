using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Why a rule cannot be read.</summary>
/// <param name="Problem">What is wrong.</param>
/// <param name="Remedy">What to write instead.</param>
/// <param name="Start">Where in the rule, from 0.</param>
/// <param name="Length">How many characters.</param>
/// <param name="NotLinear">Whether measures are multiplied or divided by one another or by lengths.</param>
internal sealed record RuleProblem(string Problem, string Remedy, int Start, int Length, bool NotLinear = false);

/// <summary>A measure as written in a rule: a factor, a name and what is measured, on one side of the relation.</summary>
internal sealed record WrittenTerm(Rational Factor, string Name, MeasureKind Measure, int Start, int Length, bool OnRight);

/// <summary>A length as written in a rule, with its sign.</summary>
internal sealed record WrittenConstant(Length Value, bool IsPinned, int Start, int Length, bool OnRight);

/// <summary>A rule as written.</summary>
internal sealed record WrittenRule(
    IReadOnlyList<WrittenTerm> Terms, IReadOnlyList<WrittenConstant> Constants, RuleRelation Relation);

/// <summary>
/// Reads a rule: <c>sum relation sum</c>. A sum is made of measures, each with a number before it, after <c>*</c> or after <c>/</c>, and of
/// lengths.
/// </summary>
internal sealed class RuleParser
{
    private const string Example = "write it like `sun.left = 1/2 card.width + 1/8 in`";

    private readonly IReadOnlyList<RuleToken> _tokens;
    private readonly LengthUnit _unit;
    private readonly List<WrittenTerm> _terms = [];
    private readonly List<WrittenConstant> _constants = [];
    private int _at;
    private bool _onRight;

    private RuleParser(IReadOnlyList<RuleToken> tokens, LengthUnit unit) => (_tokens, _unit) = (tokens, unit);

    private RuleToken Current => _tokens[_at];

    private RuleToken Next => _tokens[Math.Min(_at + 1, _tokens.Count - 1)];

    /// <summary>Reads a rule.</summary>
    /// <returns>The rule, or what is wrong with it first; exactly one of the two.</returns>
    public static (WrittenRule? Rule, RuleProblem? Problem) Read(string text, LengthUnit unit)
    {
        var (tokens, problem) = RuleLexer.Split(text);
        return tokens is null ? (null, problem) : new RuleParser(tokens, unit).Read();
    }

    private (WrittenRule? Rule, RuleProblem? Problem) Read()
    {
        if (ReadSum() is { } left)
        {
            return (null, left);
        }

        if (Current.Kind != RuleTokenKind.Relation)
        {
            return (null, Wrong("a rule needs a relation", Example));
        }

        var relation = Current.Text switch
        {
            "=" => RuleRelation.Equal,
            "<=" => RuleRelation.AtMost,
            _ => RuleRelation.AtLeast,
        };
        _at++;
        _onRight = true;
        if (ReadSum() is { } right)
        {
            return (null, right);
        }

        return Current.Kind == RuleTokenKind.End
            ? (new(_terms, _constants, relation), null)
            : (null, Wrong("a rule has one relation", "write two rules"));
    }

    private RuleProblem? ReadSum()
    {
        var sign = 1;
        if (Current.Kind is RuleTokenKind.Minus or RuleTokenKind.Plus)
        {
            sign = Current.Kind == RuleTokenKind.Minus ? -1 : 1;
            _at++;
        }

        while (true)
        {
            if (ReadTerm(sign) is { } problem)
            {
                return problem;
            }

            switch (Current.Kind)
            {
                case RuleTokenKind.Relation or RuleTokenKind.End:
                    return null;
                case RuleTokenKind.Plus:
                    sign = 1;
                    break;
                case RuleTokenKind.Minus when _tokens[_at - 1].End < Current.Start && Current.End < Next.Start:
                    sign = -1;
                    break;
                case RuleTokenKind.Minus:
                    return Wrong("a minus without spaces could be part of a name or a number", "put a space on both sides of the minus");
                default:
                    return Wrong("a `+`, a `-` or a relation is missing here", Example);
            }

            _at++;
        }
    }

    private RuleProblem? ReadTerm(int sign)
    {
        switch (Current.Kind)
        {
            case RuleTokenKind.Number:
                return ReadFromNumber(sign);
            case RuleTokenKind.Name when Current.Text is "exactly" or "about" && Next.Kind != RuleTokenKind.Dot:
                var word = Current;
                _at++;
                return Current.Kind == RuleTokenKind.Number
                    ? ReadLength(sign, word)
                    : Wrong($"`{word.Text}` needs a length after it", "write it like `exactly 1/2 in`");
            case RuleTokenKind.Name:
                return ReadMeasure(sign);
            case RuleTokenKind.End:
                return Wrong("a measure or a length is missing", Example);
            default:
                return Wrong($"a measure or a length is missing before `{Current.Text}`", Example);
        }
    }

    // `1/2 card.width`, `2 * a.width`, `1/2 in`, `0`.
    private RuleProblem? ReadFromNumber(int sign)
    {
        var number = Current;
        if (Next.Kind == RuleTokenKind.Name && _tokens[_at + 2].Kind == RuleTokenKind.Dot)
        {
            _at++;
            return ReadMeasure(sign * number.Number);
        }

        if (Next.Kind == RuleTokenKind.Times)
        {
            _at += 2;
            return Current.Kind == RuleTokenKind.Name && Next.Kind == RuleTokenKind.Dot
                ? ReadMeasure(sign * number.Number)
                : Wrong("only a measure can be multiplied", "work the product out and write the result");
        }

        return ReadLength(sign, null);
    }

    private RuleProblem? ReadLength(int sign, RuleToken? word)
    {
        var start = word ?? Current;
        var number = Current;
        _at++;
        var unit = "";
        if (Current.Kind is RuleTokenKind.Name or RuleTokenKind.UnitSign)
        {
            if (Next.Kind == RuleTokenKind.Dot)
            {
                return word is null
                    ? Wrong("a `+`, a `-` or a relation is missing here", Example)
                    : Wrong($"`{word.Text}` goes with a length, not with a measure", "use `must`, `should` or `may` for the whole rule");
            }

            unit = Current.Text;
            _at++;
        }

        var end = _tokens[_at - 1].End;
        var (length, problem) = LengthReader.Read($"{number.Text} {unit}", _unit);
        if (length is not { } found)
        {
            var atUnit = unit.Length > 0 && problem!.Start > number.Text.Length;
            var place = atUnit ? _tokens[_at - 1] : number;
            return new(
                atUnit ? $"`{unit}` is neither a unit nor a measure" : problem!.Problem,
                atUnit ? $"use in, mm or cm, or write the measure like `{unit}.width`" : problem!.Remedy,
                place.Start, atUnit ? place.Text.Length : end - place.Start);
        }

        if (Current.Kind is RuleTokenKind.Times or RuleTokenKind.Over)
        {
            return Wrong("a length cannot be multiplied or divided in a rule", "work the sum out and write the result", notLinear: true);
        }

        _constants.Add(new(found.Value * sign, word?.Text == "exactly", start.Start, end - start.Start, _onRight));
        return null;
    }

    // `a.width`, then perhaps `* 2` or `/ 2`.
    private RuleProblem? ReadMeasure(Rational factor)
    {
        var name = Current;
        if (Next.Kind != RuleTokenKind.Dot)
        {
            return new(
                $"`{name.Text}` is no measure: a measure has a name, a point and what is measured",
                $"write it like `{name.Text}.width`", name.Start, name.Text.Length);
        }

        _at += 2;
        var measured = Current;
        if (measured.Kind != RuleTokenKind.Name)
        {
            return Wrong("after the point the measure is missing", $"write it like `{name.Text}.width`");
        }

        if (Words.Measured.All(entry => entry.Word != measured.Text))
        {
            return UnknownMeasure(name, measured);
        }

        _at++;
        if (Current.Kind is RuleTokenKind.Times or RuleTokenKind.Over)
        {
            var times = Current.Kind == RuleTokenKind.Times;
            _at++;
            if (Current.Kind != RuleTokenKind.Number)
            {
                return Current.Kind == RuleTokenKind.Name
                    ? Wrong(
                        times ? "measures cannot be multiplied with one another" : "a measure cannot be divided by another",
                        times ? "multiply by a number, like `2 a.width`" : "for a proportion write `a.width = 2 b.width`", notLinear: true)
                    : Wrong("a number is missing here", Example);
            }

            if (!times && Current.Number.IsZero)
            {
                return Wrong("nothing can be divided by 0", "divide by another number");
            }

            factor = times ? factor * Current.Number : factor / Current.Number;
            _at++;
            if ((Current.Kind == RuleTokenKind.Name && Next.Kind != RuleTokenKind.Dot) || Current.Kind == RuleTokenKind.UnitSign)
            {
                return Wrong("a measure can be multiplied and divided by plain numbers alone", "leave the unit out", notLinear: true);
            }
        }

        return AddTerm(factor, name, Words.Measured.First(entry => entry.Word == measured.Text).Value);
    }

    private RuleProblem? AddTerm(Rational factor, RuleToken name, MeasureKind measure)
    {
        if (factor.Abs() > LargestFactor || factor.Denominator > LargestFactor * LargestFactor)
        {
            return new("a number before a measure is too large or too finely divided",
                $"use numbers up to {LargestFactor} with at most six decimals", name.Start, name.Text.Length);
        }

        _terms.Add(new(factor, name.Text, measure, name.Start, name.Text.Length, _onRight));
        return null;
    }

    private static RuleProblem UnknownMeasure(RuleToken name, RuleToken measured)
    {
        var words = Words.Measured.Select(entry => entry.Word).ToList();
        var known = words.FirstOrDefault(word => measured.Text.StartsWith(word + "-", StringComparison.Ordinal));
        if (known is not null)
        {
            return new("a minus without spaces could be part of a name", $"write `{name.Text}.{known} - ...` with a space on both sides of the minus",
                measured.Start, measured.Text.Length);
        }

        var near = Diagnostics.NearNames.Nearest(measured.Text, words);
        return new(
            $"`{measured.Text}` is nothing that can be measured",
            near is null ? "use left, right, top, bottom, width, height, center-x or center-y" : $"did you mean `{name.Text}.{near}`?",
            measured.Start, measured.Text.Length);
    }

    private RuleProblem Wrong(string problem, string remedy, bool notLinear = false) =>
        new(problem, remedy, Current.Start, Math.Max(1, Current.Text.Length), notLinear);

    // A card is no wider than a few hundred of the smallest steps that matter; larger factors are slips of the pen.
    private const int LargestFactor = 1000;
}
