using Trimwright.Diagnostics;
using Trimwright.Fitting;
using Trimwright.Geometry;
using Trimwright.Layouts;

namespace Trimwright.Variants;

/// <summary>Which pieces of a card lie on which, mats and tilt included, as far as it has been asked.</summary>
internal sealed class Overlaps
{
    private readonly FittedCard _card;
    private readonly LaidOutline[] _laid;
    private readonly Dictionary<string, int> _index;

    public Overlaps(FittedCard card)
    {
        _card = card;
        _laid = [.. card.Pieces.Select(Covering.Whole)];
        _index = card.Pieces.Index().ToDictionary(entry => entry.Item.Name, entry => entry.Index, StringComparer.Ordinal);
    }

    /// <summary>Whether two pieces overlap.</summary>
    public bool Meet(string one, string other) => _laid[_index[one]].Meets(_laid[_index[other]]);

    /// <summary>Pairs of pieces that overlap here and do not in the card as drawn, from the bottom up; the first of each pair lies over the second.</summary>
    public IEnumerable<(FittedPiece Upper, FittedPiece Lower)> NewSince(Overlaps asDrawn)
    {
        for (var upper = 1; upper < _laid.Length; upper++)
        {
            for (var lower = 0; lower < upper; lower++)
            {
                var (over, under) = (_card.Pieces[upper], _card.Pieces[lower]);
                if (_laid[upper].Meets(_laid[lower]) && !asDrawn.Meet(over.Name, under.Name))
                {
                    yield return (over, under);
                }
            }
        }
    }

    /// <summary>What lies over what, as sentences, such as <c>`sun` and `moon` lie over `bed`</c>.</summary>
    public static IReadOnlyList<string> Told(IEnumerable<(FittedPiece Upper, FittedPiece Lower)> pairs) =>
    [
        .. pairs.GroupBy(pair => pair.Upper.Name, pair => pair.Lower.Name)
            .GroupBy(group => WordList.Quoted(group), group => group.Key)
            .Select(group => $"{WordList.Quoted(group)} {(group.Count() == 1 ? "lies" : "lie")} over {group.Key}"),
    ];
}
