using System.Globalization;

namespace Trimwright.Cutting;

/// <summary>The patterns found, in the order found; two that give the same pieces from the same stock are one.</summary>
internal sealed class PatternPool
{
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);
    private readonly List<Pattern> _all = [];

    /// <summary>All of them.</summary>
    public IReadOnlyList<Pattern> All => _all;

    /// <summary>Adds a pattern; false if its like is there.</summary>
    public bool Add(Pattern pattern)
    {
        if (!_known.Add(string.Join(',', pattern.Counts) + "@" + pattern.Stock.ToString(CultureInfo.InvariantCulture)))
        {
            return false;
        }

        _all.Add(pattern);
        return true;
    }
}
