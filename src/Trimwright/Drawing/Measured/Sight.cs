using Trimwright.Measures;

namespace Trimwright.Drawing.Measured;

/// <summary>What can be seen of every layer from above.</summary>
/// <remarks>
/// Layers are kept by the cells of a grid with about one layer to a cell, so that asking for one layer looks at its neighbours only.
/// </remarks>
internal sealed class Sight
{
    private const double Coarsest = 40;

    private readonly Dictionary<(int Column, int Row), List<int>> _cells = [];
    private readonly double _cell;
    private readonly int[] _asked;
    private int _question;

    /// <summary>Looks at layers, from the bottom up.</summary>
    public Sight(IReadOnlyList<FaceLayer> layers, Area face)
    {
        Dictionary<Angle, (double Sin, double Cos)> turns = [];
        Shapes = [.. layers.Select(layer => new Shape(layer, TurnOf(layer.Tilt)))];
        _asked = new int[Shapes.Length];
        _cell = Math.Clamp(Math.Sqrt((face.Right - face.Left) * (face.Bottom - face.Top) / Math.Max(1, Shapes.Length)), 1, Coarsest);
        for (var i = 0; i < Shapes.Length; i++)
        {
            foreach (var cell in CellsOf(Shapes[i].Area))
            {
                if (!_cells.TryGetValue(cell, out var list))
                {
                    _cells[cell] = list = [];
                }

                list.Add(i);
            }
        }

        (double Sin, double Cos) TurnOf(Angle tilt)
        {
            // Exact sines take their time, and mats turn with their piece.
            if (!turns.TryGetValue(tilt, out var turn))
            {
                turns[tilt] = turn = tilt.IsZero ? (0, 1) : (Plane.Roughly(tilt.Sin()), Plane.Roughly(tilt.Cos()));
            }

            return turn;
        }
    }

    /// <summary>The shapes of the layers, from the bottom up.</summary>
    public Shape[] Shapes { get; }

    /// <summary>The shapes that may meet an area, from the bottom up.</summary>
    public List<int> Near(Area area)
    {
        List<int> near = [];
        _question++;
        foreach (var cell in CellsOf(area))
        {
            foreach (var index in _cells.GetValueOrDefault(cell) ?? [])
            {
                if (_asked[index] != _question && Shapes[index].Area.Meets(area))
                {
                    _asked[index] = _question;
                    near.Add(index);
                }
            }
        }

        near.Sort();
        return near;
    }

    /// <summary>
    /// The stretches in which a whole level band shows nothing but one layer, and keeps some way from every edge that can be seen.
    /// </summary>
    /// <param name="shape">The index of the layer.</param>
    /// <param name="near">The shapes near it.</param>
    /// <param name="top">Where the band begins.</param>
    /// <param name="bottom">Where it ends.</param>
    /// <param name="clear">The way to keep to the left and right.</param>
    public List<(double From, double To)> Seen(int shape, List<int> near, double top, double bottom, double clear)
    {
        List<(double From, double To)> seen = [];
        Shapes[shape].AddInside(top, seen);
        List<(double From, double To)> other = [];
        foreach (var y in (ReadOnlySpan<double>)[(top + bottom) / 2, bottom])
        {
            other.Clear();
            Shapes[shape].AddInside(y, other);
            seen = Common(seen, other);
        }

        foreach (var hole in Shapes[shape].Holes)
        {
            seen = hole.Top >= bottom || hole.Bottom <= top ? seen : Without(seen, hole.Left, hole.Right);
        }

        foreach (var index in near)
        {
            var above = Shapes[index];
            if (index <= shape || above.Area.Top >= bottom || above.Area.Bottom <= top || seen.Count == 0)
            {
                continue;
            }

            // What lies above hides whatever it covers anywhere in the band.
            for (var step = 0; step <= 4 && seen.Count > 0; step++)
            {
                other.Clear();
                above.AddInside(top + ((bottom - top) * step / 4), other);
                foreach (var (from, to) in other)
                {
                    seen = Without(seen, from, to);
                }
            }

            // A shape thinner than the steps lies in the band as a whole.
            if (above.Area.Top > top && above.Area.Bottom < bottom)
            {
                seen = Without(seen, above.Area.Left, above.Area.Right);
            }
        }

        for (var i = seen.Count - 1; i >= 0; i--)
        {
            seen[i] = (seen[i].From + clear, seen[i].To - clear);
            if (seen[i].From > seen[i].To)
            {
                seen.RemoveAt(i);
            }
        }

        return seen;
    }

    private static List<(double From, double To)> Common(List<(double From, double To)> a, List<(double From, double To)> b)
    {
        List<(double From, double To)> common = [];
        foreach (var (from, to) in a)
        {
            foreach (var (begin, end) in b)
            {
                if (Math.Min(to, end) > Math.Max(from, begin))
                {
                    common.Add((Math.Max(from, begin), Math.Min(to, end)));
                }
            }
        }

        return common;
    }

    private static List<(double From, double To)> Without(List<(double From, double To)> a, double from, double to)
    {
        List<(double From, double To)> rest = [];
        foreach (var (begin, end) in a)
        {
            if (end <= from || begin >= to)
            {
                rest.Add((begin, end));
                continue;
            }

            if (begin < from)
            {
                rest.Add((begin, from));
            }

            if (end > to)
            {
                rest.Add((to, end));
            }
        }

        return rest;
    }

    private IEnumerable<(int Column, int Row)> CellsOf(Area area)
    {
        for (var row = Cell(area.Top); row <= Cell(area.Bottom); row++)
        {
            for (var column = Cell(area.Left); column <= Cell(area.Right); column++)
            {
                yield return (column, row);
            }
        }

        int Cell(double at) => (int)Math.Floor(at / _cell);
    }
}
