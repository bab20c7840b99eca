using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>A value of a file, with its place.</summary>
internal abstract record SyntaxValue(SourcePlace Place)
{
    /// <summary>What kind of value it is, as a maker would say it.</summary>
    public abstract string Kind { get; }
}

/// <summary>A list of keys and values in braces. Its place is the opening brace.</summary>
internal sealed record SyntaxObject(SourcePlace Place, IReadOnlyList<SyntaxMember> Members) : SyntaxValue(Place)
{
    public override string Kind => "a group in braces";
}

/// <summary>A key and its value. Of keys written twice, only the first is kept.</summary>
internal sealed record SyntaxMember(string Key, SourcePlace KeyPlace, SyntaxValue Value);

/// <summary>A list in brackets. Its place is the opening bracket.</summary>
internal sealed record SyntaxList(SourcePlace Place, IReadOnlyList<SyntaxValue> Items) : SyntaxValue(Place)
{
    public override string Kind => "a list in brackets";
}

/// <summary>A text in double quotes. Its place covers the quotes.</summary>
/// <param name="Place">Its place.</param>
/// <param name="Text">What it says.</param>
/// <param name="HasEscapes">Whether it is written with escapes, so that its characters do not stand where they seem to.</param>
internal sealed record SyntaxText(SourcePlace Place, string Text, bool HasEscapes) : SyntaxValue(Place)
{
    public override string Kind => "a text";

    /// <summary>The place of the text from a character on; of all of it with its quotes if that is the first.</summary>
    public SourcePlace From(int start) => start == 0 ? Place : Within(start, Text.Length - start);

    /// <summary>The place of a part of the text; of the whole text if escapes hide where the part stands.</summary>
    public SourcePlace Within(int start, int length)
    {
        if (HasEscapes)
        {
            return Place;
        }

        // A part that is empty or begins at the end of the text is marked at the closing quote.
        start = Math.Clamp(start, 0, Text.Length);
        return Place with { Column = Place.Column + 1 + start, Length = Math.Clamp(length, 1, Math.Max(1, Text.Length - start)) };
    }
}

/// <summary>A number, as it was written.</summary>
internal sealed record SyntaxNumber(SourcePlace Place, string Raw) : SyntaxValue(Place)
{
    public override string Kind => "a number";
}

/// <summary><c>true</c> or <c>false</c>.</summary>
internal sealed record SyntaxFlag(SourcePlace Place, bool IsTrue) : SyntaxValue(Place)
{
    public override string Kind => IsTrue ? "`true`" : "`false`";
}

/// <summary><c>null</c>.</summary>
internal sealed record SyntaxNull(SourcePlace Place) : SyntaxValue(Place)
{
    public override string Kind => "`null`";
}
