using Trimwright.Diagnostics;
using Trimwright.Measures;

namespace Trimwright.Layouts.Reading;

/// <summary>Which lengths make sense for a key.</summary>
internal enum LengthRange
{
    /// <summary>More than zero.</summary>
    Positive,

    /// <summary>Zero or more.</summary>
    NotNegative,

    /// <summary>Any.</summary>
    Any,
}

/// <summary>
/// A group in braces, read key by key. Keys that do not belong there are reported when it is opened; a value of the wrong kind is reported
/// when it is asked for, and then counts as absent.
/// </summary>
internal sealed class ObjectView
{
    private readonly SyntaxObject _object;
    private readonly ReadingContext _context;

    // The keys that were probably meant by those that do not belong here: to report them as missing too would be to say it twice.
    private readonly HashSet<string> _misspelt = new(StringComparer.Ordinal);

    /// <param name="value">The group.</param>
    /// <param name="what">What it describes, with its article, such as <c>a piece</c>.</param>
    /// <param name="keys">The keys that it may have.</param>
    /// <param name="context">The reading.</param>
    public ObjectView(SyntaxObject value, string what, IReadOnlyList<string> keys, ReadingContext context)
    {
        (_object, _context, What) = (value, context, what);
        foreach (var member in value.Members.Where(member => !keys.Contains(member.Key)))
        {
            if (MisplacedKeys.Remedy(member, value, keys) is { } remedy)
            {
                context.Add(LayoutMessages.KeyOfAnotherGroup(member.Key, what, member.KeyPlace, remedy));
                continue;
            }

            // A key that is there already cannot be meant: nothing stands in a group twice.
            if (NearNames.Nearest(member.Key, keys.Where(key => !Has(key) && !_misspelt.Contains(key))) is { } meant)
            {
                context.Add(LayoutMessages.UnknownKey(member.Key, what, member.KeyPlace, meant, keys));
                _misspelt.Add(meant);
            }
            else if (NearNames.Nearest(member.Key, keys.Where(Has)) is { } other)
            {
                context.Add(LayoutMessages.UnknownKeyLikeAnother(member.Key, what, other, member.KeyPlace, Find(other)!.Value.Place));
            }
            else
            {
                context.Add(LayoutMessages.UnknownKey(member.Key, what, member.KeyPlace, null, keys));
            }
        }
    }

    /// <summary>What the group describes.</summary>
    public string What { get; }

    /// <summary>Where it begins.</summary>
    public SourcePlace Place => _object.Place;

    /// <summary>The keys and values.</summary>
    public IReadOnlyList<SyntaxMember> Members => _object.Members;

    /// <summary>The key and its value, or null.</summary>
    public SyntaxMember? Find(string key) => _object.Members.FirstOrDefault(member => member.Key == key);

    /// <summary>Whether the key is there.</summary>
    public bool Has(string key) => Find(key) is not null;

    /// <summary>Whether the key is there with a slip of the pen, which was reported.</summary>
    public bool Misspells(string key) => _misspelt.Contains(key);

    /// <summary>The key and its value; reported if missing.</summary>
    public SyntaxMember? Need(string key)
    {
        var member = Find(key);
        if (member is null)
        {
            ReportMissing(key);
        }

        return member;
    }

    /// <summary>Reports that a key is missing, unless it is there with a slip of the pen, which was reported.</summary>
    public void ReportMissing(string key)
    {
        if (!_misspelt.Contains(key))
        {
            _context.Add(LayoutMessages.MissingKey(key, What, Place));
        }
    }

    /// <summary>The value as one kind of value; null if the key is absent, or reported if the value is of another kind.</summary>
    public T? As<T>(SyntaxMember? member, string expected)
        where T : SyntaxValue
    {
        if (member is null or { Value: T })
        {
            return member?.Value as T;
        }

        _context.Add(LayoutMessages.WrongKind($"`{member.Key}`", expected, member.Value));
        return null;
    }

    /// <summary>A text.</summary>
    public SyntaxText? Text(SyntaxMember? member) => As<SyntaxText>(member, "a text in double quotes");

    /// <summary>A text.</summary>
    public SyntaxText? Text(string key) => Text(Find(key));

    /// <summary><c>true</c> or <c>false</c>; false if absent.</summary>
    public bool Flag(string key) => As<SyntaxFlag>(Find(key), "`true` or `false`")?.IsTrue ?? false;

    /// <summary>One of a few words; null if absent or unknown.</summary>
    public T? Word<T>(string key, IReadOnlyList<(string Word, T Value)> words)
        where T : struct
        => Word(Find(key), words);

    /// <summary>One of a few words; null if absent or unknown.</summary>
    public T? Word<T>(SyntaxMember? member, IReadOnlyList<(string Word, T Value)> words)
        where T : struct
    {
        if (As<SyntaxText>(member, Choice(words)) is not { } text)
        {
            return null;
        }

        foreach (var (word, value) in words)
        {
            if (word == text.Text)
            {
                return value;
            }
        }

        _context.Add(LayoutMessages.UnknownWord(member!.Key, text.Text, text.Place, [.. words.Select(entry => entry.Word)]));
        return null;
    }

    /// <summary>A length with its strength; null if absent or reported.</summary>
    public Wish? Length(string key, LengthRange range) => Find(key) is { } member ? Length(member, range) : null;

    /// <summary>A length with its strength; null if reported.</summary>
    public Wish? Length(SyntaxMember member, LengthRange range)
    {
        if (LengthValues.Read(member.Value, $"`{member.Key}`", _context) is not { } wish)
        {
            return null;
        }

        if (wish.Value < Trimwright.Measures.Length.Zero ? range == LengthRange.Any : !wish.Value.IsZero || range != LengthRange.Positive)
        {
            return wish;
        }

        _context.Add(LayoutMessages.BadSize(member.Key, wish, range == LengthRange.Positive));
        return null;
    }

    /// <summary>A length of a thing as it is, which carries no strength: more than zero; null if absent or reported.</summary>
    public Length? PlainLength(string key) => Length(key, LengthRange.Positive) is { } wish
        ? LengthValues.WithoutStrength(wish, key, _context)
        : null;

    private static string Choice<T>(IReadOnlyList<(string Word, T Value)> words) =>
        words.Count <= 4 ? string.Join(" or ", words.Select(entry => $"`\"{entry.Word}\"`")) : "a text in double quotes";
}
