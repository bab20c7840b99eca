using Trimwright.Diagnostics;

namespace Trimwright.Layouts.Reading;

/// <summary>The names of pieces, rows and papers.</summary>
internal static class Names
{
    /// <summary>The name that stands for the card itself.</summary>
    public const string Card = "card";

    /// <summary>The most letters of a name.</summary>
    public const int Longest = 60;

    // Every unknown name is compared with every known one: in a file with very many, later ones get no suggestion.
    private const int MostSuggestions = 200;

    /// <summary>
    /// Whether a text can be a name: lower-case letters, digits and single hyphens between them, with a letter first. So a name in a rule can be
    /// told from a number and from a minus.
    /// </summary>
    public static bool IsName(string text) =>
        text.Length is > 0 and <= Longest
        && char.IsAsciiLetterLower(text[0])
        && text[^1] != '-'
        && !text.Contains("--", StringComparison.Ordinal)
        && text.All(letter => char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter) || letter == '-');

    /// <summary>Reports every use of a name that is not declared, every circle of parents, and every paper that is not used.</summary>
    public static void Check(ReadingContext context, IReadOnlyDictionary<string, string?> parents)
    {
        var usedPapers = context.Used.Where(used => used.Use == NameUse.Paper).Select(used => used.Name).ToHashSet(StringComparer.Ordinal);
        var unknown = 0;
        foreach (var used in context.Used)
        {
            if (used.Use == NameUse.Paper)
            {
                if (context.HasPapers && !context.Papers.ContainsKey(used.Name))
                {
                    context.Add(LayoutMessages.UnknownPaper(used.Name, used.Place, context.Papers.Keys));
                }
            }
            else if (used.Name != Card && context.HasPieces && !context.Names.ContainsKey(used.Name))
            {
                var near = ++unknown <= MostSuggestions ? context.Names.Keys : Enumerable.Empty<string>();
                context.Add(LayoutMessages.UnknownPiece(used.Name, used.Place, near));
            }
            else if (used.Use == NameUse.Neighbour && used.Name == used.By)
            {
                context.Add(LayoutMessages.OwnNeighbour(used.Name, used.Place));
            }
        }

        CheckCircles(context, parents);
        foreach (var (paper, place) in context.Papers)
        {
            // Beside an error the warning would often have the same cause: a paper whose name was misspelt where it is used.
            if (!usedPapers.Contains(paper) && !context.Diagnostics.HasErrors())
            {
                context.Add(LayoutMessages.UnusedPaper(paper, place));
            }
        }
    }

    // Follows the parents up from every piece. A name met twice on one way up closes a circle, which is reported once.
    private static void CheckCircles(ReadingContext context, IReadOnlyDictionary<string, string?> parents)
    {
        var places = context.Used.Where(used => used.Use == NameUse.Parent && used.By is not null)
            .GroupBy(used => used.By!, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.First().Place, StringComparer.Ordinal);
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (var start in context.Names.Keys)
        {
            var way = new List<string>();
            var onWay = new HashSet<string>(StringComparer.Ordinal);
            string? name = start;
            while (name is not null && !done.Contains(name) && onWay.Add(name))
            {
                way.Add(name);
                name = parents.GetValueOrDefault(name);
            }

            if (name is not null && onWay.Contains(name))
            {
                var circle = way[way.IndexOf(name)..];
                context.Add(LayoutMessages.InsideItself(
                    circle, [.. circle.Where(places.ContainsKey).Select(member => (member, places[member]))],
                    context.Names[circle[0]]));
            }

            done.UnionWith(way);
        }
    }
}
