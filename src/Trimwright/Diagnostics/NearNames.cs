namespace Trimwright.Diagnostics;

/// <summary>Finds what was probably meant by a misspelt word.</summary>
public static class NearNames
{
    /// <summary>The most letters that may differ between a word and what it is taken for.</summary>
    public const int MostEdits = 2;

    // A name longer than this is no slip of the pen of anything, and comparing it would only cost time.
    private const int LongestWord = 100;

    /// <summary>
    /// The candidate nearest to a word, at most <see cref="MostEdits"/> letters away (left out, put in, changed, or swapped with a
    /// neighbour), upper and lower case being the same; the earlier candidate where two are equally near. Null if none is near, or if
    /// nothing of the word would be left.
    /// </summary>
    public static string? Nearest(string word, IEnumerable<string> candidates)
    {
        string? best = null;
        var fewest = MostEdits + 1;
        foreach (var candidate in candidates)
        {
            if (Math.Abs(candidate.Length - word.Length) < fewest && word.Length <= LongestWord)
            {
                var edits = Edits(word.ToLowerInvariant(), candidate.ToLowerInvariant());
                if (edits < fewest && edits < word.Length)
                {
                    (best, fewest) = (candidate, edits);
                }
            }
        }

        return best;
    }

    /// <summary>
    /// How many letters must be left out, put in, changed, or swapped with their neighbour to make one word of another (the optimal
    /// string alignment distance: no letter takes part in two of these).
    /// </summary>
    public static int Edits(string from, string to)
    {
        // Three rows of the usual table are enough: this one, the one before, and for swaps the one before that.
        var (beforeLast, last, current) = (new int[to.Length + 1], new int[to.Length + 1], new int[to.Length + 1]);
        for (var j = 0; j <= to.Length; j++)
        {
            last[j] = j;
        }

        for (var i = 1; i <= from.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= to.Length; j++)
            {
                var change = last[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
                current[j] = Math.Min(change, 1 + Math.Min(last[j], current[j - 1]));
                if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
                {
                    current[j] = Math.Min(current[j], beforeLast[j - 2] + 1);
                }
            }

            (beforeLast, last, current) = (last, current, beforeLast);
        }

        return last[to.Length];
    }
}
