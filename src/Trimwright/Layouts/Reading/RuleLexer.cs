using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>What a word of a rule is.</summary>
internal enum RuleTokenKind
{
    /// <summary>A number.</summary>
    Number,

    /// <summary>The name of a piece, a measure, a unit, or <c>exactly</c> and <c>about</c>.</summary>
    Name,

    /// <summary>A unit written as a sign.</summary>
    UnitSign,

    /// <summary><c>.</c></summary>
    Dot,

    /// <summary><c>*</c></summary>
    Times,

    /// <summary><c>/</c></summary>
    Over,

    /// <summary><c>+</c></summary>
    Plus,

    /// <summary><c>-</c></summary>
    Minus,

    /// <summary><c>=</c>, <c>&lt;=</c> or <c>&gt;=</c></summary>
    Relation,

    /// <summary>The end of the rule.</summary>
    End,
}

/// <summary>A word of a rule.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">As written.</param>
/// <param name="Start">Where it begins, from 0.</param>
/// <param name="Number">Its value, if it is a number.</param>
internal sealed record RuleToken(RuleTokenKind Kind, string Text, int Start, Rational Number = default)
{
    /// <summary>Where it ends.</summary>
    public int End => Start + Text.Length;
}

/// <summary>Splits a rule into words.</summary>
internal sealed class RuleLexer(string text)
{
    private const string Vulgar = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒";

    private readonly List<RuleToken> _tokens = [];
    private int _at;

    /// <summary>Splits a rule.</summary>
    /// <returns>The words, the last of them the end; or the first thing that is none.</returns>
    public static (IReadOnlyList<RuleToken>? Tokens, RuleProblem? Problem) Split(string text) => new RuleLexer(text).Run();

    private (IReadOnlyList<RuleToken>? Tokens, RuleProblem? Problem) Run()
    {
        while (true)
        {
            while (_at < text.Length && char.IsWhiteSpace(text[_at]))
            {
                _at++;
            }

            if (_at == text.Length)
            {
                _tokens.Add(new(RuleTokenKind.End, "", _at));
                return (_tokens, null);
            }

            if (Next() is { } problem)
            {
                return (null, problem);
            }
        }
    }

    private RuleProblem? Next()
    {
        var letter = text[_at];
        if (char.IsAsciiDigit(letter) || Vulgar.Contains(letter) || (letter == '.' && char.IsAsciiDigit(Peek(1))))
        {
            return ReadNumber();
        }

        if (char.IsLetter(letter) || letter == '_')
        {
            var end = _at;
            while (end < text.Length && (char.IsLetterOrDigit(text[end]) || text[end] is '-' or '_'))
            {
                end++;
            }

            return Add(RuleTokenKind.Name, end - _at);
        }

        return letter switch
        {
            '.' => Add(RuleTokenKind.Dot, 1),
            '*' or '·' or '×' => Add(RuleTokenKind.Times, 1),
            '/' => Add(RuleTokenKind.Over, 1),
            '+' => Add(RuleTokenKind.Plus, 1),
            '-' or '−' => Add(RuleTokenKind.Minus, 1),
            '"' or '″' or '”' => Add(RuleTokenKind.UnitSign, 1),
            '=' or '<' or '>' => ReadRelation(),
            '(' or ')' => new("brackets are not read in a rule", "multiply out, so that every measure has its own number", _at, 1),
            _ => new($"`{Rune(_at)}` does not belong in a rule", "use names, numbers, lengths, `+ - * /` and one of `= <= >=`", _at, 1),
        };
    }

    private RuleProblem? ReadRelation()
    {
        var end = _at;
        while (end < text.Length && text[end] is '=' or '<' or '>')
        {
            end++;
        }

        var sign = text[_at..end];
        return sign is "=" or "<=" or ">="
            ? Add(RuleTokenKind.Relation, sign.Length)
            : new($"`{sign}` is no relation", sign is "<" or "=<" ? "write `<=`" : sign is ">" or "=>" ? "write `>=`" : "write `=`, `<=` or `>=`",
                _at, sign.Length);
    }

    // `2`, `0.25`, `3/4`, `1 1/2`, `½`, `1½`. A stroke belongs to the number only if no space stands round it.
    private RuleProblem? ReadNumber()
    {
        var start = _at;
        var end = Digits(start);
        if (end < text.Length && text[end] == '.' && end + 1 < text.Length && char.IsAsciiDigit(text[end + 1]))
        {
            end = Digits(end + 1);
        }
        else if (end < text.Length && text[end] is '/' or '⁄' && char.IsAsciiDigit(At(end + 1)))
        {
            end = Digits(end + 1);
        }
        else if (end < text.Length && text[end] == '-' && char.IsAsciiDigit(At(end + 1)))
        {
            return new("a minus without spaces could be part of a number", "put a space on both sides of a minus; write `1 1/2` for one and a half",
                end, 1);
        }
        else if (end > start)
        {
            end = SecondPart(end);
        }

        if (end < text.Length && Vulgar.Contains(text[end]) && !text[start..end].AsSpan().ContainsAny('.', '/'))
        {
            end++;
        }

        var written = text[start..end];
        if (written.Length > LongestNumber)
        {
            return new("a number has too many digits", $"write at most {LongestNumber} characters", start, written.Length);
        }

        var (number, problem) = LengthReader.ReadNumber(written);
        if (number is not { } value)
        {
            return new(problem!.Problem, problem.Remedy, start, written.Length);
        }

        _tokens.Add(new(RuleTokenKind.Number, written, start, value));
        _at = end;
        return null;
    }

    // After a whole number: ` 1/2` or ` ½`, if it is there.
    private int SecondPart(int end)
    {
        var at = end;
        while (at < text.Length && text[at] == ' ')
        {
            at++;
        }

        if (at < text.Length && Vulgar.Contains(text[at]))
        {
            return at;
        }

        var numerator = Digits(at);
        return at > end && numerator > at && At(numerator) is '/' or '⁄' && char.IsAsciiDigit(At(numerator + 1)) ? Digits(numerator + 1) : end;
    }

    private int Digits(int at)
    {
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }

        return at;
    }

    private RuleProblem? Add(RuleTokenKind kind, int length)
    {
        _tokens.Add(new(kind, text.Substring(_at, length), _at));
        _at += length;
        return null;
    }

    private char Peek(int further) => At(_at + further);

    private char At(int index) => index < text.Length ? text[index] : '\0';

    private string Rune(int index) => text[index..].EnumerateRunes().First().ToString();

    // Long enough for any fraction that a ruler shows, short enough to keep sums of fractions small.
    private const int LongestNumber = 20;
}
