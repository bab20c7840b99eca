namespace Trimwright.Measures;

/// <summary>
/// How strongly something is wished, in the words of RFC 2119. A stronger wish always wins over any number of weaker ones.
/// </summary>
public enum Strength
{
    /// <summary>Holds, or there is no answer. Written <c>exactly 2 in</c>, or <c>must</c> in a rule.</summary>
    Must,

    /// <summary>Gives way only to musts. Written <c>2 in</c>, or <c>should</c> in a rule.</summary>
    Should,

    /// <summary>Gives way to musts and shoulds. Written <c>about 2 in</c>, or <c>may</c> in a rule.</summary>
    May,
}
