using System.Numerics;
using Trimwright.Measures;

namespace Trimwright.Balance;

/// <summary>How much of a raster lies on one side of slanting lines from corner to corner, or beside them, row by row.</summary>
/// <remarks>
/// In a row of cells let P(t) be the mass left of the place t, which is straight within each cell. A line that goes from t0 to t1 while
/// the row goes from top to bottom leaves to its left the mean of P over that way, which is (Q(t1) - Q(t0)) / (t1 - t0) with Q the sum
/// of P from the left edge on. Q is straight pieces of squares, so it is known exactly at any fraction of a cell.
/// </remarks>
internal sealed class DiagonalSums(int width, int height)
{
    // The unit square in 2^24 parts, and k = 1 - 1/sqrt 2 = 4913932.8... of them.
    private const long Parts = 1 << 24;
    private const long Band = 4_913_933;

    private readonly long[] _before = new long[width + 1];
    private readonly long[] _twiceSum = new long[width + 1];
    private readonly Line[] _falling = [new(0), new(-Band), new(Band)];
    private readonly Line[] _rising = [new(0), new(-Band), new(Band)];

    /// <summary>The mass below the diagonal from the upper left corner, that is where x is less than y.</summary>
    public Rational Falling => Left(_falling[0]);

    /// <summary>The mass of the band along that diagonal.</summary>
    public Rational FallingBand => Left(_falling[2]) - Left(_falling[1]);

    /// <summary>The mass above the diagonal from the lower left corner, that is where x + y is less than one.</summary>
    public Rational Rising => Left(_rising[0]);

    /// <summary>The mass of the band along that diagonal.</summary>
    public Rational RisingBand => Left(_rising[2]) - Left(_rising[1]);

    // Places are counted in cells times this, so that every end of a line is whole.
    private long Scale => height * Parts;

    /// <summary>Adds a row.</summary>
    public void Add(int row, long[] masses)
    {
        var (before, twice) = (0L, 0L);
        for (var x = 0; x < masses.Length; x++)
        {
            twice += (2 * before) + masses[x];
            before += masses[x];
            _before[x + 1] = before;
            _twiceSum[x + 1] = twice;
        }

        foreach (var line in _falling)
        {
            Add(line, masses, width * ((row * Parts) + (line.Offset * height)), width * (((row + 1) * Parts) + (line.Offset * height)));
        }

        foreach (var line in _rising)
        {
            var top = height * (Parts + line.Offset);
            Add(line, masses, width * (top - ((row + 1) * Parts)), width * (top - (row * Parts)));
        }
    }

    private void Add(Line line, long[] masses, long from, long to)
    {
        Add(line, masses, to, 1);
        Add(line, masses, from, -1);
    }

    private void Add(Line line, long[] masses, long at, int sign)
    {
        if (at <= 0)
        {
            return;
        }

        var cell = (int)Math.Min(width, at / Scale);
        var rest = at - (cell * Scale);
        line.Whole += sign * _twiceSum[cell];
        line.Straight += (Int128)(sign * 2 * _before[cell]) * rest;
        if (cell < width)
        {
            line.Square += (Int128)(sign * masses[cell]) * rest * rest;
        }
    }

    // Twice the sum over the scale, divided by two and by the way that the line goes in a row, which is width / height.
    private Rational Left(Line line)
    {
        BigInteger scale = Scale;
        var twice = ((BigInteger)line.Whole * scale * scale) + ((BigInteger)line.Straight * scale) + (BigInteger)line.Square;
        return Rational.From(twice * height, 2 * scale * scale * width);
    }

    private sealed class Line(long offset)
    {
        public long Offset { get; } = offset;

        public Int128 Whole { get; set; }

        public Int128 Straight { get; set; }

        public Int128 Square { get; set; }
    }
}
