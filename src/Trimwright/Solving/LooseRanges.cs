using Trimwright.Measures;

namespace Trimwright.Solving;

/// <summary>The ranges in which measures may slide, added up over the groups that have a part in them.</summary>
internal sealed class LooseRanges(int measureCount)
{
    private readonly Rational?[] _least = new Rational?[measureCount];
    private readonly Rational?[] _most = new Rational?[measureCount];
    private readonly bool[] _isLoose = new bool[measureCount];
    private readonly bool[] _isBegun = new bool[measureCount];

    /// <summary>Adds the range of a part of a measure; null on a side that is open.</summary>
    public void Add(int measure, Rational? least, Rational? most)
    {
        _isLoose[measure] |= least is null || most is null || least != most;
        _least[measure] = _isBegun[measure] ? _least[measure] + least : least;
        _most[measure] = _isBegun[measure] ? _most[measure] + most : most;
        _isBegun[measure] = true;
    }

    /// <summary>The loose measures, in order of declaration.</summary>
    /// <param name="constants">What to add to each range.</param>
    /// <param name="values">The value chosen for each measure.</param>
    public List<Loose> Collect(Func<int, Rational> constants, IReadOnlyList<Rational> values)
    {
        var loose = new List<Loose>();
        for (var m = 0; m < _isLoose.Length; m++)
        {
            if (_isLoose[m])
            {
                loose.Add(new(new(m), _least[m] + constants(m), _most[m] + constants(m), values[m]));
            }
        }

        return loose;
    }
}
